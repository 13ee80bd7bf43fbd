/// Save to a yarn: an existing one or a new name, with hook, state and mass.
import * as api from './api.js';
import { make } from './dom.js';
import { requireFilled, selectField, showFieldError, textField, tieToField, valuesOf } from './fields.js';
import { hook as hookText } from './format.js';
import { goodNotice, troubleNotice } from './notices.js';
import { word, wordOr } from './words.js';
import { yarnField } from './yarn_field.js';

export function savePanel({ session, choices }) {
  const fields = {
    yarn: yarnField({ name: 'yarn', label: word('saving.yarn'), hint: word('saving.yarn-hint'), required: true }),
    hook: textField({
      name: 'hook',
      label: word('saving.hook'),
      hint: word('measure.hook-hint'),
      required: true,
      list: choices.hooks_mm.map((mm) => hookText(mm).replace(' ', '')),
    }),
    state: selectField({
      name: 'state',
      label: word('saving.state'),
      options: [['', word('form.not-told')], ...choices.states.map((key) => [key, wordOr(`state.${key}`, key)])],
    }),
    mass: textField({
      name: 'mass',
      label: `${word('saving.mass')} ${word('form.optional')}`,
      hint: word('saving.mass-hint'),
    }),
  };
  const outcome = make('div', { 'aria-live': 'polite' });
  const go = make('button', { type: 'submit', class: 'main-button' }, word('saving.go'));
  const form = make(
    'form',
    {
      novalidate: true,
      onsubmit: (event) => {
        event.preventDefault();
        save();
      },
    },
    make(
      'div',
      { class: 'field-grid' },
      Object.values(fields).map(({ frame }) => frame),
    ),
    go,
  );
  const heading = make('h2', { tabindex: '-1' }, word('saving.heading'));
  const frame = make(
    'section',
    { class: 'saving', hidden: true, 'aria-label': word('saving.heading') },
    heading,
    form,
    outcome,
  );
  let known = new Set(); // names of the record

  async function save() {
    if (go.disabled || !requireFilled(fields, ['yarn', 'hook'])) return;
    const values = valuesOf(fields);
    go.disabled = true;
    outcome.replaceChildren(make('p', {}, word('saving.working')));
    let isNew = false;
    try {
      isNew = !known.has(values.yarn) && (await addYarn(values.yarn));
      known.add(values.yarn);
      await session.save(Object.fromEntries(Object.entries(values).filter(([, value]) => value)));
      outcome.replaceChildren(
        goodNotice(
          make('p', {}, word(isNew ? 'saving.done-new' : 'saving.done', { yarn: values.yarn })),
          make('a', { href: `#/yarn?${new URLSearchParams({ name: values.yarn })}` }, word('saving.see')),
        ),
      );
    } catch (trouble) {
      const message = trouble.message ?? '';
      if (trouble.status !== 400 || !tieToField(fields, message)) {
        outcome.replaceChildren(
          ...[
            isNew && make('p', {}, word('saving.yarn-added', { yarn: values.yarn })),
            troubleNotice(trouble, save),
          ].filter(Boolean),
        );
      } else outcome.replaceChildren();
    } finally {
      go.disabled = false;
    }
  }

  /// Adds the yarn; false where it has been in the record all along.
  async function addYarn(name) {
    try {
      await api.yarns.add({ name });
      return true;
    } catch (trouble) {
      if (trouble.kind === 'name-taken') return false;
      throw trouble;
    }
  }

  return {
    frame,
    open({ hook, yarn } = {}) {
      frame.hidden = false;
      outcome.replaceChildren();
      if (hook && !fields.hook.control.value) fields.hook.control.value = hook;
      if (yarn && !fields.yarn.control.value) fields.yarn.control.value = yarn;
      Object.values(fields).forEach((field) => showFieldError(field, ''));
      fields.yarn.suggest().then((names) => {
        known = names;
      });
      heading.focus();
    },
    close() {
      frame.hidden = true;
    },
  };
}
