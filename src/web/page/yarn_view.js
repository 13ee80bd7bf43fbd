/// One yarn: what is left, gauge by hook with its picture, gauge lines to copy, and what can be done with it.
import * as api from './api.js';
import { fold, make, table, terms } from './dom.js';
import { showFieldError, textField } from './fields.js';
import { hook, size } from './format.js';
import { announce, troubleNotice } from './notices.js';
import { copyLine } from './result_view.js';
import { gaugeLines } from './result_words.js';
import { address, go } from './router.js';
import { settings } from './settings.js';
import { word, wordOr } from './words.js';
import { changes, gaugeRows, left, oneBall, stateWords } from './yarn_words.js';
import { yarnForm } from './yarn_form.js';

const span = () => word(`span.${settings().units === 'in' ? '4in' : '10cm'}`);

function facts(yarn, choices) {
  const weight = choices.yarn_weights.find(({ key }) => String(key) === String(yarn.weight_category));
  return terms([
    [word('yarn.left'), left(yarn)],
    [word('yarn.one-ball'), oneBall(yarn)],
    [word('yarn.weight'), weight && `${weight.name} (${weight.key})`],
    [word('yarn.colour'), yarn.colour],
    [word('yarn.fibre'), yarn.fibre],
    [word('yarn.dye-lot'), yarn.dye_lot],
    [word('yarn.added'), yarn.added],
    [word('yarn.notes'), yarn.notes],
  ]);
}

function gaugePart(yarn, { stitches, abbreviations }) {
  const gauges = yarn.gauge_by_hook ?? [];
  if (!gauges.length) return make('p', {}, word('yarn.no-gauge'));
  const lines = gauges.flatMap((gauge) => {
    const tail = [
      gauge.hook_mm && word('result.gauge-hook', { hook: hook(gauge.hook_mm) }),
      gauge.state && `, ${stateWords(gauge.state)}`,
    ]
      .filter(Boolean)
      .join('');
    const line = gaugeLines(
      {
        stitches: gauge.stitches_per_10cm,
        rows: gauge.rows_per_10cm ?? null,
        rowsKey: gauge.worked === 'round' ? 'rounds' : 'rows',
      },
      abbreviations[gauge.stitch] ?? word('result.stitches').toLowerCase(),
      tail,
    );
    return line[settings().units === 'in' ? 1 : 0];
  });
  return [
    table({
      className: 'figures cards',
      caption: word('yarn.gauge-by-hook', { span: span() }),
      head: ['hook', 'stitch', 'state', 'gauge', 'rows', 'times'].map((key) => word(`yarn.${key}`)),
      rows: gaugeRows(gauges, settings().units, stitches),
    }),
    make('img', { class: 'plot', src: api.yarns.plotUrl(yarn.name, settings().units), alt: word('yarn.plot-alt') }),
    make('h2', {}, word('result.gauge-heading')),
    make('ul', { class: 'copy-lines' }, lines.map(copyLine)),
  ];
}

function sizeText(one) {
  const exact = (mm) => size({ value: mm, std: 0, low95: mm, high95: mm }, settings().units).replace(/ ± 0/, '');
  if (one.diameter_mm) return exact(one.diameter_mm);
  return [one.width_mm, one.height_mm].filter(Boolean).map(exact).join(' × ');
}

function measurementsPart(yarn, { stitches }) {
  const all = yarn.measurements ?? [];
  if (!all.length) return null;
  return fold(
    `${word('yarn.measurements')} (${all.length})`,
    table({
      className: 'figures cards',
      caption: word('yarn.measurements'),
      head: ['number', 'day', 'what', 'hook', 'stitch', 'state', 'size', 'by-hand'].map((key) => word(`yarn.${key}`)),
      rows: all.map((one) => [
        String(one.number),
        one.taken ?? '',
        wordOr(`yarn.kind-${one.kind}`, one.kind),
        one.hook_mm ? hook(one.hook_mm) : '',
        stitches[one.stitch] ?? '',
        stateWords(one.state),
        sizeText(one),
        one.report?.corrected?.length ? word('yarn.corrected') : '',
      ]),
    }),
  );
}

function usePart(yarn, onused) {
  const field = textField({ name: 'amount', label: word('yarn.use-amount'), hint: word('yarn.use-hint') });
  const outcome = make('div', {});
  const use = async (event) => {
    event.preventDefault();
    const amount = field.control.value.trim();
    showFieldError(field, amount ? '' : word('form.needed'));
    if (!amount) return;
    try {
      await api.yarns.use(yarn.name, amount);
      announce(word('yarn.used'));
      onused();
    } catch (trouble) {
      if (trouble.kind === 'lost' || trouble.status >= 500) outcome.replaceChildren(troubleNotice(trouble));
      else showFieldError(field, trouble.message);
    }
  };
  return fold(
    word('yarn.use'),
    make(
      'form',
      { novalidate: true, onsubmit: use },
      field.frame,
      outcome,
      make('button', { type: 'submit' }, word('yarn.use-go')),
    ),
  );
}

function removePart(yarn, onremoved) {
  const outcome = make('div', {});
  const remove = async () => {
    try {
      await api.yarns.remove(yarn.name);
      onremoved(yarn.name);
    } catch (trouble) {
      outcome.replaceChildren(troubleNotice(trouble, remove));
    }
  };
  return fold(
    word('yarn.remove'),
    make('p', {}, word('yarn.remove-help')),
    outcome,
    make('button', { type: 'button', class: 'danger-button', onclick: remove }, word('yarn.remove-heading')),
  );
}

/// Shows the yarn of that name. `onremoved(name)` is called once it is gone.
export function yarnView({ name, choices, names, onremoved }) {
  const inside = make('div', {}, make('p', {}, word('yarns.loading')));

  function draw(yarn) {
    const edit = fold(
      word('yarn.edit'),
      yarnForm({
        choices,
        yarn,
        submit: word('form.save'),
        onsave: async (told) => {
          const change = changes(yarn, told);
          if (Object.keys(change).length) await api.yarns.edit(yarn.name, change);
          announce(word('yarn.saved'));
          if (told.name === yarn.name) await load();
          else go('yarn', { name: told.name });
        },
      }),
    );
    inside.replaceChildren(
      ...[
        facts(yarn, choices),
        gaugePart(yarn, names()),
        measurementsPart(yarn, names()),
        usePart(yarn, load),
        edit,
        removePart(yarn, onremoved),
      ]
        .flat()
        .filter(Boolean),
    );
  }

  async function load() {
    try {
      const { yarns } = await api.yarns.show(name);
      draw(yarns[0]);
    } catch (trouble) {
      inside.replaceChildren(troubleNotice(trouble, load));
    }
  }

  load();
  return {
    frame: make(
      'div',
      {},
      make('p', {}, make('a', { class: 'back', href: address('yarns') }, word('yarns.all'))),
      make('h1', { tabindex: '-1' }, name),
      inside,
    ),
  };
}

export function yarnAddView({ choices }) {
  const form = yarnForm({
    choices,
    submit: word('yarn.add-go'),
    onsave: async (told) => {
      const yarn = Object.fromEntries(Object.entries(told).filter(([, value]) => value !== null));
      await api.yarns.add(yarn);
      announce(word('yarn.added-news', { name: yarn.name }));
      go('yarn', { name: yarn.name });
    },
  });
  return {
    frame: make(
      'div',
      {},
      make('p', {}, make('a', { class: 'back', href: address('yarns') }, word('yarns.all'))),
      make('h1', { tabindex: '-1' }, word('yarn.add-heading')),
      form,
    ),
  };
}
