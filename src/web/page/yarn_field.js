/// A field for the name of a yarn, with those of the record as suggestions.
import * as api from './api.js';
import { make } from './dom.js';
import { textField } from './fields.js';

/// As `textField`, with `suggest()`: looks into the record and gives the set of its names.
export function yarnField(options) {
  const field = textField({ ...options, list: [] });
  const suggestions = field.frame.querySelector('datalist');
  return {
    ...field,
    async suggest() {
      try {
        const names = (await api.yarns.list()).yarns.map(({ name }) => name);
        suggestions.replaceChildren(...names.map((name) => make('option', { value: name })));
        return new Set(names);
      } catch {
        return new Set(); // suggestions only: whoever uses the name will say what is wrong
      }
    },
  };
}
