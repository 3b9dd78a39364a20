import { ownEditsFirst } from '../compare/own-changes';
import { thingName } from '../compare/things';
import type {
  AmountUnit,
  Causes,
  Comparison,
  Consequence,
  HeldBack,
  MeasureKind,
  ThingKind,
} from '../compare/types';
import { formatDay, formatWeek } from '../plan/dates';
import { type DisplayUnits, fixed, showApart } from '../plan/display';
import { type Figure, referenceFigure } from '../plan/figure';
import { counted } from '../plan/wording';
import { editText, SOURCE, show } from './compare-changes';
import { weekRanges } from './text-cells';

/** A consequence in a line, without a full stop, the amount and its direction in it. */
export function consequenceText(one: Consequence, units: DisplayUnits): string {
  const { kind, before, after } = one;
  const name = subjectName(one);
  switch (kind) {
    case 'finding':
      return findingText(one);
    case 'opens':
      return openingText(name, before, after);
    case 'window':
      return windowText(name, before, after);
    case 'earliest':
      return `${name} can be opened from ${week(after)}, ${movedText(one)}`;
    case 'best-before':
      return `${name} is best opened before ${week(after)} is over, ${movedText(one)}`;
    case 'latest':
      return `${name} must be opened by ${week(after)}, ${movedText(one)}`;
    case 'cartons-short':
      return `${amountText(one, name, (by) => `${by} of ${name} short`, units)}${ordersText(one)}`;
    case 'cartons-sold':
      return amountText(one, name, (by) => `${by} of ${name} sold`, units);
    case 'cartons-surplus':
      return amountText(one, name, (by) => `${by} of ${name} to processing`, units);
    case 'bins-packed':
      return amountText(one, name, (by) => `${by} packed`, units);
    case 'value':
      return `the schedule is worth ${difference(one, units)} ${(after ?? 0) > (before ?? 0) ? 'more' : 'less'} (${fromTo(one, units)})`;
    default:
      return `${name}: ${MEASURES[kind]} ${fromTo(one, units)}${aboveText(one, units)}`;
  }
}

const MEASURES = {
  'bins-stored': 'bins in store',
  'carbon-dioxide': 'carbon dioxide its fruit gives off',
  'room-cooling': "its cooler's load while it is filled, of what the cooler gives,",
  'scrubber-peak': 'load in its heaviest week',
  'scrubber-duty': 'carbon dioxide taken out over the season',
  'nitrogen-peak': 'hours asked in its heaviest week, of the hours there are,',
  'cooling-peak': 'load in its heaviest week',
} as const satisfies Partial<Record<MeasureKind, string>>;

/** What a consequence is of: the fill, the equipment, the product. */
export function subjectName({ about }: Consequence): string {
  switch (about.of) {
    case 'fill':
      return about.fill;
    case 'equipment':
      return thingName(about.thing);
    case 'product':
      return `${about.variety} ${about.packClass}`;
    case 'season':
      return 'the season';
  }
}

function findingText({ oldFinding, newFinding }: Consequence): string {
  const finding = newFinding ?? oldFinding;
  if (!finding) return '';
  const told = firstSentence(finding.message);
  return newFinding
    ? `${finding.severity} ${finding.code}: ${told}`
    : `cured, ${finding.severity} ${finding.code}: ${told}`;
}

/** A message's first sentence without its full stop; a point within a number or an abbreviation ends none. */
function firstSentence(message: string): string {
  const end = /[.!?](?=\s+[A-Z(])|[.!?]$/.exec(message)?.index ?? message.length;
  return message.slice(0, end);
}

function openingText(name: string, before: number | undefined, after: number | undefined): string {
  if (after === undefined)
    return `the schedule leaves ${name} closed, it opened it in ${week(before)} before`;
  if (before === undefined) return `the schedule opens ${name} in ${week(after)}`;
  return `the schedule opens ${name} in ${week(after)}, ${weeksText(after - before)} than in ${week(before)}`;
}

function windowText(name: string, before: number | undefined, after: number | undefined): string {
  if (after === 0) return `${name} has no week left in which it can be opened`;
  if (before === undefined) return `${name} has an opening window of ${counted(after ?? 0, 'week')}`;
  if (after === undefined) return `${name} has no opening window any more`;
  return `${name} can be opened again: ${counted(after, 'week')} in its window`;
}

function movedText({ before = 0, after = 0 }: Consequence): string {
  return `${weeksText(after - before)} than ${week(before)}`;
}

function weeksText(weeks: number): string {
  return `${counted(Math.abs(weeks), 'week')} ${weeks > 0 ? 'later' : 'earlier'}`;
}

function amountText(
  one: Consequence,
  name: string,
  words: (by: string) => string,
  units: DisplayUnits,
): string {
  const change = (one.after ?? 0) - (one.before ?? 0);
  const weeks = weekRanges((one.byWeek ?? []).map(({ week: at }) => ({ index: at, label: formatWeek(at) })));
  const inWeeks = weeks === '' ? '' : `, ${shortened(weeks)}`;
  if (Math.round(Math.abs(change)) === 0) {
    const moved = (one.byWeek ?? []).reduce((sum, two) => sum + Math.abs(two.after - two.before), 0) / 2;
    return `${whatMoves(one.kind, name)}: ${show({ value: Math.round(moved), unit: unitOf(one.unit) }, units)} in other weeks${inWeeks}`;
  }
  const by = `${fixed(Math.abs(change), 0)} ${change > 0 ? 'more' : 'fewer'} ${one.unit}`;
  return `${words(by)} (${fromTo(one, units)})${inWeeks}`;
}

/** Whose orders they are: the first three, each with its part where there are several. */
function ordersText({ orders = [] }: Consequence): string {
  const told = orders.map(({ demand, before, after }) => {
    const by = Math.round(Math.abs(after - before));
    if (orders.length === 1 || by === 0) return demand;
    return `${demand} ${fixed(by, 0)} ${after > before ? 'more' : 'fewer'}`;
  });
  const more = told.length - MOST_ORDERS;
  const list = `${told.slice(0, MOST_ORDERS).join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
  if (told.length === 0) return '';
  return told.length === 1 ? `, of ${list}` : `: ${list}`;
}

const MOST_ORDERS = 3;

function whatMoves(kind: MeasureKind, name: string): string {
  const told: Partial<Record<MeasureKind, string>> = {
    'cartons-short': `shortage of ${name}`,
    'cartons-sold': `sales of ${name}`,
    'cartons-surplus': `${name} to processing`,
  };
  return told[kind] ?? 'packing';
}

/** A list of weeks may be long: its first ranges. */
function shortened(weeks: string): string {
  const ranges = weeks.split(', ');
  return ranges.length <= 3
    ? weeks
    : `${ranges.slice(0, 3).join(', ')} and ${ranges.length - 3} more stretches`;
}

function fromTo({ before, after, unit }: Consequence, units: DisplayUnits): string {
  const [was, is] = [amount(before, unit, units), amount(after, unit, units)];
  if (was !== is || before === undefined || after === undefined) return `${was} → ${is}`;
  const apart = showApart(figureOf(before, unit), figureOf(after, unit), units);
  return apart.join(' → ');
}

function figureOf(value: number, unit: AmountUnit): Figure {
  return referenceFigure('', unitOf(unit), value, SOURCE);
}

function difference({ before = 0, after = 0, unit }: Consequence, units: DisplayUnits): string {
  return money(Math.abs(after - before), unit, units);
}

function money(value: number, unit: AmountUnit, units: DisplayUnits): string {
  return unit === 'money' ? `${units.currency} ${fixed(value, 0)}` : amount(value, unit, units);
}

/** An amount with its unit; sums of cartons, bins and money whole. */
export function amount(value: number | undefined, unit: AmountUnit, units: DisplayUnits): string {
  if (value === undefined) return 'none';
  if (unit === 'week') return formatWeek(value);
  if (unit === 'cartons' || unit === 'bins' || unit === 'money') return fixed(value, 0);
  // Loads are not known to a tenth of a per cent.
  if (unit === '%' && Math.abs(value) >= 10) return `${fixed(value, 0)} %`;
  return show({ value, unit: unitOf(unit) }, units);
}

function unitOf(unit: AmountUnit) {
  return unit === 'week' ? 'weeks' : unit;
}

function week(value: number | undefined): string {
  return value === undefined ? 'no week' : formatWeek(value);
}

function aboveText({ after, limit, unit }: Consequence, units: DisplayUnits): string {
  return limit !== undefined && (after ?? 0) > limit ? `, above ${amount(limit, unit, units)}` : '';
}

type Edited = Pick<Comparison, 'edits' | 'since'>;

/** Which edits a consequence comes of: their names, with their parts where there are several. */
export function causeText(one: Consequence, comparison: Edited, units: DisplayUnits, most = 2): string {
  const { causes, unit } = one;
  const { parts } = causes;
  if (parts.length === 0) return '';
  const several = parts.length > 1;
  const shown = parts.slice(0, most).map(({ edits: own, part }) => {
    const share = several && part !== undefined ? ` (${signed(part, unit, units)})` : '';
    return `${ownText(own, one, comparison, units)}${share}`;
  });
  const more = parts.length > most ? [`${parts.length - most} more`] : [];
  return [
    ...(causes.onlyTogether ? ['only together: '] : []),
    [...shown, ...more].join('; '),
    togetherText(causes, unit, units),
  ].join('');
}

/** Edits tried together, those first that are about what follows from them. */
function ownText(
  own: readonly number[],
  follows: Consequence,
  comparison: Edited,
  units: DisplayUnits,
): string {
  const { edits } = comparison;
  const records = own.length === edits.length ? allRecords(comparison) : undefined;
  if (records !== undefined) return records;
  const names = ownEditsFirst(own, edits, follows).flatMap((edit) => {
    const one = edits[edit];
    return one ? [editText(one, units, follows)] : [];
  });
  const joint = follows.causes.onlyTogether ? ' with ' : ' or ';
  const told = names.length <= 2 ? names.join(joint) : `${names[0]}${joint}${names.length - 1} other edits`;
  if (follows.causes.untried) return `${told} (not tried: nearest to what it is about)`;
  return names.length > 1 && !follows.causes.onlyTogether
    ? `${told} (tried together: which of them it is cannot be told)`
    : told;
}

const RECORDS: ReadonlySet<ThingKind> = new Set(['progress', 'samples', 'packed', 'sales']);

/** More than two edits, all of records, in words; undefined where they are others or fewer. */
export function allRecords({ edits, since }: Edited): string | undefined {
  if (edits.length <= 2) return undefined;
  const changes = edits.flatMap(({ changes: own }) => own);
  if (!changes.every(({ things }) => RECORDS.has(things[0].kind))) return undefined;
  const all = `the ${counted(changes.length, 'record')}`;
  return since === undefined ? `${all} that differ` : `${all} since ${formatDay(since)}`;
}

/** What edits do together beyond the sum of what each does alone. */
function togetherText(
  { together, parts, onlyTogether }: Causes,
  unit: AmountUnit,
  units: DisplayUnits,
): string {
  if (together === undefined || parts.length < 2 || onlyTogether || isTrifle(together, unit)) return '';
  return `; together ${signed(together, unit, units)} beyond the sum`;
}

function isTrifle(value: number, unit: AmountUnit): boolean {
  return Math.abs(value) < (unit === '%' ? 0.05 : 0.5);
}

function signed(value: number, unit: AmountUnit, units: DisplayUnits): string {
  const sign = value > 0 ? '+' : value < 0 ? '-' : '';
  const size = Math.abs(value);
  if (unit === 'week') return `${sign}${counted(size, 'week')}`;
  return `${sign}${money(size, unit, units)}`;
}

const KINDS: Readonly<Record<MeasureKind, readonly [string, string]>> = {
  earliest: ['earliest week', 'earliest weeks'],
  'best-before': ['best-before week', 'best-before weeks'],
  latest: ['latest week', 'latest weeks'],
  window: ['length of a window', 'lengths of windows'],
  opens: ['opening week', 'opening weeks'],
  'bins-stored': ['room by bins', 'rooms by bins'],
  'carbon-dioxide': ["room's carbon dioxide", "rooms' carbon dioxide"],
  'room-cooling': ["cooler's load", "coolers' loads"],
  'scrubber-peak': ["scrubber's load", "scrubbers' loads"],
  'scrubber-duty': ["scrubber's season", "scrubbers' seasons"],
  'nitrogen-peak': ["nitrogen source's load", "nitrogen sources' loads"],
  'cooling-peak': ["refrigeration group's load", "refrigeration groups' loads"],
  'bins-packed': ['packing by week', 'packing by week'],
  'cartons-sold': ['product by sales', 'products by sales'],
  'cartons-short': ['product by shortage', 'products by shortage'],
  'cartons-surplus': ['product by surplus', 'products by surplus'],
  value: ['value of the schedule', 'value of the schedule'],
  finding: ['notice', 'notices'],
};

/** How many differences stay below the thresholds, in a line; undefined where none does. */
export function heldBackText(heldBack: readonly HeldBack[]): string | undefined {
  const total = heldBack.reduce((sum, { count }) => sum + count, 0);
  if (total === 0) return undefined;
  const parts = heldBack.map(({ kind, count }) => counted(count, ...KINDS[kind]));
  return `Too small to list: ${parts.join(', ')}.`;
}

/** What tells, or may tell, of opening a room. */
const OF_OPENING: ReadonlySet<MeasureKind> = new Set([
  'opens',
  'earliest',
  'best-before',
  'latest',
  'window',
  'finding',
]);

/**
 * True where anything tells of opening a room: the caution then goes with it. Records of what was done with a fill do,
 * and so do differences that are only counted and the line on the weeks that both plans keep.
 */
export function tellsOfOpening({ consequences, changes, heldBack, weeksOf }: Comparison): boolean {
  return (
    weeksOf !== undefined ||
    changes.some(({ kind, things }) => kind === 'pin-changed' || things[0].kind === 'progress') ||
    [...consequences, ...heldBack].some(({ kind }) => OF_OPENING.has(kind))
  );
}
