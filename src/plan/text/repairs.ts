import type { Problem } from '../problem';
import { bracketSlips } from './bracket-slips';
import { flowSlips, sameInBraces } from './flow-slips';
import { lineSlips, openingSlip, sameOnLines } from './line-slips';
import { lineOf, masked } from './masked';
import type { ParsedChunk } from './parsed-chunk';
import { unclosedQuote, unquotedSlips } from './quote-slips';
import { applied, type Change, type Slip, slipProblem } from './slip';

/** Longer chunks are sections or files in braces, which nobody writes by hand. UTF-16 code units. */
const MOST_TEXT = 4 * 1024;
/** A slip is told by the first to fourth reading, few later: each key in an entry that is wrong waits for these. */
const MOST_TRIALS = 8;
/** With more lines wrong than these it is no slip, unless one opens all of them. */
const MOST_LINES = 4;

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
export function asSlip(text: string, parsed: ParsedChunk, trial: Trial): readonly Problem[] {
  const { problems, wrongLines = 0 } = parsed;
  const [first] = problems;
  // Lines at a wrong depth are told with their own fix.
  if (!first || first.fixes?.length || text.length > MOST_TEXT) return problems;
  if (!problems.some(({ code }) => code === 'yaml-syntax')) return problems;
  const tried = new Trials(text, trial);
  let certain: Problem | undefined;
  const slips = wrongLines > MOST_LINES ? openingSlips(text, problems) : slipsOf(text, problems);
  for (const slip of slips) {
    const { right, other, isEither } = tried.of(slip);
    if (right) return [slipProblem(text, isEither ? withHint(slip) : slip, right)];
    if (other?.fixes?.length && slip.isOfKey) return [withOther(slipProblem(text, slip, undefined), other)];
    if (other && slip.isCertain) certain ??= withOther(slipProblem(text, slip, undefined), other);
  }
  return certain ? [certain] : problems;
}

function withHint(slip: Slip): Slip {
  return { ...slip, message: `${slip.message}${slip.instead?.hint ?? ''}` };
}

/** The slips to be tried, each once, the surest first. */
function slipsOf(text: string, problems: readonly Problem[]): Slip[] {
  const mask = masked(text);
  const { places, at } = placesOf(mask, problems);
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

/** The one slip that makes many lines wrong: what opens them, a name, has no colon. */
function openingSlips(text: string, problems: readonly Problem[]): Slip[] {
  const mask = masked(text);
  const { at } = placesOf(mask, problems);
  return at
    .sort((a, b) => a - b)
    .flatMap((place) => openingSlip(text, mask, place) ?? [])
    .slice(0, 1);
}

/** Where the reader stumbled, a place for each line of these, and one for the line above the first. */
function placesOf(mask: string, problems: readonly Problem[]) {
  const places = problems.filter(({ code }) => code === 'yaml-syntax').map(({ at }) => at.start);
  const lines = new Map(places.map((place) => [lineOf(mask, place).start, place]));
  const first = Math.min(...lines.keys());
  const above = first > 0 ? mask.slice(0, first).trimEnd().length - 1 : -1;
  if (above > 0) lines.set(lineOf(mask, above).start, above);
  return { places, at: [...lines.values()] };
}

interface Tried {
  /** The one repair with which the chunk is read as the plan language has it; of several the first, without a choice. */
  readonly right: readonly Change[] | undefined;
  /** What is wrong then where the chunk can be read, but not so. */
  readonly other: Problem | undefined;
  /** Whether the chunk can be read with what may be meant as well. */
  readonly isEither: boolean;
}

/** Repairs are tried by reading, no more than a few of them. */
class Trials {
  private left = MOST_TRIALS;

  constructor(
    private readonly text: string,
    private readonly trial: Trial,
  ) {}

  of(slip: Slip): Tried {
    const { repairs, instead } = slip;
    const right: (readonly Change[])[] = [];
    let other: Problem | undefined;
    for (const repair of repairs) {
      const wrong = this.wrongWith(slip, repair);
      if (wrong === 'nothing') right.push(repair);
      else if (wrong !== 'not read') other ??= wrong;
    }
    const isEither =
      right.length > 0 && instead !== undefined && this.wrongWith(slip, instead.repair) === 'nothing';
    return { right: right.length > 1 || isEither ? [] : right[0], other, isEither };
  }

  /** What counts against a repair. */
  private wrongWith(slip: Slip, repair: readonly Change[]): Problem | 'nothing' | 'not read' {
    if (this.left-- <= 0) return 'not read';
    const mended = applied(this.text, repair);
    const found = this.trial(mended);
    if (!found) return 'not read';
    const counts = ({ code, at }: Problem) =>
      (slip.isStrict || ONLY_OTHER.has(code)) && (slip.isOfWhole || isNear(mended, at.start, repair));
    return found.find(counts) ?? 'nothing';
  }
}

/** Whether a place is in a line that a repair changes, or makes. */
function isNear(mended: string, place: number, repair: readonly Change[]): boolean {
  let shift = 0;
  return [...repair]
    .sort((a, b) => a.start - b.start)
    .some(({ start, end, newText }) => {
      const from = Math.min(start + shift, mended.length);
      shift += newText.length - (end - start);
      return (
        place >= lineOf(mended, from).start &&
        place < lineOf(mended, Math.min(from + newText.length, mended.length)).next
      );
    });
}

function withOther(problem: Problem, { code, message }: Problem): Problem {
  return code === 'unknown-key' ? { ...problem, message: `${problem.message} ${message}` } : problem;
}
