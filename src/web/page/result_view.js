/// The answer: the paper tag with its figures, the verdict on the hook, warnings, lines to copy and what lies behind.
import { inOrder } from './corrections.js';
import { correctionText } from './correct_list.js';
import { button, fold, make, terms } from './dom.js';
import { intervalStrip } from './interval_strip.js';
import { announce, warningList } from './notices.js';
import { facts, gaugeLines, gaugeOf, hookSentence, mainFigures, stitchSentence, summary } from './result_words.js';
import { word } from './words.js';

/// Whether the text was copied. A page of the local network is no secure context, where there is no clipboard but by the
/// older command.
async function copied(element) {
  try {
    await navigator.clipboard.writeText(element.textContent);
    return true;
  } catch {
    getSelection().selectAllChildren(element);
    return document.execCommand('copy');
  }
}

/// A line of text with a button that copies it; the line stays chosen where it could not be copied.
export function copyLine(line) {
  const text = make('code', {}, line);
  const copy = async () => {
    const said = word((await copied(text)) ? 'result.copied' : 'result.not-copied');
    announce(said);
    news.textContent = said;
  };
  const news = make('span', { class: 'quiet copy-news' });
  return make(
    'li',
    { class: 'copy-line' },
    text,
    news,
    button(word('result.copy'), copy, { 'aria-label': word('result.copy-line', { line }) }),
  );
}

function wantedFigures(report, units) {
  const factor = units === 'in' ? 1.016 : 1;
  const wanted = (part) =>
    report.advice?.[part]?.wanted_per_10cm ? report.advice[part].wanted_per_10cm * factor : undefined;
  return report.swatch ? [wanted('stitches'), wanted('rows')] : [];
}

/// The figures alone, on their paper tag. `context`: {units, stitchNames, abbreviations, hookText}.
export function resultTag(now, { units, stitchNames }) {
  const { report } = now.answer;
  const wanted = wantedFigures(report, units);
  const names = inOrder(now.corrected);
  const byHand = names.map((name) => correctionText(name, now.corrected.values[name], stitchNames)).join('; ');
  const figures = mainFigures(report, units).map(({ label, value, unit, second, measured }, i) =>
    make(
      'div',
      { class: 'figure' },
      make('dt', {}, label),
      make(
        'dd',
        {},
        make('span', { class: 'figure-value' }, value),
        ' ',
        make('span', { class: 'figure-unit' }, unit),
        second && make('span', { class: 'figure-second' }, second),
        measured && intervalStrip(measured, wanted[i]),
        wanted[i] !== undefined &&
          make(
            'span',
            { class: 'figure-wanted' },
            word('result.strip-target', { value: Number(wanted[i].toFixed(1)) }),
          ),
      ),
    ),
  );
  return make(
    'div',
    { class: 'tag' },
    make('dl', { class: 'tag-figures' }, figures),
    make('p', { class: 'tag-stitch' }, stitchSentence(report, stitchNames)),
    make('p', { class: 'quiet' }, word('result.interval')),
    names.length > 0 && make('p', { class: 'tag-by-hand' }, word('result.corrected', { list: byHand })),
  );
}

function hookPart({ advice }, text) {
  if (!advice) return null;
  const reasons = advice.reasons ?? [];
  return make(
    'section',
    { class: 'hook-verdict' },
    make('h3', {}, word('hook.heading')),
    make('p', { class: 'verdict' }, hookSentence(advice)),
    reasons.length > 0 &&
      make(
        'ul',
        {},
        reasons.map(({ message }) => make('li', {}, message)),
      ),
    text && fold(word('hook.whole'), make('pre', { tabindex: '0' }, text)),
  );
}

function checksPart({ checks }) {
  if (!checks?.length) return null;
  return make(
    'section',
    {},
    make('h3', {}, word('result.checks-heading')),
    make(
      'ul',
      { class: 'checks' },
      checks.map(({ verdict, message }) => make('li', { class: `check check-${verdict}` }, message)),
    ),
  );
}

function patternPart(report, { abbreviations }, hookText) {
  const gauge = report.swatch && gaugeOf(report);
  if (!gauge) return null;
  const abbreviation = abbreviations[report.stitch?.family] ?? word('result.stitches').toLowerCase();
  return make(
    'section',
    {},
    make('h3', {}, word('result.gauge-heading')),
    make('ul', { class: 'copy-lines' }, gaugeLines(gauge, abbreviation, hookText).map(copyLine)),
  );
}

const lookOf = { swatch: 'result.look', crown: 'result.look-crown', piece: 'result.look-piece' };

/// Everything else that an answer says.
export function resultView(now, context) {
  const { report, text, advice_text: adviceText } = now.answer;
  return make(
    'div',
    { class: 'result' },
    make('p', { class: 'look' }, word(lookOf[report.command] ?? 'result.look')),
    warningList(report.warnings),
    hookPart(report, adviceText),
    checksPart(report),
    patternPart(report, context, context.hookText ?? ''),
    fold(word('result.facts-heading'), terms(facts(report, context.units))),
    text && fold(word('result.text'), make('pre', { tabindex: '0' }, text)),
  );
}

export const spokenResult = (now, units) =>
  `${word('result.heading')}: ${summary(now.answer.report, units)}. ${(now.answer.report.warnings ?? [])
    .map(({ message }) => message)
    .join('. ')}`;
