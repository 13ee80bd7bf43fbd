/// Which view is shown: the part of the address after #, as in #/yarn?name=Moss. The server never sees it.

/// {path: "yarn", fields: {name: "Moss"}} of "#/yarn?name=Moss"; the empty address is the first view.
export function place(hash, first = 'measure') {
  const [path, query = ''] = hash.replace(/^#\/?/, '').split('?');
  return { path: path || first, fields: Object.fromEntries(new URLSearchParams(query)) };
}

export function address(path, fields = {}) {
  const query = new URLSearchParams(fields).toString();
  return `#/${path}${query ? `?${query}` : ''}`;
}

export const go = (path, fields) => {
  location.hash = address(path, fields);
};

/// Calls `show(place)` now and whenever the address changes.
export function onPlace(show) {
  addEventListener('hashchange', () => show(place(location.hash)));
  show(place(location.hash));
}
