import { type Day, firstDayOfWeek, type Week, weekOfDay } from '../plan/dates';
import type { Fill, Packing, Plan } from '../plan/model';

/** Two fills of one room, the later with its first bin; none of the same room begins between them. */
export interface FilledAgain {
  readonly room: string;
  readonly earlier: Fill;
  readonly later: Fill;
  /** The later one's first bin: the room must be empty then. */
  readonly begins: Day;
}

/** Where a room is filled again, in the order of the rooms' first fills. */
export function filledAgain({ fills }: Pick<Plan, 'fills'>): FilledAgain[] {
  const byRoom = new Map<string, Fill[]>();
  for (const fill of fills.values()) {
    if (!fill.room || !fill.firstBin) continue;
    const known = byRoom.get(fill.room.value);
    if (known) known.push(fill);
    else byRoom.set(fill.room.value, [fill]);
  }
  return [...byRoom].flatMap(([room, inRoom]) => (inRoom.length > 1 ? pairsOf(room, inRoom) : []));
}

function pairsOf(room: string, fills: readonly Fill[]): FilledAgain[] {
  const inOrder = fills.toSorted(
    (a, b) => (a.firstBin?.value ?? 0) - (b.firstBin?.value ?? 0) || (a.id < b.id ? -1 : 1),
  );
  return inOrder.slice(1).flatMap((later, index): FilledAgain[] => {
    const earlier = inOrder[index];
    return earlier && later.firstBin ? [{ room, earlier, later, begins: later.firstBin.value }] : [];
  });
}

/** The first day on which a room that is opened in a week is empty. */
export function emptyFrom(week: Week, { daysToEmpty }: Pick<Packing, 'daysToEmpty'>): Day {
  return firstDayOfWeek(week) + Math.ceil(daysToEmpty.value);
}

/** By fill, the last week in which it may be opened for its room to be empty before it is filled again. */
export function lastWeeksBeforeRefill(
  plan: Pick<Plan, 'fills'>,
  packing: Packing,
): ReadonlyMap<string, Week> {
  return new Map(
    filledAgain(plan).map(({ earlier, begins }) => [
      earlier.id,
      weekOfDay(begins - Math.ceil(packing.daysToEmpty.value)),
    ]),
  );
}
