// The last answer wins; addresses; troubles; the record's words.
import assert from 'node:assert/strict';
import test from 'node:test';
import { lastWins } from '../../../src/web/page/last_wins.js';
import { fieldMeant } from '../../../src/web/page/fields.js';
import { photoSize } from '../../../src/web/page/pictures.js';
import { address, place } from '../../../src/web/page/router.js';
import { troubleOf } from '../../../src/web/page/trouble.js';
import { changes, matching, yarnOfForm } from '../../../src/web/page/yarn_words.js';

/// A task whose answers are given by hand, in any order.
function byHand() {
  const asked = [];
  return {
    asked,
    task: (signal, input) => new Promise((resolve, reject) => asked.push({ signal, input, resolve, reject })),
  };
}
const settled = () =>
  new Promise((resolve) => {
    setImmediate(resolve);
  });

test('an answer that comes late is dropped, and the run before is stopped', async () => {
  const { asked, task } = byHand();
  const answers = [];
  const runs = lastWins(task, { onanswer: (answer) => answers.push(answer), onfault: (error) => answers.push(error) });
  runs.now('first');
  runs.now('second');
  assert.ok(asked[0].signal.aborted);
  asked[1].resolve('answer 2');
  await settled();
  asked[0].resolve('answer 1');
  await settled();
  assert.deepEqual(answers, ['answer 2']);
  assert.ok(!runs.busy);
});

test('while the input moves nothing is sent, then only the last', async () => {
  const { asked, task } = byHand();
  const waiting = new Map();
  let count = 0;
  const runs = lastWins(task, {
    delayMs: 300,
    onanswer() {},
    onfault() {},
    later: (run, ms) => {
      count += 1;
      waiting.set(count, { run, ms });
      return count;
    },
    forget: (id) => waiting.delete(id),
  });
  [1, 2, 3].forEach((input) => runs.soon(input));
  assert.equal(waiting.size, 1);
  const [{ run, ms }] = waiting.values();
  assert.equal(ms, 300);
  run();
  assert.deepEqual(
    asked.map(({ input }) => input),
    [3],
  );
});

test('a fault of a stopped run says nothing, that of the newest does', async () => {
  const { asked, task } = byHand();
  const faults = [];
  const runs = lastWins(task, { onanswer() {}, onfault: (error) => faults.push(error) });
  runs.now(1);
  runs.stop();
  asked[0].reject('stopped');
  runs.now(2);
  asked[1].reject('broken');
  await settled();
  assert.deepEqual(faults, ['broken']);
});

test('addresses of views, with names in any script', () => {
  for (const name of ['Fennelwick DK, Moss', 'a&b=c#d?', 'шерсть №3', '50 %']) {
    assert.deepEqual(place(address('yarn', { name })), { path: 'yarn', fields: { name } });
  }
  assert.deepEqual(place(''), { path: 'measure', fields: {} });
});

test('what an answer tells of troubles', () => {
  const refused = troubleOf(422, {
    refusal: { schema: 'x', refusal: { code: 'no-ruler', message: 'no ruler', hint: 'lay one' } },
    picture: { jpeg_base64: 'AA' },
  });
  assert.equal(refused.kind, 'refused');
  assert.equal(refused.refusal.code, 'no-ruler');
  assert.equal(refused.hint, 'lay one');
  assert.equal(
    troubleOf(400, { error: { code: 'bad-value', message: 'head: expected a length' } }).message,
    'head: expected a length',
  );
  assert.equal(troubleOf(503, null, '2').retryAfterS, 2);
  assert.equal(troubleOf(401, null).kind, 'no-key');
  assert.equal(troubleOf(500, null).kind, 'server-fault');
});

test('the size of the photo is taken from the report first', () => {
  const local = { width: 4, height: 3 };
  assert.deepEqual(photoSize({ report: { photo: { width_px: 8, height_px: 6 } } }, local), { width: 8, height: 6 });
  assert.deepEqual(photoSize({ refusal: {}, photo: { width_px: 12, height_px: 9 } }, local), { width: 12, height: 9 });
  assert.deepEqual(photoSize({ refusal: {} }, local), local);
  assert.equal(photoSize({}, null), null);
});

test('yarns are searched by all words of name, colour, fibre and dye lot', () => {
  const yarns = [
    { name: 'Fennelwick DK, Moss', fibre: 'wool' },
    { name: 'Oddmere Four', colour: 'Cream', dye_lot: '2211' },
  ];
  const names = (text) => matching(yarns, text).map(({ name }) => name);
  assert.deepEqual(names('moss WOOL'), ['Fennelwick DK, Moss']);
  assert.deepEqual(names('2211'), ['Oddmere Four']);
  assert.deepEqual(names('moss cream'), []);
  assert.equal(names('').length, 2);
});

test('figures of a yarn become numbers, emptied fields null, and only changes are sent', () => {
  const { yarn } = yarnOfForm({ name: 'Moss', ball_g: '50', ball_m: '118,5', notes: '' }, ['ball_g', 'ball_m']);
  assert.deepEqual(yarn, { name: 'Moss', ball_g: 50, ball_m: 118.5, notes: null });
  assert.deepEqual(yarnOfForm({ ball_g: 'fifty' }, ['ball_g']).bad, ['ball_g']);
  assert.deepEqual(changes({ name: 'Moss', ball_g: 50, notes: 'x' }, yarn), { ball_m: 118.5, notes: null });
});

test('a complaint of the server is tied to the field it is about', () => {
  const values = { head: 'large', gauge: '14x16', turn_up: '', ball_g: '5', heads: '48cm, tall' };
  assert.equal(fieldMeant(values, '"large": expected a head of 20 to 80 cm, as in 56cm'), 'head');
  assert.equal(fieldMeant(values, '"tall": expected a head'), 'heads');
  assert.equal(fieldMeant(values, '"turn_up": expected text or a number'), 'turn_up');
  assert.equal(fieldMeant(values, '--turn-up: 1 required'), 'turn_up');
  assert.equal(fieldMeant(values, 'ball_g: expected a number'), 'ball_g');
  assert.equal(fieldMeant(values, 'the request is no JSON object'), undefined);
});
