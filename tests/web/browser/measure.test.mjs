// A photo is measured and the answer is seen, on a phone and on a desktop.
import assert from 'node:assert/strict';
import test, { after, before } from 'node:test';
import { figures, measure, noFaults, picture, sample, sizes, truth, world } from './support.mjs';

let here;
before(async () => {
  here = await world();
});
after(() => here.close());

/// The truth of a sample's piece lies within what the page shows.
function assertHolds(shown, wanted) {
  shown.forEach(({ value, half }, i) =>
    assert.ok(Math.abs(value - wanted[i]) <= half + 0.05, `${value} ± ${half} does not hold ${wanted[i]}`),
  );
}

for (const size of Object.keys(sizes)) {
  test(`${size}: a swatch is measured, with its target, and the photo is zoomed`, async () => {
    const { page, faults, context } = await here.open({ size });
    await picture(page, `${size}-measure-empty`);
    await measure(page, 'brimful-moss.jpg', {
      known: async () => {
        await page.getByText('What you know about it').click();
        await page.getByLabel('Hook it was worked on').fill('4.5mm');
        const wanted = page.getByRole('group', { name: 'Gauge the pattern wants' });
        await wanted.getByLabel('Stitches').fill('18');
        await wanted.getByLabel('Rows').fill('20');
        await picture(page, `${size}-measure-told`);
      },
    });
    const { truth: real } = truth('brimful-moss').cases[0];
    const shown = await figures(page);
    assert.equal(shown.length, 2);
    assertHolds(shown, [real.stitches_per_10cm, real.rows_per_10cm]);
    assert.match(await page.locator('.tag').textContent(), /over 10 cm.*over 4 in/);
    assert.match(await page.locator('.verdict').textContent(), /hook/);
    assert.match(
      await page.locator('.copy-line code').first().textContent(),
      /^Gauge: 17(\.5)? sc and 19(\.5)? rows = 10 cm/,
    );
    assert.match(await page.locator('#news').textContent(), /^Result: Stitches 17/);
    await page.evaluate(() => {
      Object.defineProperty(navigator, 'clipboard', { value: undefined });
    }); // as in a local network
    await page
      .getByRole('button', { name: /^Copy: Gauge: 17/ })
      .first()
      .click();
    await page.getByText('Copied.', { exact: true }).first().waitFor();
    await picture(page, `${size}-result`);

    const width = async () => (await page.locator('.stage-sheet').boundingBox()).width;
    const whole = await width();
    await page.getByRole('button', { name: 'Zoom in' }).click();
    assert.ok((await width()) > whole * 1.4);
    await page.locator('.stage').focus();
    await page.keyboard.press('0');
    assert.ok(Math.abs((await width()) - whole) < 1);
    await page.keyboard.press('+');
    const box = await page.locator('.stage').boundingBox();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.wheel(0, -400);
    await page.waitForFunction(
      (least) => document.querySelector('.stage-sheet').getBoundingClientRect().width > least,
      whole * 2,
    );
    await picture(page, `${size}-result-zoomed`, {});
    noFaults(faults);
    await context.close();
  });
}

for (const size of Object.keys(sizes)) {
  test(`${size}: several photos of one swatch are measured together, one is taken out again`, async () => {
    const { page, faults, context } = await here.open({ size });
    const choose = page.locator('.photo-buttons input[type=file]:not([capture])');
    await choose.setInputFiles([sample('brimful-moss.jpg'), sample('forgot-the-ruler.jpg')]);
    await page.locator('.photo-more input[type=file]').setInputFiles(sample('brimful-moss.jpg'));
    const rows = page.locator('.photo-list li');
    await rows.nth(2).waitFor();
    await picture(page, `${size}-several-photos`);
    await page.getByRole('button', { name: 'Leave out forgot-the-ruler.jpg' }).click();
    await page.waitForFunction(() => document.querySelectorAll('.photo-list li').length === 2);
    await page.getByRole('button', { name: 'Measure', exact: true }).click();
    await page.locator('.outcome .tag').waitFor();
    const { truth: real } = truth('brimful-moss').cases[0];
    assertHolds(await figures(page), [real.stitches_per_10cm, real.rows_per_10cm]);
    await page.getByText('To set something by hand, measure one photo alone.').waitFor();
    assert.equal(await page.getByRole('button', { name: 'Correct by hand' }).count(), 0);
    await picture(page, `${size}-several-result`);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth > innerWidth), false);
    noFaults(faults);
    await context.close();
  });
}

test('more photos than the server takes are not sent', async () => {
  const { page, faults, context } = await here.open({ size: 'phone' });
  await page
    .locator('.photo-buttons input[type=file]:not([capture])')
    .setInputFiles(Array(13).fill(sample('brimful-moss.jpg')));
  await page.getByText('The program takes 12 photos of one piece at once.').waitFor();
  assert.equal(await page.locator('.photo-list').count(), 0);
  noFaults(faults);
  await context.close();
});

test('a crown: width across, rounds, stitches of the last round, checks', async () => {
  const { page, faults, context } = await here.open({ size: 'phone' });
  await measure(page, 'earflap-crown.jpg', {
    kind: 'Crown',
    known: async () => {
      await page.getByText('What you know about it').click();
      await page.getByLabel('Width across it should have').fill('16cm');
      await page.getByLabel('Stitches the last round should have').fill('45');
    },
  });
  const { truth: real } = truth('earflap-crown').cases[0];
  const [across, rounds, stitches] = await figures(page);
  assertHolds([across], [real.diameter_mm / 10]);
  assert.equal(rounds.value, real.rounds);
  assert.ok(Math.abs(stitches.value - real.last_round_stitches) <= 1, `${stitches.value}`);
  assert.equal(await page.locator('.check').count(), 2);
  await picture(page, 'phone-crown');
  noFaults(faults);
  await context.close();
});

test('a piece: width, height and way around, in inches', async () => {
  const { page, faults, context } = await here.open();
  await page.getByText('Units and stitch names').click();
  await page.getByRole('radio', { name: 'inches' }).check();
  await measure(page, 'brim-slate.jpg', { kind: 'Piece' });
  const shown = await figures(page);
  assert.equal(shown.length, 3);
  assert.ok(Math.abs(shown[2].value - 2 * shown[0].value) < 0.02);
  assert.match(await page.locator('.figure-unit').first().textContent(), /in/);
  await picture(page, 'desktop-piece');
  await page.reload();
  await page.waitForSelector('html[data-ready]');
  assert.ok(await page.locator('input[value=in]').isChecked(), 'units are kept');
  noFaults(faults);
  await context.close();
});

test("a browser that cannot show the photo (HEIC) shows the program's picture", async () => {
  const { page, faults, context } = await here.open({ size: 'phone' });
  await page.evaluate(() => {
    HTMLImageElement.prototype.decode = () => Promise.reject(new Error('no such format'));
  });
  await measure(page, 'brimful-moss.jpg');
  assert.match(await page.locator('.preview').textContent(), /cannot show/);
  assert.ok(
    await page.locator('.stage-picture').evaluate(async (image) => {
      while (!image.complete)
        await new Promise((resolve) => {
          setTimeout(resolve, 20);
        });
      return image.naturalWidth > 600;
    }),
  );
  noFaults(faults);
  await context.close();
});

test('a photo without a ruler is refused: why, what to change, and the way to set the scale', async () => {
  const { page, faults, context } = await here.open({ size: 'phone' });
  await measure(page, 'forgot-the-ruler.jpg');
  const text = await page.locator('.tag-refused').textContent();
  assert.match(text, /no ruler/i);
  assert.match(text, /What to change: lay a ruler/);
  assert.equal(await page.locator('.figure-value').count(), 0);
  await picture(page, 'phone-refused');
  await page.getByRole('button', { name: 'Set the scale by hand' }).click();
  await page.locator('.handle').nth(1).waitFor();
  noFaults(faults);
  await context.close();
});
