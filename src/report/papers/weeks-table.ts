import { type Week, weekOfDay } from '../../plan/dates';
import type { SeasonAccount, TaskKind, WeekAccount } from './account';
import { weekColumns } from './columns';
import { names, number, type PaperTable, paperTable, type Told } from './paper';

/** A week with the rooms that each kind of task falls to in it. */
export interface WeekRow extends WeekAccount {
  readonly rooms: ReadonlyMap<TaskKind, readonly string[]>;
}

/** The season week by week: every week from the first task or bin to the last. */
export function weekRows(account: SeasonAccount): WeekRow[] {
  const byWeek = new Map<Week, Map<TaskKind, Set<string>>>();
  for (const { kind, first, last, rooms } of account.tasks) {
    // Filling goes over weeks; all else is told in the week in which it begins.
    const until = kind === 'fill' ? weekOfDay(last) : weekOfDay(first);
    for (let week = weekOfDay(first); week <= until; week += 1) {
      const kinds = byWeek.get(week) ?? new Map<TaskKind, Set<string>>();
      byWeek.set(week, kinds);
      kinds.set(kind, new Set([...(kinds.get(kind) ?? []), ...rooms]));
    }
  }
  const told = new Map(account.weeks.map((week) => [week.week, week]));
  const weeks = [...byWeek.keys(), ...told.keys()];
  if (weeks.length === 0) return [];
  const first = Math.max(Math.min(...weeks), account.fromWeek ?? Number.NEGATIVE_INFINITY);
  const count = Math.max(0, Math.min(MOST_WEEKS, Math.max(...weeks) - first + 1));
  return Array.from({ length: count }, (_, index) => {
    const week = first + index;
    const rooms = new Map([...(byWeek.get(week) ?? [])].map(([kind, set]) => [kind, [...set]] as const));
    return { ...(told.get(week) ?? { ...EMPTY, week }), rooms };
  });
}

/** Three years: a mistyped date must not make a table of centuries. */
const MOST_WEEKS = 160;

const EMPTY: Omit<WeekAccount, 'week'> = {
  bins: 0,
  capacity: 0,
  cartonsWanted: 0,
  cartonsSold: 0,
  cartonsShort: 0,
  cartonsUnsold: 0,
  cartonsInStock: 0,
};

const HEADINGS: Readonly<Partial<Record<TaskKind, string>>> = {
  fill: 'Fill',
  seal: 'Seal',
  purge: 'Nitrogen',
  'set-point': 'Set-point by',
  scrub: 'Scrubbing changes',
  lime: 'Change lime',
  sample: 'Sample',
  ventilate: 'Ventilate',
  open: 'Open',
  empty: 'Empty by',
};

export function taskColumns(kinds: readonly TaskKind[]): Told<WeekRow>[] {
  return kinds.map((kind) => names(kind, HEADINGS[kind] ?? kind, ({ rooms }) => rooms.get(kind) ?? []));
}

export const packingColumns: readonly Told<WeekRow>[] = [
  number('bins', 'Bins to pack', ({ bins }) => bins),
  number('capacity', 'Packhouse can run', ({ capacity }) => capacity),
];

export const cartonColumns: readonly Told<WeekRow>[] = [
  number('cartons-wanted', 'Cartons wanted', ({ cartonsWanted }) => cartonsWanted),
  number('cartons-sold', 'Sold', ({ cartonsSold }) => cartonsSold),
  number('cartons-short', 'Short', ({ cartonsShort }) => cartonsShort),
  number('cartons-unsold', 'Unsold', ({ cartonsUnsold }) => cartonsUnsold),
];

export const stockColumn = number<WeekRow>(
  'cartons-in-stock',
  'In stock',
  ({ cartonsInStock }) => cartonsInStock,
);

export function weeksTable(
  account: SeasonAccount,
  columns: readonly Told<WeekRow>[],
  opens: boolean,
): PaperTable {
  return paperTable(
    'weeks',
    'Week by week',
    weekRows(account),
    [...weekColumns<WeekRow>(), ...columns],
    opens,
  );
}
