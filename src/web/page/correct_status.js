/// What the line under the photo says while correcting: what is still missing, what is wrong, or what it comes to now.
import { missing, tooClose } from './correct_shapes.js';
import { troubleTitle } from './notices.js';
import { toolFor } from './refusal_view.js';
import { summary } from './result_words.js';
import { word } from './words.js';

const mistakes = ['crossing', 'too-close'];

/// {text, bad, lack, otherTool}: `lack` is what the shape still lacks ('' nothing), `otherTool` the tool that would answer
/// the refusal where that is not the one in use. `shape` is undefined for tools without handles.
export function correctStatus({ shape, tool, now, busy, units }) {
  const lack = shape ? missing(shape) || (tooClose(shape, now.photo) ? 'too-close' : '') : '';
  const answering = now.refusal && !busy ? toolFor(now.refusal.code, now.kind) : undefined;
  const status = (text, bad) => ({ text, bad, lack, otherTool: answering === tool ? undefined : answering });
  const lackWords = () => word(`correct.${lack}`);
  if (mistakes.includes(lack)) return status(lackWords(), true);
  if (lack && (answering === tool || !busy) && lack !== 'need-use') return status(lackWords(), false);
  if (busy) return status(word('correct.working'), false);
  if (now.trouble) return status(troubleTitle(now.trouble), true);
  if (now.refusal && !(lack && answering === tool)) {
    return status(`${now.refusal.message}. ${word('refusal.do', { hint: now.refusal.hint })}`, true);
  }
  if (lack) return status(lackWords(), false);
  return status(now.answer ? word('correct.now', { summary: summary(now.answer.report, units) }) : '', false);
}
