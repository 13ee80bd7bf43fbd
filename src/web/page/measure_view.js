/// The Measure view: form, progress, and the answer beside its photo.
import { correctPanel } from './correct_panel.js';
import { button, make } from './dom.js';
import { percent } from './format.js';
import { measureForm } from './measure_form.js';
import { announce, troubleNotice } from './notices.js';
import { photoStage } from './photo_stage.js';
import { refusalView } from './refusal_view.js';
import { resultTag, resultView, spokenResult } from './result_view.js';
import { summary } from './result_words.js';
import { savePanel } from './save_panel.js';
import { measureSession } from './session.js';
import { onSettings, settings } from './settings.js';
import { sameShape } from './photo_frame.js';
import { word } from './words.js';

export function measureView({ choices, names, onanswer }) {
  const session = measureSession(onChange);
  const stage = photoStage();
  const form = measureForm({
    choices,
    session,
    ontake: (files) => session.takeFiles(files),
    ongo: () => {
      closePanels();
      session.measure();
    },
  });
  const save = savePanel({ session, choices });
  const marks = make('input', { type: 'checkbox', id: 'marks', onchange: showPicture });
  marks.checked = true;
  stage.bar.append(
    make('label', { class: 'choice marks', for: 'marks' }, marks, make('span', {}, word('photo.marks'))),
  );
  const correct = correctPanel({
    session,
    stage,
    choices,
    stitchNames: () => names().stitches,
    onclose: closeCorrect,
    ontool: () => {},
  });

  const bar = make('progress', { max: '1', value: '0', 'aria-label': word('measure.go') });
  const barText = make('p', { role: 'status' });
  const progress = make(
    'section',
    { class: 'progress', hidden: true },
    barText,
    bar,
    button(word('measure.stop'), () => session.stop()),
  );
  const trouble = make('div', {});
  const told = make('section', { class: 'told' }, form.frame);
  const heading = make('h2', { tabindex: '-1' }, word('result.heading'));
  const figures = make('div', { class: 'answer' });
  const answer = make('div', { class: 'answer' });
  const openCorrect = button(word('result.correct'), () => startCorrect(), { class: 'second-button' });
  const openSave = button(
    word('result.save'),
    () => {
      closeCorrect();
      save.open({ hook: session.now.form.hook });
    },
    { class: 'main-button' },
  );
  const actions = make(
    'div',
    { class: 'button-row actions' },
    openSave,
    openCorrect,
    button(word('measure.new-photo'), showForm, { class: 'second-button' }),
  );
  const several = make('p', { class: 'quiet', hidden: true }, word('correct.one-alone'));
  const outcome = make(
    'div',
    { class: 'outcome', hidden: true },
    make('div', { class: 'outcome-figures outcome-words' }, heading, figures),
    make('div', { class: 'outcome-photo' }, stage.frame, correct.frame),
    make('div', { class: 'outcome-rest outcome-words' }, actions, several, save.frame, answer),
  );
  const frame = make(
    'div',
    { class: 'measure' },
    make('h1', { tabindex: '-1' }, word('measure.heading')),
    told,
    progress,
    trouble,
    outcome,
  );

  /// What is set by hand are places of one photo.
  const correctable = () => session.now.files.length === 1;

  const context = () => ({
    units: settings().units,
    stitchNames: names().stitches,
    abbreviations: names().abbreviations,
    hookText: session.now.form.hook ? word('result.gauge-hook', { hook: session.now.form.hook }) : '',
  });

  /// The picture to show: with the marks, or the maker's own file where the browser can show it as the program sees it.
  function showPicture() {
    const { picture, plain, local, photo, answer: found, refusal } = session.now;
    if (!photo) return;
    const own = local && sameShape(local, photo) ? local : plain;
    const marked = picture && !refusal;
    marks.closest('label').hidden = !(marked && own);
    const chosen = marked && (marks.checked || !own) ? picture : (own ?? picture);
    const alt =
      chosen === picture && found
        ? word('photo.alt-marked', { summary: summary(found.report, settings().units) })
        : word('photo.alt-plain');
    if (chosen) stage.show({ picture: chosen, photo, alt });
    stage.frame.hidden = !chosen;
  }

  function drawAnswer() {
    const { now } = session;
    const waiting = session.busy && now.measured;
    outcome.setAttribute('aria-busy', String(waiting)); // what is shown is older than the last change
    if (now.refusal) {
      figures.replaceChildren(
        refusalView(now, { onhand: correctable() ? startCorrect : undefined, onform: showForm }),
      );
      answer.replaceChildren();
    } else if (now.answer) {
      figures.replaceChildren(resultTag(now, context()));
      answer.replaceChildren(resultView(now, context()));
    }
    heading.textContent = word(now.refusal ? 'refusal.heading' : 'result.heading');
    openSave.hidden = Boolean(now.refusal);
    openCorrect.hidden = stage.frame.hidden || !correctable();
    several.hidden = correctable();
  }

  function drawProgress() {
    const { now } = session;
    const atFirst = session.busy && !correct.isOpen;
    const begins = atFirst && progress.hidden;
    progress.hidden = !atFirst;
    if (!atFirst) return;
    if (begins) progress.scrollIntoView({ block: 'nearest' });
    if (now.phase === 'sending') bar.value = now.sent;
    else bar.removeAttribute('value'); // of unknown length
    const text =
      now.phase === 'sending'
        ? word('measure.sending', { percent: percent(Math.floor(now.sent * 10) / 10) })
        : word('measure.measuring');
    if (barText.textContent !== text) barText.textContent = text;
  }

  function onFile(now) {
    form.showPhotos(now);
    if (now.measured) return;
    closePanels();
    correct.forget();
    trouble.replaceChildren();
    outcome.hidden = true;
    if (now.files.length) announce(word('measure.ready', { name: now.files.map(({ name }) => name).join(', ') }));
  }

  function onAnswer(now) {
    trouble.replaceChildren(...(now.trouble ? [troubleNotice(now.trouble, () => session.measure())] : []));
    if (now.trouble) {
      trouble.scrollIntoView({ block: 'nearest' });
      return;
    }
    const first = outcome.hidden;
    told.hidden = true;
    outcome.hidden = false;
    form.showPhotos(now);
    if (first) marks.checked = true;
    showPicture();
    if (!now.refusal) onanswer(now.answer.report);
    announce(now.refusal ? `${word('refusal.heading')}: ${now.refusal.message}` : spokenResult(now, settings().units));
    if (!correct.isOpen) heading.focus();
  }

  function onChange(now, what) {
    if (what === 'form') return; // nothing of it is shown outside of the form
    if (what === 'file') onFile(now);
    if (what === 'answer') onAnswer(now);
    if (what === 'phase' && now.phase === 'stopped')
      trouble.replaceChildren(make('p', { role: 'status' }, word('measure.stopped')));
    else if (what === 'phase') trouble.replaceChildren();
    drawProgress();
    if (now.measured && what !== 'sent') drawAnswer();
    if (what !== 'sent') correct.refresh(now);
  }

  function startCorrect(tool) {
    save.close();
    if (session.now.local && sameShape(session.now.local, session.now.photo)) marks.checked = false;
    showPicture();
    frame.classList.add('is-correcting');
    correct.open(tool);
    correct.refresh(session.now);
    stage.frame.scrollIntoView({ block: 'start' });
  }

  function closeCorrect() {
    if (!correct.isOpen) return;
    correct.close();
    frame.classList.remove('is-correcting');
    marks.checked = true;
    showPicture();
    heading.focus();
  }

  function closePanels() {
    closeCorrect();
    save.close();
  }

  function showForm() {
    closePanels();
    told.hidden = false;
    outcome.hidden = true;
    frame.querySelector('h1').focus();
    scrollTo(0, 0);
  }

  onSettings(() => {
    if (!session.now.measured) return;
    drawAnswer();
    correct.refresh(session.now);
  });

  return { frame };
}
