/// Handles over the photo: rings that are dragged, tapped into place, or moved by keys. What they mean is told by the
/// caller; this file only moves points.
import { make, svg } from './dom.js';
import { magnifier } from './magnifier.js';
import { announce } from './notices.js';
import { inside, withPoint } from './shapes.js';
import { word } from './words.js';

const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const farStep = 10;
const announceAfterMs = 600;

/// `onchange(points, gesture)`: points were moved; changes of one gesture belong together. `onchoose(index)`.
export function handleLayer(stage, { onchange, onchoose, ondelete }) {
  const glass = magnifier(stage);
  const lines = svg('svg', { class: 'handle-lines', 'aria-hidden': 'true', focusable: 'false' });
  const room = make('div', { class: 'handles' });
  stage.layer.append(lines, room);
  let shape = null; // {points, closed, name(index)}
  let rings = [];
  let chosen = 0;
  let gesture = 0;
  let sayTimer = null;

  const label = (index) => {
    const [x, y] = shape.points[index].map(Math.round);
    return word('handle.at', { name: shape.name(index), x, y });
  };

  function draw() {
    if (!shape) return;
    const points = shape.points.map(stage.screenOf);
    const path =
      points.map(([x, y], i) => `${i ? 'L' : 'M'}${x.toFixed(1)} ${y.toFixed(1)}`).join('') + (shape.closed ? 'Z' : '');
    lines.replaceChildren(
      svg('path', { class: 'handle-casing', d: path }),
      svg('path', { class: 'handle-line', d: path }),
    );
    points.forEach(([x, y], i) => {
      rings[i].style.transform = `translate(${x}px, ${y}px)`;
      rings[i].setAttribute('aria-label', label(i));
      rings[i].setAttribute('aria-pressed', String(i === chosen));
    });
  }

  function choose(index) {
    if (index !== chosen) gesture += 1;
    chosen = index;
    draw();
    onchoose?.(index);
  }

  function put(index, point) {
    shape = { ...shape, points: withPoint(shape.points, index, inside(point, stage.photo)) };
    draw();
    glass.show(shape.points[index]);
    onchange(shape.points, `${shape.kind}-${gesture}`, index);
  }

  function step(index, [dx, dy], times) {
    const far = times / stage.view.scale; // one pixel of the screen
    const [x, y] = shape.points[index];
    put(index, [x + dx * far, y + dy * far]);
    stage.reveal(shape.points[index]);
    glass.show(shape.points[index]);
    clearTimeout(sayTimer);
    sayTimer = setTimeout(() => announce(label(index)), announceAfterMs);
  }

  function ring(index) {
    let grip = null;
    const letGo = () => {
      grip = null;
      glass.hide();
    };
    return make(
      'button',
      {
        type: 'button',
        class: 'handle',
        'data-index': index,
        onpointerdown: (event) => {
          if (grip || event.button > 0) return;
          gesture += 1;
          choose(index);
          const [x, y] = stage.screenOf(shape.points[index]);
          grip = { id: event.pointerId, dx: event.clientX - x, dy: event.clientY - y };
          event.currentTarget.setPointerCapture(event.pointerId);
          glass.show(shape.points[index]);
        },
        onpointermove: (event) => {
          if (grip?.id === event.pointerId)
            put(index, stage.photoOf([event.clientX - grip.dx, event.clientY - grip.dy]));
        },
        onpointerup: letGo,
        onpointercancel: letGo,
        onlostpointercapture: letGo,
        onfocus: () => choose(index),
        onblur: () => glass.hide(),
        onkeydown: (event) => {
          if (event.key in arrows && !event.ctrlKey && !event.altKey && !event.metaKey) {
            event.preventDefault();
            step(index, arrows[event.key], event.shiftKey ? farStep : 1);
          } else if ((event.key === 'Delete' || event.key === 'Backspace') && shape.closed) {
            event.preventDefault();
            ondelete?.(index);
          }
        },
      },
      make('span', { class: 'handle-ring' }),
    );
  }

  stage.onview(draw);
  stage.ontap = (point) => {
    if (!shape) return;
    gesture += 1;
    put(chosen, point);
    setTimeout(() => glass.hide(), announceAfterMs);
  };

  return {
    /// Shows a shape: {kind, points, closed, name(index)}.
    show(next) {
      const rebuild = !shape || shape.kind !== next.kind || shape.points.length !== next.points.length;
      shape = next;
      chosen = Math.min(chosen, next.points.length - 1);
      if (rebuild) {
        const held = rings.includes(document.activeElement);
        if (!rings.length || held) gesture += 1;
        rings = next.points.map((_, i) => ring(i));
        room.replaceChildren(...rings);
        if (held) rings[chosen].focus();
      }
      stage.stage.classList.add('has-handles');
      draw();
    },
    hide() {
      shape = null;
      rings = [];
      room.replaceChildren();
      lines.replaceChildren();
      glass.hide();
      stage.stage.classList.remove('has-handles');
    },
    nudge: (direction, times = 1) => {
      if (shape) step(chosen, arrows[direction], times);
      setTimeout(() => glass.hide(), announceAfterMs * 2);
    },
    choose,
    get chosen() {
      return chosen;
    },
  };
}
