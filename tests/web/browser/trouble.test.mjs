// Nothing is lost when something fails, and what is shown belongs to the last change.
import assert from 'node:assert/strict';
import test, { after, before } from 'node:test';
import { figures, measure, noFaults, picture, sample, world } from './support.mjs';

let here;
before(async () => {
  here = await world();
});
after(() => here.close());

const anyMeasurement = '**/api/measure/**';

test('phone: a lost connection says so, keeps photo and form, and is tried again', async () => {
  const { page, faults, context } = await here.open({ size: 'phone' });
  await page.locator('.photo-buttons input[type=file]:not([capture])').setInputFiles(sample('brimful-moss.jpg'));
  await page.getByText('What you know about it').click();
  await page.getByLabel('Hook it was worked on').fill('4.5mm');
  await context.setOffline(true);
  await page.getByRole('button', { name: 'Measure', exact: true }).click();
  const notice = page.getByRole('alert').filter({ hasText: 'No connection to the computer' });
  await notice.waitFor();
  await picture(page, 'phone-lost');
  assert.equal(await page.getByLabel('Hook it was worked on').inputValue(), '4.5mm');
  await context.setOffline(false);
  await notice.getByRole('button', { name: 'Try again' }).click();
  await page.locator('.figure-value').first().waitFor();
  assert.equal((await figures(page)).length, 2);
  noFaults(faults);
  await context.close();
});

test('measuring is stopped, and the photo can be measured again', async () => {
  const { page, faults, context } = await here.open();
  let release;
  const gate = new Promise((resolve) => {
    release = resolve;
  });
  await page.route(anyMeasurement, async (route) => {
    await gate;
    await route.continue().catch(() => {}); // stopped meanwhile
  });
  await page.locator('.photo-buttons input[type=file]:not([capture])').setInputFiles(sample('brimful-moss.jpg'));
  await page.getByRole('button', { name: 'Measure', exact: true }).click();
  await picture(page, 'desktop-progress');
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByText('Stopped. Nothing was measured.').waitFor();
  release();
  await page.unroute(anyMeasurement);
  await page.getByRole('button', { name: 'Measure', exact: true }).click();
  await page.locator('.figure-value').first().waitFor();
  noFaults(faults);
  await context.close();
});

test('an answer that comes late never replaces a newer one', async () => {
  const { page, faults, context } = await here.open();
  await measure(page, 'brimful-moss.jpg');
  await page.getByRole('button', { name: 'Correct by hand' }).click();
  await page.getByRole('radio', { name: 'Stitch and unit' }).check();
  const stitch = page.locator('.correct').getByLabel('Stitch', { exact: true });
  const asked = [];
  await page.route(anyMeasurement, async (route) => {
    const told = /"stitch":"([a-z-]+)"/.exec(route.request().postData() ?? '')?.[1];
    asked.push(told);
    if (told === 'dc')
      await new Promise((resolve) => {
        setTimeout(resolve, 1500);
      });
    await route.continue().catch(() => {}); // the page no longer waits for it
  });
  await stitch.selectOption('dc');
  while (!asked.length) await page.waitForTimeout(20);
  await stitch.selectOption('sc');
  await page.locator('.tag-stitch', { hasText: 'single crochet' }).filter({ hasText: 'as told' }).waitFor();
  await page.waitForTimeout(1800);
  assert.match(await page.locator('.tag-stitch').textContent(), /^single crochet,.*as told/i);
  assert.deepEqual(asked, ['dc', 'sc']);
  noFaults(faults);
  await context.close();
});

test('a file that is no photo is told so', async () => {
  const { page, faults, context } = await here.open({ size: 'phone' });
  await page
    .locator('.photo-buttons input[type=file]:not([capture])')
    .setInputFiles({ name: 'notes.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no photo at all') });
  await page.getByRole('button', { name: 'Measure', exact: true }).click();
  await page.getByRole('alert').filter({ hasText: 'no photo that the program can read' }).waitFor();
  await picture(page, 'phone-no-photo');
  noFaults(faults);
  await context.close();
});

test('without a photo nothing is sent', async () => {
  const { page, faults, context } = await here.open();
  await page.getByRole('button', { name: 'Measure', exact: true }).click();
  await page.getByText('Take or choose a photo first.').waitFor();
  noFaults(faults);
  await context.close();
});
