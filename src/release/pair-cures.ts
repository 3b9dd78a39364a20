import { allowedAt, allowedButForPin, type Breach, breachesAt } from './breaches';
import { cartonsGained, type RoomCure, type Shortage } from './room-cure';
import type { Standing } from './standing';

/** A room in a week that would help, were it not for others. */
interface Placed {
  readonly room: number;
  readonly week: number;
}

/** Two rooms moved together: the one that helps, and one that makes way for it. */
interface Pair {
  readonly other: Placed;
  readonly cost: number;
  readonly sold: readonly Float64Array[];
}

/** Rooms in the way that are tried for each room that would help, and weeks tried for each of them: the nearest. */
const MOST_IN_THE_WAY = 4;
const MOST_WEEKS = 4;
/** Rooms that would help, tried for each shortage: those that need move least. */
const MOST_HELPERS = 3;
/** Changes worked out for one schedule in all, so that a season short in every week is not looked at for minutes. */
const MOST_TRIED = 120;
/** What keeps a room from a week because of other rooms. */
const OF_OTHERS: ReadonlySet<Breach['kind']> = new Set(['packing', 'rooms-open', 'order'] as const);
/** A closed room is farther away than any week. */
const MANY_WEEKS = 1000;

/**
 * Cures by two rooms where none helps alone: a room that may open in reach of the short week but for the packhouse, the
 * open limit or the order of rooms, and another that makes way for it to a week in which nothing is broken. Each is
 * worked out in full, one change upon the other. With pins let go of, also where those of both forbid it.
 */
export class PairCures {
  private readonly known = new Map<string, readonly Pair[]>();
  private tried = 0;

  /** `pins`: whether pins are kept, or one of the two rooms or both are let go of their pins. */
  constructor(
    private readonly standing: Standing,
    private readonly pins: 'kept' | 'let go' = 'kept',
  ) {}

  /** The pair that costs least for each carton; undefined where none was found. */
  best(shortage: Shortage, moves: readonly Placed[]): RoomCure | undefined {
    const now = this.standing.schedule.opens;
    const far = ({ room, week }: Placed) => Math.abs(week - (now[room] ?? -MANY_WEEKS));
    const helpers = moves
      .filter((one) => this.isHeldUp(one))
      .sort((a, b) => far(a) - far(b) || a.room - b.room);
    let best: RoomCure | undefined;
    for (const helper of helpers.slice(0, MOST_HELPERS)) {
      for (const { other, cost, sold } of this.pairs(helper)) {
        const gained = cartonsGained(this.standing, shortage, sold);
        if (gained && (!best || cost / gained.cartons < best.cost / best.cartons))
          best = { ...helper, cost, ...gained, also: other };
      }
    }
    return best;
  }

  /** Only other rooms keep it from the week, not its own window, nor a pin that is kept. */
  private isHeldUp({ room, week }: Placed): boolean {
    const breaches = breachesAt(this.standing, room, week);
    return (
      breaches.some(({ kind }) => OF_OTHERS.has(kind)) &&
      breaches.every(({ kind }) => OF_OTHERS.has(kind) || this.isLetGo(kind))
    );
  }

  private isLetGo(kind: Breach['kind']): boolean {
    return this.pins === 'let go' && kind === 'pin';
  }

  private isPinned(room: number): boolean {
    return this.standing.problem.rooms[room]?.pinned !== null;
  }

  private pairs(helper: Placed): readonly Pair[] {
    const key = `${helper.room} ${helper.week}`;
    const known = this.known.get(key);
    if (known) return known;
    const found = this.inTheWay(helper).flatMap((other) => this.pairsWith(helper, other));
    this.known.set(key, found);
    return found;
  }

  /** Rooms that stand open while the helper would, or that it may not open before or after. */
  private inTheWay({ room, week }: Placed): number[] {
    const { problem, schedule } = this.standing;
    const end = week + this.standing.emptyingWeeks(room, week) - 1;
    const bound = (other: number) =>
      (problem.opensBefore ?? []).some((pair) => pair.includes(room) && pair.includes(other));
    const near = problem.rooms.flatMap((one, other) => {
      const opens = schedule.opens[other] ?? null;
      if (other === room || opens === null || one.fromField) return [];
      // With pins kept neither may be pinned; let go of, one of the two is, or one room alone would do.
      if (this.pins === 'kept' ? one.pinned !== null : one.pinned === null && !this.isPinned(room)) return [];
      const closes = opens + this.standing.emptyingWeeks(other, opens) - 1;
      return bound(other) || (opens <= end && closes >= week)
        ? [{ other, away: Math.abs(opens - week) }]
        : [];
    });
    near.sort((a, b) => a.away - b.away || a.other - b.other);
    return near.slice(0, MOST_IN_THE_WAY).map(({ other }) => other);
  }

  private allowed(standing: Standing, room: number): number[] {
    return this.pins === 'kept' ? allowedAt(standing, room) : allowedButForPin(standing, room);
  }

  private pairsWith(helper: Placed, other: number): Pair[] {
    if (this.tried >= MOST_TRIED) return [];
    this.tried += 1;
    const away = this.standing.whatIf(other, null);
    if (!away) return [];
    const without = this.standing.moved(other, null, away.bins);
    if (breachesAt(without, helper.room, helper.week).some(({ kind }) => !this.isLetGo(kind))) return [];
    const placed = without.whatIf(helper.room, helper.week);
    if (!placed) return [];
    const withHelper = without.moved(helper.room, helper.week, placed.bins);
    const now = this.standing.schedule.opens[other] ?? 0;
    const weeks = this.allowed(withHelper, other).sort(
      (a, b) => Math.abs(a - now) - Math.abs(b - now) || a - b,
    );
    return weeks.slice(0, MOST_WEEKS).flatMap((week): Pair[] => {
      const last = withHelper.whatIf(other, week);
      if (!last) return [];
      const sold = withHelper.sold.map((row, demand) =>
        last.touched.includes(demand) ? (last.sold[demand] ?? row) : row,
      );
      return [{ other: { room: other, week }, cost: away.cost + placed.cost + last.cost, sold }];
    });
  }
}
