/// The list of what was set by hand, each entry with a button that takes it back.
import * as corrections from './corrections.js';
import { button, make } from './dom.js';
import { word, wordOr } from './words.js';

/// A correction in words.
export function correctionText(name, value, stitchNames) {
  const values = {
    scale: () => ({ length: value.length }),
    unit: () => ({ unit: word(`correct.unit-${value}`) }),
    reference: () => ({ reference: wordOr(`reference.${value}`, value) }),
    area: () => ({ count: value.length }),
    rim: () => ({ count: value.length }),
    rows: () => ({ degrees: value }),
    stitch: () => ({ stitch: stitchNames[value] ?? value }),
    worked: () => ({ worked: word(`worked.${value}`) }),
    reading: () => ({}),
  };
  return word(`correction.${name}`, values[name]());
}

export function correctionList(session, stitchNames) {
  const list = make('ul', { class: 'corrections' });
  const undo = button(word('correct.undo'), () => session.undo());
  const frame = make('section', { class: 'corrected' }, make('h3', {}, word('correct.list-heading')), list, undo);
  return {
    frame,
    show(corrected) {
      const names = corrections.inOrder(corrected);
      const items = names.map((name) => {
        const text = correctionText(name, corrected.values[name], stitchNames());
        return make(
          'li',
          {},
          make('span', {}, text),
          button(
            word('correct.take-back'),
            () => {
              session.takeBack(name);
              undo.focus();
            },
            { 'aria-label': word('correct.take-back-full', { name: text }) },
          ),
        );
      });
      list.replaceChildren(...(items.length ? items : [make('li', { class: 'quiet' }, word('correct.list-none'))]));
      undo.setAttribute('aria-disabled', String(!corrections.canUndo(corrected)));
    },
  };
}
