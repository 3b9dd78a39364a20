import type { Standing } from './standing';

/** A wish that opening a room in a week would break. Weeks and rooms are indexes. */
export type Breach =
  | { readonly kind: 'season' }
  | { readonly kind: 'earliest'; readonly week: number }
  | { readonly kind: 'latest'; readonly week: number }
  | { readonly kind: 'pin'; readonly week: number }
  /** Of the room's bins the packhouse has left to run only `bins` from that week to `until`. */
  | { readonly kind: 'packing'; readonly bins: number; readonly until: number }
  /** The other room opens in `week`; this one must open before it, or after it. */
  | { readonly kind: 'order'; readonly room: number; readonly week: number; readonly before: boolean }
  | { readonly kind: 'rooms-open'; readonly week: number; readonly limit: number };

/** Everything that opening the room in the week would break, the others as they are. */
export function breachesAt(standing: Standing, room: number, week: number): Breach[] {
  const { problem } = standing;
  const one = problem.rooms[room];
  if (!one || week < 0 || week >= problem.weeks) return [{ kind: 'season' }];
  const breaches: Breach[] = [];
  if (week < one.earliest) breaches.push({ kind: 'earliest', week: one.earliest });
  if (week > one.latest) breaches.push({ kind: 'latest', week: one.latest });
  if (one.pinned !== null && week !== one.pinned) breaches.push({ kind: 'pin', week: one.pinned });
  for (const [first, later] of problem.opensBefore ?? []) {
    const other = first === room ? later : first;
    const opens = standing.schedule.opens[other] ?? null;
    if ((first !== room && later !== room) || opens === null || other === room) continue;
    const before = first === room;
    if (before ? week >= opens : week <= opens)
      breaches.push({ kind: 'order', room: other, week: opens, before });
  }
  const free = standing.freeFor(room, week);
  const bins = free.reduce((sum, left) => sum + left, 0);
  if (bins < one.bins - 1e-6 * Math.max(1, one.bins))
    breaches.push({ kind: 'packing', bins, until: week + free.length - 1 });
  const limit = problem.roomsOpenAtOnce;
  if (limit !== null) {
    for (let at = week; at < week + free.length; at++) {
      if (standing.othersOpen(room, at) < limit) continue;
      breaches.push({ kind: 'rooms-open', week: at, limit });
      break;
    }
  }
  return breaches;
}

/** Nothing but its own pin keeps the room from the week, the others as they are. */
export function pinAloneForbids(standing: Standing, room: number, week: number): boolean {
  const pinned = standing.problem.rooms[room]?.pinned ?? null;
  if (pinned === null || pinned === week) return false;
  return breachesAt(standing, room, week).every(({ kind }) => kind === 'pin');
}

/** Weeks of its window in which the room could open with nothing broken but a pin of its own, the others as they are. */
export function allowedButForPin(standing: Standing, room: number): number[] {
  const one = standing.problem.rooms[room];
  if (!one || one.fromField) return [];
  return Array.from(
    { length: Math.max(0, one.latest - one.earliest + 1) },
    (_, index) => one.earliest + index,
  ).filter((week) => breachesAt(standing, room, week).every(({ kind }) => kind === 'pin'));
}

/** Weeks in which the room could open with nothing broken, the others as they are; fruit from the field opens in none. */
export function allowedAt(standing: Standing, room: number): number[] {
  const one = standing.problem.rooms[room];
  if (!one || one.fromField) return [];
  const weeks = Array.from(
    { length: Math.max(0, one.latest - one.earliest + 1) },
    (_, index) => one.earliest + index,
  );
  return weeks.filter((week) => breachesAt(standing, room, week).length === 0);
}
