// Figures in words, checked by hand and against definitions: 1 in = 25.4 mm exactly (NIST SP 811, appendix B).
import assert from 'node:assert/strict';
import test from 'node:test';
import {
  fixed,
  halfWidth,
  hook,
  length,
  patternFigure,
  per4in,
  plusMinus,
  size,
} from '../../../src/web/page/format.js';
import { stripRange } from '../../../src/web/page/interval_strip.js';

const measured = (value, std) => ({ value, std, low95: value - 1.96 * std, high95: value + 1.96 * std });

test('a plus-or-minus is rounded up, never down, and never to nothing', () => {
  assert.equal(plusMinus(measured(17.2285, 0.129828), 1), '17.2 ± 0.3'); // 1.96 * 0.1298 = 0.254
  assert.equal(halfWidth(measured(10, 0.3 / 1.96), 1), '0.3');
  assert.equal(halfWidth(measured(10, 0.001), 1), '0.1');
  assert.equal(halfWidth(measured(10, 0), 1), '0');
});

test('gauge over 4 in is 1.016 times that over 10 cm', () => {
  assert.ok(Math.abs(per4in(measured(10, 0.1)).value - 10 * ((4 * 25.4) / 100)) < 1e-12);
});

test('an exact half goes to the even digit', () => {
  assert.deepEqual(
    [0.5, 1.5, 2.5, -0.5, -2.5].map((value) => fixed(value, 0)),
    ['0', '2', '2', '0', '-2'],
  );
  assert.deepEqual(
    [1.25, 1.35, 8.75, 6.25].map((value) => fixed(value, 1)),
    ['1.2', '1.4', '8.8', '6.2'],
  );
  assert.equal(fixed(0.05, 1), '0.1'); // in binary a hair above the half
});

test('sizes in cm and inches', () => {
  const across = measured(158.304, 1.51292);
  assert.equal(size(across, 'cm'), '15.8 ± 0.3 cm');
  assert.equal(size(across, 'in'), '6.23 ± 0.12 in');
  assert.equal(length(254, 'in'), '10.0 in');
  assert.equal(fixed(-0.04, 1), '0.0');
  assert.equal(hook(5.5), '5.5 mm');
  assert.equal(hook(9), '9 mm');
});

test('a pattern is told whole and half stitches where the interval holds them', () => {
  assert.equal(patternFigure(measured(17.2285, 0.129828)), '17');
  assert.equal(patternFigure(measured(17.26, 0.2)), '17.5');
  assert.equal(patternFigure(measured(17.26, 0.01)), '17.3');
});

test('the strip holds the interval and the wanted figure, with few ticks', () => {
  for (const [low, high, wanted] of [
    [17, 17.5, undefined],
    [17, 17.5, 13],
    [9, 60, 10],
    [0.2, 0.21, undefined],
  ]) {
    const { from, to, step, labelStep } = stripRange(low, high, wanted);
    assert.ok(from <= Math.min(low, wanted ?? low) && to >= Math.max(high, wanted ?? high));
    assert.ok((to - from) / step <= 30, `${(to - from) / step}`);
    const labelled = Math.floor(to / labelStep + 1e-9) - Math.ceil(from / labelStep - 1e-9) + 1;
    assert.ok(labelled >= 2 && labelled <= 7, `${labelled} labels`);
    assert.ok(Math.abs(labelStep / step - Math.round(labelStep / step)) < 1e-9, 'labels stand at ticks');
  }
});
