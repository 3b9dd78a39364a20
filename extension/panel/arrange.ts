import type { TimelineRow, TimelineView } from '../../src/report/timeline-types';
import { filled, say } from './words';

/** The orders that rooms can stand in. */
export const ORDERS = ['plan', 'variety', 'week', 'slack'] as const;
export type Order = (typeof ORDERS)[number];

/** What an order is called. */
export function orderName(order: Order): string {
  const names = {
    plan: say.orderPlan,
    variety: say.orderVariety,
    week: say.orderWeek,
    slack: say.orderSlack,
  };
  return names[order];
}

/** Which rooms are shown: all, or those that want a look for one reason. */
export const PICKS = ['all', 'findings', 'unpinned', 'tight', 'differs'] as const;
export type Pick = (typeof PICKS)[number];

/** What a pick is called. */
export function pickName(pick: Pick): string {
  const names = {
    all: say.pickAll,
    findings: say.pickFindings,
    unpinned: say.pickUnpinned,
    tight: filled(say.pickTight, FEW_WEEKS),
    differs: say.pickDiffers,
  };
  return names[pick];
}

/** What the rooms are picked and ordered by. */
export interface Arrangement {
  readonly order: Order;
  readonly pick: Pick;
  /** Words that a room must all have; empty for all rooms. */
  readonly find: string;
}

/** The view with the rooms that are looked for, in the order that is wanted. Ties stay as in the plan. */
export function arranged(view: TimelineView, { order, pick, find }: Arrangement): TimelineView {
  const words = find.toLowerCase().split(/\s+/).filter(Boolean);
  const isPicked = pickedBy(pick, view);
  const found =
    words.length === 0 && pick === 'all'
      ? view.rows
      : view.rows.filter((row) => isPicked(row) && has(row, words));
  return { ...view, rows: order === 'plan' ? found : [...found].sort(BY[order]) };
}

/** Whether a row is among those picked. Where there is no other state, none is left out for not differing from it. */
function pickedBy(pick: Pick, { against }: TimelineView): (row: TimelineRow) => boolean {
  switch (pick) {
    case 'all':
      return () => true;
    case 'findings':
      return ({ findings: { errors, warnings, notices } }) => errors + warnings + notices > 0;
    case 'unpinned':
      return ({ opens, pin }) => pin !== undefined || opens?.pinned === false;
    case 'tight':
      return (row) => (slackOf(row) ?? Number.POSITIVE_INFINITY) <= FEW_WEEKS;
    case 'differs':
      // A room that the other state lacks has nothing beside it.
      return ({ other }) => against === undefined || other?.difference !== '';
  }
}

/** Weeks from the chosen opening to the last of the window; none where either is missing. */
export function slackOf({ opens, window }: TimelineRow): number | undefined {
  return opens && window ? window.latest - opens.week : undefined;
}

/** Weeks to spare up to which a room has few. */
const FEW_WEEKS = 4;

/** What the rooms that stand together in an order have in common: variety, month of opening, weeks to spare. */
export function groupOf(row: TimelineRow, order: Order, months: TimelineView['months']): string | undefined {
  if (order === 'plan') return undefined;
  if (order === 'variety') return row.varieties;
  if (order === 'week') {
    const week = row.opens?.week;
    const month = week === undefined ? undefined : months.findLast((one) => one.week < week + 1);
    return month?.label ?? say.groupNoWeek;
  }
  const slack = slackOf(row);
  if (slack === undefined) return say.groupNoWeek;
  if (slack <= 0) return say.groupNoSlack;
  return slack <= FEW_WEEKS ? filled(say.groupFewWeeks, FEW_WEEKS) : filled(say.groupManyWeeks, FEW_WEEKS);
}

const BY: Readonly<Record<Exclude<Order, 'plan'>, (a: TimelineRow, b: TimelineRow) => number>> = {
  variety: (a, b) => (a.varieties < b.varieties ? -1 : a.varieties > b.varieties ? 1 : 0),
  week: (a, b) => unknownLast(a.opens?.week, b.opens?.week),
  slack: (a, b) => unknownLast(slackOf(a), slackOf(b)),
};

function unknownLast(a: number | undefined, b: number | undefined): number {
  if (a === undefined || b === undefined) return Number(a === undefined) - Number(b === undefined);
  return a - b;
}

function has({ room, varieties, regime, key, opens, pin }: TimelineRow, words: readonly string[]): boolean {
  const state = opens?.pinned ? 'pinned' : pin === undefined ? '' : 'open-week';
  const text = [room, varieties, regime, key, state].join(' ').toLowerCase();
  return words.every((word) => text.includes(word));
}
