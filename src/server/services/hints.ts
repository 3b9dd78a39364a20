import {
  firstDayOfWeek,
  formatDay,
  formatWeek,
  isoWeekday,
  parseDay,
  parseWeek,
  weekOfDay,
} from '../../plan/dates';
import { fixed } from '../../plan/display';
import { lineAt, lineEnd } from '../../plan/lines';
import type { Plan, PlanText } from '../../plan/model';
import { scanKeys } from './key-scan';
import { inOtherUnits } from './other-units';
import { guideAt } from './schema-guide';
import { unquoted } from './subject';

/** What a value means beside what it says, at the end of its line. */
export interface Hint {
  readonly file: string;
  /** The end of the line's text. */
  readonly offset: number;
  readonly text: string;
  /** True where the day of a room's opening or emptying is told, so that the caution must go with it. */
  readonly opening: boolean;
}

/** Keys of a fill, of its records and of promises that say when its room is opened. */
const OPENING_KEYS: ReadonlySet<string> = new Set(['open', 'opened', 'emptied', 'opens']);

/** Values of a line that are told; a row of a dozen would be read by nobody. More lots than that are told in all. */
const MOST_IN_LINE = 3;
/** Lines that are looked at for one request: what an editor shows, many times over. */
const MOST_LINES = 2000;
/** Hints of neighbouring lines line up in steps, so that a digit more does not make them jump. */
const STEP = 8;

/**
 * Hints of the lines from `start` to `end`, at the end of each line: the day a week begins, the week of a day, the
 * tonnes of bins, a quantity in the other units. Widths are rounded up, so that the text keeps still as digits change.
 */
export function hintsOf(plan: Plan, file: string, start: number, end: number): Hint[] {
  const text = plan.files.get(file);
  if (!text) return [];
  const first = lineAt(text.lineStarts, start);
  const last = Math.min(lineAt(text.lineStarts, end), first + MOST_LINES);
  const told = new Map<number, Told[]>();
  const opening = new Set<number>();
  for (const { line, told: value, isOpening } of valuesOf(plan, text, first, last)) {
    told.set(line, [...(told.get(line) ?? []), value]);
    if (isOpening) opening.add(line);
  }
  return [...told].map(([line, values]) => ({
    file,
    offset: lineEnd(text.text, text.lineStarts, line),
    text: padded(inOneLine(values)),
    opening: opening.has(line),
  }));
}

/** What a value comes to; of a lot's bins in tonnes, which can be added up. */
type Told = string | { readonly tonnes: number };

function inOneLine(values: readonly Told[]): string {
  const tonnes = values.flatMap((value) => (typeof value === 'string' ? [] : [value.tonnes]));
  if (tonnes.length > MOST_IN_LINE) return `= ${inTonnes(tonnes.reduce((sum, one) => sum + one, 0))}`;
  const words = values.map((value) => (typeof value === 'string' ? value : inTonnes(value.tonnes)));
  // A quantity that stands twice is told once; two lots of the same weight are two.
  const distinct = words.filter((one, at) => typeof values[at] !== 'string' || words.indexOf(one) === at);
  return distinct.slice(0, MOST_IN_LINE).join(' · ');
}

function inTonnes(tonnes: number): string {
  return `${fixed(tonnes, 1)} t`;
}

/** Figure spaces are as wide as digits, and no editor trims them. */
function padded(words: string): string {
  return words.padEnd(Math.ceil(words.length / STEP) * STEP, '\u2007');
}

function valuesOf(plan: Plan, text: PlanText, first: number, last: number) {
  // A line's keys depend on those above it: reading begins at the section's own line.
  const from = text.lineStarts[sectionLine(text, first)] ?? 0;
  const to = lineEnd(text.text, text.lineStarts, last);
  const { tokens } = scanKeys(text.text, from, to);
  return tokens.flatMap(({ path, end }, index) => {
    const line = lineAt(text.lineStarts, end);
    if (line < first || line > last) return [];
    const stop = Math.min(tokens[index + 1]?.start ?? to, lineEnd(text.text, text.lineStarts, line));
    const value = valueIn(text.text.slice(end, stop));
    const words = value === undefined ? undefined : tellValue(plan, path, value);
    if (words === undefined) return [];
    const isOpening = path.slice(2).some((key) => OPENING_KEYS.has(key));
    return [{ line, told: words, isOpening }];
  });
}

function sectionLine({ text, lineStarts }: PlanText, line: number): number {
  let at = line;
  while (at > 0 && !/[^\s#}\]-]/.test(text[lineStarts[at] ?? 0] ?? ' ')) at--;
  return at;
}

/** The plain value behind a key's colon. */
function valueIn(text: string): string | undefined {
  const value = /^["']?\s*:\s*([^{[,}\]#\n]+)/.exec(text)?.[1]?.trim();
  return value ? unquoted(value) : undefined;
}

function tellValue(plan: Plan, path: readonly string[], value: string): Told | undefined {
  const guide = guideAt(path);
  const dimension = guide?.['x-dimension'];
  if (dimension) return inOtherUnits(value, dimension);
  if (guide?.['x-kind']) return tellDate(value);
  return tonnesOf(plan, path, value);
}

const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** Shorter than the hover's: the Monday of a week, the weekday and week of a day. */
function tellDate(value: string): string | undefined {
  const [first = '', last = first] = value.split('..');
  const [week, toWeek] = [parseWeek(first), parseWeek(last)];
  if (week !== undefined && toWeek !== undefined)
    return week === toWeek
      ? `from ${formatDay(firstDayOfWeek(week))}`
      : `${formatDay(firstDayOfWeek(week))}..${formatDay(firstDayOfWeek(toWeek) + 6)}`;
  const day = parseDay(first);
  return day === undefined
    ? undefined
    : `${WEEKDAYS[isoWeekday(day) - 1]} ${formatWeek(weekOfDay(day)).slice(5)}`;
}

/** Bins of a lot as tonnes, by the bin type of the room they go to; in a lot itself by the plan's only bin type. */
function tonnesOf(plan: Plan, path: readonly string[], value: string): Told | undefined {
  const bins = Number(value);
  const [section, id, key] = path;
  if (!Number.isFinite(bins) || bins <= 0 || id === undefined) return undefined;
  const isFillLot = section === 'fills' && key === 'lots' && path.length === 4;
  const isLot = section === 'lots' && path.length === 3 && (key === 'bins' || key === 'received');
  if (!isFillLot && !isLot) return undefined;
  const kg = isFillLot ? binOfFill(plan, id) : onlyBin(plan);
  return kg === undefined ? undefined : { tonnes: (bins * kg) / 1000 };
}

function binOfFill(plan: Plan, fill: string): number | undefined {
  const room = plan.rooms.get(plan.fills.get(fill)?.room?.value ?? '');
  return plan.binTypes.get(room?.binType?.value ?? '')?.netFruit?.value;
}

function onlyBin({ binTypes }: Plan): number | undefined {
  return binTypes.size === 1 ? [...binTypes.values()][0]?.netFruit?.value : undefined;
}
