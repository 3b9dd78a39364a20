import { toldOnce } from '../compare/told-once';
import type { Comparison, Consequence } from '../compare/types';
import type { DisplayUnits } from '../plan/display';
import { counted } from '../plan/wording';
import { editText } from './compare-changes';
import { allRecords, causeText, consequenceText } from './compare-words';

/** What is said first of a comparison. */
export interface Headline {
  /** The gravest consequence with its direction and amount. */
  readonly text: string;
  /** What brought it about. */
  readonly cause: string;
  /** The consequence it tells; undefined where there is none to tell. */
  readonly of: Consequence | undefined;
}

export function headlineOf(comparison: Comparison, units: DisplayUnits): Headline {
  const { consequences, heldBack } = comparison;
  const [first] = consequences;
  if (!first) {
    const small =
      heldBack.length > 0
        ? 'Nothing that follows reaches what is told'
        : 'Nothing follows for rooms, weeks or cartons';
    return { text: small, cause: named(comparison, units), of: undefined };
  }
  const start = { worse: 'Worse', better: 'Better', neither: 'Nothing worse' }[first.direction];
  const cause = causeText(first, comparison, units);
  return {
    text: `${start}: ${consequenceText(first, units)}`,
    cause: cause === '' ? named(comparison, units) : cause,
    of: first,
  };
}

function named(comparison: Comparison, units: DisplayUnits): string {
  const { edits } = comparison;
  const records = allRecords(comparison);
  if (records !== undefined) return records;
  const [first, second] = edits;
  if (!first) return '';
  if (!second) return editText(first, units);
  return edits.length === 2
    ? `${editText(first, units)}; ${editText(second, units)}`
    : `${editText(first, units)}; ${counted(edits.length - 1, 'other edit')}`;
}

/** `38 changes; 12 consequences for the worse, 5 for the better, 60 other`. */
export function countText({ changes, consequences }: Comparison): string {
  const told = toldOnce(consequences);
  const count = (direction: Consequence['direction']) =>
    told.filter((one) => one.direction === direction).length;
  const parts = [
    [count('worse'), 'for the worse'],
    [count('better'), 'for the better'],
    [count('neither'), 'neither'],
  ] as const;
  const counts = parts.filter(([number]) => number > 0).map(([number, words]) => `${number} ${words}`);
  const follows = counts.length === 0 ? '' : `; what follows: ${counts.join(', ')}`;
  return `${counted(changes.length, 'change')}${follows}`;
}

/** The season before and after in a few rows: name, before, after, change. Rows without a change are left out. */
export function totalRows({ totals, consequences }: Comparison, units: DisplayUnits): string[][] {
  if (!totals) return [];
  const { old, now } = totals;
  const row = (name: string, before: number | undefined, after: number | undefined): string[][] => {
    if (before === undefined && after === undefined) return [];
    const [was, is] = [before === undefined ? '-' : whole(before), after === undefined ? '-' : whole(after)];
    if (was === is) return [];
    const change = Math.round(after ?? 0) - Math.round(before ?? 0);
    return [[name, was, is, `${change > 0 ? '+' : ''}${whole(change)}`]];
  };
  const moved = (kind: Consequence['kind']) => consequences.filter((one) => one.kind === kind).length;
  const windows = new Set(
    consequences.flatMap(({ kind, about }) =>
      about.of === 'fill' && (kind === 'earliest' || kind === 'latest' || kind === 'best-before')
        ? [about.fill]
        : [],
    ),
  ).size;
  return [
    ...row('Errors', old.errors, now.errors),
    ...row('Warnings', old.warnings, now.warnings),
    ...row('Cartons short', old.schedule?.cartonsShort, now.schedule?.cartonsShort),
    ...row('Cartons sold', old.schedule?.cartonsSold, now.schedule?.cartonsSold),
    ...row('Cartons to processing', old.schedule?.cartonsSurplus, now.schedule?.cartonsSurplus),
    ...row(`Worth, ${units.currency}`, old.schedule?.value, now.schedule?.value),
    ...row('Bins in store', old.binsStored, now.binsStored),
    ...(moved('opens') > 0 ? [['Rooms that open in another week', '', '', String(moved('opens'))]] : []),
    ...(windows > 0 ? [['Rooms whose opening window moves', '', '', String(windows)]] : []),
  ];
}

function whole(value: number): string {
  return String(Math.round(value)).replace(/\B(?=(?:\d{3})+$)/g, ',');
}

/** In which weeks both plans were scheduled: what a reader must know to believe the differences. */
export function weeksText({ weeksOf }: Comparison): string | undefined {
  if (!weeksOf) return undefined;
  return `Both plans keep the same opening weeks, found for ${weeksOf === 'both' ? 'either' : `the ${weeksOf} one`}, but for rooms that cannot or that gain more than moving costs; a check of either alone may choose others. What a schedule is worth is told in these weeks: beside another plan, or checked alone, the same plan may open in others and be worth somewhat more or less.`;
}
