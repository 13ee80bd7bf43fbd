/// The photos of one piece on their way: the files, what was told and corrected, and the newest answer. Everything stays
/// here until other photos are taken, whatever fails. What is shown and corrected is the first; several are not corrected.
import * as api from './api.js';
import * as corrections from './corrections.js';
import { lastWins } from './last_wins.js';
import { forget, localPicture, photoSize, serverPicture } from './pictures.js';
import { measureRequest } from './request.js';
import { settings } from './settings.js';

const restMs = 350; // a change is sent when the finger has rested this long; not swept

const fresh = () => ({
  files: [],
  local: null,
  photo: null,
  kind: settings().kind,
  form: {},
  corrected: corrections.none,
  measured: false,
  answer: null,
  picture: null,
  refusal: null,
  plain: null,
  trouble: null,
  rivals: [],
  phase: 'idle',
  sent: 0,
});

/// `onchange(session, what)` is called after every change; `what` is 'file', 'phase', 'sent', 'answer' or 'corrections'.
export function measureSession(onchange) {
  let now = fresh();
  const change = (what, values) => {
    now = { ...now, ...values };
    onchange(now, what);
  };

  const runs = lastWins(
    (signal, request) => {
      const { kind, files } = now;
      return api.measure(kind, files, request, {
        signal,
        onprogress: (sent) => change('sent', { sent, phase: sent < 1 ? 'sending' : 'measuring' }),
      });
    },
    {
      delayMs: restMs,
      onstart: () => change('phase', { phase: 'sending', sent: 0, trouble: null }),
      onanswer: (answer, request) => takeAnswer(answer, request),
      onfault: (trouble) => takeTrouble(trouble),
    },
  );

  function takeAnswer(answer, request) {
    forget(now.picture);
    change('answer', {
      answer,
      picture: serverPicture(answer.picture),
      photo: photoSize(answer, now.local),
      refusal: null,
      trouble: null,
      phase: 'idle',
      measured: true,
      rivals: request.reading === undefined ? (answer.report.rivals ?? []) : now.rivals,
    });
  }

  function takeTrouble(trouble) {
    if (trouble.kind !== 'refused') {
      change('answer', { trouble, phase: 'idle' });
      return;
    }
    const plain = serverPicture(trouble.picture);
    if (plain) forget(now.plain);
    change('answer', {
      refusal: trouble.refusal,
      trouble: null,
      plain: plain ?? now.plain,
      photo: now.photo ?? photoSize(trouble.body, now.local),
      phase: 'idle',
      measured: true,
    });
  }

  const request = () => measureRequest(now.kind, now.form, now.corrected, settings());

  function setCorrected(corrected) {
    if (corrected === now.corrected) return;
    now = { ...now, corrected };
    if (now.files.length) runs.soon(request()); // before it is shown, so that what is shown is known to be old
    change('corrections', {});
  }

  return {
    get now() {
      return now;
    },
    async takeFiles(files) {
      runs.stop();
      [now.local, now.picture, now.plain].forEach(forget);
      const { kind, form } = now;
      change('file', { ...fresh(), kind, form, files });
      if (!files.length) return;
      const local = await localPicture(files[0]);
      if (now.files === files) change('file', { local, photo: local && { width: local.width, height: local.height } });
      else forget(local);
    },
    tell: (kind, form) => change('form', kind === now.kind ? { form } : { kind, form, corrected: corrections.none }),
    measure: () => runs.now(request()),
    stop() {
      runs.stop();
      change('phase', { phase: 'stopped' });
    },
    correct: (name, value, gesture) => setCorrected(corrections.corrected(now.corrected, name, value, gesture)),
    takeBack: (name) => setCorrected(corrections.takenBack(now.corrected, name)),
    undo: () => setCorrected(corrections.undone(now.corrected)),
    /// Measures once more as shown and keeps it in the record.
    save: (save) => api.measure(now.kind, now.files, { ...request(), save }),
    get busy() {
      return runs.busy;
    },
  };
}
