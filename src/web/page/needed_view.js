/// How much yarn: from a weighed swatch or from what the last piece took.
import { calculator, cautionsPart, notesPart } from './calculator.js';
import { make, table, terms } from './dom.js';
import { textField } from './fields.js';
import { fixed, percent, plain, plusMinus } from './format.js';
import { settings } from './settings.js';
import { word, wordOr } from './words.js';
import { yarnField } from './yarn_field.js';

const grams = (measured) => `${plusMinus(measured, 0)} g`;
const yards = (metres) => metres / 0.9144; // international yard, 0.9144 m exactly

function draw({ yarn_needed: needed, cautions }) {
  const long = needed.length_with_margin_m;
  const facts = terms(
    [
      [word('needed.total'), grams(needed.mass_g)],
      [word('needed.with-margin', { percent: percent(needed.margin) }), `${fixed(needed.mass_with_margin_g, 0)} g`],
      [word('needed.length'), long && `${fixed(long, 0)} m (${fixed(yards(long), 0)} yd)`],
      [
        word('needed.balls'),
        needed.balls_to_have !== undefined && `${needed.balls_to_have} (${plain(needed.balls_with_margin, 2)})`,
      ],
      [word('needed.stock-answer'), needed.enough && wordOr(`needed.enough-${needed.enough}`, needed.enough)],
    ],
    'facts facts-large',
  );
  const pieces = table({
    caption: word('needed.pieces'),
    head: ['piece', 'how-many', 'each'].map((key) => word(`needed.${key}`)),
    rows: needed.pieces.map(({ name, count, each_g: each }) => [name, String(count), grams(each)]),
  });
  return [facts, pieces, notesPart(needed.reasons), cautionsPart(cautions)];
}

const several = (text) =>
  text
    .split(/[,;]\s+|;/)
    .map((part) => part.trim())
    .filter(Boolean);

export function neededView() {
  const field = (name) =>
    textField({ name: name.replace('-', '_'), label: word(`needed.${name}`), hint: word(`needed.${name}-hint`) });
  const fields = {
    swatch_mass: field('swatch-mass'),
    swatch_area: field('swatch-area'),
    used: field('used'),
    yarn: yarnField({ name: 'yarn', label: word('calc.yarn'), hint: word('needed.yarn-hint') }),
    head: field('head'),
    area: field('area'),
    count: textField({ name: 'count', label: word('needed.count'), inputmode: 'numeric' }),
    ball: field('ball'),
    stock: field('stock'),
    margin: field('margin'),
  };
  const view = calculator({
    what: 'yarn-needed',
    heading: word('needed.heading'),
    intro: word('needed.intro'),
    fields,
    draw,
    lay: (frames) => [
      make(
        'div',
        { class: 'field-grid' },
        frames.swatch_mass,
        frames.swatch_area,
        frames.used,
        frames.yarn,
        frames.head,
        frames.area,
        frames.count,
        frames.ball,
        frames.stock,
        frames.margin,
      ),
    ],
    needed: (values) => (values.used || values.yarn ? [] : ['swatch_mass', 'swatch_area']),
    options: ({ head, ...values }) => ({ ...values, ...(head && { head: several(head) }), units: settings().units }),
  });
  return { ...view, enter: () => fields.yarn.suggest() };
}
