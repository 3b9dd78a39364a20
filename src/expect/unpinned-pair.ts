import { formatWeek } from '../plan/dates';
import type { PinCure } from '../release/room-cure';
import type { Standing } from '../release/standing';
import type { Context } from './context';
import { pinFix, unpinFix } from './moves';
import type { Cure } from './types';

/** Money less than this is none. */
const LEAST_MONEY = 0.5;

/** Two rooms opened in other weeks, a pin of one or both let go of, as one alone cures nothing. */
export interface UnpinnedPair {
  /** Cartons sold then: `sold[demand][week]`. */
  readonly sold: readonly Float64Array[];
  /** The cure, with what it gives. */
  cure(gives: string): Cure;
}

/** The pair worked out, one change upon the other; undefined where it cannot be made after all. */
export function unpinnedPair(context: Context, standing: Standing, unpin: PinCure): UnpinnedPair | undefined {
  const { also } = unpin;
  const away = also && standing.whatIf(also.room, null);
  if (!also || !away) return undefined;
  const without = standing.moved(also.room, null, away.bins);
  const first = without.whatIf(unpin.room, unpin.week);
  const placed = first && without.moved(unpin.room, unpin.week, first.bins);
  const second = placed?.whatIf(also.room, also.week);
  if (!first || !placed || !second) return undefined;
  const { sold } = placed.moved(also.room, also.week, second.bins);
  return { sold, cure: (gives) => cureOf(context, unpin, also, away.cost + first.cost + second.cost, gives) };
}

function cureOf(
  context: Context,
  unpin: PinCure,
  also: { readonly room: number; readonly week: number },
  cost: number,
  gives: string,
): Cure {
  const { plan, release } = context.season;
  const rooms = [unpin, also].flatMap(({ room, week }) => {
    const fill = release?.problem.rooms[room]?.fill;
    if (!release || fill === undefined) return [];
    const pin = plan.fills.get(fill)?.open;
    return [{ fill, week: release.problem.firstWeek + week, pin: pin && formatWeek(pin.value) }];
  });
  const pinned = rooms.filter(({ pin }) => pin !== undefined);
  const pins = pinned.map(({ fill, pin }) => `${fill} (${pin})`).join(' and ');
  const weeks = rooms.map(({ fill, week }) => `${fill} opened in ${formatWeek(week)}`).join(' and ');
  const title = `Take out the ${pinned.length === 1 ? 'pin' : 'pins'} of ${pinned.map(({ fill }) => fill).join(' and ')}`;
  const out = pinned.flatMap(({ fill }) => unpinFix(context, fill)).flatMap(({ edits }) => edits);
  const moved = rooms.flatMap(({ fill, week }) => pinFix(context, fill, week)).flatMap(({ edits }) => edits);
  const money = `${context.currency} ${Math.round(Math.abs(cost)).toLocaleString('en')}`;
  const price =
    Math.abs(cost) < LEAST_MONEY
      ? 'that costs nothing'
      : cost > 0
        ? `that costs ${money}`
        : `that brings ${money} more`;
  return {
    text: `Take out the ${pinned.length === 1 ? 'pin' : 'pins'} of ${pins}, as one alone does not help: with ${weeks}, ${gives}. With every other room as it is, ${price}.`,
    fixes: [
      { title, edits: out },
      {
        title: `Pin ${rooms.map(({ fill, week }) => `${fill} to ${formatWeek(week)}`).join(' and ')}`,
        edits: moved,
      },
    ],
  };
}
