/// The shapes that are set by hand: pure functions of lists of points [x, y] in photo pixels.

export const fewestCorners = 3;
export const mostCorners = 24;

const rounded = (value) => Math.round(value * 10) / 10; // a tenth of a photo pixel is finer than any finger

/// The point inside of the photo that is nearest to `point`.
export function inside([x, y], photo) {
  const hold = (value, most) => rounded(Math.min(Math.max(value, 0), most));
  return [hold(x, photo.width - 1), hold(y, photo.height - 1)];
}

export const withPoint = (points, index, point) => points.map((old, i) => (i === index ? point : old));

/// A corner more, half-way between the corner at `index` and the next one.
export function withCorner(points, index) {
  if (points.length >= mostCorners) return points;
  const [ax, ay] = points[index];
  const [bx, by] = points[(index + 1) % points.length];
  const middle = [rounded((ax + bx) / 2), rounded((ay + by) / 2)];
  return [...points.slice(0, index + 1), middle, ...points.slice(index + 1)];
}

export function withoutCorner(points, index) {
  return points.length <= fewestCorners ? points : points.filter((_, i) => i !== index);
}

/// Two ends of a line to begin with: along the lower part of the photo, where a ruler often lies.
export function startLine(photo, height = 0.8) {
  return [
    inside([photo.width * 0.25, photo.height * height], photo),
    inside([photo.width * 0.75, photo.height * height], photo),
  ];
}

/// Four corners to begin with, around the middle of the photo.
export function startArea(photo) {
  return [
    [0.25, 0.25],
    [0.75, 0.25],
    [0.75, 0.75],
    [0.25, 0.75],
  ].map(([x, y]) => inside([x * photo.width, y * photo.height], photo));
}

/// Points on a circle around the middle of the photo.
export function startRim(photo, count = 8) {
  const radius = Math.min(photo.width, photo.height) * 0.3;
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return inside([photo.width / 2 + radius * Math.cos(angle), photo.height / 2 + radius * Math.sin(angle)], photo);
  });
}

/// A closed outline with at most `most` corners: again and again the corner goes whose triangle with its neighbours is
/// smallest (M. Visvalingam, J. D. Whyatt, Line generalisation by repeated elimination of points, 1993).
export function simplified(points, most) {
  const corners = [...points];
  const triangle = (i) => {
    const [[ax, ay], [bx, by], [cx, cy]] = [-1, 0, 1].map(
      (step) => corners[(i + step + corners.length) % corners.length],
    );
    return Math.abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax));
  };
  while (corners.length > Math.max(most, fewestCorners)) {
    const areas = corners.map((_, i) => triangle(i));
    corners.splice(areas.indexOf(Math.min(...areas)), 1);
  }
  return corners;
}

/// Whether a polygon crosses itself, so that its inside is not plain.
export function crossesItself(points) {
  const turn = (a, b, c) => Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
  const cross = (a, b, c, d) => turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
  const count = points.length;
  return points.some((a, i) =>
    points.some(
      (c, j) =>
        j > i + 1 && !(i === 0 && j === count - 1) && cross(a, points[(i + 1) % count], c, points[(j + 1) % count]),
    ),
  );
}

/// Direction of a line in degrees, 0 left to right, clockwise positive, within -90 (excluded) to 90.
export function directionDeg([[ax, ay], [bx, by]]) {
  const deg = (Math.atan2(by - ay, bx - ax) * 180) / Math.PI;
  const folded = deg > 90 ? deg - 180 : deg <= -90 ? deg + 180 : deg;
  return rounded(folded);
}

export const lengthPx = ([[ax, ay], [bx, by]]) => Math.hypot(bx - ax, by - ay);
