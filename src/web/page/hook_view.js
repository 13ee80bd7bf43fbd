/// Is my hook right? Your gauge against the pattern's.
import { calculator, gaugeOffer } from './calculator.js';
import { make, table } from './dom.js';
import { selectField, textField } from './fields.js';
import { fixed, hook as hookText, percent, plusMinus } from './format.js';
import { hookSentence } from './result_words.js';
import { settings } from './settings.js';
import { word } from './words.js';
import { yarnField } from './yarn_field.js';

const signed = (share) => `${share > 0 ? '+' : ''}${percent(share, 1)}`;

function draw({ advice }) {
  const row = (name) => {
    const part = advice[name];
    return (
      part && [
        word(`hookview.${name}`),
        plusMinus(part.yours_per_10cm, 1),
        fixed(part.wanted_per_10cm, 1),
        signed(part.size_error.value),
        `${signed(part.size_error.low95)} … ${signed(part.size_error.high95)}`,
      ]
    );
  };
  return [
    make('p', { class: 'verdict' }, hookSentence(advice)),
    table({
      className: 'figures cards',
      caption: word('hookview.table'),
      head: ['what', 'yours', 'wanted', 'size', 'between'].map((key) => word(`hookview.${key}`)),
      rows: ['stitches', 'rows'].map(row).filter(Boolean),
    }),
    make(
      'ul',
      {},
      (advice.reasons ?? []).map(({ message }) => make('li', {}, message)),
    ),
  ];
}

export function hookView({ choices, lastGauge }) {
  const field = (name, more = {}) => textField({ name, label: word(`hookview.${name}`), ...more });
  const fields = {
    have: field('have', { hint: word('hookview.have-hint') }),
    yarn: yarnField({ name: 'yarn', label: word('calc.yarn'), hint: word('hookview.yarn-hint') }),
    want: field('want', { hint: word('hookview.want-hint'), required: true }),
    per: selectField({
      name: 'per',
      label: word('hookview.per'),
      value: settings().units === 'in' ? '4in' : '10cm',
      options: ['10cm', '4in'].map((key) => [key, word(`span.${key}`)]),
    }),
    hook: field('hook', {
      hint: word('measure.hook-hint'),
      list: choices.hooks_mm.map((mm) => hookText(mm).replace(' ', '')),
    }),
    hooks: field('hooks', { hint: word('measure.hooks-hint') }),
    piece: field('piece', { hint: word('hookview.piece-hint') }),
    tolerance: field('tolerance', { hint: word('hookview.tolerance-hint') }),
  };
  const offer = gaugeOffer({ lastGauge, gauge: fields.have, per: fields.per, yarn: fields.yarn });
  const view = calculator({
    what: 'hook',
    heading: word('hookview.heading'),
    intro: word('hookview.intro'),
    fields,
    draw,
    lay: (frames) => [
      frames.have,
      offer.button,
      frames.yarn,
      frames.want,
      frames.per,
      frames.hook,
      make('div', { class: 'field-grid' }, frames.hooks, frames.piece, frames.tolerance),
    ],
    needed: ({ yarn }) => (yarn ? ['want'] : ['have', 'want']),
    options: (values) => ({ ...values, units: settings().units }),
  });
  return { ...view, enter: offer.enter };
}
