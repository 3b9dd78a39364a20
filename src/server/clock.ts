import { type Day, parseDay } from '../plan/dates';

/** The calendar day of a moment in the time zone of the machine. */
export function dayOf(moment: Date): Day | undefined {
  const part = (value: number, digits: number) => String(value).padStart(digits, '0');
  return parseDay(
    `${part(moment.getFullYear(), 4)}-${part(moment.getMonth() + 1, 2)}-${part(moment.getDate(), 2)}`,
  );
}

/** Calls back later, unless the returned function is called before. */
export function later(milliseconds: number, work: () => void): () => void {
  const timer = setTimeout(work, milliseconds);
  return () => clearTimeout(timer);
}

/** Milliseconds of a clock that only ever goes on. */
export function now(): number {
  return performance.now();
}
