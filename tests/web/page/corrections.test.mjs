// What is set by hand, undone, and sent.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import test from 'node:test';
import { asRequest, canUndo, corrected, inOrder, none, takenBack, undone } from '../../../src/web/page/corrections.js';
import { missing, startShape, tooClose, valueOf, withPut } from '../../../src/web/page/correct_shapes.js';
import { correctStatus } from '../../../src/web/page/correct_status.js';
import { gaugeText, isLength, lengthText, measureRequest } from '../../../src/web/page/request.js';

import { useWords } from '../../../src/web/page/words.js';

const photo = { width: 1800, height: 1350 };
const scale = {
  points: [
    [1, 2],
    [301, 2],
  ],
  length: '10 cm',
};

test('each correction is undone in the reverse order', () => {
  const two = corrected(corrected(none, 'stitch', 'sc'), 'scale', scale);
  assert.deepEqual(inOrder(two), ['scale', 'stitch']);
  assert.deepEqual(undone(two).values, { stitch: 'sc' });
  assert.deepEqual(undone(undone(two)).values, {});
  assert.ok(!canUndo(undone(undone(two))));
  assert.equal(undone(none), none);
});

test('one drag is one step of undo', () => {
  const dragged = [1, 2, 3].reduce((state, i) => corrected(state, 'rows', i, 'drag'), none);
  assert.deepEqual(dragged.values, { rows: 3 });
  assert.deepEqual(undone(dragged).values, {});
  assert.deepEqual(undone(corrected(dragged, 'rows', 4, 'next drag')).values, { rows: 3 });
});

test('a correction is taken back by name, and that can be undone too', () => {
  const two = corrected(corrected(none, 'stitch', 'sc'), 'rows', -4);
  assert.deepEqual(takenBack(two, 'stitch').values, { rows: -4 });
  assert.deepEqual(undone(takenBack(two, 'stitch')).values, two.values);
  assert.equal(takenBack(two, 'rim'), two);
});

test('two points replace the ruler with its unit, and a reading belongs to one answer', () => {
  assert.deepEqual(inOrder(corrected(corrected(none, 'unit', 'mm'), 'scale', scale)), ['scale']);
  assert.deepEqual(inOrder(corrected(corrected(none, 'scale', scale), 'unit', 'mm')), ['unit']);
  assert.deepEqual(inOrder(corrected(corrected(none, 'reading', 1), 'rows', 3)), ['rows']);
  assert.throws(() => corrected(none, 'colour', 'red'));
});

test("the request uses the server's words", () => {
  const all = corrected(corrected(corrected(none, 'scale', scale), 'rows', 0), 'reading', 0);
  assert.deepEqual(asRequest(all), {
    scale: { from_px: [1, 2], to_px: [301, 2], length: '10 cm' },
    rows_deg: 0,
    reading: 1,
  });
});

test('what is corrected goes before what the form tells, and empty fields are left out', () => {
  const form = { stitch: 'dc', worked: '', hook: '5mm', want_stitches: '13', want_rows: '', per: '10cm', hooks: '' };
  const request = measureRequest('swatch', form, corrected(none, 'stitch', 'sc'), { units: 'cm', terms: 'uk' });
  assert.deepEqual(request, { stitch: 'sc', hook: '5mm', want: '13', per: '10cm', units: 'cm', terms: 'uk' });
  assert.deepEqual(
    measureRequest('crown', { stitches: '45', want_diameter: '16', stitch: '', hook: '5mm' }, none, {
      units: 'cm',
      terms: 'us',
    }),
    { stitches: '45', want_diameter: '16 cm', units: 'cm', terms: 'us' },
  );
});

test('gauges and lengths as they are typed', () => {
  assert.equal(gaugeText(' 13 ', '16'), '13x16');
  assert.equal(gaugeText('', '16'), '');
  assert.equal(lengthText('6 1/4', 'in'), '6 1/4 in');
  assert.equal(lengthText('16cm', 'in'), '16cm');
  for (const good of ['10', '10.5', '10,5', '6 1/4', '1/2', '16cm', '6 1/4 in', '4"']) assert.ok(isLength(good), good);
  for (const bad of ['', '0', '-3', 'ten', '1/0', '10 cm wide', '0 cm', '1e3']) assert.ok(!isLength(bad), bad);
});

test('a known length counts only once both ends are placed and the length is typed', () => {
  let shape = startShape('scale', { photo });
  assert.equal(missing(shape), 'need-ends');
  shape = withPut(
    shape,
    [
      [100, 900],
      [1700, 910],
    ],
    0,
  );
  assert.equal(missing(shape), 'need-ends');
  shape = withPut(shape, shape.points, 1);
  assert.equal(missing(shape), 'need-length');
  shape = { ...shape, text: '16', unit: 'cm' };
  assert.equal(missing(shape), '');
  assert.ok(!tooClose(shape, photo));
  assert.ok(
    tooClose(
      {
        ...shape,
        points: [
          [100, 900],
          [110, 900],
        ],
      },
      photo,
    ),
  );
  assert.equal(valueOf(shape).length, '16 cm');
});

test('an area that begins at a place of ours counts only when it is said to', () => {
  const shape = startShape('area', { photo });
  assert.equal(missing(withPut(shape, shape.points, 1)), 'need-use');
  assert.equal(missing({ ...shape, trusted: true }), '');
  const found = startShape('area', {
    photo,
    found: {
      outline_px: [
        [10, 10],
        [500, 10],
        [500, 400],
        [10, 400],
      ],
    },
  });
  assert.equal(missing(found), '');
  assert.equal(
    missing({
      ...found,
      points: [
        [0, 0],
        [10, 10],
        [10, 0],
        [0, 10],
      ],
    }),
    'crossing',
  );
});

test('the line under the photo says what is missing, wrong, or what it comes to', () => {
  useWords(JSON.parse(readFileSync(new URL('../../../src/web/page/words.en.json', import.meta.url), 'utf8')));
  const measured = (value) => ({ value, std: 0.1, low95: value - 0.196, high95: value + 0.196 });
  const answer = { report: { command: 'swatch', swatch: { stitches_per_10cm: measured(17) } } };
  const line = (more) =>
    correctStatus({
      tool: 'scale',
      busy: false,
      units: 'cm',
      ...more,
      now: { kind: 'swatch', photo, answer, ...more.now },
    });
  const shape = startShape('scale', { photo });
  const told = { ...shape, put: [0, 1], text: '10' };
  assert.match(line({ shape }).text, /both rings/);
  assert.match(line({ shape: { ...shape, put: [0, 1] } }).text, /Type the length/);
  assert.equal(line({ shape: told }).text, 'Now: Stitches 17.0 ± 0.2 over 10 cm');
  assert.match(line({ shape: told, busy: true }).text, /Working/);
  assert.ok(
    line({
      shape: {
        ...told,
        points: [
          [5, 5],
          [9, 5],
        ],
      },
    }).bad,
  );
  const refusal = { code: 'two-fabrics', message: 'more than one piece', hint: 'leave one' };
  const refused = line({ shape: told, now: { refusal } });
  assert.match(refused.text, /more than one piece.*leave one/);
  assert.equal(refused.otherTool, 'area');
  const noRuler = line({ shape, now: { refusal: { code: 'no-ruler', message: 'no ruler', hint: 'lay one' } } });
  assert.match(noRuler.text, /both rings/);
  assert.equal(noRuler.otherTool, undefined);
});
