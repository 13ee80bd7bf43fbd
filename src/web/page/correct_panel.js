/// Correct by hand: which thing is being set, its handles over the photo, and what it comes to.
import { correctionList } from './correct_list.js';
import { isClosed, missing, shapeKinds, startShape, tooClose, valueOf, withPut } from './correct_shapes.js';
import { correctStatus } from './correct_status.js';
import { readingPart, toldPart } from './correct_told.js';
import { button, make } from './dom.js';
import { radioSet, selectField, textField } from './fields.js';
import { handleLayer } from './handle_layer.js';
import { handButton } from './refusal_view.js';
import { settings } from './settings.js';
import { fewestCorners, withCorner, withoutCorner } from './shapes.js';
import { word } from './words.js';

const toolsOf = {
  swatch: ['scale', 'area', 'rows', 'told', 'reading'],
  crown: ['scale', 'rim', 'told'],
  piece: ['scale', 'area', 'told'],
};

function nudgePad(handles) {
  const key = (direction, sign, name) =>
    button(sign, () => handles.nudge(direction), {
      class: `tool-button pad-${name}`,
      'aria-label': word(`correct.${name}`),
    });
  return make(
    'div',
    { class: 'pad' },
    key('ArrowUp', '↑', 'up'),
    key('ArrowLeft', '←', 'left'),
    key('ArrowRight', '→', 'right'),
    key('ArrowDown', '↓', 'down'),
  );
}

export function correctPanel({ session, stage, choices, stitchNames, onclose, ontool }) {
  let tool = 'scale';
  let kind = null;
  let shapes = {};
  let applied = {};
  let isOpen = false;

  const handles = handleLayer(stage, {
    onchange: (points, gesture, index) => reshape(withPut(shapes[tool], points, index), gesture),
    onchoose: () => sayChosen(),
    ondelete: (index) => cut(index),
  });
  const help = make('p', {});
  const status = make('p', { class: 'correct-status', role: 'status' });
  const length = textField({ name: 'length', label: word('correct.length'), inputmode: 'text' });
  const unit = selectField({
    name: 'length-unit',
    label: word('correct.length-unit'),
    options: ['cm', 'in', 'mm'].map((key) => [key, key]),
  });
  const wayOut = make('div', {});
  const lengthRow = make('div', { class: 'field-row' }, length.frame, unit.frame);
  const chosenLine = make('span', { class: 'chosen-line' });
  const add = button(word('correct.add'), () => retell(withCorner(shapes[tool].points, handles.chosen)));
  const remove = button(word('correct.remove'), () => cut(handles.chosen));
  const use = button(word('correct.use'), () => reshape({ ...shapes[tool], trusted: true }), { class: 'main-button' });
  const corners = make('div', { class: 'button-row' }, add, remove);
  const moving = make(
    'div',
    { class: 'moving' },
    nudgePad(handles),
    make('div', { class: 'moving-words' }, chosenLine, corners),
  );
  const handleHelp = make('p', { class: 'quiet' }, word('correct.handles'));
  const told = toldPart(choices, (name, value) =>
    value === undefined ? session.takeBack(name) : session.correct(name, value),
  );
  const reading = readingPart((index) => session.correct('reading', index));
  const list = correctionList(session, stitchNames);
  const toolPlace = make('div', {});
  const heading = make('h2', { tabindex: '-1' }, word('correct.heading'));
  const frame = make(
    'section',
    { class: 'correct', hidden: true, 'aria-label': word('correct.heading') },
    heading,
    toolPlace,
    help,
    lengthRow,
    use,
    moving,
    handleHelp,
    told.frame,
    reading.frame,
    wayOut,
    list.frame,
    button(word('correct.done'), () => onclose(), { class: 'main-button' }),
  );

  let typing = 0; // what is typed until the field is left is one step of undo
  length.control.addEventListener('input', () =>
    reshape({ ...shapes.scale, text: length.control.value }, `typed-${typing}`),
  );
  length.control.addEventListener('change', () => {
    typing += 1;
  });
  unit.control.addEventListener('change', () => reshape({ ...shapes.scale, unit: unit.control.value }));

  const nameOf = (index) =>
    isClosed(tool)
      ? word(`handle.${tool}`, { number: index + 1, count: shapes[tool].points.length })
      : word(`handle.${tool}-${index}`);
  const cut = (index) => retell(withoutCorner(shapes[tool].points, index));

  function retell(points) {
    // A corner more or less is told like a corner that was moved, but says nothing of where the others belong.
    const { put } = shapes[tool];
    reshape({ ...shapes[tool], points, put: put.filter((index) => index < points.length) });
  }

  function reshape(shape, gesture = null) {
    shapes = { ...shapes, [shape.kind]: shape };
    if (!missing(shape) && !tooClose(shape, stage.photo)) {
      applied = { ...applied, [shape.kind]: valueOf(shape) };
      session.correct(shape.kind, applied[shape.kind], gesture);
    }
    drawTool();
  }

  function sayChosen() {
    if (shapes[tool]) chosenLine.textContent = word('correct.chosen', { handle: nameOf(handles.chosen) });
  }

  function say(now) {
    const { text, bad, lack, otherTool } = correctStatus({
      shape: shapes[tool],
      tool,
      now,
      busy: session.busy,
      units: settings().units,
    });
    use.hidden = lack !== 'need-use';
    wayOut.replaceChildren(...(otherTool ? [handButton(now.refusal.code, now.kind, switchTo)] : []));
    status.classList.toggle('is-bad', bad);
    if (status.textContent !== text) status.textContent = text;
  }

  function drawTool() {
    if (!isOpen) return;
    const shape = shapes[tool];
    help.textContent = shape ? word(`correct.help-${tool}`) : '';
    help.hidden = !shape;
    lengthRow.hidden = tool !== 'scale';
    moving.hidden = handleHelp.hidden = !shape;
    corners.hidden = !isClosed(tool);
    told.frame.hidden = tool !== 'told';
    reading.frame.hidden = tool !== 'reading';
    if (shape) {
      if (document.activeElement !== length.control) length.control.value = shapes.scale?.text ?? '';
      unit.control.value = shapes.scale?.unit ?? settings().units;
      remove.setAttribute('aria-disabled', String(shape.points.length <= fewestCorners));
      handles.show({ kind: tool, points: shape.points, closed: isClosed(tool), name: nameOf });
      sayChosen();
    } else handles.hide();
    say(session.now);
  }

  function start(name) {
    const { photo, answer, corrected } = session.now;
    applied = { ...applied, [name]: corrected.values[name] };
    shapes = {
      ...shapes,
      [name]: startShape(name, { photo, found: answer?.found, value: corrected.values[name], unit: settings().units }),
    };
  }

  function choose(name) {
    tool = name;
    if (shapeKinds.includes(name) && !shapes[name]) start(name);
    ontool?.(name);
    drawTool();
  }

  function layTools() {
    kind = session.now.kind;
    if (!toolsOf[kind].includes(tool)) tool = 'scale';
    const options = toolsOf[kind].map((name) => [name, word(`correct.tool-${name}`)]);
    toolPlace.replaceChildren(
      radioSet({
        name: 'tool',
        legend: word('correct.tool'),
        options,
        value: tool,
        onchange: choose,
        className: 'tools',
      }).frame,
    );
  }

  function switchTo(name) {
    tool = name;
    layTools();
    choose(tool);
    toolPlace.querySelector('input:checked').focus();
  }

  return {
    frame,
    open(name = tool) {
      isOpen = true;
      frame.hidden = false;
      stage.frame.append(status); // stays in view with the photo
      tool = name;
      layTools();
      choose(tool);
      heading.focus({ preventScroll: true });
    },
    close() {
      isOpen = false;
      frame.hidden = true;
      status.remove();
      handles.hide();
    },
    /// Another photo or another kind of piece: nothing of the old shapes holds.
    forget() {
      shapes = {};
      applied = {};
    },
    get isOpen() {
      return isOpen;
    },
    refresh(now) {
      if (!isOpen) return;
      if (kind !== now.kind) layTools();
      shapeKinds.filter((name) => shapes[name] && now.corrected.values[name] !== applied[name]).forEach(start);
      told.show({ values: now.corrected.values, kind: now.kind });
      reading.show({ rivals: now.rivals, values: now.corrected.values });
      list.show(now.corrected);
      drawTool();
    },
  };
}
