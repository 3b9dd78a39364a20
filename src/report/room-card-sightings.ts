import type { ComputedSeason } from '../findings/types';
import type { DisplayUnits } from '../plan/display';
import type { RoomReadings } from '../readings/types';
import type { FilledRoom } from '../room/types';
import type { RoomRecord } from '../watching/record';
import type { ExpectedFill } from '../watching/types';
import type { CardFinding } from './card-types';
import { expectedOf, sightingsJson } from './watching';

/** What a room's readings come to, held against its fills. */
export type WatchReadings = (fills: readonly ExpectedFill[], readings: RoomReadings) => RoomRecord;

/** What goes on in the readings of a fill's room, as findings of its card, the gravest first. */
export function sightingsInRoom(
  season: ComputedSeason,
  { fill, room }: FilledRoom,
  readings: ReadonlyMap<string, RoomReadings> | undefined,
  watch: WatchReadings,
  units: DisplayUnits,
): CardFinding[] {
  const read = readings?.get(room.id);
  if (!readings || !read) return [];
  const expected = expectedOf(season);
  const records = new Map([[room.id, watch(expected.get(room.id) ?? [], read)]]);
  const now = Math.max(...[...readings.values()].map(({ times }) => times.at(-1) ?? 0));
  return sightingsJson(season, expected, records, units, now)
    .filter((one) => one.fill === fill.id && one.until === undefined)
    .map(({ kind, severity, message, from, check }) => ({
      severity,
      code: kind,
      message: `${message} Since ${from}. First: ${check}`,
      target: { file: fill.at.file, start: fill.at.start, end: fill.at.end },
    }));
}
