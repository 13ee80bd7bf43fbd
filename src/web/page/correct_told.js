/// Corrections that are chosen from a list: stitch, how it was worked, what the ruler counts in, what gives the scale,
/// and another reading of the fabric.
import { button, make } from './dom.js';
import { selectField } from './fields.js';
import { rivalText } from './result_words.js';
import { settings } from './settings.js';
import { word, wordOr } from './words.js';

const empty = '';

/// Selects for stitch, worked, unit and reference. `set(name, value or undefined)`.
export function toldPart(choices, set) {
  const field = (name, label, options, first) => {
    const select = selectField({ name, label, options: [[empty, first], ...options] });
    select.control.addEventListener('change', () => set(name, select.control.value || undefined));
    return select;
  };
  const stitches = choices.stitches.map((stitch) => [stitch.key, stitch[settings().terms]]);
  const fields = {
    stitch: field('stitch', word('measure.stitch'), stitches, word('correct.stitch-auto')),
    worked: field(
      'worked',
      word('measure.worked'),
      choices.worked.map((key) => [key, word(`worked.${key}`)]),
      word('correct.stitch-auto'),
    ),
    unit: field(
      'unit',
      word('correct.unit'),
      ['mm', 'inch'].map((key) => [key, word(`correct.unit-${key}`)]),
      word('correct.unit-auto'),
    ),
    reference: field(
      'reference',
      word('correct.reference'),
      choices.references.map((object) => [object.key, wordOr(`reference.${object.key}`, object.name)]),
      word('correct.reference-ruler'),
    ),
  };
  return {
    frame: make(
      'div',
      { class: 'field-grid' },
      Object.values(fields).map(({ frame }) => frame),
    ),
    show({ values, kind }) {
      Object.entries(fields).forEach(([name, { control }]) => {
        control.value = values[name] ?? empty;
      });
      fields.worked.frame.hidden = kind !== 'swatch';
      fields.stitch.frame.hidden = kind === 'piece';
    },
  };
}

/// The other readings that the program weighed, each with a button.
export function readingPart(take) {
  const list = make('ul', { class: 'rivals' });
  const frame = make('div', {}, make('p', {}, word('rivals.help')), list);
  return {
    frame,
    show({ rivals, values }) {
      // Readings that differ by less than is shown are one to the maker; the first of them scored best.
      const texts = rivals.map((rival) => rivalText(rival, settings().units));
      const items = texts
        .map((reading, index) => {
          if (texts.indexOf(reading) !== index) return null;
          const taken = values.reading === index;
          return make(
            'li',
            {},
            make('span', {}, reading),
            button(word('rivals.take'), () => take(index), {
              'aria-label': word('rivals.take-full', { reading }),
              'aria-pressed': String(taken),
            }),
          );
        })
        .filter(Boolean);
      list.replaceChildren(...(items.length ? items : [make('li', {}, word('rivals.none'))]));
    },
  };
}
