/// Fingers and mouse on the photo: one moves it where it is zoomed, two pinch, a short touch is a tap.
import { moved, pinched } from './photo_frame.js';

const tapPx = 8;
const tapMs = 500;

export function stageGestures(stage, { view, setView, photo, room, ontap }) {
  const fingers = new Map();
  let tap = null;

  const at = (event) => {
    const corner = stage.getBoundingClientRect();
    return [event.clientX - corner.left, event.clientY - corner.top];
  };

  stage.addEventListener('pointerdown', (event) => {
    if (event.target.closest('.handle')) return;
    fingers.set(event.pointerId, at(event));
    tap = fingers.size === 1 ? { from: at(event), since: event.timeStamp } : null;
    try {
      stage.setPointerCapture(event.pointerId);
    } catch {
      // The pointer is gone already; nothing to follow.
    }
  });

  stage.addEventListener('pointermove', (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const after = at(event);
    if (tap && Math.hypot(after[0] - tap.from[0], after[1] - tap.from[1]) > tapPx) tap = null;
    const others = [...fingers.entries()].filter(([id]) => id !== event.pointerId).map(([, point]) => point);
    fingers.set(event.pointerId, after);
    if (others.length === 1) setView(pinched(view(), [others[0], before], [others[0], after], photo(), room()));
    else if (others.length === 0 && !tap)
      setView(moved(view(), [after[0] - before[0], after[1] - before[1]], photo(), room()));
  });

  stage.addEventListener('pointerup', (event) => {
    if (tap && fingers.has(event.pointerId) && event.timeStamp - tap.since < tapMs) ontap(at(event));
    fingers.delete(event.pointerId);
    tap = null;
  });
  stage.addEventListener('pointercancel', (event) => {
    fingers.delete(event.pointerId);
    tap = null;
  });
}
