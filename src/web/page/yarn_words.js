/// What the record says of yarns, in words and figures: pure functions of its documents.
import { hook, per4in, plain, plusMinus } from './format.js';
import { counted, word, wordOr } from './words.js';

/// "3.5 balls left, 175 g, 420 m"; '' where nothing is known.
export function left(yarn) {
  const parts = [
    yarn.balls !== undefined && counted('yarns.left-balls', plain(yarn.balls, 2)),
    yarn.grams_left !== undefined && word('yarns.left-grams', { grams: plain(yarn.grams_left, 0) }),
    yarn.metres_left !== undefined && word('yarns.left-metres', { metres: plain(yarn.metres_left, 0) }),
  ];
  return parts.filter(Boolean).join(', ');
}

export const measuredWords = (count) => (count ? counted('yarns.measured', count) : word('yarns.not-measured'));

/// "50 g, 120 m"
export function oneBall(yarn) {
  return [
    yarn.ball_g !== undefined && word('yarns.left-grams', { grams: plain(yarn.ball_g, 1) }),
    yarn.ball_m !== undefined && word('yarns.left-metres', { metres: plain(yarn.ball_m, 1) }),
  ]
    .filter(Boolean)
    .join(', ');
}

/// Yarns whose name, colour, fibre or dye lot hold every word of `text`, whatever the case.
export function matching(yarns, text) {
  const wanted = text.toLocaleLowerCase().split(/\s+/).filter(Boolean);
  const said = (yarn) =>
    [yarn.name, yarn.colour, yarn.fibre, yarn.dye_lot].filter(Boolean).join(' ').toLocaleLowerCase();
  return yarns.filter((yarn) => wanted.every((part) => said(yarn).includes(part)));
}

const over = (measured, units) => (units === 'in' ? per4in(measured) : measured);
const figure = (measured, units) => (measured ? plusMinus(over(measured, units), 1) : '');

export const stateWords = (state) => (state ? wordOr(`state.${state}`, state) : '');
export const workedWords = (worked) => (worked ? word(`worked.${worked}`) : '');

/// Rows of the table of gauge by hook: hook, stitch, state, stitches, rows, how many swatches.
export function gaugeRows(gauges, units, stitchNames) {
  return gauges.map((gauge) => [
    gauge.hook_mm ? hook(gauge.hook_mm) : '',
    [stitchNames[gauge.stitch] ?? gauge.stitch, workedWords(gauge.worked)].filter(Boolean).join(', '),
    stateWords(gauge.state),
    figure(gauge.stitches_per_10cm, units),
    figure(gauge.rows_per_10cm, units),
    String(gauge.numbers?.length ?? ''),
  ]);
}

/// "17.2 ± 0.3 × 19.2 ± 0.4"
export function gaugePair(match, units) {
  return [figure(match.stitches_per_10cm, units), figure(match.rows_per_10cm, units)].filter(Boolean).join(' × ');
}

/// The part of a PATCH or POST that a form tells: texts stay, figures become numbers, an emptied field becomes null.
/// Gives {yarn} or {bad: names of fields that should be numbers}.
export function yarnOfForm(texts, numbers) {
  const entries = Object.entries(texts).map(([name, text]) => [
    name,
    !text ? null : numbers.includes(name) ? Number(text.replace(',', '.')) : text,
  ]);
  const bad = entries
    .filter(([, value]) => typeof value === 'number' && !(value >= 0 && Number.isFinite(value)))
    .map(([name]) => name);
  return bad.length ? { bad } : { yarn: Object.fromEntries(entries) };
}

/// Only what differs from before.
export function changes(before, after) {
  return Object.fromEntries(Object.entries(after).filter(([name, value]) => (before[name] ?? null) !== value));
}
