// Everyone can use it: axe-core in every view, light and dark, phone and desktop; no sideways scrolling at 320 px and at
// 200 % zoom; large targets; all of it by keyboard.
import assert from 'node:assert/strict';
import test, { after, before } from 'node:test';
import { accessFaults, measure, noFaults, picture, sample, saveTo, sizes, world } from './support.mjs';

let here;
before(async () => {
  here = await world();
  const { page, context } = await here.open();
  await measure(page, 'brimful-moss.jpg');
  const form = await saveTo(page, 'Fennelwick DK, Moss', '4.5mm');
  await form.getByRole('link', { name: 'See this yarn' }).waitFor();
  await context.close();
});
after(() => here.close());

const openAll = (page) =>
  page.locator('details').evaluateAll((all) =>
    all.forEach((one) => {
      one.open = true;
    }),
  );

async function workOut(page, values) {
  for (const [label, value] of Object.entries(values)) await page.getByLabel(label, { exact: true }).fill(value);
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByRole('table').first().waitFor();
}

/// Every view with something in it: how to get there from the empty page.
const views = {
  measure: async () => {},
  result: (page) => measure(page, 'brimful-moss.jpg'),
  crown: (page) => measure(page, 'earflap-crown.jpg', { kind: 'Crown' }),
  refused: (page) => measure(page, 'forgot-the-ruler.jpg'),
  correct: async (page) => {
    await measure(page, 'brimful-moss.jpg');
    await page.getByRole('button', { name: 'Correct by hand' }).click();
    await page.getByRole('radio', { name: 'Measured area' }).check();
  },
  saving: async (page) => {
    await measure(page, 'brimful-moss.jpg');
    await page.getByRole('button', { name: 'Save to a yarn' }).click();
    await page.locator('.saving').getByRole('button', { name: 'Save', exact: true }).click();
  },
  yarns: (page) => page.locator('.yarn-card').waitFor(),
  yarn: (page) => page.getByRole('table').first().waitFor(),
  'yarn-add': async () => {},
  'yarn-find': async (page) => {
    await page.getByLabel('Stitches').fill('17');
    await page.getByRole('button', { name: 'Find', exact: true }).click();
    await page.getByRole('table').waitFor();
  },
  hook: (page) => workOut(page, { 'Your gauge': '14.5x17', "The pattern's gauge": '13x16', 'Hook in use': '5.5mm' }),
  hat: (page) => workOut(page, { 'Head around its widest part': '48cm', 'Your gauge': '14x16' }),
  'yarn-needed': (page) =>
    workOut(page, { 'Mass of the swatch': '12.4g', 'Size of the swatch': '15x15cm', 'Hats for heads of': '48cm' }),
};
const hashOf = (name) =>
  name === 'yarn'
    ? '#/yarn?name=Fennelwick+DK%2C+Moss'
    : name in { yarns: 1, 'yarn-add': 1, 'yarn-find': 1, hook: 1, hat: 1, 'yarn-needed': 1 }
      ? `#/${name}`
      : '';

/// Elements that stick out of the page to the right.
const sideways = (page) =>
  page.evaluate(() => {
    const room = document.documentElement.clientWidth;
    return document.documentElement.scrollWidth > room
      ? [...document.querySelectorAll('body *')]
          .filter(
            (one) => one.getBoundingClientRect().right > room + 1 && !one.closest('.table-frame, .stage, .for-ears'),
          )
          .map((one) => `${one.tagName}.${one.getAttribute('class')} ${one.children.length ? '' : one.textContent}`)
      : [];
  });

/// Targets under 24 px, and main ones under 44 (WCAG 2.2, 2.5.8; 44 px is our own aim after 2.5.5).
const smallTargets = (page) =>
  page.evaluate(() =>
    [
      ...document.querySelectorAll(
        'button, summary, select, input:not([type=radio], [type=checkbox], [type=file]), .main-button, nav a, .choice',
      ),
    ]
      .map((one) => ({ one, box: one.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && (box.height < 43.5 || box.width < 43.5))
      .map(({ one, box }) => `${one.tagName}.${one.className} ${one.textContent} ${box.width}x${box.height}`),
  );

async function assertAccessible(page, name, size) {
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    assert.deepEqual(await accessFaults(page), [], `${size} ${colorScheme}`);
  }
  await picture(page, `${size}-dark-${name}`);
  assert.deepEqual(await smallTargets(page), [], size);
  assert.deepEqual(await sideways(page), [], size);
}

for (const [name, reach] of Object.entries(views)) {
  test(`${name}: axe-core finds nothing, light and dark; nothing scrolls sideways; targets are large`, async () => {
    const { page, faults, context } = await here.open({ size: 'desktop', hash: hashOf(name) });
    await reach(page);
    await openAll(page);
    await assertAccessible(page, name, 'desktop');
    await page.setViewportSize({ width: 640, height: 400 });
    assert.deepEqual(await sideways(page), [], '200 %');
    await page.setViewportSize(sizes.phone.viewport);
    await assertAccessible(page, name, 'phone');
    // 320 px: a small phone, or 1280 px at 400 % (WCAG 2.2, 1.4.10). Letters twice as large: 1.4.4.
    await page.setViewportSize({ width: 320, height: 640 });
    assert.deepEqual(await sideways(page), [], '320 px');
    await picture(page, `narrow-${name}`);
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '200%';
    });
    assert.deepEqual(await sideways(page), [], '320 px, letters twice as large');
    noFaults(faults);
    await context.close();
  });
}

test('by keyboard alone: choose, measure, correct, save', async () => {
  const { page, faults, context } = await here.open();
  const asked = page.waitForEvent('filechooser'); // listened for before it can come
  const tabTo = async (locator) => {
    for (let i = 0; i < 80; i += 1) {
      if (await locator.evaluate((one) => one === document.activeElement)) return;
      await page.keyboard.press('Tab');
    }
    assert.fail(`no way by Tab to ${locator}`);
  };
  await page.keyboard.press('Tab');
  assert.equal(await page.evaluate(() => document.activeElement.className), 'skip');
  await page.keyboard.press('Enter');
  const file = page.locator('.photo-buttons input[type=file]:not([capture])');
  await tabTo(file);
  await page.keyboard.press('Enter');
  const chooser = await asked;
  await chooser.setFiles(sample('brimful-moss.jpg'));
  await page.locator('.preview img').waitFor();
  await tabTo(page.locator('.go'));
  await page.keyboard.press('Enter');
  await page.locator('.figure-value').first().waitFor();
  await tabTo(page.getByRole('button', { name: 'Correct by hand' }));
  await page.keyboard.press('Enter');
  await page.locator('.correct').waitFor();
  const tool = page.getByRole('radio', { name: 'Known length' });
  await tabTo(tool);
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight'); // row direction
  assert.ok(await page.getByRole('radio', { name: 'Row direction' }).isChecked());
  const ring = page.locator('.handle').nth(1);
  for (let i = 0; i < 40 && !(await ring.evaluate((one) => one === document.activeElement)); i += 1)
    await page.keyboard.press('Shift+Tab');
  assert.match(await ring.evaluate((one) => getComputedStyle(one).outlineStyle), /solid/, 'focus is seen');
  await page.keyboard.press('ArrowUp');
  await page.locator('.corrections', { hasText: 'row direction' }).waitFor();
  await page
    .locator('.correct-status')
    .filter({ hasText: /^Now:|What to change/ })
    .waitFor();
  noFaults(faults);
  await context.close();
});
