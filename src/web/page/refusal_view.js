/// Not measured: why, what to change, and the way to set by hand what the program could not find.
import { button, make } from './dom.js';
import { word } from './words.js';

/// What can be set by hand where the program refused, by the refusal's code.
const mendedBy = {
  scale: [
    'no-ruler',
    'ruler-unreadable',
    'unit-undecided',
    'unit-conflict',
    'reference-not-found',
    'reference-ambiguous',
    'no-scale',
    'bad-geometry',
    'points-too-close',
  ],
  area: ['no-fabric', 'two-fabrics', 'area-outside', 'too-few-pitches'],
  rim: ['not-round', 'too-little-rim'],
  told: ['ambiguous', 'no-texture', 'no-stitches'],
};

/// The tool of the Correct view that answers a refusal of this kind of piece, or undefined.
export function toolFor(code, kind) {
  const tool = Object.keys(mendedBy).find((name) => mendedBy[name].includes(code));
  return kind === 'crown' && tool === 'area' ? 'rim' : tool;
}

/// Buttons for that tool; `onhand(tool)`.
export function handButton(code, kind, onhand, attributes = {}) {
  const tool = toolFor(code, kind);
  return tool && button(word(`correct.by-hand-${tool}`), () => onhand(tool), attributes);
}

/// `onhand` is undefined where nothing can be set by hand.
export function refusalView({ refusal, kind }, { onhand, onform }) {
  const byHand = onhand && handButton(refusal.code, kind, onhand, { class: 'main-button' });
  return make(
    'div',
    { class: 'refusal' },
    make(
      'div',
      { class: 'tag tag-refused' },
      make('p', { class: 'refusal-what' }, refusal.message),
      refusal.hint && make('p', {}, word('refusal.do', { hint: refusal.hint })),
      make('p', { class: 'quiet' }, word('refusal.why')),
    ),
    byHand && make('section', {}, make('p', {}, word(`correct.help-${toolFor(refusal.code, kind)}`)), byHand),
    make('p', {}, word('refusal.told')),
    button(word('measure.change'), onform),
  );
}
