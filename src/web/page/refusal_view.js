/// Not measured: why, what to change, and the way to set by hand what the program could not find.
import { button, make } from './dom.js';
import { word } from './words.js';

/// Refusals that two points of known distance can answer.
const mendedByScale = ['no-ruler', 'ruler-unreadable', 'unit-undecided', 'unit-conflict', 'reference-not-found', 'reference-ambiguous', 'no-scale', 'bad-geometry',
  'points-too-close'];

export function refusalView({ refusal }, { onhand, onform }) {
  const byScale = mendedByScale.includes(refusal.code);
  return make('div', { class: 'refusal' },
    make('div', { class: 'tag tag-refused' },
      make('p', { class: 'refusal-what' }, refusal.message),
      refusal.hint && make('p', {}, word('refusal.do', { hint: refusal.hint })),
      make('p', { class: 'quiet' }, word('refusal.why'))),
    byScale && make('section', {}, make('p', {}, word('correct.by-hand-help')), button(word('correct.by-hand'), onhand, { class: 'main-button' })),
    make('p', {}, word('refusal.told')), button(word('measure.change'), onform));
}
