import type { Problem } from '../problem';
import { bracketSlips } from './bracket-slips';
import { flowSlips, sameInBraces } from './flow-slips';
import { lineSlips, sameOnLines } from './line-slips';
import { lineOf, masked } from './masked';
import { unclosedQuote, unquotedSlips } from './quote-slips';
import { applied, type Change, type Slip, slipProblem } from './slip';

/** Longer chunks are whole files in braces, which nobody writes by hand. UTF-16 code units. */
const MOST_TEXT = 16 * 1024;
const MOST_TRIALS = 40;

/** What is found where a repair only makes another mistake of the one that it should cure. */
const ONLY_OTHER: ReadonlySet<string> = new Set([
  'unknown-key',
  'wrong-type',
  'bad-identifier',
  'duplicate-key',
  'yaml-feature-not-allowed',
]);

/** Reads a chunk as it would be; undefined where it could not be read, else what were found in it. */
export type Trial = (text: string) => readonly Problem[] | undefined;

/**
 * What a chunk's syntax errors are told as: the slip without which the chunk can be read, at its place, with the repair
 * as its fix. So all the reader's errors follow from that slip. Where no repair makes the chunk readable they stand as
 * they are.
 */
export function asSlip(text: string, problems: readonly Problem[], trial: Trial): readonly Problem[] {
  const [first] = problems;
  // Lines at a wrong depth are told with their own fix.
  if (!first || first.fixes?.length || text.length > MOST_TEXT) return problems;
  if (!problems.some(({ code }) => code === 'yaml-syntax')) return problems;
  const tried = new Trials(text, trial);
  let certain: Problem | undefined;
  for (const slip of slipsOf(text, problems)) {
    const { right, other } = tried.of(slip);
    if (right) return [slipProblem(text, slip, right)];
    if (other?.fixes?.length && slip.isOfKey) return [withOther(slipProblem(text, slip, undefined), other)];
    if (other && slip.isCertain) certain ??= withOther(slipProblem(text, slip, undefined), other);
  }
  return certain ? [certain] : problems;
}

/** The slips to be tried, each once, the surest first. */
function slipsOf(text: string, problems: readonly Problem[]): Slip[] {
  const mask = masked(text);
  const syntax = problems.filter(({ code }) => code === 'yaml-syntax');
  const places = syntax.map(({ at }) => at.start);
  const lines = new Map(places.map((at) => [lineOf(text, at).start, at]));
  const first = Math.min(...lines.keys());
  const above = first > 0 ? mask.slice(0, first).trimEnd().length - 1 : -1;
  if (above > 0) lines.set(lineOf(text, above).start, above);
  const at = [...lines.values()];
  return [
    ...places.flatMap((place) => unclosedQuote(text, mask, place) ?? []),
    ...at.flatMap((place) => lineSlips(text, mask, place)),
    ...at.flatMap((place) => flowSlips(text, mask, place)),
    ...bracketSlips(text, mask),
    ...at.flatMap((place) => unquotedSlips(text, mask, place)),
    ...sameOnLines(text, mask),
    ...sameInBraces(mask),
  ];
}

interface Tried {
  /** The one repair with which the chunk is read as the plan language has it; of several the first, without a choice. */
  readonly right: readonly Change[] | undefined;
  /** What is wrong then where the chunk can be read, but not so. */
  readonly other: Problem | undefined;
}

/** Repairs are tried by reading, no more than a few of them. */
class Trials {
  private left = MOST_TRIALS;

  constructor(
    private readonly text: string,
    private readonly trial: Trial,
  ) {}

  of({ repairs }: Slip): Tried {
    const right: (readonly Change[])[] = [];
    let other: Problem | undefined;
    for (const repair of repairs) {
      if (this.left-- <= 0) break;
      const mended = applied(this.text, repair);
      const found = this.trial(mended);
      const wrong = found?.find(({ code, at }) => ONLY_OTHER.has(code) && isNear(mended, at.start, repair));
      if (!found) continue;
      if (wrong) other ??= wrong;
      else right.push(repair);
    }
    return { right: right.length > 1 ? [] : right[0], other };
  }
}

/** Whether a place is in a line that a repair changes. */
function isNear(mended: string, place: number, repair: readonly Change[]): boolean {
  const line = lineOf(mended, place).start;
  return repair.some(({ start }) => lineOf(mended, Math.min(start, mended.length)).start === line);
}

function withOther(problem: Problem, { code, message }: Problem): Problem {
  return code === 'unknown-key' ? { ...problem, message: `${problem.message} ${message}` } : problem;
}
