/// Starts the page: words, choices of the server, and the view that the address asks for.
import * as api from './api.js';
import { make } from './dom.js';
import { findView } from './find_view.js';
import { fixed, halfWidth } from './format.js';
import { hatView } from './hat_view.js';
import { hookView } from './hook_view.js';
import { measureView } from './measure_view.js';
import { neededView } from './needed_view.js';
import { troubleNotice } from './notices.js';
import { gaugeOf } from './result_words.js';
import { address, go, onPlace } from './router.js';
import { settings } from './settings.js';
import { loadWords, word } from './words.js';
import { yarnAddView, yarnView } from './yarn_view.js';
import { removedNotice, yarnsView } from './yarns_view.js';

const main = document.getElementById('main');
const tabs = ['measure', 'yarns', 'hook', 'hat', 'yarn-needed'];
const tabOf = { yarn: 'yarns', 'yarn-add': 'yarns', 'yarn-find': 'yarns' };
let lastReport = null;
let removed = null;

/// The gauge of the last photo in the words of the calculator, with its plus-or-minus.
function lastGauge() {
  const gauge = lastReport?.swatch && gaugeOf(lastReport);
  if (!gauge) return null;
  const figure = (measured) => `${fixed(measured.value, 1)}+-${halfWidth(measured, 1)}`;
  return {
    text: gauge.rows ? `${figure(gauge.stitches)}x${figure(gauge.rows)}` : figure(gauge.stitches),
    per: '10cm',
    stitch: lastReport.stitch?.family,
  };
}

function layChrome() {
  document.querySelector('.skip').addEventListener('click', (event) => {
    event.preventDefault(); // the address belongs to the views
    main.focus();
  });
  document.querySelectorAll('[data-word]').forEach((element) => {
    element.textContent = word(element.dataset.word);
  });
  const nav = document.getElementById('views');
  nav.setAttribute('aria-label', word('nav.label'));
  nav.replaceChildren(
    make(
      'ul',
      {},
      tabs.map((name) => make('li', {}, make('a', { href: address(name), 'data-tab': name }, word(`nav.${name}`)))),
    ),
  );
}

/// Views that keep what was typed stay as they are; those of the record are made anew each time.
function views(choices) {
  const names = () => ({
    stitches: Object.fromEntries(choices.stitches.map((stitch) => [stitch.key, stitch[settings().terms]])),
    abbreviations: Object.fromEntries(
      choices.stitches.map((stitch) => [stitch.key, stitch[`${settings().terms}_abbreviation`]]),
    ),
  });
  const kept = {};
  const keep = (name, make1) => () => (kept[name] ??= make1());
  return {
    measure: keep('measure', () =>
      measureView({
        choices,
        names,
        onanswer: (report) => {
          lastReport = report;
        },
      }),
    ),
    hook: keep('hook', () => hookView({ choices, lastGauge })),
    hat: keep('hat', () => hatView({ choices, lastGauge })),
    'yarn-needed': keep('yarn-needed', () => neededView()),
    yarns: () => {
      const view = yarnsView();
      if (removed)
        view.frame.querySelector('h1').after(removedNotice(removed, () => showPlace({ path: 'yarns', fields: {} })));
      removed = null;
      return view;
    },
    yarn: ({ name }) =>
      yarnView({
        name,
        choices,
        names,
        onremoved: (gone) => {
          removed = gone;
          go('yarns');
        },
      }),
    'yarn-add': () => yarnAddView({ choices }),
    'yarn-find': () => findView(),
  };
}

let offered = {};

function showPlace({ path, fields }, { focus = true } = {}) {
  const name = path in offered ? path : 'measure';
  const view = offered[name](fields);
  main.replaceChildren(view.frame);
  view.enter?.();
  const heading = view.frame.querySelector('h1');
  document.title = word('app.title', { view: heading.textContent });
  document.querySelectorAll('[data-tab]').forEach((link) => {
    if (link.dataset.tab === (tabOf[name] ?? name)) link.setAttribute('aria-current', 'page');
    else link.removeAttribute('aria-current');
  });
  if (focus) {
    scrollTo(0, 0);
    heading.focus({ preventScroll: true });
  }
}

async function start() {
  document.documentElement.lang = await loadWords();
  layChrome();
  await open();
}

async function open() {
  try {
    offered = views(await api.choices());
  } catch (trouble) {
    main.replaceChildren(troubleNotice(trouble, open));
    return;
  }
  let first = true;
  onPlace((place) => {
    showPlace(place, { focus: !first });
    first = false;
  });
  document.documentElement.dataset.ready = 'yes';
}

addEventListener('dragover', (event) => event.preventDefault()); // a photo dropped beside its place must not leave the page
addEventListener('drop', (event) => event.preventDefault());

start().catch((error) => {
  // Without words there is no text to show but the address of the page itself; say what is known.
  main.textContent = `Ridgetally: ${error.message}`;
});
