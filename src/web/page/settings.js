/// What the maker chose once and keeps: units, words, how the photo's form was filled. Kept in this browser only.

const place = 'ridgetally.settings';
const initial = { units: 'cm', terms: 'us', kind: 'swatch', form: {} };

function stored() {
  try {
    const found = JSON.parse(localStorage.getItem(place) ?? '{}');
    return found && typeof found === 'object' ? found : {};
  } catch {
    return {}; // blocked, or no longer readable: the page works without
  }
}

let current = { ...initial, ...stored() };
const listeners = new Set();

export const settings = () => current;

export function setSettings(change) {
  current = { ...current, ...change };
  try {
    localStorage.setItem(place, JSON.stringify(current));
  } catch {
    // Nothing to do: the choice holds until the page is closed.
  }
  listeners.forEach((listener) => listener(current));
}

export function onSettings(listener) {
  listeners.add(listener);
}
