/// What a report says, in words and figures: pure functions of the document.
import { fixed, hook, patternFigure, per4in, percent, plain, plusMinus, scaled, size } from './format.js';
import { counted, word, wordOr } from './words.js';

export const isRound = (report) => report.stitch?.worked === 'round' || report.command === 'crown';
const rowsKey = (report) => (isRound(report) ? 'rounds' : 'rows');

/// The two gauges of a report over 10 cm, or null where it has none: {stitches, rows, rowsKey}.
export function gaugeOf(report) {
  const found = report.swatch ?? report.crown;
  if (!found?.stitches_per_10cm) return null;
  return {
    stitches: found.stitches_per_10cm,
    rows: found.rows_per_10cm ?? found.rounds_per_10cm ?? null,
    rowsKey: rowsKey(report),
  };
}

const spanFirst = (units) => (units === 'in' ? ['4in', '10cm'] : ['10cm', '4in']);
const over = (measured, span) => (span === '4in' ? per4in(measured) : measured);

/// The large figures of a result: [{label, value, unit, second, measured}].
export function mainFigures(report, units) {
  const [first, second] = spanFirst(units);
  const gaugeFigure = (name, measured) => ({
    label: word(`result.${name}`),
    value: plusMinus(over(measured, first), 1),
    unit: word(`result.over-${first}`),
    second: `${plusMinus(over(measured, second), 1)} ${word(`result.over-${second}`)}`,
    measured: over(measured, first),
  });
  const sizeFigure = (name, measured) => {
    const [value, unit] = splitUnit(size(measured, units));
    return {
      label: word(`result.${name}`),
      value,
      unit,
      second: size(measured, units === 'in' ? 'cm' : 'in'),
      measured: scaled(measured, units === 'in' ? 1 / 25.4 : 0.1),
    };
  };
  if (report.crown) return [sizeFigure('across', report.crown.diameter_mm), ...countFigures(report.crown)];
  if (report.piece) {
    return [
      ['width', 'width_mm'],
      ['height', 'height_mm'],
      ['around', 'circumference_flat_mm'],
    ]
      .filter(([, key]) => report.piece[key])
      .map(([name, key]) => sizeFigure(name, report.piece[key]));
  }
  const gauge = gaugeOf(report);
  return gauge
    ? [gaugeFigure('stitches', gauge.stitches), ...(gauge.rows ? [gaugeFigure(gauge.rowsKey, gauge.rows)] : [])]
    : [];
}

function splitUnit(text) {
  const at = text.lastIndexOf(' ');
  return [text.slice(0, at), text.slice(at + 1)];
}

/// One sentence that says the result; read aloud and shown while correcting.
export function summary(report, units) {
  return mainFigures(report, units)
    .map(({ label, value, unit, second, measured }) =>
      [label, value, unit, measured ? '' : second].filter(Boolean).join(' '),
    )
    .join('; ');
}

/// Counts of a crown as large figures: there is no plus-or-minus, only numbers that cannot be excluded.
function countFigures({ rounds, last_round_stitches: stitches }) {
  const figure = (name, count) =>
    count && {
      label: word(`result.${name}`),
      value: fixed(count.value, 0),
      unit: '',
      second: count.least !== count.most ? word('result.may-be-count', { least: count.least, most: count.most }) : '',
    };
  return [figure('rounds-count', rounds), figure('last-round', stitches)].filter(Boolean);
}

/// Below that the name of a recognised stitch, its loop too, is called a guess.
const sureName = 0.8;

/// Which stitch, how it was worked and how sure that is.
export function stitchSentence(report, stitchNames) {
  const { stitch } = report;
  if (!stitch?.family) return '';
  const name = stitchNames[stitch.family] ?? stitch.family;
  const worked = stitch.worked ? word(`worked.${stitch.worked}`) : '';
  const how =
    stitch.source === 'told'
      ? word('result.as-told')
      : word((stitch.confidence ?? 0) < sureName ? 'result.guessed' : 'result.recognised', {
          percent: percent(stitch.confidence ?? 0),
        });
  return [name, worked, how].filter(Boolean).join(', ');
}

/// "17 stitches (16 to 18)": a whole count with the numbers that its interval does not exclude.
function wholeCount(key, count) {
  const [least, most] = [Math.ceil(count.low95), Math.floor(count.high95)];
  const text = counted(key, fixed(count.value, 0));
  return least < most ? `${text} (${word('result.range', { least, most })})` : text;
}

/// Counts, sizes and scale as [name, text] pairs.
export function facts(report, units) {
  const { swatch, crown, scale } = report;
  const pairs = [];
  if (swatch?.stitches)
    pairs.push([
      word('result.whole'),
      wholeCount('result.whole-stitches', swatch.stitches) +
        (swatch.rows ? ` × ${wholeCount(`result.whole-${rowsKey(report)}`, swatch.rows)}` : ''),
    ]);
  if (swatch?.width_mm) pairs.push([word('result.width'), size(swatch.width_mm, units)]);
  if (swatch?.height_mm) pairs.push([word('result.height'), size(swatch.height_mm, units)]);
  if (crown) {
    const before = crown.round_stitches?.[1];
    if (before)
      pairs.push([
        word('result.round-before'),
        before.least === before.most
          ? fixed(before.value, 0)
          : word('result.may-be', { value: fixed(before.value, 0), least: before.least, most: before.most }),
      ]);
    pairs.push(
      [word('result.narrowest'), size(crown.diameter_min_mm, units)],
      [word('result.widest'), size(crown.diameter_max_mm, units)],
    );
    const gauge = gaugeOf(report);
    if (gauge) pairs.push([word('result.crown-gauge'), gaugeCells(gauge, units === 'in' ? '4in' : '10cm')]);
  }
  if (scale) pairs.push([word('result.scale'), scaleSentence(scale, units)]);
  return pairs;
}

function gaugeCells({ stitches, rows }, span) {
  const figures = [plusMinus(over(stitches, span), 1), rows && plusMinus(over(rows, span), 1)]
    .filter(Boolean)
    .join(' × ');
  return `${figures} ${word(`result.over-${span}`)}`;
}

function scaleSentence(scale, units) {
  const camera =
    scale.camera_distance_mm > 0
      ? word('result.camera', {
          distance:
            units === 'in'
              ? `${fixed(scale.camera_distance_mm / 25.4, 0)} in`
              : `${fixed(scale.camera_distance_mm / 10, 0)} cm`,
          tilt: fixed(scale.tilt_deg ?? 0, 0),
        })
      : '';
  const unit = scale.unit ? wordOr(`unit.${scale.unit}`, scale.unit) : '';
  return [wordOr(`reference.${scale.reference}`, scale.reference), unit, camera].filter(Boolean).join(', ');
}

/// Gauge lines to put into a pattern, over 10 cm and over 4 in.
export function gaugeLines(gauge, abbreviation, tail = '') {
  const line = (span) =>
    word('result.gauge-line', {
      stitches: patternFigure(over(gauge.stitches, span)),
      abbreviation,
      rows: gauge.rows ? patternFigure(over(gauge.rows, span)) : '',
      rowsWord: word(`result.line-${gauge.rowsKey}`),
      span: word(`span.${span}`),
    });
  const short = (span) =>
    word('result.gauge-line-short', {
      stitches: patternFigure(over(gauge.stitches, span)),
      abbreviation,
      span: word(`span.${span}`),
    });
  return ['10cm', '4in'].map((span) => (gauge.rows ? line(span) : short(span)) + tail);
}

/// The verdict on the hook as one sentence, or '' where none was asked for.
export function hookSentence(advice) {
  if (!advice) return '';
  const values = {
    hook: advice.try_hook_mm ? hook(advice.try_hook_mm) : '',
    chance: percent(advice.chance_within_tolerance ?? 0),
  };
  if (advice.verdict === 'larger' || advice.verdict === 'smaller') {
    return word(advice.try_hook_mm ? `hook.${advice.verdict}` : `hook.${advice.verdict}-none`, values);
  }
  return wordOr(`hook.${advice.verdict}`, advice.verdict);
}

/// Another reading of the fabric, as a button's text.
export function rivalText(rival, units) {
  const factor = units === 'in' ? 1.016 : 1;
  const span = word(`span.${units === 'in' ? '4in' : '10cm'}`);
  return rival.rows_per_10cm > 0
    ? word('rivals.both', {
        stitches: plain(rival.stitches_per_10cm * factor),
        rows: plain(rival.rows_per_10cm * factor),
        span,
      })
    : word('rivals.stitches', { stitches: plain(rival.stitches_per_10cm * factor), span });
}
