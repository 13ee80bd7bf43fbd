// What the browser tests share: the program serving a record of its own, Chromium, and the watch over every page.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const build = process.env.RIDGETALLY_BROWSER_BUILD;
const require = createRequire(join(build, 'package.json'));
const { chromium } = require('playwright-core');
const axeSource = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const pictures = join(build, 'screenshots');
mkdirSync(pictures, { recursive: true });

export const sample = (name) => fileURLToPath(new URL(`../../../samples/${name}`, import.meta.url));
export const truth = (name) => JSON.parse(readFileSync(sample(`${name}.truth.json`), 'utf8'));

/// A phone held upright, and a desktop window.
export const sizes = {
  phone: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 1 },
  desktop: { viewport: { width: 1280, height: 800 }, deviceScaleFactor: 1 },
};

/// Starts `ridgetally serve` with a fresh record: {address, stop}.
async function serve(folder) {
  const env = { ...process.env, RIDGETALLY_RECORD: join(folder, 'record.db'), XDG_CONFIG_HOME: folder };
  const server = spawn(process.env.RIDGETALLY_BINARY, ['serve', '--port', '0'], {
    env,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  const address = await new Promise((resolve, reject) => {
    const listen = (chunk) => {
      said += chunk;
      const found = /http:\/\/[^\s/]+/.exec(said);
      if (found) resolve(found[0]);
    };
    server.stdout.on('data', listen);
    server.stderr.on('data', listen);
    server.on('exit', (status) => reject(new Error(`serve ended with ${status}: ${said}`)));
  });
  const stop = () =>
    new Promise((resolve) => {
      server.removeAllListeners('exit');
      if (server.exitCode !== null || server.signalCode !== null) resolve();
      server.on('exit', resolve);
      server.kill('SIGTERM');
    });
  return { address, stop };
}

/// The program and the browser for one test file; `close` ends both and removes the record.
export async function world() {
  const folder = mkdtempSync(join(tmpdir(), 'ridgetally-browser-'));
  const server = await serve(folder);
  const browser = await chromium.launch({ executablePath: process.env.RIDGETALLY_CHROMIUM, args: ['--no-sandbox'] });
  return {
    address: server.address,
    stopServer: server.stop,
    async close() {
      await browser.close();
      await server.stop();
      rmSync(folder, { recursive: true, force: true });
    },
    /// A page of the given size. It is watched: no error, no request to another host, nothing against the policy.
    async open({ size = 'desktop', scheme = 'light', hash = '', context: more = {} } = {}) {
      const context = await browser.newContext({
        ...sizes[size],
        colorScheme: scheme,
        reducedMotion: 'reduce',
        ...more,
      });
      const page = await context.newPage();
      page.setDefaultTimeout(40000);
      const faults = watch(page, server.address);
      await page.addInitScript(() =>
        addEventListener('securitypolicyviolation', (event) =>
          console.error(`policy: ${event.violatedDirective} ${event.blockedURI}`),
        ),
      );
      await page.goto(`${server.address}/${hash}`);
      await page.waitForSelector('html[data-ready]');
      return { page, faults, context };
    },
  };
}

/// Collects what must not happen. Answers like 422 are the program's word and no fault of the page.
function watch(page, address) {
  const faults = [];
  page.on('pageerror', (error) => faults.push(`error: ${error.stack}`));
  page.on('console', (message) => {
    if (message.type() === 'error' && !/Failed to load resource/.test(message.text()))
      faults.push(`console: ${message.text()}`);
  });
  page.on('request', (request) => {
    if (!request.url().startsWith(`${address}/`) && !/^(blob|data):/.test(request.url()))
      faults.push(`request: ${request.url()}`);
  });
  return faults;
}

export const noFaults = (faults) => assert.deepEqual(faults, []);

export const picture = (page, name, options = { fullPage: true }) =>
  page.screenshot({ path: join(pictures, `${name}.png`), ...options });

/// What axe-core finds against WCAG 2.2 A and AA (target size, 2.5.8, must be switched on) and its best practices, as
/// "rule: element".
export async function accessFaults(page) {
  // The policy forbids scripts of others in the page, so axe-core is brought in by the driver.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axeSource);
  const { violations } = await page.evaluate(() =>
    globalThis.axe.run(document, { resultTypes: ['violations'], rules: { 'target-size': { enabled: true } } }),
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.target.join(' ')} ${node.failureSummary}`),
  );
}

/// Chooses a sample and measures it; gives when the answer is there.
export async function measure(page, name, { kind = 'Swatch', known = async () => {} } = {}) {
  await page.getByRole('radio', { name: kind }).check();
  await page.locator('.photo-buttons input[type=file]:not([capture])').setInputFiles(sample(name));
  await page.locator('.preview img, .preview p').first().waitFor();
  await known(page);
  await page.getByRole('button', { name: 'Measure', exact: true }).click();
  await page.locator('.outcome .tag').waitFor();
}

/// The large figures of the result: [{value, half}].
export async function figures(page) {
  const texts = await page.locator('.figure-value').allTextContents();
  return texts.map((text) => {
    const [value, half] = text.split('±').map(Number);
    return { value, half };
  });
}

/// Where a point of the photo, in shares of its width and height, stands on the screen while all of it is shown.
export async function onScreen(page, [x, y]) {
  const box = await page.locator('.stage-sheet').boundingBox();
  return [box.x + x * box.width, box.y + y * box.height];
}

/// Drags a handle to a point of the photo, by mouse or by finger.
export async function drag(page, index, share) {
  const handle = page.locator('.handle').nth(index);
  await handle.scrollIntoViewIfNeeded();
  const box = await handle.boundingBox();
  const [x, y] = await onScreen(page, share);
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move((box.x + x) / 2, (box.y + y) / 2, { steps: 3 });
  await page.mouse.move(x, y, { steps: 3 });
  await page.mouse.up();
}

/// The same with one finger, as touch events of the browser itself.
export async function dragByFinger(page, index, share) {
  const handle = page.locator('.handle').nth(index);
  const box = await handle.boundingBox();
  const [x, y] = await onScreen(page, share);
  const session = await page.context().newCDPSession(page);
  const touch = (type, points) => session.send('Input.dispatchTouchEvent', { type, touchPoints: points });
  const from = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  await touch('touchStart', [from]);
  for (const step of [0.3, 0.7, 1])
    await touch('touchMove', [{ x: from.x + (x - from.x) * step, y: from.y + (y - from.y) * step }]);
  await touch('touchEnd', []);
  await session.detach();
}

/// Saves what was measured to a yarn; gives the form, which then says what came of it.
export async function saveTo(page, yarn, hook) {
  await page.getByRole('button', { name: 'Save to a yarn' }).click();
  const form = page.locator('.saving');
  await form.getByLabel('Yarn').fill(yarn);
  await form.getByLabel('Hook').fill(hook);
  await form.getByRole('button', { name: 'Save', exact: true }).click();
  return form;
}
