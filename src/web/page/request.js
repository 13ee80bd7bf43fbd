/// From what the maker told to the request that the server takes. Empty fields are left out.
import { asRequest } from './corrections.js';

const told = (fields) =>
  Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== '' && value !== undefined && value !== null),
  );

/// "13" and "16" are the gauge "13x16", "13" alone is "13"; nothing without stitches.
export function gaugeText(stitches, rows) {
  const clean = (text) => (text ?? '').trim();
  if (!clean(stitches)) return '';
  return clean(rows) ? `${clean(stitches)}x${clean(rows)}` : clean(stitches);
}

/// A length typed into a field beside its unit: "6 1/4" and "in" are "6 1/4 in". A unit typed as well counts alone.
export function lengthText(text, unit) {
  const clean = (text ?? '').trim();
  if (!clean) return '';
  return /[a-z"']/i.test(clean) ? clean : `${clean} ${unit}`;
}

/// A length above zero that the server will understand: "10", "10.5", "10,5", "6 1/4", "1/2", with or without its unit.
export function isLength(text) {
  const match = /^(\d+(?:[.,]\d+)?)?(?:\s*(\d+)\s*\/\s*(\d+))?\s*(mm|cm|m|in|")?$/.exec((text ?? '').trim());
  if (!match || (match[1] === undefined && match[2] === undefined)) return false;
  const whole = Number((match[1] ?? '0').replace(',', '.'));
  const part = match[2] === undefined ? 0 : Number(match[2]) / Number(match[3]);
  return Number.isFinite(part) && whole + part > 0;
}

/// Fields of the form that each kind of piece uses.
const fieldsOf = {
  swatch: ({ stitch, worked, hook, want_stitches: stitches, want_rows: rows, per, hooks }) => ({
    stitch,
    worked,
    hook,
    hooks,
    want: gaugeText(stitches, rows),
    per: gaugeText(stitches, rows) ? per : '',
  }),
  crown: ({ stitch, want_diameter: diameter, stitches }, unit) => ({
    stitch,
    stitches,
    want_diameter: lengthText(diameter, unit),
  }),
  piece: ({ want_width: width, want_height: height }, unit) => ({
    want_width: lengthText(width, unit),
    want_height: lengthText(height, unit),
  }),
};

/// The request for a measurement. `form` holds texts of the fields, `settings` {units, terms}.
export function measureRequest(kind, form, corrections, settings) {
  const fields = told(fieldsOf[kind](form, settings.units));
  const terms = kind === 'piece' ? {} : { terms: settings.terms }; // a piece has no stitches to name
  return { ...fields, ...asRequest(corrections), units: settings.units, ...terms };
}
