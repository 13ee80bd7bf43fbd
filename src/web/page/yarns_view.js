/// The list of yarns, with a search that answers while typing.
import * as api from './api.js';
import { make } from './dom.js';
import { textField } from './fields.js';
import { announce, troubleNotice } from './notices.js';
import { address } from './router.js';
import { counted, word } from './words.js';
import { left, matching, measuredWords } from './yarn_words.js';

function yarnCard(yarn) {
  return make(
    'li',
    { class: 'yarn-card' },
    make('a', { href: address('yarn', { name: yarn.name }) }, yarn.name),
    make('p', {}, [yarn.colour, yarn.fibre].filter(Boolean).join(', ')),
    make('p', { class: 'quiet' }, [left(yarn), measuredWords(yarn.measured)].filter(Boolean).join(' · ')),
  );
}

export function yarnsView() {
  const search = textField({ name: 'search', label: word('yarns.search'), hint: word('yarns.search-hint') });
  search.control.type = 'search';
  const list = make('ul', { class: 'yarn-list' });
  const status = make('p', { role: 'status', class: 'quiet' });
  const trouble = make('div', {});
  let all = [];

  function draw() {
    const text = search.control.value.trim();
    const found = matching(all, text);
    search.frame.hidden = all.length === 0;
    list.replaceChildren(...found.map(yarnCard));
    if (all.length === 0) status.textContent = word('yarns.none');
    else status.textContent = found.length ? counted('yarns.count', found.length) : word('yarns.no-match', { text });
  }

  async function load() {
    trouble.replaceChildren();
    status.textContent = word('yarns.loading');
    try {
      all = (await api.yarns.list()).yarns;
      draw();
    } catch (error) {
      status.textContent = '';
      trouble.replaceChildren(troubleNotice(error, load));
    }
  }

  search.control.addEventListener('input', draw);
  load();
  return {
    frame: make(
      'div',
      {},
      make('h1', { tabindex: '-1' }, word('yarns.heading')),
      make(
        'div',
        { class: 'button-row' },
        make('a', { class: 'main-button', href: address('yarn-add') }, word('yarns.add')),
        make('a', { class: 'second-button', href: address('yarn-find') }, word('yarns.find')),
      ),
      search.frame,
      status,
      trouble,
      list,
    ),
  };
}

/// A yarn was removed: says so and offers to bring it back.
export function removedNotice(name, onback) {
  announce(word('yarn.removed', { name }));
  const undo = async () => {
    try {
      await api.yarns.undo();
      announce(word('yarn.brought-back'));
      notice.remove();
      onback();
    } catch (error) {
      notice.replaceChildren(troubleNotice(error, undo));
    }
  };
  const notice = make(
    'div',
    { class: 'notice notice-good' },
    make('p', {}, word('yarn.removed', { name })),
    make('button', { type: 'button', onclick: undo }, word('yarn.undo')),
  );
  return notice;
}
