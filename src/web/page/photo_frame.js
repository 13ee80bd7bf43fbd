/// Where things of the photo stand on the screen. Points are [x, y]. The photo's own pixels are those of the upright
/// photo in full size (`photo`: {width, height}); screen points are CSS pixels from the corner of the stage (`stage`:
/// {width, height}). A `view` is {scale, x, y}: screen = photo * scale + (x, y).

const closest = 6; // screen pixels a photo pixel at most: stitches are counted, not pixels
/// How much nearer one press of a button or key brings the photo.
export const zoomStep = 1.5;

const between = (low, value, high) => Math.min(Math.max(value, low), high);

/// The whole photo, as large as the stage allows, in its middle.
export function fitted(photo, stage) {
  const scale = Math.min(stage.width / photo.width, stage.height / photo.height);
  return { scale, x: (stage.width - photo.width * scale) / 2, y: (stage.height - photo.height * scale) / 2 };
}

export const toScreen = (view, [x, y]) => [x * view.scale + view.x, y * view.scale + view.y];
export const toPhoto = (view, [x, y]) => [(x - view.x) / view.scale, (y - view.y) / view.scale];

/// The view moved so that no edge of the photo comes further in than needed.
export function kept(view, photo, stage) {
  const along = (offset, length, room) => (length <= room ? (room - length) / 2 : between(room - length, offset, 0));
  return {
    scale: view.scale,
    x: along(view.x, photo.width * view.scale, stage.width),
    y: along(view.y, photo.height * view.scale, stage.height),
  };
}

/// Zoomed by `factor` about a screen point, which stays where it is.
export function zoomed(view, factor, [x, y], photo, stage) {
  const least = fitted(photo, stage).scale;
  const scale = between(least, view.scale * factor, Math.max(closest, least));
  const [px, py] = toPhoto(view, [x, y]);
  return kept({ scale, x: x - px * scale, y: y - py * scale }, photo, stage);
}

export function moved(view, [dx, dy], photo, stage) {
  return kept({ ...view, x: view.x + dx, y: view.y + dy }, photo, stage);
}

/// Two fingers went from `before` to `after` (two screen points each): the photo follows both.
export function pinched(view, before, after, photo, stage) {
  const middle = ([a, b]) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const apart = ([a, b]) => Math.max(Math.hypot(a[0] - b[0], a[1] - b[1]), 1);
  const [fromX, fromY] = middle(before);
  const [toX, toY] = middle(after);
  const carried = { ...view, x: view.x + toX - fromX, y: view.y + toY - fromY };
  return zoomed(carried, apart(after) / apart(before), [toX, toY], photo, stage);
}

/// Moves the view so that a point of the photo is at least `margin` from the stage's edges, as far as that can be.
export function shown(view, point, margin, photo, stage) {
  const [x, y] = toScreen(view, point);
  const dx = between(margin, x, Math.max(stage.width - margin, margin)) - x;
  const dy = between(margin, y, Math.max(stage.height - margin, margin)) - y;
  return moved(view, [dx, dy], photo, stage);
}

/// Where a picture of the photo lies in the photo's pixels. The program's picture may have a caption above the photo:
/// what is higher than the photo's shape allows is caption. Gives {left, top, width, height}.
export function placed(picture, photo) {
  const scale = photo.width / picture.width;
  const height = picture.height * scale;
  const caption = Math.max(height - photo.height, 0);
  return { left: 0, top: -caption, width: photo.width, height };
}

/// Whether a picture that the browser decoded itself shows the upright photo as the program sees it: the same shape, to
/// a pixel of the picture.
export function sameShape(picture, photo) {
  return Math.abs(picture.width * photo.height - picture.height * photo.width) <= Math.max(photo.width, photo.height);
}
