import type { Week } from '../plan/dates';
import type { Found } from './found-findings';
import { directionOf, findingGravity, gravityOf } from './gravity';
import type { Measure } from './measure';
import type { Consequence, OrderDifference, Thresholds, WeekDifference } from './types';

/** A consequence before its causes are known, and what it depends on first. */
export interface Difference {
  readonly consequence: Omit<Consequence, 'causes'>;
  readonly tags: readonly string[];
  /** False where it stays below the planner's threshold. */
  readonly isTold: boolean;
}

/** What is less is rounding. */
const LEAST = 1e-6;

export function measureDifferences(
  old: ReadonlyMap<string, Measure>,
  now: ReadonlyMap<string, Measure>,
  thresholds: Thresholds,
): Difference[] {
  const keys = new Set([...old.keys(), ...now.keys()]);
  return [...keys].flatMap((key) => {
    const difference = differenceOf(old.get(key), now.get(key), thresholds);
    return difference ? [difference] : [];
  });
}

function differenceOf(
  before: Measure | undefined,
  after: Measure | undefined,
  thresholds: Thresholds,
): Difference | undefined {
  const either = after ?? before;
  if (!either) return undefined;
  const byWeek = weekDifferences(before, after);
  const orders = orderDifferences(before, after);
  const change = (after?.value ?? 0) - (before?.value ?? 0);
  const hasCome = (before?.value === undefined) !== (after?.value === undefined);
  if (!hasCome && Math.abs(change) <= LEAST && byWeek.length === 0) return undefined;
  const limit = after?.limit ?? before?.limit;
  const difference = {
    kind: either.kind,
    key: either.key,
    about: either.about,
    unit: either.unit,
    ...(before?.value !== undefined && { before: before.value }),
    ...(after?.value !== undefined && { after: after.value }),
    ...(limit !== undefined && { limit }),
    ...(byWeek.length > 0 && { byWeek }),
    ...(orders.length > 0 && { orders }),
  };
  const gravity = gravityOf(difference, before !== undefined, after !== undefined);
  return {
    consequence: { ...difference, gravity, direction: directionOf(difference, gravity) },
    tags: [...new Set([...(before?.tags ?? []), ...(after?.tags ?? [])])],
    isTold: gravity === 'closed' || crosses(difference) || isTold(difference, thresholds),
  };
}

/** True where a limit is passed, or kept again. */
function crosses({ before = 0, after = 0, limit }: Pick<Consequence, 'before' | 'after' | 'limit'>): boolean {
  return limit !== undefined && before > limit !== after > limit;
}

function weekDifferences(before: Measure | undefined, after: Measure | undefined): WeekDifference[] {
  const weeks = new Set<Week>([...(before?.byWeek?.keys() ?? []), ...(after?.byWeek?.keys() ?? [])]);
  return [...weeks]
    .sort((a, b) => a - b)
    .map((week) => ({ week, before: before?.byWeek?.get(week) ?? 0, after: after?.byWeek?.get(week) ?? 0 }))
    .filter((one) => Math.abs(one.after - one.before) > LEAST);
}

function orderDifferences(before: Measure | undefined, after: Measure | undefined): OrderDifference[] {
  const demands = new Set([...(before?.byOrder?.keys() ?? []), ...(after?.byOrder?.keys() ?? [])]);
  const size = (one: OrderDifference) => Math.abs(one.after - one.before);
  return [...demands]
    .map((demand) => ({
      demand,
      before: before?.byOrder?.get(demand) ?? 0,
      after: after?.byOrder?.get(demand) ?? 0,
    }))
    .filter((one) => size(one) > LEAST)
    .sort((a, b) => size(b) - size(a) || (a.demand < b.demand ? -1 : 1));
}

type Compared = Pick<Consequence, 'kind' | 'unit' | 'before' | 'after' | 'byWeek'>;

/** Whether a difference reaches the threshold for what it is of. */
function isTold({ kind, unit, before, after, byWeek }: Compared, thresholds: Thresholds): boolean {
  const [was, is] = [before ?? 0, after ?? 0];
  if ((before === undefined) !== (after === undefined)) return kind === 'opens' || kind === 'window';
  // Of what only moves to other weeks, what moves.
  const moved = (byWeek ?? []).reduce((sum, one) => sum + Math.abs(one.after - one.before), 0) / 2;
  const change = Math.max(Math.abs(is - was), moved);
  const of = (least: number) => change >= least - LEAST;
  if (kind === 'window') return was === 0 || is === 0;
  if (kind === 'value') return of((thresholds.value / 100) * Math.max(Math.abs(was), Math.abs(is)));
  if (unit === 'week') return of(thresholds.weeks);
  if (unit === 'cartons') return of(thresholds.cartons);
  if (unit === 'bins') return of(thresholds.bins);
  if (unit === '%') return of(thresholds.load);
  // Kilograms of carbon dioxide and kilowatts: as many per cent of what they are.
  return of((thresholds.load / 100) * Math.max(Math.abs(was), Math.abs(is)));
}

/** Findings that are new, and those that are cured. */
export function findingDifferences(
  old: ReadonlyMap<string, Found>,
  now: ReadonlyMap<string, Found>,
): Difference[] {
  const keys = new Set([...old.keys(), ...now.keys()]);
  return [...keys].flatMap((key) => {
    const [before, after] = [old.get(key), now.get(key)];
    const either = after ?? before;
    if (!either || (before && after)) return [];
    const direction = after ? 'worse' : 'better';
    const { severity } = either.finding;
    return [
      {
        consequence: {
          kind: 'finding',
          key: `finding/${key}`,
          about: { of: 'season' },
          unit: '1',
          before: before ? 1 : 0,
          after: after ? 1 : 0,
          ...(before && { oldFinding: before.finding }),
          ...(after && { newFinding: after.finding }),
          gravity: findingGravity(severity),
          direction: severity === 'notice' ? 'neither' : direction,
        } satisfies Omit<Consequence, 'causes'>,
        tags: either.tags,
        isTold: severity !== 'notice',
      },
    ];
  });
}
