/// Find a yarn for a gauge.
import * as api from './api.js';
import { make, table } from './dom.js';
import { requireFilled, selectField, textField, tieToField, valuesOf } from './fields.js';
import { hook, plain } from './format.js';
import { troubleNotice } from './notices.js';
import { gaugeText } from './request.js';
import { address } from './router.js';
import { settings } from './settings.js';
import { word, wordOr } from './words.js';
import { gaugePair, left } from './yarn_words.js';

const per = (units) => (units === 'in' ? '4in' : '10cm');

function matchesTable(matches, units) {
  return [
    table({
      className: 'figures cards',
      caption: word('find.results'),
      head: [
        word('find.yarn'),
        word('find.fit'),
        word('find.hook'),
        word('find.gauge', { span: word(`span.${per(units)}`) }),
        word('find.left'),
      ],
      rows: matches.map((match) => [
        make('a', { href: address('yarn', { name: match.name }) }, match.name),
        wordOr(`find.fit-${match.fit}`, match.fit),
        match.hook_mm ? hook(match.hook_mm) : '',
        gaugePair(match, units),
        left(match),
      ]),
    }),
    make('p', { class: 'quiet' }, word('find.help')),
  ];
}

export function findView() {
  const { units } = settings();
  const fields = {
    stitches: textField({ name: 'stitches', label: word('find.stitches'), inputmode: 'decimal', required: true }),
    rows: textField({ name: 'rows', label: `${word('find.rows')} ${word('form.optional')}`, inputmode: 'decimal' }),
    per: selectField({
      name: 'per',
      label: word('find.per'),
      value: per(units),
      options: ['10cm', '4in'].map((key) => [key, word(`span.${key}`)]),
    }),
    tolerance: textField({
      name: 'tolerance',
      label: word('find.tolerance'),
      hint: word('find.tolerance-hint'),
      value: `${plain(5)}%`,
    }),
  };
  const outcome = make('div', { 'aria-live': 'polite' });

  async function find() {
    if (!requireFilled(fields, ['stitches'])) return;
    const { stitches, rows, per: span, tolerance } = valuesOf(fields);
    try {
      const gauge = `${gaugeText(stitches, rows)}${span === '4in' ? '/4in' : ''}`;
      const { matches } = await api.yarns.find({ gauge, ...(tolerance && { tolerance }) });
      outcome.replaceChildren(...(matches.length ? matchesTable(matches, units) : [make('p', {}, word('find.none'))]));
    } catch (trouble) {
      outcome.replaceChildren(...(tieToField(fields, trouble.message ?? '') ? [] : [troubleNotice(trouble, find)]));
    }
  }

  return {
    frame: make(
      'div',
      {},
      make('p', {}, make('a', { class: 'back', href: address('yarns') }, word('yarns.all'))),
      make('h1', { tabindex: '-1' }, word('find.heading')),
      make(
        'form',
        {
          novalidate: true,
          onsubmit: (event) => {
            event.preventDefault();
            find();
          },
        },
        make('div', { class: 'field-row' }, fields.stitches.frame, fields.rows.frame, fields.per.frame),
        fields.tolerance.frame,
        make('button', { type: 'submit', class: 'main-button' }, word('find.go')),
      ),
      outcome,
    ),
  };
}
