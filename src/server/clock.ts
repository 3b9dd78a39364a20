import { type Day, parseDay } from '../plan/dates';

/** The calendar day of a moment in the time zone of the machine. */
export function dayOf(moment: Date): Day | undefined {
  const part = (value: number, digits: number) => String(value).padStart(digits, '0');
  return parseDay(
    `${part(moment.getFullYear(), 4)}-${part(moment.getMonth() + 1, 2)}-${part(moment.getDate(), 2)}`,
  );
}

/**
 * Calls back later, unless the returned function is called before. Messages that have come by then go first: what is
 * asked right behind an edit is answered before the edit is computed.
 */
export function later(milliseconds: number, work: () => void): () => void {
  let isCancelled = false;
  const unlessCancelled = () => {
    if (!isCancelled) work();
  };
  const begin = () => afterMessages(unlessCancelled);
  const timer = milliseconds > 0 ? setTimeout(begin, milliseconds) : begin();
  return () => {
    isCancelled = true;
    if (timer !== undefined) clearTimeout(timer);
  };
}

/** Messages are taken one each turn; in two turns those that are on their way have come. */
function afterMessages(work: () => void): undefined {
  // In a browser turns take longer, and messages come by the same queue: one will do.
  if (typeof setImmediate !== 'function') setTimeout(work, 0);
  else setImmediate(() => setImmediate(work));
  return undefined;
}

/** Milliseconds of a clock that only ever goes on. */
export function now(): number {
  return performance.now();
}
