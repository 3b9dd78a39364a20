import { formatWeek } from '../../plan/dates';
import { fixed } from '../../plan/display';
import type { Problem } from '../../plan/problem';
import { counted } from '../../plan/wording';
import { binsUnpacked } from '../../release/from-field';
import { bestPlacement } from '../../release/placing';
import { stateOf } from '../../release/revise';
import type { SeasonState } from '../../release/season-state';
import type { ReleaseProblem, ReleaseSchedule } from '../../release/types';
import { cautionInShort } from '../../room/caution';
import { unitsOf } from '../say';
import type { ComputedSeason, Rule } from '../types';

/** What a room gives, by variety and class. */
function kindsOf({ products }: ReleaseProblem, cartonsABin: readonly (readonly number[])[]): Set<string> {
  // What a room packs into does not change with the weeks, only how much.
  const [week] = cartonsABin;
  return new Set(
    products.flatMap(({ variety, packClass }, product) =>
      (week?.[product] ?? 0) > 0 ? [`${variety} ${packClass}`] : [],
    ),
  );
}

/** Rooms in air that open after a sealed one of the same fruit though they could have opened in its week. */
function* airAfterSealed(season: ComputedSeason): Iterable<Problem> {
  const { plan, release } = season;
  if (!release) return;
  const { problem, result } = release;
  const { opens } = result.schedule;
  const kinds = problem.rooms.map(({ cartonsABin }) => kindsOf(problem, cartonsABin));
  let state: SeasonState | undefined;
  for (const [at, room] of problem.rooms.entries()) {
    const fill = plan.fills.get(room.fill);
    const week = opens[at] ?? null;
    if (room.fromField || !fill || fill.sealed || week === null || room.pinned !== null) continue;
    const before = firstSealedBefore(season, problem, result.schedule, at, kinds);
    if (before === undefined) continue;
    state ??= stateOf(problem, result.schedule);
    const sealedWeek = opens[before] ?? 0;
    state.lift(at);
    const instead = bestPlacement(state, { room: at, week: sealedWeek }, true);
    state.putBack(at);
    // Where the packhouse, the limit of open rooms or an order of rooms forbids it, there is nothing to tell.
    if (!instead) continue;
    const name = (index: number) => formatWeek(problem.firstWeek + index);
    const money = `${unitsOf(season).currency} ${fixed(Math.max(0, -instead.change), 0)}`;
    yield {
      code: 'sealed-room-first',
      message: `${problem.rooms[before]?.fill} opens in ${name(sealedWeek)} from its gas, and ${fill.id}, in air with the same fruit, waits to ${name(week)}. Opened in ${name(sealedWeek)} too, all else as it is, ${fill.id} would cost about ${money}. Put a price to the wait with \`policy: price-of-week-in-air\`, or pin ${fill.id} to ${name(sealedWeek)}. ${cautionInShort}`,
      at: fill.at,
      about: fill.id,
    };
  }
}

/** The first sealed room of the same variety and class that opens before the room, pinned or not, in a week in which it might too. */
function firstSealedBefore(
  { plan }: ComputedSeason,
  problem: ReleaseProblem,
  { opens }: ReleaseSchedule,
  at: number,
  kinds: readonly ReadonlySet<string>[],
): number | undefined {
  const room = problem.rooms[at];
  const week = opens[at] ?? null;
  if (!room || week === null) return undefined;
  return problem.rooms
    .flatMap((other, index) => {
      const opened = opens[index] ?? null;
      const sealed = plan.fills.get(other.fill)?.sealed !== undefined;
      if (!sealed || other.fromField || opened === null) return [];
      if (opened >= week || opened < room.earliest || opened > room.latest) return [];
      const same = [...(kinds[index] ?? [])].some((kind) => kinds[at]?.has(kind));
      return same ? [{ index, opened }] : [];
    })
    .sort((one, other) => one.opened - other.opened)[0]?.index;
}

/** Fruit packed at harvest that goes to processing while rooms of the same fruit are packed in its weeks. */
function* fieldAfterRooms({ plan, release }: ComputedSeason): Iterable<Problem> {
  if (!release) return;
  const { problem, result } = release;
  for (const [at, one] of problem.rooms.entries()) {
    const lot = one.fromField && plan.lots.get(one.fromField.lot);
    const left = lot ? binsUnpacked(one, result.schedule.packed[at]) : 0;
    if (!lot || left < 1) continue;
    const kinds = kindsOf(problem, one.cartonsABin);
    const rooms = problem.rooms.flatMap((other, index) => {
      if (other.fromField || other.pinned !== null) return [];
      const same = [...kindsOf(problem, other.cartonsABin)].some((kind) => kinds.has(kind));
      const bins = (result.schedule.packed[index] ?? [])
        .slice(one.earliest, one.earliest + one.weeksToEmpty)
        .reduce((sum, packed) => sum + packed, 0);
      return same && bins >= 1 ? [{ fill: other.fill, bins }] : [];
    });
    const bins = rooms.reduce((sum, room) => sum + room.bins, 0);
    if (bins < 1) continue;
    yield {
      code: 'sealed-room-first',
      message: `Lot ${lot.id}: ${counted(left, 'bin')} from the field go to processing unpacked, while ${counted(bins, 'bin')} of ${rooms.map(({ fill }) => fill).join(', ')}, the same fruit, are packed in the weeks in which the lot is there. Open ${rooms.length === 1 ? 'that room' : 'these rooms'} later, or put the bins into a room. ${cautionInShort}`,
      at: lot.at,
      about: lot.id,
    };
  }
}

export const airFirstRules: readonly Rule[] = [
  {
    code: 'sealed-room-first',
    family: 'release',
    severity: 'notice',
    summary: 'Fruit from its gas is packed before fruit from the field or from air.',
    *find(season) {
      yield* airAfterSealed(season);
      yield* fieldAfterRooms(season);
    },
  },
];
