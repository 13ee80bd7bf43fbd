/// Runs a task for the newest input only: waits until the input rests, stops the run before, and drops answers
/// that come late. What is shown therefore always belongs to the last change.
///
/// task(signal, ...input) gives a promise. `onanswer(answer, ...input)` and `onfault(error, ...input)` are called for
/// the newest run only; a run that was stopped calls neither.
export function lastWins(
  task,
  { delayMs = 0, onstart = () => {}, onanswer, onfault, later = setTimeout, forget = clearTimeout },
) {
  let timer = null;
  let running = null;

  function stop() {
    if (timer !== null) forget(timer);
    timer = null;
    running?.abort();
    running = null;
  }

  async function run(input) {
    timer = null;
    const mine = new AbortController();
    running = mine;
    onstart(...input);
    try {
      const answer = await task(mine.signal, ...input);
      if (running !== mine) return;
      running = null;
      onanswer(answer, ...input);
    } catch (error) {
      if (running !== mine) return;
      running = null;
      onfault(error, ...input);
    }
  }

  return {
    /// At once.
    now(...input) {
      stop();
      return run(input);
    },
    /// After the input has rested for `delayMs`.
    soon(...input) {
      stop();
      timer = later(() => run(input), delayMs);
    },
    stop,
    get busy() {
      return timer !== null || running !== null;
    },
  };
}
