/// A strip of ruler with a strand of yarn on it: the 95 % interval of a figure, and the figure that is wanted. It only
/// shows what the text beside it says, so it is hidden from screen readers.
import { svg } from './dom.js';

const width = 240;
const height = 34;
const edge = 14; // room for half a label

/// Round steps for ticks, so that there are at most `most` of them.
function tickStep(span, most) {
  const raw = span / most;
  const power = 10 ** Math.floor(Math.log10(raw));
  return [1, 2, 5, 10].map((factor) => factor * power).find((step) => step >= raw - 1e-12);
}

/// The part of the ruler that shows the interval and the wanted figure with some room around them, with ticks at every
/// `step` and labels at every `labelStep`.
export function stripRange(low, high, wanted) {
  const least = Math.min(low, wanted ?? low);
  const most = Math.max(high, wanted ?? high);
  const room = Math.max((most - least) * 0.35, most * 0.02);
  const labelStep = tickStep(most - least + 2 * room, 4);
  const step = labelStep / (String(labelStep).includes('2') ? 4 : 5); // as rulers do: fifths, or quarters of two
  const from = Math.floor((least - room) / step) * step;
  const to = Math.ceil((most + room) / step) * step;
  // At least two labels, or the strip would say where nothing is.
  const whole = Math.ceil(from / labelStep - 1e-9) * labelStep;
  return { from, to: Math.max(to, whole + labelStep), step, labelStep };
}

/// `measured` and `wanted` in the same unit; `wanted` may be left out.
export function intervalStrip(measured, wanted) {
  const { from, to, step, labelStep } = stripRange(measured.low95, measured.high95, wanted);
  const at = (value) => edge + ((value - from) / (to - from)) * (width - 2 * edge);
  const count = Math.round((to - from) / step);
  const decimals = Math.max(0, Math.ceil(-Math.log10(labelStep) - 1e-9));
  const isLabelled = (value) => Math.abs(value / labelStep - Math.round(value / labelStep)) < 1e-6;
  const ticks = Array.from({ length: count + 1 }, (_, i) => {
    const labelled = isLabelled(from + i * step);
    const x = at(from + i * step);
    return [
      svg('line', { class: 'strip-tick', x1: x, x2: x, y1: 18, y2: labelled ? 24 : 21 }),
      labelled &&
        svg('text', { class: 'strip-label', x, y: 33, 'text-anchor': 'middle' }, (from + i * step).toFixed(decimals)),
    ];
  });
  return svg(
    'svg',
    { class: 'strip', viewBox: `0 0 ${width} ${height}`, 'aria-hidden': 'true', focusable: 'false' },
    svg('line', { class: 'strip-edge', x1: edge, x2: width - edge, y1: 18, y2: 18 }),
    ticks.flat().filter(Boolean),
    svg('line', { class: 'strip-strand', x1: at(measured.low95), x2: at(measured.high95), y1: 10, y2: 10 }),
    svg('circle', { class: 'strip-value', cx: at(measured.value), cy: 10, r: 5 }),
    wanted !== undefined && svg('path', { class: 'strip-wanted', d: `M${at(wanted)} 17 l-5 -12 h10 z` }),
  );
}
