import type { ComputedSeason } from '../findings/types';
import type { DisplayUnits } from '../plan/display';
import { timeText } from '../readings/time-text';
import { cautionInShort } from '../room/caution';
import { wantsDaily } from '../watching/ca-record';
import { type Causes, causesOf } from '../watching/causes';
import { expectedFills } from '../watching/expected';
import type { RoomRecord } from '../watching/record';
import { sightingsOf } from '../watching/room-watch';
import { gapsTogether, type Seen, severityOf, toldOf } from '../watching/told';
import type { ExpectedFill } from '../watching/types';
import { present } from './parts';
import type { ReadingsReport } from './schemas';

export type SightingJson = ReadingsReport['sightings'][number];

/** By room, what its readings are held against. */
export function expectedOf(season: ComputedSeason): Map<string, ExpectedFill[]> {
  return expectedFills(season.filled.values(), (fill) => season.courses?.courses.get(fill));
}

/**
 * What was seen in the readings of all rooms, what is going on first and the gravest of it first. `now` is the last
 * reading of all rooms: what is missing since is a gap.
 */
export function sightingsJson(
  season: ComputedSeason,
  expected: ReadonlyMap<string, readonly ExpectedFill[]>,
  records: ReadonlyMap<string, RoomRecord>,
  units: DisplayUnits,
  now = Math.max(...[...records.values()].map(({ watch }) => watch.last ?? 0)),
): SightingJson[] {
  const all = [...records].flatMap(([room, { watch }]) => {
    const fills = expected.get(room) ?? [];
    const sightings = gapsTogether(sightingsOf(watch, fills, now));
    const isLaw = wantsDaily(season.plan.rooms.get(room)?.law ?? 'none');
    return sightings.map((one) => sightingJson(room, one, causesOf(one, sightings), isLaw, units));
  });
  return all.sort(
    (a, b) =>
      Number(a.until !== undefined) - Number(b.until !== undefined) ||
      GRAVITY[a.severity] - GRAVITY[b.severity] ||
      (a.from < b.from ? -1 : Number(a.from > b.from)),
  );
}

const GRAVITY = { error: 0, warning: 1, notice: 2 } as const;

function sightingJson(
  room: string,
  seen: Seen,
  { causes, check, nearRoom }: Causes,
  isLaw: boolean,
  units: DisplayUnits,
): SightingJson {
  const { size, read, expected, message } = toldOf(seen, isLaw, units);
  return present({
    kind: seen.kind,
    severity: severityOf(seen, isLaw),
    room,
    fill: seen.fill,
    quantities: [...seen.quantities],
    from: timeText(seen.from),
    told: timeText(seen.told),
    until: seen.until === undefined ? undefined : timeText(seen.until),
    size,
    read,
    expected,
    message,
    causes: [...causes],
    check,
    caution: nearRoom ? cautionInShort : undefined,
  });
}
