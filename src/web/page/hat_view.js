/// The hat plan: for whom, your gauge, and the rounds from the crown down.
import { calculator, cautionsPart, gaugeOffer, notesPart } from './calculator.js';
import { fold, make, table, terms } from './dom.js';
import { radioSet, selectField, textField } from './fields.js';
import { length, size } from './format.js';
import { stitchOptions } from './measure_form.js';
import { settings } from './settings.js';
import { counted, word } from './words.js';
import { yarnField } from './yarn_field.js';

const whom = ['head', 'age', 'size', 'stitches'];

function hatPart(hat, units) {
  const values = terms([
    [word('hat.hat'), word('hat.hat-value', { stitches: hat.stitches, around: size(hat.circumference_mm, units) })],
    [word('hat.crown-across'), length(hat.crown_diameter_mm, units)],
    [word('hat.hat-height'), size(hat.height_mm, units)],
    [word('hat.body'), hat.body_rounds > 0 && counted2('hat.body-value', hat.body_rounds, { stitches: hat.stitches })],
    [word('hat.brim-rounds'), hat.brim_rounds > 0 && counted('hat.brim-value', hat.brim_rounds)],
    [word('hat.turn-up-rounds'), hat.turn_up_rounds > 0 && counted('hat.brim-value', hat.turn_up_rounds)],
  ]);
  const crown = table({
    caption: word('hat.crown-table'),
    className: 'figures rounds',
    head: ['round', 'count', 'work', 'across'].map((key) => word(`hat.${key}`)),
    rows: hat.crown.map((round) => [
      String(round.round),
      String(round.stitches),
      round.words,
      size(round.diameter_mm, units),
    ]),
  });
  // A head that was told has no name but that; a size or an age has.
  const name = hat.head.name === 'as told' ? '' : hat.head.name;
  const head = [name, length(hat.head.mm, units)].filter(Boolean).join(', ');
  return make(
    'section',
    { class: 'hat' },
    make('h3', {}, word('hat.for-head-of', { head })),
    values,
    crown,
    notesPart(hat.reasons),
  );
}

const counted2 = (key, count, values) => word(`${key}.${count === 1 ? 'one' : 'other'}`, { count, ...values });

function headPart(head, units) {
  return terms([
    [
      word('hat.fits-head'),
      word('hat.fits-value', {
        head: length(head.head_mm, units),
        low: length(head.head_low_mm, units),
        high: length(head.head_high_mm, units),
      }),
    ],
    [word('hat.fits-around'), size(head.circumference_mm, units)],
    [word('hat.crown-across'), size(head.crown_diameter_mm, units)],
  ]);
}

function draw(found) {
  const { units } = settings();
  return [
    ...(found.hats ?? []).map((hat) => hatPart(hat, units)),
    found.head && headPart(found.head, units),
    notesPart(found.reasons),
    cautionsPart(found.cautions),
  ];
}

/// `lastGauge()`: {text, per, stitch} of the last photo, or null.
export function hatView({ choices, lastGauge }) {
  const field = (name, label, more = {}) => textField({ name, label: word(`hat.${label}`), ...more });
  const fields = {
    head: field('head', 'head', { hint: word('hat.head-hint'), required: true }),
    age: field('age', 'age', { hint: word('hat.age-hint') }),
    size: field('size', 'size', { hint: word('hat.size-hint') }),
    stitches: field('stitches', 'stitches', { inputmode: 'numeric' }),
    gauge: field('gauge', 'gauge', { hint: word('hat.gauge-hint') }),
    yarn: yarnField({ name: 'yarn', label: word('calc.yarn'), hint: word('calc.yarn-hint') }),
    per: selectField({
      name: 'per',
      label: word('hat.per'),
      value: settings().units === 'in' ? '4in' : '10cm',
      options: ['10cm', '4in'].map((key) => [key, word(`span.${key}`)]),
    }),
    stitch: selectField({
      name: 'stitch',
      label: word('hat.stitch'),
      options: [['', word('form.not-told')], ...stitchOptions(choices).filter(([key]) => key !== 'stockinette')],
    }),
    ease: field('ease', 'ease', { hint: word('hat.ease-hint') }),
    height: field('height', 'height'),
    brim: field('brim', 'brim'),
    turn_up: field('turn_up', 'turn-up'),
    multiple: field('multiple', 'multiple', { inputmode: 'numeric' }),
    increase: field('increase', 'increase', { hint: word('hat.increase-hint'), inputmode: 'numeric' }),
  };
  const forWhom = radioSet({
    name: 'whom',
    legend: word('hat.for'),
    value: 'head',
    options: whom.map((key) => [key, word(`hat.for-${key}`)]),
    onchange: show,
  });
  const shape = ['ease', 'height', 'brim', 'turn_up', 'multiple', 'increase'];
  const more = fold(
    word('hat.more'),
    make(
      'div',
      { class: 'field-grid' },
      shape.map((name) => fields[name].frame),
    ),
  );
  const offer = gaugeOffer({
    lastGauge,
    gauge: fields.gauge,
    per: fields.per,
    yarn: fields.yarn,
    fill: ({ stitch }) => {
      if (stitch) fields.stitch.control.value = stitch;
    },
  });

  function show() {
    whom.forEach((name) => {
      fields[name].frame.hidden = forWhom.value !== name;
    });
    more.hidden = forWhom.value === 'stitches';
  }

  const view = calculator({
    what: 'hat',
    heading: word('hat.heading'),
    intro: word('hat.intro'),
    fields,
    draw,
    lay: (frames) => [
      forWhom.frame,
      whom.map((name) => frames[name]),
      make('div', { class: 'field-row' }, frames.gauge, frames.per),
      offer.button,
      frames.yarn,
      frames.stitch,
      more,
    ],
    needed: ({ yarn }) => (yarn ? [forWhom.value] : [forWhom.value, 'gauge']),
    options: (values) => {
      const used = [
        forWhom.value,
        'gauge',
        ...(values.gauge ? ['per'] : []),
        'yarn',
        'stitch',
        ...(forWhom.value === 'stitches' ? [] : shape),
      ];
      const told = Object.fromEntries(used.map((name) => [name, values[name]]));
      return { ...told, units: settings().units, terms: settings().terms };
    },
  });
  show();
  return { ...view, enter: offer.enter };
}
