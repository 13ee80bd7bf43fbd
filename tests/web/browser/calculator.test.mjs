// Hook, hat and yarn needed.
import assert from 'node:assert/strict';
import test, { after, before } from 'node:test';
import { measure, noFaults, picture, saveTo, world } from './support.mjs';

let here;
before(async () => {
  here = await world();
});
after(() => here.close());

test('phone: a hat for a baby comes with its rounds and the usual cautions', async () => {
  const { page, faults, context } = await here.open({ size: 'phone', hash: '#/hat' });
  await page.getByRole('radio', { name: "A child's age" }).check();
  await page.getByRole('button', { name: 'Work it out' }).click();
  assert.equal(await page.locator('[aria-invalid=true]').count(), 2);
  await page.getByLabel('Age', { exact: true }).fill('9months');
  await page.getByLabel('Your gauge').fill('14x16');
  await page.getByRole('button', { name: 'Work it out' }).click();
  const crown = page.getByRole('table', { name: 'Crown, round by round' });
  await crown.waitFor();
  assert.ok((await crown.getByRole('row').count()) > 6);
  assert.match(await page.locator('.hat .facts').textContent(), /59 stitches, 42\.1 ± 0\.9 cm around/);
  assert.match(await page.locator('.cautions').textContent(), /sleeping baby/);
  await picture(page, 'phone-hat');
  noFaults(faults);
  await context.close();
});

test('a wrong value is told beside its field, and stays', async () => {
  const { page, faults, context } = await here.open({ hash: '#/hat' });
  await page.getByLabel('Head around its widest part').fill('large');
  await page.getByLabel('Your gauge').fill('14x16');
  await page.getByRole('button', { name: 'Work it out' }).click();
  const field = page.getByLabel('Head around its widest part');
  await page.locator('[aria-invalid=true]').waitFor();
  assert.equal(await field.getAttribute('aria-invalid'), 'true');
  assert.equal(await field.inputValue(), 'large');
  await picture(page, 'desktop-hat-wrong');
  noFaults(faults);
  await context.close();
});

test('which head stitches fit; the gauge of the last photo is taken over', async () => {
  const { page, faults, context } = await here.open();
  await measure(page, 'brimful-moss.jpg');
  await page.getByRole('link', { name: 'Hat', exact: true }).click();
  await page.getByRole('radio', { name: /Which head/ }).check();
  await page.getByLabel('Stitches around').fill('90');
  await page.getByRole('button', { name: /Take the gauge of the last photo/ }).click();
  assert.match(await page.getByLabel('Your gauge').inputValue(), /^17\.\d\+-0\.\dx19\.\d\+-0\.\d$/);
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByText('Fits a head of').waitFor();
  await picture(page, 'desktop-hat-stitches');
  noFaults(faults);
  await context.close();
});

test('the gauge of a yarn in the record plans the hat', async () => {
  const { page, faults, context } = await here.open();
  await measure(page, 'brimful-moss.jpg');
  const form = await saveTo(page, 'Fennelwick DK, Moss', '4.5mm');
  await form.getByRole('link', { name: 'See this yarn' }).waitFor();
  await page.getByRole('link', { name: 'Hat', exact: true }).click();
  const yarn = page.getByLabel('Or: a yarn of your record');
  assert.equal(
    await page
      .locator(`datalist#${await yarn.getAttribute('list')} option`)
      .first()
      .getAttribute('value'),
    'Fennelwick DK, Moss',
  );
  await yarn.fill('Fennelwick DK, Moss');
  await page.getByLabel('Head around its widest part').fill('56cm');
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByRole('table', { name: 'Crown, round by round' }).waitFor();
  noFaults(faults);
  await context.close();
});

test('yarn needed for several hats', async () => {
  const { page, faults, context } = await here.open({ hash: '#/yarn-needed' });
  await page.getByLabel('Mass of the swatch').fill('12.4g');
  await page.getByLabel('Size of the swatch').fill('15x15cm');
  await page.getByLabel('Hats for heads of').fill('48cm, 56cm');
  await page.getByLabel('How many of each').fill('3');
  await page.getByLabel('A ball').fill('100g/177m');
  await page.getByLabel('What you have').fill('4');
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByRole('table', { name: 'Pieces' }).waitFor();
  // README: 277 g, with 10 % margin 305 g, 540 m (590 yd), 4 balls; the stock is enough.
  assert.match(await page.locator('.facts').textContent(), /277 ± 15 g.*305 g.*540 m \(590 yd\).*4 \(3\.05\).*enough/);
  await picture(page, 'desktop-needed');
  noFaults(faults);
  await context.close();
});

test('phone: is my hook right?', async () => {
  const { page, faults, context } = await here.open({ size: 'phone', hash: '#/hook' });
  await page.getByLabel('Your gauge').fill('14.5x17');
  await page.getByLabel("The pattern's gauge").fill('13x16');
  await page.getByLabel('Hook in use').fill('5.5mm');
  await page.getByLabel('Hooks you have').fill('4.5,5,5.5,6,6.5');
  await page.getByRole('button', { name: 'Work it out' }).click();
  // README: try 6.5 mm, 45 of 100.
  await page.getByText('Try 6.5 mm, a larger hook. Chance that a new swatch fits: 45 %.').waitFor();
  await picture(page, 'phone-hook');
  noFaults(faults);
  await context.close();
});
