/// What the three calculator views share: a form whose fields are the options of the command, and its answer.
import * as api from './api.js';
import { fold, make } from './dom.js';
import { requireFilled, tieToField, valuesOf } from './fields.js';
import { lastWins } from './last_wins.js';
import { troubleNotice } from './notices.js';
import { word } from './words.js';

export function cautionsPart(cautions) {
  if (!cautions?.length) return null;
  return make(
    'section',
    { class: 'cautions' },
    make('h3', {}, word('calc.cautions')),
    make(
      'ul',
      {},
      cautions.map(({ message }) => make('li', {}, message)),
    ),
  );
}

export function notesPart(reasons) {
  if (!reasons?.length) return null;
  return make(
    'section',
    { class: 'warnings' },
    make('h3', {}, word('calc.notes')),
    make(
      'ul',
      {},
      reasons.map(({ message }) => make('li', {}, message)),
    ),
  );
}

/// What a view with a gauge and a yarn offers whenever it is entered: the yarns of the record, and a button that fills
/// in the gauge of the last photo (`lastGauge()`: {text, per, stitch}, or null). `fill(found)` writes what else it tells.
export function gaugeOffer({ lastGauge, gauge, per, yarn, fill = () => {} }) {
  const button = make('button', {
    type: 'button',
    hidden: true,
    onclick: () => {
      const found = lastGauge();
      gauge.control.value = found.text;
      per.control.value = found.per;
      fill(found);
    },
  });
  return {
    button,
    enter() {
      yarn.suggest();
      const found = lastGauge();
      button.hidden = !found;
      if (found)
        button.textContent = word('calc.take-gauge', { gauge: `${found.text} / ${word(`span.${found.per}`)}` });
    },
  };
}

/// `fields` by the option's name; `lay(frames)` arranges them; `needed(values)` names the fields that must be filled;
/// `options(values)` gives the request; `draw(document)` gives what to show of the answer.
export function calculator({ what, heading, intro, fields, lay, needed, options, draw }) {
  const outcome = make('div', { class: 'outcome-words', 'aria-live': 'polite' });
  const runs = lastWins((signal, request) => api.calculate(what, request, signal), {
    onstart: () => outcome.replaceChildren(make('p', {}, word('calc.working'))),
    onanswer: ({ document: found, text }) =>
      outcome.replaceChildren(
        ...[
          make('h2', {}, word('calc.result')),
          draw(found),
          text && fold(word('calc.text'), make('pre', { tabindex: '0' }, text)),
        ]
          .flat()
          .filter(Boolean),
      ),
    onfault: (trouble) =>
      outcome.replaceChildren(
        ...(trouble.kind === 'bad-request' && tieToField(fields, trouble.message) ? [] : [troubleNotice(trouble, run)]),
      ),
  });

  function run() {
    const values = valuesOf(fields);
    if (!requireFilled(fields, needed(values))) return;
    runs.now(
      Object.fromEntries(Object.entries(options(values)).filter(([, value]) => value !== '' && value !== undefined)),
    );
  }

  const frames = Object.fromEntries(Object.entries(fields).map(([name, { frame }]) => [name, frame]));
  const form = make(
    'form',
    {
      novalidate: true,
      onsubmit: (event) => {
        event.preventDefault();
        run();
      },
    },
    lay(frames),
    make('button', { type: 'submit', class: 'main-button' }, word('calc.go')),
  );
  return {
    frame: make(
      'div',
      { class: 'calculator' },
      make('h1', { tabindex: '-1' }, heading),
      make('p', {}, intro),
      form,
      outcome,
    ),
    form,
  };
}
