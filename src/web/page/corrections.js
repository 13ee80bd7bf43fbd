/// What was set by hand for a photo: an immutable record of values by name, with what was there before each change.

/// Every kind of correction, in the order in which it is told.
export const kinds = ['scale', 'unit', 'reference', 'area', 'rim', 'rows', 'stitch', 'worked', 'reading'];

/// A correction that makes another one meaningless takes it away: two points replace the ruler and its unit, and
/// the number of a rival reading belongs to the list of one answer only.
const replaces = {
  scale: ['unit', 'reference', 'reading'],
  unit: ['scale', 'reference', 'reading'],
  reference: ['scale', 'unit', 'reading'],
  area: ['reading'],
  rim: ['reading'],
  rows: ['reading'],
  stitch: ['reading'],
  worked: ['reading'],
  reading: [],
};

export const none = { values: {}, before: [] };

const without = (values, names) => Object.fromEntries(Object.entries(values).filter(([name]) => !names.includes(name)));

/// Sets one correction. A row of changes of the same kind without another in between (a drag, a few key presses) can
/// be joined by giving the same `gesture`; undo then takes back all of it.
export function corrected(corrections, name, value, gesture = null) {
  if (!kinds.includes(name)) throw new Error(`no correction is called ${name}`);
  const values = { ...without(corrections.values, replaces[name]), [name]: value };
  const last = corrections.before.at(-1);
  const joined = gesture !== null && last?.gesture === gesture;
  return {
    values,
    before: joined ? corrections.before : [...corrections.before, { values: corrections.values, gesture }],
  };
}

/// Takes one correction away, whenever it was made.
export function takenBack(corrections, name) {
  if (!(name in corrections.values)) return corrections;
  return {
    values: without(corrections.values, name === 'reading' ? [name] : [name, 'reading']),
    before: [...corrections.before, { values: corrections.values, gesture: null }],
  };
}

/// Takes the last change back.
export function undone(corrections) {
  const last = corrections.before.at(-1);
  return last ? { values: last.values, before: corrections.before.slice(0, -1) } : corrections;
}

export const isCorrected = (corrections) => Object.keys(corrections.values).length > 0;
export const canUndo = (corrections) => corrections.before.length > 0;
export const inOrder = (corrections) => kinds.filter((name) => name in corrections.values);

/// The corrections in the words of the server's request.
export function asRequest({ values }) {
  const { scale, unit, reference, area, rim, rows, stitch, worked, reading } = values;
  return {
    ...(scale && { scale: { from_px: scale.points[0], to_px: scale.points[1], length: scale.length } }),
    ...(unit && { unit }),
    ...(reference && { reference }),
    ...(area && { area_px: area }),
    ...(rim && { rim_px: rim }),
    ...(rows !== undefined && { rows_deg: rows }),
    ...(stitch && { stitch }),
    ...(worked && { worked }),
    ...(reading !== undefined && { reading: reading + 1 }), // the server counts the rivals from 1
  };
}
