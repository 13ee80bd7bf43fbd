// A measurement is saved, found in the record, changed and removed.
import assert from 'node:assert/strict';
import test, { after, before } from 'node:test';
import { measure, noFaults, picture, saveTo, world } from './support.mjs';

let here;
before(async () => {
  here = await world();
});
after(() => here.close());

const yarn = 'Fennelwick DK, Moss';

test('phone: a measurement is saved to a new yarn and found in the record', async () => {
  const { page, faults, context } = await here.open({ size: 'phone' });
  await page.getByRole('link', { name: 'Yarns' }).click();
  await page.getByText('No yarn is in your record yet').waitFor();
  await picture(page, 'phone-yarns-empty');
  await page.getByRole('link', { name: 'Measure' }).click();
  await measure(page, 'brimful-moss.jpg');
  await page.getByRole('button', { name: 'Save to a yarn' }).click();
  const form = page.locator('.saving');
  await form.getByRole('button', { name: 'Save', exact: true }).click();
  assert.equal(await form.locator('[aria-invalid=true]').count(), 2, 'yarn and hook are needed');
  await form.getByLabel('Yarn').fill(yarn);
  await form.getByLabel('Hook').fill('4.5mm');
  await form.getByLabel('State of the fabric').selectOption('relaxed');
  await form.getByLabel('Mass of the whole piece').fill('8g');
  await picture(page, 'phone-saving');
  await form.getByRole('button', { name: 'Save', exact: true }).click();
  await form.getByText(`saved the measurement under it`).waitFor();
  await form.getByRole('link', { name: 'See this yarn' }).click();
  await page.getByRole('heading', { name: yarn, level: 1 }).waitFor();
  const row = page.getByRole('row', { name: /4\.5 mm/ });
  assert.match(await row.textContent(), /single crochet.*relaxed.*17\.\d ± 0\.\d.*19\.\d ± 0\.\d/i);
  assert.ok(await page.locator('.plot').evaluate((image) => image.decode().then(() => image.naturalWidth > 0)));
  assert.match(await page.locator('.copy-line code').first().textContent(), /hook 4\.5 mm/);
  await picture(page, 'phone-yarn');

  await page.getByRole('link', { name: 'Yarns', exact: true }).click();
  await page.getByRole('searchbox', { name: 'Search' }).fill('moss');
  assert.match(await page.locator('.yarn-card').textContent(), /measured once/);
  await page.getByRole('searchbox', { name: 'Search' }).fill('cream');
  await page.getByText('No yarn matches').waitFor();
  noFaults(faults);
  await context.close();
});

test('the same photo is not saved twice, and the form stays', async () => {
  const { page, faults, context } = await here.open();
  await measure(page, 'brimful-moss.jpg');
  const form = await saveTo(page, yarn, '4.5mm');
  await form.getByRole('alert').waitFor();
  assert.match(await form.getByRole('alert').textContent(), /photo/i);
  assert.equal(await form.getByLabel('Yarn').inputValue(), yarn);
  noFaults(faults);
  await context.close();
});

test('a corrected measurement is kept as corrected', async () => {
  const { page, faults, context } = await here.open();
  await measure(page, 'pudding-cream.jpg', { known: async () => {} });
  await page.getByRole('button', { name: 'Correct by hand' }).click();
  await page.getByRole('radio', { name: 'Stitch and unit' }).check();
  await page.getByLabel('The ruler counts in').selectOption('mm');
  await page.locator('.corrections', { hasText: 'the ruler counts in millimetres' }).waitFor();
  await page.locator('.outcome[aria-busy=false]').waitFor();
  await page.locator('.correct-status').filter({ hasText: /^Now:/ }).waitFor();
  await page.getByRole('button', { name: 'Done' }).click();
  const form = await saveTo(page, 'Oddmere Four, Cream', '3.5mm');
  await form.getByRole('link', { name: 'See this yarn' }).click();
  await page.getByText('Measurements (1)').click();
  assert.match(await page.getByRole('table', { name: 'Measurements' }).textContent(), /by hand/);
  noFaults(faults);
  await context.close();
});

test('a yarn is added, edited, used, found, removed and brought back', async () => {
  const { page, faults, context } = await here.open();
  await page.getByRole('link', { name: 'Yarns' }).click();
  await page.getByRole('link', { name: 'Add a yarn' }).click();
  await page.getByLabel('Name').fill('Bramble Rope, Ochre');
  await page.getByLabel('Balls left').fill('four');
  await page.getByRole('button', { name: 'Add this yarn' }).click();
  await page.getByText('A number, as in 50 or 3.5.').waitFor();
  await page.getByLabel('Balls left').fill('4');
  await page.getByLabel('Grams on a ball').fill('100');
  await picture(page, 'desktop-yarn-add');
  await page.getByRole('button', { name: 'Add this yarn' }).click();
  await page.getByRole('heading', { name: 'Bramble Rope, Ochre' }).waitFor();
  assert.match(await page.locator('.facts').textContent(), /4 balls left, 400 g/);

  await page.locator('summary', { hasText: 'Use some' }).click();
  await page.getByLabel('How much was used').fill('150g');
  await page.getByRole('button', { name: 'Take it off' }).click();
  await page.getByText('2.5 balls left, 250 g').waitFor();

  await page.locator('summary', { hasText: /^Edit/ }).click();
  await page.getByText('More about it').click();
  await page.getByLabel('Colour').fill('ochre');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.locator('.facts', { hasText: 'ochre' }).waitFor();

  await page.locator('summary', { hasText: /^Remove/ }).click();
  await picture(page, 'desktop-yarn');
  await page.getByRole('button', { name: 'Remove this yarn' }).click();
  await page.getByText('“Bramble Rope, Ochre” was removed.').first().waitFor();
  assert.equal(await page.locator('.yarn-card', { hasText: 'Bramble' }).count(), 0);
  await page.getByRole('button', { name: 'Bring it back' }).click();
  await page.locator('.yarn-card', { hasText: 'Bramble' }).waitFor();
  await picture(page, 'desktop-yarns');

  await page.getByRole('link', { name: 'Find a yarn for a gauge' }).click();
  await page.getByLabel('Stitches').fill('17');
  await page.getByLabel('Rows').fill('19');
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  assert.match(await page.getByRole('table').textContent(), /Fennelwick DK, Moss/);
  await picture(page, 'desktop-find');
  noFaults(faults);
  await context.close();
});
