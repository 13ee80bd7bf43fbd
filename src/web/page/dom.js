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
  element.append(
    ...children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false),
  );
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

/// A table from rows of cells; the first cell of every row is its heading. On a narrow screen each row of `cards` stands as
/// a card of its own; the roles are written out because browsers forget them where rows are laid out otherwise.
export function table({ caption, head, rows, className = 'figures' }) {
  const cell = (text, i) => make('td', { role: 'cell', 'data-label': head[i + 1] }, text);
  return make(
    'div',
    { class: 'table-frame', tabindex: '0', role: 'region', 'aria-label': caption },
    make(
      'table',
      { class: className, role: 'table' },
      make('caption', {}, caption),
      make(
        'thead',
        { role: 'rowgroup' },
        make(
          'tr',
          { role: 'row' },
          head.map((text) => make('th', { scope: 'col', role: 'columnheader' }, text)),
        ),
      ),
      make(
        'tbody',
        { role: 'rowgroup' },
        rows.map(([first, ...rest]) =>
          make('tr', { role: 'row' }, make('th', { scope: 'row', role: 'rowheader' }, first), rest.map(cell)),
        ),
      ),
    ),
  );
}

/// A list of terms and what they are; pairs without a value are left out.
export function terms(pairs, className = 'facts') {
  return make(
    'dl',
    { class: className },
    pairs
      .filter(([, value]) => value)
      .map(([name, value]) => make('div', {}, make('dt', {}, name), make('dd', {}, value))),
  );
}

/// Something that opens: a summary and what is in it.
export function fold(summary, ...children) {
  return make(
    'details',
    { class: 'fold' },
    make('summary', {}, summary),
    make('div', { class: 'fold-inside' }, children),
  );
}
