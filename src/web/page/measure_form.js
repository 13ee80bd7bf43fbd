/// The form of the Measure view: what is in the photo, the photo itself, and what the maker knows about it.
import { button, fold, freshId, make } from './dom.js';
import { radioSet, selectField, textField, valuesOf } from './fields.js';
import { hook as hookText, megabytes } from './format.js';
import { withoutPhoto, withPhotos } from './photo_list.js';
import { onSettings, setSettings, settings } from './settings.js';
import { word } from './words.js';

const kinds = ['swatch', 'crown', 'piece'];
/// Which fields each kind of piece uses.
const shownFor = {
  stitch: ['swatch', 'crown'],
  worked: ['swatch'],
  want: ['swatch'],
  hooks: ['swatch'],
  want_diameter: ['crown'],
  stitches: ['crown'],
  want_width: ['piece'],
  want_height: ['piece'],
};

/// A file input that looks like a button. `camera`: opens the camera on a phone.
/// `ontake(files)`.
function photoInput(text, { camera, ontake, main }) {
  const input = make('input', {
    type: 'file',
    id: freshId('photo'),
    class: 'photo-input',
    accept: 'image/*,.heic,.heif',
    ...(camera ? { capture: 'environment' } : { multiple: true }),
    onchange: () => {
      if (input.files.length) ontake([...input.files]);
      input.value = ''; // so that the same file can be taken again
    },
  });
  return make(
    'div',
    { class: 'photo-take' },
    input,
    make('label', { for: input.id, class: main ? 'main-button' : 'second-button' }, text),
  );
}

export const stitchOptions = (choices) => choices.stitches.map((stitch) => [stitch.key, stitch[settings().terms]]);

function knownFields(choices, form) {
  const value = (name) => form[name] ?? '';
  const unit = () => word(`settings.units-${settings().units}`);
  const text = (name, label, hint, more = {}) => textField({ name, label, hint, value: value(name), ...more });
  const hooks = choices.hooks_mm.map((mm) => hookText(mm).replace(' ', ''));
  return {
    stitch: selectField({
      name: 'stitch',
      label: word('measure.stitch'),
      value: value('stitch'),
      options: [['', word('form.recognise')], ...stitchOptions(choices)],
    }),
    worked: selectField({
      name: 'worked',
      label: word('measure.worked'),
      value: value('worked'),
      options: [['', word('form.recognise')], ...choices.worked.map((key) => [key, word(`worked.${key}`)])],
    }),
    hook: text('hook', word('measure.hook'), word('measure.hook-hint'), { list: hooks }),
    want_stitches: text('want_stitches', word('measure.want-stitches'), undefined, { inputmode: 'decimal' }),
    want_rows: text('want_rows', word('measure.want-rows'), undefined, { inputmode: 'decimal' }),
    per: selectField({
      name: 'per',
      label: word('measure.per'),
      value: value('per') || (settings().units === 'in' ? '4in' : '10cm'),
      options: ['10cm', '4in'].map((key) => [key, word(`span.${key}`)]),
    }),
    hooks: text('hooks', word('measure.hooks'), word('measure.hooks-hint')),
    want_diameter: text('want_diameter', word('measure.want-diameter'), word('measure.want-diameter-hint')),
    stitches: text('stitches', word('measure.crown-stitches'), undefined, { inputmode: 'numeric' }),
    want_width: text('want_width', `${word('measure.want-width')} (${unit()})`),
    want_height: text('want_height', `${word('measure.want-height')} (${unit()})`),
  };
}

function settingsPart() {
  const set = (name, options) =>
    radioSet({
      name,
      legend: word(`settings.${name}`),
      value: settings()[name],
      options: options.map((key) => [key, word(`settings.${name}-${key}`)]),
      onchange: (key) => setSettings({ [name]: key }),
    });
  return fold(word('settings.summary'), set('units', ['cm', 'in']).frame, set('terms', ['us', 'uk']).frame);
}

/// Replacing a text by itself makes Chromium scroll a page whose end is in view, and a click that is on its way misses
/// its button (seen in the browser tests).
function setText(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

const photoName = ({ name, size }) => `${name} · ${megabytes(size)}`;

const complaintText = ({ key, size, limit }) =>
  key === 'many'
    ? word('measure.too-many', { limit })
    : word('measure.too-large', { size: megabytes(size), limit: megabytes(limit) });

export function measureForm({ choices, session, ontake, ongo }) {
  const fields = knownFields(choices, settings().form);
  const group = make(
    'fieldset',
    { class: 'choices' },
    make('legend', {}, word('measure.want')),
    make('div', { class: 'field-row' }, fields.want_stitches.frame, fields.want_rows.frame, fields.per.frame),
  );
  const frames = {
    ...Object.fromEntries(Object.entries(fields).map(([name, { frame }]) => [name, frame])),
    want: group,
  };
  const kindHelp = make('p', { class: 'quiet' });
  const kindSet = radioSet({
    name: 'kind',
    legend: word('measure.kind'),
    value: session.now.kind,
    options: kinds.map((key) => [key, word(`measure.kind-${key}`)]),
    onchange: tell,
    className: 'kinds',
  });
  const preview = make('div', { class: 'preview', hidden: true });
  const more = make(
    'div',
    { class: 'photo-more', hidden: true },
    make('p', { class: 'quiet' }, word('measure.more-photos')),
    photoInput(word('measure.add'), { ontake: add }),
  );
  const error = make('p', { class: 'field-error', role: 'alert', hidden: true });
  const go = make('button', { type: 'submit', class: 'main-button go' }, word('measure.go'));
  const tips = fold(
    word('measure.tips-summary'),
    make(
      'ol',
      {},
      [1, 2, 3, 4].map((i) => make('li', {}, word(`measure.tip-${i}`))),
    ),
  );
  const known = fold(
    word('measure.more'),
    make(
      'div',
      { class: 'field-grid' },
      frames.stitch,
      frames.worked,
      frames.hook,
      frames.want_diameter,
      frames.stitches,
      frames.want_width,
      frames.want_height,
    ),
    group,
    frames.hooks,
  );
  const form = make(
    'form',
    {
      class: 'measure-form',
      novalidate: true,
      onsubmit: (event) => {
        event.preventDefault();
        submit();
      },
    },
    kindSet.frame,
    kindHelp,
    make(
      'div',
      { class: 'photo-buttons' },
      photoInput(word('measure.take'), { camera: true, ontake: take, main: true }),
      photoInput(word('measure.choose'), { ontake: take }),
    ),
    preview,
    more,
    error,
    known,
    settingsPart(),
    tips,
    go,
  );

  function tell() {
    const kind = kindSet.value;
    const values = valuesOf(fields);
    setText(kindHelp, word(`measure.kind-help-${kind}`));
    Object.entries(shownFor).forEach(([name, users]) => {
      frames[name].hidden = !users.includes(kind);
    });
    session.tell(kind, values);
    setSettings({ kind, form: values });
  }

  /// Several photos by name, each to be taken out again.
  function photoList(files) {
    const row = (file, index) =>
      make(
        'li',
        {},
        make('span', { class: 'quiet' }, photoName(file)),
        button(word('measure.leave-out'), () => ontake(withoutPhoto(session.now.files, index)), {
          class: 'second-button',
          'aria-label': word('measure.leave-out-name', { name: file.name }),
        }),
      );
    return make('ol', { class: 'photo-list' }, files.map(row));
  }

  function complain(text) {
    error.textContent = text;
    error.hidden = !text;
  }

  /// Instead of the photos there are, or behind them.
  function take(files) {
    takeBehind([], files);
  }
  function add(files) {
    takeBehind(session.now.files, files);
  }
  function takeBehind(there, files) {
    const { photos, complaint } = withPhotos(there, files, choices.limits);
    complain(complaint ? complaintText(complaint) : '');
    if (!complaint) ontake(photos);
  }

  function submit() {
    tell();
    const there = session.now.files.length > 0;
    complain(there ? '' : word('measure.no-photo'));
    if (there) ongo();
  }

  form.addEventListener('change', (event) => {
    if (event.target.type !== 'file' && form.contains(event.target)) tell();
  });
  form.addEventListener('dragover', (event) => event.preventDefault());
  form.addEventListener('drop', (event) => {
    event.preventDefault();
    if (event.dataTransfer.files.length) take([...event.dataTransfer.files]);
  });
  onSettings(({ terms }) => {
    [...fields.stitch.control.options].slice(1).forEach((option, i) => {
      setText(option, choices.stitches[i][terms]);
    });
  });
  tell();

  return {
    frame: form,
    showPhotos({ files, local, measured }) {
      preview.hidden = files.length === 0;
      more.hidden = preview.hidden;
      go.textContent = measured ? word('measure.again') : word('measure.go');
      if (preview.hidden) return;
      preview.replaceChildren(
        local
          ? make('img', { src: local.url, alt: word('measure.photo-alt') })
          : make('p', {}, word('measure.no-preview')),
        files.length === 1 ? make('p', { class: 'quiet' }, photoName(files[0])) : photoList(files),
      );
    },
    known,
  };
}
