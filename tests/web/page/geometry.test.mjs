// Where points of the photo stand on the screen, and the shapes set by hand.
import assert from 'node:assert/strict';
import test from 'node:test';
import {
  fitted,
  kept,
  pinched,
  placed,
  sameShape,
  shown,
  toPhoto,
  toScreen,
  zoomed,
} from '../../../src/web/page/photo_frame.js';
import {
  crossesItself,
  directionDeg,
  inside,
  lengthPx,
  simplified,
  startArea,
  startLine,
  startRim,
  withCorner,
  withoutCorner,
  withPoint,
} from '../../../src/web/page/shapes.js';

const photo = { width: 1800, height: 1350 };
const stage = { width: 360, height: 300 };
const near = (got, want, by = 1e-9) =>
  got.forEach((value, i) => assert.ok(Math.abs(value - want[i]) <= by, `${got} is not ${want}`));

test('the whole photo fits into the stage and lies in its middle', () => {
  const view = fitted(photo, stage);
  assert.equal(view.scale, 0.2);
  near(toScreen(view, [0, 0]), [0, 15]);
  near(toScreen(view, [1800, 1350]), [360, 285]);
});

test("photo and screen points are each other's inverse", () => {
  const view = { scale: 0.37, x: -41, y: 12.5 };
  for (const point of [
    [0, 0],
    [1799, 3],
    [640.5, 980.25],
  ])
    near(toPhoto(view, toScreen(view, point)), point, 1e-9);
});

test('zooming keeps the point under the finger where it is', () => {
  const view = fitted(photo, stage);
  const finger = [200, 160];
  const before = toPhoto(view, finger);
  const closer = zoomed(view, 3, finger, photo, stage);
  near(toPhoto(closer, finger), before, 1e-9);
  assert.ok(Math.abs(closer.scale - 0.6) < 1e-12);
});

test('zooming out ends with the whole photo, zooming in ends at six screen pixels a photo pixel', () => {
  const view = fitted(photo, stage);
  assert.deepEqual(zoomed(view, 0.01, [10, 10], photo, stage), view);
  assert.equal(zoomed(view, 1e6, [10, 10], photo, stage).scale, 6);
});

test('no edge of the photo comes further in than needed', () => {
  const view = kept({ scale: 1, x: 500, y: -5000 }, photo, stage);
  near([view.x, view.y], [0, 300 - 1350]);
});

test('two fingers that move together move the photo, apart they enlarge it', () => {
  const view = zoomed(fitted(photo, stage), 4, [180, 150], photo, stage);
  const together = pinched(
    view,
    [
      [100, 100],
      [200, 100],
    ],
    [
      [110, 120],
      [210, 120],
    ],
    photo,
    stage,
  );
  near([together.x - view.x, together.y - view.y, together.scale], [10, 20, view.scale], 1e-9);
  const apart = pinched(
    view,
    [
      [100, 100],
      [200, 100],
    ],
    [
      [50, 100],
      [250, 100],
    ],
    photo,
    stage,
  );
  assert.ok(Math.abs(apart.scale / view.scale - 2) < 1e-9);
});

test('a point outside of the view is brought inside', () => {
  const view = zoomed(fitted(photo, stage), 10, [0, 0], photo, stage);
  const [x, y] = toScreen(shown(view, [900, 700], 40, photo, stage), [900, 700]);
  assert.ok(x >= 40 && x <= 320 && y >= 40 && y <= 260, `${x}, ${y}`);
});

test('a picture that is higher than the photo has its caption above the photo', () => {
  assert.deepEqual(placed({ width: 900, height: 675 }, photo), { left: 0, top: -0, width: 1800, height: 1350 });
  assert.deepEqual(placed({ width: 900, height: 875 }, photo), { left: 0, top: -400, width: 1800, height: 1750 });
  assert.ok(sameShape({ width: 450, height: 337 }, photo));
  assert.ok(!sameShape({ width: 1350, height: 1800 }, photo));
});

test('points stay inside of the photo', () => {
  assert.deepEqual(inside([-3, 5000], photo), [0, 1349]);
  assert.deepEqual(inside([12.345, 6.789], photo), [12.3, 6.8]);
});

test('corners are moved, added half-way and removed down to a triangle', () => {
  const square = [
    [0, 0],
    [10, 0],
    [10, 10],
    [0, 10],
  ];
  assert.deepEqual(withPoint(square, 2, [12, 12])[2], [12, 12]);
  assert.deepEqual(withCorner(square, 3), [...square, [0, 5]]);
  const triangle = withoutCorner(square, 0);
  assert.equal(triangle.length, 3);
  assert.equal(withoutCorner(triangle, 0), triangle);
});

test('an outline that crosses itself is told', () => {
  assert.ok(
    !crossesItself([
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ]),
  );
  assert.ok(
    crossesItself([
      [0, 0],
      [10, 10],
      [10, 0],
      [0, 10],
    ]),
  );
  assert.ok(!crossesItself(startRim(photo)));
});

test('directions are clockwise from left to right, whichever end is named first', () => {
  assert.equal(
    directionDeg([
      [0, 0],
      [100, 100],
    ]),
    45,
  );
  assert.equal(
    directionDeg([
      [100, 100],
      [0, 0],
    ]),
    45,
  );
  assert.equal(
    directionDeg([
      [0, 0],
      [100, -10],
    ]),
    -5.7,
  );
  assert.equal(
    directionDeg([
      [0, 0],
      [0, 50],
    ]),
    90,
  );
  assert.equal(
    directionDeg([
      [0, 50],
      [0, 0],
    ]),
    90,
  );
});

test('shapes begin inside of the photo', () => {
  for (const points of [startLine(photo), startArea(photo), startRim(photo)])
    points.forEach((point) => assert.deepEqual(inside(point, photo), point));
  assert.equal(lengthPx(startLine(photo)), 900);
});

test('an outline of many points keeps its corners', () => {
  const along = ([ax, ay], [bx, by]) =>
    Array.from({ length: 20 }, (_, i) => [ax + ((bx - ax) * i) / 20, ay + ((by - ay) * i) / 20]);
  const corners = [
    [0, 0],
    [100, 5],
    [95, 80],
    [-5, 78],
  ];
  const outline = corners.flatMap((corner, i) => along(corner, corners[(i + 1) % 4]));
  assert.deepEqual(simplified(outline, 4), corners);
  assert.equal(simplified(outline, 6).length, 6);
  assert.equal(simplified(outline, 1).length, 3);
  const circle = Array.from({ length: 360 }, (_, i) => [Math.cos((i * Math.PI) / 180), Math.sin((i * Math.PI) / 180)]);
  const few = simplified(circle, 12);
  const steps = few.map((point, i) => lengthPx([point, few[(i + 1) % few.length]]));
  assert.ok(Math.max(...steps) / Math.min(...steps) < 2.5, String(steps));
});
