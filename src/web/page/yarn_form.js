/// The form of a yarn, for adding and for editing.
import { fold, make } from './dom.js';
import { areaField, requireFilled, selectField, showFieldError, textField, tieToField, valuesOf } from './fields.js';
import { troubleNotice } from './notices.js';
import { plain } from './format.js';
import { word } from './words.js';
import { yarnOfForm } from './yarn_words.js';

const numbers = ['weight_category', 'ball_g', 'ball_m', 'balls'];

/// `onsave(yarn)` gives a promise; what it throws is shown, and what was typed stays.
export function yarnForm({ choices, yarn = {}, submit, onsave }) {
  const value = (name) => (yarn[name] === undefined ? '' : numbers.includes(name) ? plain(yarn[name], 3) : yarn[name]);
  const line = (name, label, more = {}) => textField({ name, label: word(label), value: value(name), ...more });
  const fields = {
    name: line('name', 'yarn.name', { hint: word('yarn.name-hint'), required: true }),
    weight_category: selectField({
      name: 'weight_category',
      label: word('yarn.weight'),
      value: value('weight_category'),
      options: [
        ['', word('form.not-told')],
        ...choices.yarn_weights.map(({ key, name }) => [String(key), `${name} (${key})`]),
      ],
    }),
    balls: line('balls', 'yarn.balls', { inputmode: 'decimal' }),
    ball_g: line('ball_g', 'yarn.ball-g', { inputmode: 'decimal' }),
    ball_m: line('ball_m', 'yarn.ball-m', { inputmode: 'decimal' }),
    colour: line('colour', 'yarn.colour'),
    fibre: line('fibre', 'yarn.fibre'),
    dye_lot: line('dye_lot', 'yarn.dye-lot'),
    notes: areaField({ name: 'notes', label: word('yarn.notes'), value: value('notes') }),
  };
  const outcome = make('div', {});
  const go = make('button', { type: 'submit', class: 'main-button' }, submit);

  async function save() {
    if (go.disabled || !requireFilled(fields, ['name'])) return;
    const { yarn: told, bad = [] } = yarnOfForm(valuesOf(fields), numbers);
    Object.entries(fields).forEach(([name, field]) =>
      showFieldError(field, bad.includes(name) ? word('yarn.not-a-number') : ''),
    );
    if (bad.length) {
      more.open = true;
      fields[bad[0]].control.focus();
      return;
    }
    go.disabled = true;
    outcome.replaceChildren();
    try {
      await onsave(told);
    } catch (trouble) {
      if (!tieToField(fields, trouble.message ?? '')) outcome.replaceChildren(troubleNotice(trouble, save));
    } finally {
      go.disabled = false;
    }
  }

  const { name, balls, ball_g: grams, ball_m: metres, ...rest } = fields;
  const more = fold(
    word('yarn.more'),
    make(
      'div',
      { class: 'field-grid' },
      Object.values(rest).map(({ frame }) => frame),
    ),
  );
  return make(
    'form',
    {
      novalidate: true,
      onsubmit: (event) => {
        event.preventDefault();
        save();
      },
    },
    name.frame,
    make('div', { class: 'field-row' }, balls.frame, grams.frame, metres.frame),
    more,
    outcome,
    go,
  );
}
