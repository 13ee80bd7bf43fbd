/// Form fields: each has a label, may have a hint, and shows its own error where a screen reader finds it.
import { freshId, make } from './dom.js';
import { word } from './words.js';

function framed(control, { label, hint, className = '' }) {
  const error = make('p', { class: 'field-error', id: `${control.id}-error`, hidden: true });
  const hintLine = hint && make('p', { class: 'field-hint', id: `${control.id}-hint` }, hint);
  if (hintLine) control.setAttribute('aria-describedby', hintLine.id);
  const frame = make(
    'div',
    { class: `field ${className}` },
    make('label', { for: control.id }, label),
    hintLine,
    control,
    error,
  );
  const field = { frame, control, error, hintId: hintLine?.id };
  control.addEventListener('input', () => showFieldError(field, '')); // what is being changed is not judged
  return field;
}

/// A field of one line. `list`: suggestions, shown by the browser.
export function textField({
  name,
  label,
  hint,
  value = '',
  list,
  inputmode,
  required,
  className,
  autocomplete = 'off',
}) {
  const id = freshId(name);
  const control = make('input', {
    id,
    name,
    type: 'text',
    value,
    inputmode,
    required,
    autocomplete,
    autocapitalize: 'off',
    spellcheck: 'false',
  });
  const field = framed(control, { label, hint, className });
  if (list) {
    const suggestions = make(
      'datalist',
      { id: `${id}-list` },
      list.map((text) => make('option', { value: text })),
    );
    control.setAttribute('list', suggestions.id);
    field.frame.append(suggestions);
  }
  return field;
}

export function areaField({ name, label, hint, value = '' }) {
  return framed(make('textarea', { id: freshId(name), name, rows: '3', value }), { label, hint });
}

/// A choice. `options`: [value, text] pairs.
export function selectField({ name, label, hint, value = '', options, className }) {
  const control = make(
    'select',
    { id: freshId(name), name },
    options.map(([key, text]) => make('option', { value: key }, text)),
  );
  control.value = value;
  if (control.selectedIndex < 0) control.selectedIndex = 0;
  return framed(control, { label, hint, className });
}

/// One of a few, all in view.
export function radioSet({ name, legend, options, value, onchange, className = '' }) {
  const group = freshId(name);
  const inputs = options.map(([key, text]) => {
    const input = make('input', {
      type: 'radio',
      name: group,
      id: `${group}-${key}`,
      value: key,
      onchange: () => onchange?.(key),
    });
    input.checked = key === value;
    return { input, label: make('label', { class: 'choice', for: input.id }, input, make('span', {}, text)) };
  });
  return {
    frame: make(
      'fieldset',
      { class: `choices ${className}` },
      make('legend', {}, legend),
      make(
        'div',
        { class: 'choices-row' },
        inputs.map(({ label }) => label),
      ),
    ),
    get value() {
      return inputs.find(({ input }) => input.checked)?.input.value;
    },
    set value(key) {
      inputs.forEach(({ input }) => {
        input.checked = input.value === key;
      });
    },
  };
}

export function showFieldError(field, message) {
  field.error.textContent = message;
  field.error.hidden = !message;
  if (message) field.control.setAttribute('aria-invalid', 'true');
  else field.control.removeAttribute('aria-invalid');
  const ids = [field.hintId, message && field.error.id].filter(Boolean).join(' ');
  if (ids) field.control.setAttribute('aria-describedby', ids);
  else field.control.removeAttribute('aria-describedby');
}

/// The texts of all fields by name.
export const valuesOf = (fields) =>
  Object.fromEntries(Object.entries(fields).map(([name, field]) => [name, field.control.value.trim()]));

/// The field that a server's complaint is about: the one whose value or else whose name it puts before the colon, as in
/// `"large": expected a head of 20 to 80 cm` or `"ball_g": expected a number`.
export function fieldMeant(values, message) {
  const [subject] = message.split(': ');
  const value = /^"(.*)"$/.exec(subject)?.[1] ?? subject;
  const names = Object.keys(values).filter((name) => values[name] !== '');
  const part = (name) => values[name].split(/[,;]\s*/).includes(value);
  const called = (name) => new RegExp(`(^|[^a-z_])${name.replaceAll('_', '[-_ ]')}([^a-z_]|$)`, 'i').test(subject);
  return (
    names.find((name) => values[name] === value) ??
    names.find(part) ??
    names.find(called) ??
    Object.keys(values).find(called)
  );
}

/// Puts a server's complaint beside the field it is about; gives whether there is one.
export function tieToField(fields, message) {
  Object.values(fields).forEach((field) => showFieldError(field, ''));
  const name = fieldMeant(valuesOf(fields), message);
  if (!name) return false;
  showFieldError(fields[name], message);
  fields[name].control.focus();
  return true;
}

/// Says beside each required field that is empty that it is needed; gives whether all are filled.
export function requireFilled(fields, names) {
  const empty = names.filter((name) => !fields[name].control.value.trim());
  names.forEach((name) => showFieldError(fields[name], empty.includes(name) ? word('form.needed') : ''));
  if (empty.length) fields[empty[0]].control.focus();
  return empty.length === 0;
}
