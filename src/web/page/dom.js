/// Makes elements. No inline style or script attribute is ever written: the page's security policy forbids them.

const svgSpace = 'http://www.w3.org/2000/svg';

function setOn(element, name, value) {
  if (value === undefined || value === null || value === false) return;
  if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
  else if (name === 'dataset') Object.assign(element.dataset, value);
  else if (name === 'value') element.value = value;
  else element.setAttribute(name, value === true ? '' : value);
}

function filledElement(element, attributes, children) {
  element.append(...children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false));
  Object.entries(attributes).forEach(([name, value]) => setOn(element, name, value));
  return element;
}

/// make('button', {type: 'button', onclick: f}, 'Text', child, [more, children]). Empty children are left out.
export function make(tag, attributes = {}, ...children) {
  return filledElement(document.createElement(tag), attributes, children);
}

export function svg(tag, attributes = {}, ...children) {
  return filledElement(document.createElementNS(svgSpace, tag), attributes, children);
}

export function button(text, onclick, attributes = {}) {
  return make('button', { type: 'button', onclick, ...attributes }, text);
}

let lastNumber = 0;

/// An id that no other element of the page has.
export function freshId(stem) {
  lastNumber += 1;
  return `${stem}-${lastNumber}`;
}

/// A table from rows of cells; the first cell of every row is its heading.
export function table({ caption, head, rows, className = 'figures' }) {
  return make('div', { class: 'table-frame', tabindex: '0', role: 'region', 'aria-label': caption },
    make('table', { class: className },
      make('caption', {}, caption),
      make('thead', {}, make('tr', {}, head.map((text) => make('th', { scope: 'col' }, text)))),
      make('tbody', {}, rows.map(([first, ...rest]) => make('tr', {},
        make('th', { scope: 'row' }, first), rest.map((cell) => make('td', {}, cell)))))));
}

/// A list of terms and what they are; pairs without a value are left out.
export function terms(pairs, className = 'facts') {
  return make('dl', { class: className }, pairs.filter(([, value]) => value).map(([name, value]) =>
    make('div', {}, make('dt', {}, name), make('dd', {}, value))));
}

/// Something that opens: a summary and what is in it.
export function fold(summary, ...children) {
  return make('details', { class: 'fold' }, make('summary', {}, summary), make('div', { class: 'fold-inside' }, children));
}
