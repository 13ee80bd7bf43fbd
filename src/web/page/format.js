/// Figures in words. The same rules as the program's own text: a half width is rounded up, never down, so that
/// no plus-or-minus is understated. A `measured` is {value, std, low95, high95} as in the documents.

const coverage95 = 1.96; // normal distribution: 95 % lie within 1.96 standard deviations
export const mmPerInch = 25.4;
/// Gauge over 4 in from gauge over 10 cm: 4 in are 101.6 mm.
export const per4inFromPer10cm = 101.6 / 100;

const exactDecimals = 60; // more than any figure here has in binary

/// `value` with `decimals` decimals, no minus zero. An exact half goes to the even digit (IEEE 754), as in the program's text:
/// 1.25 is "1.2".
export function fixed(value, decimals) {
  const up = value.toFixed(decimals); // an exact half goes away from zero
  const rest = value.toFixed(exactDecimals).split('.')[1].slice(decimals);
  const isHalf = /^50*$/.test(rest) && /[13579]$/.test(up);
  const text = isHalf ? (Number(up) - Math.sign(value) * 10 ** -decimals).toFixed(decimals) : up;
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
}

export function halfWidth(measured, decimals) {
  const half = coverage95 * measured.std;
  if (!(half > 0)) return '0';
  const unit = 10 ** -decimals;
  return fixed(Math.max(Math.ceil(half / unit - 1e-9), 1) * unit, decimals);
}

/// "17.2 ± 0.3"
export function plusMinus(measured, decimals) {
  return `${fixed(measured.value, decimals)} ± ${halfWidth(measured, decimals)}`;
}

export function scaled(measured, factor) {
  return {
    value: measured.value * factor,
    std: measured.std * factor,
    low95: measured.low95 * factor,
    high95: measured.high95 * factor,
  };
}

export const per4in = (per10cm) => scaled(per10cm, per4inFromPer10cm);

/// The figure a pattern would state: the nearest half inside the 95 % interval, otherwise one decimal.
export function patternFigure(measured) {
  const half = Math.round(2 * measured.value) / 2;
  const inside = half > 0 && measured.low95 <= half && half <= measured.high95;
  return fixed(inside ? half : measured.value, 1).replace(/\.0$/, '');
}

/// Size in cm (one decimal) or inches (two decimals), with its plus-or-minus: "15.8 ± 0.3 cm".
export function size(measuredMm, units) {
  return units === 'in'
    ? `${plusMinus(scaled(measuredMm, 1 / mmPerInch), 2)} in`
    : `${plusMinus(scaled(measuredMm, 0.1), 1)} cm`;
}

/// Size without a plus-or-minus.
export function length(mm, units) {
  return units === 'in' ? `${fixed(mm / mmPerInch, 1)} in` : `${fixed(mm / 10, 1)} cm`;
}

export function percent(share, decimals = 0) {
  return `${fixed(share * 100, decimals)} %`;
}

/// "5.5 mm": a hook without needless zeros.
export function hook(mm) {
  return `${String(Number(mm.toFixed(2)))} mm`;
}

/// A plain number with at most `decimals` decimals and no needless zeros.
export function plain(value, decimals = 1) {
  return String(Number(value.toFixed(decimals)));
}

export function megabytes(bytes) {
  return `${fixed(Math.max(bytes / 1e6, 0.1), 1)} MB`;
}
