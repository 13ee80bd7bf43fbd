// The text of the page: every key that is used exists, every text is used, places are filled.
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import test from 'node:test';
import { fileURLToPath } from 'node:url';
import { chosenLanguage, counted, filled, flattened, languages, useWords, word } from '../../../src/web/page/words.js';

const folder = fileURLToPath(new URL('../../../src/web/page/', import.meta.url));
const textsOf = (language) => flattened(JSON.parse(readFileSync(`${folder}words.${language}.json`, 'utf8')));
const sources = readdirSync(folder)
  .filter((name) => /\.(js|html)$/.test(name))
  .map((name) => [name, readFileSync(folder + name, 'utf8')]);
const english = textsOf('en');

/// Keys that the sources name in full, and the beginnings of those that are put together from parts.
function namedKeys() {
  const full = new Set();
  const patterns = [];
  for (const [, text] of sources) {
    for (const [, , key] of text.matchAll(/(['"`])([a-z]+(?:\.[a-z0-9-]+)+)\1/g)) full.add(key);
    for (const [, key] of text.matchAll(/`([a-z]+\.[a-z0-9.-]*\$\{[^`]*)`/g))
      patterns.push(
        new RegExp(
          `^${key
            .replace(/\$\{[^}]*\}(?:[^$]*\})?/g, '@')
            .replaceAll('.', '\\.')
            .replaceAll('@', '[a-z0-9.-]+')}$`,
        ),
      );
  }
  return { full, patterns };
}

test('every word that the page names in full is in every language', () => {
  const groups = new Set(Object.keys(english).map((key) => key.split('.')[0]));
  const { full } = namedKeys();
  const isWord = (key) => groups.has(key.split('.')[0]) && !/\.(js|css|json|svg)$/.test(key);
  for (const language of languages) {
    const texts = textsOf(language);
    const known = (key) => key in texts || `${key}.one` in texts;
    assert.deepEqual(
      [...full].filter((key) => isWord(key) && !known(key)),
      [],
      language,
    );
  }
});

test('every word is used', () => {
  const { full, patterns } = namedKeys();
  const used = (key) =>
    full.has(key) ||
    full.has(key.replace(/\.(one|other)$/, '')) ||
    patterns.some((pattern) => pattern.test(key)) ||
    sources.some(
      ([, text]) =>
        text.includes(`'${key.split('.').at(-1)}'`) || text.includes(`'${key.split('.').slice(1).join('.')}'`),
    );
  assert.deepEqual(
    Object.keys(english).filter((key) => !used(key)),
    [],
  );
});

test('all languages have the same words with the same places', () => {
  const places = (text) => [...text.matchAll(/\{(\w+)\}/g)].map(([, name]) => name).sort();
  for (const language of languages) {
    const texts = textsOf(language);
    assert.deepEqual(Object.keys(texts).sort(), Object.keys(english).sort(), language);
    Object.entries(english).forEach(([key, text]) =>
      assert.deepEqual(places(texts[key]), places(text), `${language} ${key}`),
    );
  }
});

test('a place without a value is a mistake, and so is a key without words', () => {
  assert.equal(filled('{count} rows', { count: 3 }), '3 rows');
  assert.throws(() => filled('{count} rows', {}));
  useWords({ a: { one: '{count} row', other: '{count} rows' } });
  assert.equal(counted('a', 1), '1 row');
  assert.equal(counted('a', 20), '20 rows');
  assert.throws(() => word('b'));
});

test('the language is the first that the browser asks for and there is', () => {
  assert.equal(chosenLanguage(['de-AT', 'en-GB'], ['en', 'de']), 'de');
  assert.equal(chosenLanguage(['fr'], ['en', 'de']), 'en');
});

test('no module is longer than 400 lines, and none writes inline style or markup', () => {
  for (const [name, text] of sources) {
    assert.ok(text.split('\n').length <= 400, name);
    assert.doesNotMatch(
      text,
      /innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|setAttribute\('style'| style="| on[a-z]+="/,
      name,
    );
    assert.doesNotMatch(text.replaceAll('http://www.w3.org/2000/svg', ''), /https?:\/\//, name);
  }
});
