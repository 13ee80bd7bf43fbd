/// Talks to the server. Every function gives a promise of the parsed answer or throws `Trouble`.
import { Trouble, troubleOf } from './trouble.js';

const marked = { 'X-Ridgetally': '1' }; // a plain form on another site cannot send this header

function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

async function ask(path, { method = 'GET', body, signal } = {}) {
  const headers =
    method === 'GET' ? {} : { ...marked, ...(body !== undefined && { 'Content-Type': 'application/json' }) };
  let answer;
  let text;
  try {
    answer = await fetch(path, {
      method,
      headers,
      signal,
      cache: 'no-store',
      body: body === undefined ? undefined : JSON.stringify(body),
    });
    text = await answer.text();
  } catch (error) {
    throw new Trouble(error.name === 'AbortError' ? 'stopped' : 'lost');
  }
  const found = parsed(text);
  if (!answer.ok || (found === null && text !== ''))
    throw troubleOf(answer.status, found, answer.headers.get('Retry-After'));
  return found;
}

const named = (path, fields) => `${path}?${new URLSearchParams(fields)}`;

export const choices = () => ask('/api/choices');
export const calculate = (what, options, signal) => ask(`/api/${what}`, { method: 'POST', body: options, signal });

export const yarns = {
  list: (signal) => ask('/api/yarns', { signal }),
  add: (yarn) => ask('/api/yarns', { method: 'POST', body: yarn }),
  show: (name, signal) => ask(named('/api/yarns/by-name', { name }), { signal }),
  edit: (name, change) => ask(named('/api/yarns/by-name', { name }), { method: 'PATCH', body: change }),
  remove: (name) => ask(named('/api/yarns/by-name', { name }), { method: 'DELETE' }),
  use: (name, amount) => ask(named('/api/yarns/use', { name }), { method: 'POST', body: { amount } }),
  undo: () => ask('/api/yarns/undo', { method: 'POST', body: {} }),
  find: (fields, signal) => ask(named('/api/yarns/find', fields), { signal }),
  plotUrl: (name, units) => named('/api/yarns/plot.svg', { name, units }),
};

/// Sends the photos of one piece. `onprogress(share)` is told how much of them has gone out, 0 to 1.
export function measure(kind, photos, request, { signal, onprogress = () => {} } = {}) {
  return new Promise((resolve, reject) => {
    const sender = new XMLHttpRequest();
    const form = new FormData();
    photos.forEach((photo) => form.append('photo', photo, photo.name || 'photo'));
    form.append('request', new Blob([JSON.stringify(request)], { type: 'application/json' }));
    sender.open('POST', `/api/measure/${kind}`);
    Object.entries(marked).forEach(([name, value]) => sender.setRequestHeader(name, value));
    sender.upload.addEventListener('progress', ({ loaded, total }) => onprogress(total ? loaded / total : 0));
    sender.upload.addEventListener('load', () => onprogress(1));
    sender.addEventListener('load', () => {
      const body = parsed(sender.responseText);
      if (sender.status === 200 && body) resolve(body);
      else reject(troubleOf(sender.status, body, sender.getResponseHeader('Retry-After')));
    });
    sender.addEventListener('error', () => reject(new Trouble('lost')));
    sender.addEventListener('abort', () => reject(new Trouble('stopped')));
    signal?.addEventListener('abort', () => sender.abort());
    if (signal?.aborted) reject(new Trouble('stopped'));
    else sender.send(form);
  });
}
