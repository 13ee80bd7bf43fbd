/// The text of the page. Everything a person reads stands in words.LANGUAGE.json and nowhere else.

/// Languages there is a file for. The first is taken where the browser asks for none of them.
export const languages = ['en'];

/// {"a": {"b": "text"}} becomes {"a.b": "text"}.
export function flattened(tree, prefix = '') {
  return Object.entries(tree).reduce((flat, [key, value]) => {
    const name = prefix ? `${prefix}.${key}` : key;
    return typeof value === 'string' ? { ...flat, [name]: value } : { ...flat, ...flattened(value, name) };
  }, {});
}

/// Puts values into the places of a text: "{count} rows" with {count: 3} is "3 rows".
/// Throws for a place without a value, which is a mistake of the caller.
export function filled(text, values = {}) {
  return text.replace(/\{(\w+)\}/g, (_, name) => {
    if (!(name in values)) throw new Error(`no value for {${name}} in "${text}"`);
    return String(values[name]);
  });
}

/// The best of `offered` for what the browser asks for, as in ["de-AT", "en"].
export function chosenLanguage(wanted, offered = languages) {
  const found = wanted.map((tag) => tag.toLowerCase().split('-')[0]).find((tag) => offered.includes(tag));
  return found ?? offered[0];
}

let texts = {};

export function useWords(tree) {
  texts = flattened(tree);
}

/// Loads the words of the browser's language and says which it is.
export async function loadWords() {
  const language = chosenLanguage(navigator.languages ?? [navigator.language]);
  const answer = await fetch(`/page/words.${language}.json`);
  if (!answer.ok) throw new Error(`words: ${answer.status}`);
  useWords(await answer.json());
  return language;
}

export const hasWord = (key) => key in texts;

export function word(key, values) {
  if (!hasWord(key)) throw new Error(`no words for "${key}"`);
  return filled(texts[key], values);
}

/// The text for a code of the program, or `fallback` where this page has none of its own.
export const wordOr = (key, fallback, values) => (hasWord(key) ? word(key, values) : fallback);

/// `KEY.one` or `KEY.other`, by count.
export function counted(key, count) {
  return word(`${key}.${Number(count) === 1 ? 'one' : 'other'}`, { count });
}
