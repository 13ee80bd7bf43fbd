/// The shapes of the Correct view between the first look and a correction that counts. A shape that begins at a
/// place of ours says nothing yet: it counts once the maker has put its points, and for a known length typed it.
import { isLength, lengthText } from './request.js';
import { crossesItself, directionDeg, lengthPx, simplified, startArea, startLine, startRim } from './shapes.js';

/// Handles that a thumb can tell apart; the outline found has hundreds of points. Not swept.
const mostCornersOf = { area: 6, rim: 12 };
/// Ends of a known length closer than this share of the photo's width cannot give a sure scale; the server judges the rest.
const leastShare = 0.02;

export const shapeKinds = ['scale', 'area', 'rim', 'rows'];
export const isClosed = (kind) => kind === 'area' || kind === 'rim';

function lineAt(photo, degrees) {
  const angle = (degrees * Math.PI) / 180;
  const reach = Math.min(photo.width, photo.height) * 0.3;
  return [-1, 1].map((side) => [
    photo.width / 2 + side * reach * Math.cos(angle),
    photo.height / 2 + side * reach * Math.sin(angle),
  ]);
}

const starts = {
  scale: (photo, found) => found?.ruler_px ?? startLine(photo),
  area: (photo, found) => (found?.outline_px ? simplified(found.outline_px, mostCornersOf.area) : startArea(photo)),
  rim: (photo, found) => (found?.outline_px ? simplified(found.outline_px, mostCornersOf.rim) : startRim(photo)),
  rows: (photo, found) => found?.row_px ?? lineAt(photo, 0),
};
const foundKey = { scale: 'ruler_px', area: 'outline_px', rim: 'outline_px', rows: 'row_px' };

/// A shape as it begins: from the correction that was made, else where the program found it, else at a place of ours.
/// {kind, points, put: indices that the maker placed, trusted, text, unit}
export function startShape(kind, { photo, found, value, unit = 'cm' }) {
  if (value !== undefined) {
    const points = kind === 'scale' ? value.points : kind === 'rows' ? lineAt(photo, value) : value;
    return { kind, points, put: [], trusted: true, text: value.text ?? '', unit: value.unit ?? unit };
  }
  const trusted = found?.[foundKey[kind]] !== undefined;
  return { kind, points: starts[kind](photo, found), put: [], trusted, text: '', unit };
}

export const withPut = (shape, points, index) => ({
  ...shape,
  points,
  put: shape.put.includes(index) ? shape.put : [...shape.put, index],
});

/// What is still missing before the shape counts, as a key of the words; '' when it counts.
export function missing(shape) {
  const { kind, points, put, trusted, text } = shape;
  if (kind === 'rows') return '';
  if (kind === 'scale') {
    if (!trusted && put.length < 2) return 'need-ends';
    return isLength(text) ? '' : 'need-length';
  }
  if (crossesItself(points)) return 'crossing';
  return trusted || put.length >= points.length ? '' : 'need-use';
}

export const tooClose = (shape, photo) => shape.kind === 'scale' && lengthPx(shape.points) < leastShare * photo.width;

/// The value of the correction that the shape stands for.
export function valueOf({ kind, points, text, unit }) {
  if (kind === 'scale') return { points, length: lengthText(text, unit), text, unit };
  return kind === 'rows' ? directionDeg(points) : points;
}
