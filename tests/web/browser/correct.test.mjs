// What the program read is corrected by hand: ruler, area, rows, readings; and every correction is taken back.
import assert from 'node:assert/strict';
import test, { after, before } from 'node:test';
import { drag, dragByFinger, figures, measure, noFaults, onScreen, picture, truth, world } from './support.mjs';

let here;
before(async () => {
  here = await world();
});
after(() => here.close());

const status = (page) => page.locator('.correct-status');
const settled = async (page, text = /^Now:/) => {
  await page.locator('.outcome[aria-busy=false]').waitFor();
  await status(page).filter({ hasText: text }).waitFor();
};
const share = (shot, [x, y]) => [x / shot.width_px, y / shot.height_px];

/// Where the rings are, in photo pixels, as they say themselves.
async function rings(page) {
  const labels = await page.locator('.handle').evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')));
  return labels.map((label) => /(\d+) from the left, (\d+) from the top/.exec(label).slice(1).map(Number));
}

/// How far a point is from the line through two others.
const fromLine = ([x, y], [ax, ay], [bx, by]) =>
  Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / Math.hypot(bx - ax, by - ay);

async function openCorrect(page, tool) {
  await page.getByRole('button', { name: 'Correct by hand' }).click();
  if (tool) await page.getByRole('radio', { name: tool }).check();
}

for (const [size, move] of [
  ['phone', dragByFinger],
  ['desktop', drag],
]) {
  test(`${size}: the ends of the ruler are dragged, its length typed, and the answer follows`, async () => {
    const { page, faults, context } = await here.open({ size });
    await measure(page, 'brimful-moss.jpg');
    const [shot, ruler] = truth('brimful-moss').cases;
    const { mm, p, q } = ruler.truth.segments[0];
    const first = await figures(page);
    await openCorrect(page);
    // The rings begin on the marks that were read (some 25 px long here).
    for (const ring of await rings(page)) assert.ok(fromLine(ring, p, q) < 25, `${ring} is beside the ruler`);
    await move(page, 0, share(shot, p));
    await move(page, 1, share(shot, q));
    await settled(page, /Type the length/);
    await page.getByLabel('Unit', { exact: true }).selectOption('mm');
    await page.getByLabel('Length between the rings').fill(mm.toFixed(1));
    await page.keyboard.press('Tab');
    await settled(page);
    await picture(page, `${size}-correct-scale`, {});
    const found = await figures(page);
    assert.ok(
      Math.abs(found[0].value - shot.truth.stitches_per_10cm) <= found[0].half,
      `${found[0].value} ± ${found[0].half}`,
    );
    assert.match(await page.locator('.corrections').textContent(), /known length, 200.0 mm/);
    assert.match(await page.locator('.tag-by-hand').textContent(), /known length, 200.0 mm/);

    // Half the length: twice the stitches over 10 cm.
    await page.getByLabel('Length between the rings').fill((mm / 2).toFixed(1));
    await settled(page, /^Now:|What to change/);
    const doubled = await figures(page);
    // It may rightly be refused; a number, if there is one, is of twice as many stitches.
    if (doubled.length) assert.ok(Math.abs(doubled[0].value / found[0].value - 2) < 0.1, `${doubled[0].value}`);
    assert.notDeepEqual(doubled, found);
    await page.getByRole('button', { name: 'Undo the last change' }).click();
    await page.getByRole('button', { name: /^Take back: known length/ }).click();
    await settled(page, /Type the length/);
    await page.waitForFunction(() => !document.querySelector('.tag-by-hand'));
    await page.locator('.outcome[aria-busy=false]').waitFor();
    assert.deepEqual(await figures(page), first);
    noFaults(faults);
    await context.close();
  });
}

test('the corners of the measured area: moved by keys alone, added, removed, undone', async () => {
  const { page, faults, context } = await here.open({ size: 'desktop' });
  await measure(page, 'brimful-moss.jpg');
  await openCorrect(page, 'Measured area');
  // The corners begin on the edge that was found.
  const edge = truth('brimful-moss').cases[0].outline_px;
  for (const [x, y] of await rings(page))
    assert.ok(Math.min(...edge.map(([ex, ey]) => Math.hypot(ex - x, ey - y))) < 60, `${x}, ${y}`);
  const corner = page.locator('.handle').first();
  await corner.focus();
  const label = () => corner.getAttribute('aria-label');
  const before = await label();
  await page.keyboard.press('ArrowRight');
  const after = await label();
  assert.notEqual(after, before);
  assert.ok(await page.locator('.glass').isVisible(), 'the glass shows what lies under the ring');
  await page.keyboard.press('Shift+ArrowDown');
  await picture(page, 'desktop-correct-area', {});
  const use = page.getByRole('button', { name: 'Use these points' });
  if (await use.isVisible()) await use.press('Enter');
  await settled(page);
  assert.match(await page.locator('.corrections').textContent(), /measured area/);
  const count = await page.locator('.handle').count();
  await page.getByRole('button', { name: 'Add a point' }).press('Enter');
  assert.equal(await page.locator('.handle').count(), count + 1);
  await page.locator('.handle').nth(1).focus();
  await page.keyboard.press('Delete');
  assert.equal(await page.locator('.handle').count(), count);
  await settled(page);
  await page.getByRole('button', { name: /^Take back: measured area/ }).press('Enter');
  await page.locator('.corrections', { hasText: 'Nothing yet' }).waitFor();
  noFaults(faults);
  await context.close();
});

test('without dragging: a ring is chosen and the place tapped, or moved by the arrows beside', async () => {
  const { page, faults, context } = await here.open({ size: 'phone' });
  await measure(page, 'brimful-moss.jpg');
  await openCorrect(page, 'Row direction');
  const ring = page.locator('.handle').nth(1);
  const centre = async () => {
    const box = await ring.boundingBox();
    return [box.x + box.width / 2, box.y + box.height / 2];
  };
  await ring.tap();
  const [x, y] = await onScreen(page, [0.7, 0.15]);
  await page.touchscreen.tap(x, y);
  const put = await centre();
  assert.ok(Math.hypot(put[0] - x, put[1] - y) < 2, `${put}`);
  await page.getByRole('button', { name: 'Move up' }).click();
  const above = await centre();
  assert.ok(Math.abs(above[1] - put[1] + 1) < 0.2, `${above} after ${put}`);
  await settled(page, /^Now:|What to change/);
  assert.match(await page.locator('.corrections').textContent(), /row direction, -?[\d.]+°/);
  await picture(page, 'phone-correct-rows', {});
  noFaults(faults);
  await context.close();
});

test('another reading is taken, told so, and taken back', async () => {
  const { page, faults, context } = await here.open();
  await measure(page, 'brimful-moss.jpg');
  const [first] = await figures(page);
  await openCorrect(page, 'Another reading');
  await picture(page, 'desktop-correct-reading');
  const offered = page.locator('.rivals button');
  assert.ok((await offered.count()) > 0);
  await offered.last().click();
  await settled(page, /^Now:|What to change/);
  assert.match(await page.locator('.corrections').textContent(), /another reading/);
  await page.getByRole('button', { name: 'Undo the last change' }).click();
  await settled(page);
  await page.waitForFunction(
    (value) => Number(document.querySelector('.figure-value')?.textContent.split('±')[0]) === value,
    first.value,
  );
  noFaults(faults);
  await context.close();
});

test('the stitch is told', async () => {
  const { page, faults, context } = await here.open();
  await measure(page, 'brimful-moss.jpg');
  await openCorrect(page, 'Stitch and unit');
  await page.locator('.correct').getByLabel('Stitch', { exact: true }).selectOption('sc');
  await settled(page);
  assert.match(await page.locator('.tag-stitch').textContent(), /as told/);
  await picture(page, 'desktop-correct-told');
  noFaults(faults);
  await context.close();
});

test('the rim of a crown is set by hand', async () => {
  const { page, faults, context } = await here.open({ size: 'phone' });
  await measure(page, 'earflap-crown.jpg', { kind: 'Crown' });
  await openCorrect(page, 'Rim');
  assert.ok((await page.locator('.handle').count()) >= 6);
  await picture(page, 'phone-correct-rim', {});
  noFaults(faults);
  await context.close();
});

test('a photo without a ruler is measured by a length that the maker knows', async () => {
  const { page, faults, context } = await here.open();
  await measure(page, 'forgot-the-ruler.jpg');
  const [shot] = truth('forgot-the-ruler').cases;
  await page.getByRole('button', { name: 'Set the scale by hand' }).click();
  // The width of the swatch itself: its two upper corners.
  const corners = shot.outline_px;
  const right = corners.reduce((best, point) => (point[0] - point[1] > best[0] - best[1] ? point : best));
  const leftmost = corners.reduce((best, point) => (point[0] + point[1] < best[0] + best[1] ? point : best));
  await drag(page, 0, share(shot, leftmost));
  await settled(page, /both rings/);
  await drag(page, 1, share(shot, right));
  await page.getByLabel('Length between the rings').fill(String(shot.fabric_width_mm / 10));
  await settled(page);
  const [stitches] = await figures(page);
  // The swatch lies higher than no ruler at all would: the length is known, its height is not. Within 5 %.
  const real = truth('brimful-moss').cases[0].truth.stitches_per_10cm;
  assert.ok(Math.abs(stitches.value / real - 1) < 0.05, `${stitches.value} is not ${real}`);
  await picture(page, 'desktop-scale-by-hand');
  noFaults(faults);
  await context.close();
});
