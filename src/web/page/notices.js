/// Messages: what went wrong and what to do, and short news read aloud.
import { button, make } from './dom.js';
import { word, wordOr } from './words.js';

/// Reads a sentence aloud to those who use a screen reader, without moving the focus.
export function announce(text) {
  const place = document.getElementById('news');
  place.textContent = '';
  // Emptied first, so that the same sentence is read again.
  requestAnimationFrame(() => {
    place.textContent = text;
  });
}

function titleAndHelp(trouble) {
  const key = `trouble.${trouble.kind}`;
  return {
    title: wordOr(`${key}.title`, trouble.message || word('trouble.server-fault.title')),
    help: wordOr(`${key}.help`, trouble.hint || ''),
    detail: trouble.message,
  };
}

/// A trouble in one line.
export const troubleTitle = (trouble) => titleAndHelp(trouble).title;

/// Troubles that may be gone a moment later.
const passing = (trouble) => trouble.kind === 'lost' || trouble.status >= 500;

/// A notice of a trouble, with a button to try again where that may help.
export function troubleNotice(trouble, retry) {
  const { title, help, detail } = titleAndHelp(trouble);
  const wait = trouble.retryAfterS > 0 ? word('trouble.wait', { seconds: trouble.retryAfterS }) : '';
  return make(
    'div',
    { class: 'notice notice-bad', role: 'alert' },
    make('h3', {}, title),
    detail && detail !== title && detail !== trouble.kind && make('p', {}, detail),
    (help || wait) && make('p', {}, [help, wait].filter(Boolean).join(' ')),
    retry && passing(trouble) && button(word('trouble.retry'), retry, { class: 'main-button' }),
  );
}

export function goodNotice(...children) {
  return make('div', { class: 'notice notice-good', role: 'status' }, children);
}

/// Warnings of a report, each with what to do.
export function warningList(warnings, headingTag = 'h3') {
  if (!warnings?.length) return null;
  return make(
    'section',
    { class: 'warnings' },
    make(headingTag, {}, word('warnings.heading')),
    make(
      'ul',
      {},
      warnings.map(({ code, message }) =>
        make(
          'li',
          {},
          make('p', { class: 'warning-what' }, message),
          wordOr(`warnings.do.${code}`, '') && make('p', { class: 'warning-do' }, word(`warnings.do.${code}`)),
        ),
      ),
    ),
  );
}
