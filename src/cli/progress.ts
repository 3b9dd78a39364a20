import { fixed } from '../plan/display';
import type { ReleaseProgress } from '../release/types';
import type { Output } from './io';

const CLEAR_LINE = '\r\u001B[K';

/** One line that is written over and over while a schedule is searched for; nothing where no one watches. */
export function progressLine(err: Output): {
  readonly show: (progress: ReleaseProgress) => void;
  readonly clear: () => void;
} {
  if (!err.isTerminal) return { show: () => {}, clear: () => {} };
  return {
    show: (progress) => err.write(CLEAR_LINE + progressText(progress)),
    clear: () => err.write(CLEAR_LINE),
  };
}

/** Of work that nobody watches on a terminal, as in a build's log, a line is written at each of so many steps. */
const LOGGED_STEPS = 10;
/** Seasons drawn within seconds leave no line in a log. */
const LEAST_DRAWS_LOGGED = 2000;

/** The same for so many seasons that are drawn. */
export function drawsLine(
  err: Output,
  draws: number,
): {
  readonly show: (what: string, share: number, mean?: number) => void;
  readonly clear: () => void;
} {
  if (!err.isTerminal) return draws < LEAST_DRAWS_LOGGED ? { show: () => {}, clear: () => {} } : logged(err);
  return {
    show: (what, share, mean) => {
      const best = mean === undefined || !Number.isFinite(mean) ? '' : `, mean so far ${fixed(mean, 0)}`;
      err.write(`${CLEAR_LINE}${what} ${fixed(share * 100, 0)} %${best} (Ctrl-C stops it)`);
    },
    clear: () => err.write(CLEAR_LINE),
  };
}

/** `searching 40 %, best so far 1,234,567, within 1.8 % of the bound (Ctrl-C stops and prints it)` */
export function progressText({ stage, share, value, bound }: ReleaseProgress): string {
  const done = `${stage} ${fixed(share * 100, 0)} %`;
  const best = value === undefined ? '' : `, best so far ${fixed(value, 0)}`;
  const away =
    value === undefined || bound === undefined || bound === 0
      ? ''
      : `, within ${fixed((100 * (bound - value)) / Math.abs(bound), 1)} % of the bound`;
  return `${done}${best}${away} (Ctrl-C stops and prints it)`;
}

function logged(err: Output): {
  readonly show: (what: string, share: number) => void;
  readonly clear: () => void;
} {
  let last = '';
  return {
    show: (what, share) => {
      const step = Math.floor(share * LOGGED_STEPS) / LOGGED_STEPS;
      const text = `${what} ${fixed(step * 100, 0)} %`;
      if (text !== last) err.write(`${text}\n`);
      last = text;
    },
    clear: () => {},
  };
}
