import type { ComputedSeason } from '../findings/types';
import { type DisplayUnits, fixed, type Measure, measure, measureLabel } from '../plan/display';
import type { Unit } from '../plan/figure';
import type { Severity } from '../plan/problem';
import { cautionInShort } from '../room/caution';
import { wantsDaily } from '../watching/ca-record';
import { type Causes, causesOf } from '../watching/causes';
import { expectedFills } from '../watching/expected';
import type { RoomRecord } from '../watching/record';
import { sightingsOf } from '../watching/room-watch';
import type { ExpectedFill, Sighting, WatchedQuantity, WatchKind } from '../watching/types';
import { present } from './parts';
import { timeText } from './reading-time';
import type { ReadingsReport } from './schemas';

export type SightingJson = ReadingsReport['sightings'][number];

/** By room, what its readings are held against. */
export function expectedOf(season: ComputedSeason): Map<string, ExpectedFill[]> {
  return expectedFills(season.filled.values(), (fill) => season.courses?.courses.get(fill));
}

/** The same gap of several quantities is one. */
interface Seen extends Sighting {
  readonly quantities: readonly WatchedQuantity[];
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

function gapsTogether(sightings: readonly Sighting[]): Seen[] {
  const together: Seen[] = [];
  for (const one of sightings) {
    const same = together.findIndex(
      (other) =>
        one.kind === 'record-gap' &&
        other.kind === one.kind &&
        other.from === one.from &&
        other.until === one.until,
    );
    const known = together[same];
    if (known) together[same] = { ...known, quantities: [...known.quantities, one.quantity] };
    else together.push({ ...one, quantities: [one.quantity] });
  }
  return together;
}

const SEVERITIES: Readonly<Record<WatchKind, Severity>> = {
  'opened-room-low-oxygen': 'error',
  'oxygen-low': 'error',
  'oxygen-high': 'warning',
  'carbon-dioxide-high': 'warning',
  'carbon-dioxide-low': 'notice',
  'temperature-high': 'warning',
  'temperature-low': 'error',
  'breathes-faster': 'warning',
  'sensor-stuck': 'warning',
  'sensor-jumps': 'notice',
  'record-gap': 'notice',
};

/** A gap in a record that the law wants daily stays one when it is over. */
function severityOf({ kind, until }: Sighting, isLaw: boolean): Severity {
  if (kind === 'record-gap') return isLaw ? 'warning' : 'notice';
  return until === undefined ? SEVERITIES[kind] : 'notice';
}

function sightingJson(
  room: string,
  seen: Seen,
  { causes, check, nearRoom }: Causes,
  isLaw: boolean,
  units: DisplayUnits,
): SightingJson {
  const shown = (value: number | undefined, unit: Unit) =>
    value === undefined ? undefined : measure(Number(value.toFixed(4)), unit, units);
  const [sizeUnit, readUnit] = unitsOfSighting(seen);
  const size = shown(seen.size, sizeUnit) ?? { value: seen.size, unit: '' };
  const [read, expected] = [shown(seen.read, readUnit), shown(seen.expected, readUnit)];
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
    message: messageOf(seen, { size, read, expected }, isLaw),
    causes: [...causes],
    check,
    caution: nearRoom ? cautionInShort : undefined,
  });
}

function unitsOfSighting({ kind, quantity }: Sighting): readonly [size: Unit, read: Unit] {
  const read = quantity === 'temperature' ? 'degC' : '%';
  if (kind === 'sensor-stuck') return ['h', read];
  if (kind === 'sensor-jumps') return ['1', read];
  if (kind === 'record-gap') return ['days', read];
  if (kind === 'breathes-faster') return ['%', '%'];
  return [quantity === 'temperature' ? 'K' : '%', read];
}

const NAMES: Readonly<Record<WatchedQuantity, string>> = {
  oxygen: 'oxygen',
  'carbon-dioxide': 'carbon dioxide',
  temperature: 'the air',
};

interface Shown {
  readonly size: Measure;
  readonly read: Measure | undefined;
  readonly expected: Measure | undefined;
}

function messageOf(seen: Seen, { size, read, expected }: Shown, isLaw: boolean): string {
  const amount = amountText(size, 2);
  const most =
    read && expected ? `: ${amountText(read, 2)} where ${amountText(expected, 2)} is expected` : '';
  const name = NAMES[seen.quantity];
  switch (seen.kind) {
    case 'opened-room-low-oxygen':
      return `The room is on record as opened, and its oxygen reads ${read ? amountText(read, 1) : 'low'}. Nobody goes near until that is cleared up.`;
    case 'oxygen-high':
      return `Oxygen is up to ${amount} too high${most}${climbs(seen) ? ', and climbs' : ''}.`;
    case 'carbon-dioxide-high':
      return `Carbon dioxide is up to ${amount} too high${most}${climbs(seen) ? ', and does not come down' : ''}.`;
    case 'oxygen-low':
    case 'carbon-dioxide-low':
      return `${capital(name)} is up to ${amount} too low${most}.`;
    case 'temperature-high':
      return `The air is up to ${amountText(size, 1)} too warm${most}.`;
    case 'temperature-low':
      return `The air is up to ${amountText(size, 1)} too cold${most}.`;
    case 'breathes-faster':
      return `The room breathes up to ${fixed(seen.size, 0)} % faster than before: carbon dioxide rises by ${fixed(24 * (seen.read ?? 0), 2)} % a day between scrubbings, not ${fixed(24 * (seen.expected ?? 0), 2)} %.`;
    case 'sensor-stuck':
      return `The reading of ${name} has stood still at ${read ? amountText(read, 2) : 'one value'} for ${fixed(seen.size, 0)} h.`;
    case 'sensor-jumps':
      return `Readings of ${name} jump, up to ${fixed(seen.size, 0)} times in two days, as to ${read ? amountText(read, 2) : 'another value'} among ${expected ? amountText(expected, 2) : 'others'}.`;
    case 'record-gap':
      return `${seen.size === 1 ? 'One whole day has' : `${fixed(seen.size, 0)} whole days have`} no reading of ${seen.quantities.map((one) => NAMES[one]).join(', ')}.${isLaw ? ' The law wants one of each every day.' : ''}`;
  }
}

/** It was still near its greatest on the last whole day. */
function climbs({ latest, size, until }: Sighting): boolean {
  return until === undefined && latest !== undefined && Math.abs(latest) > 0.9 * size;
}

function amountText({ value, unit }: Measure, decimals: number): string {
  return `${fixed(value, decimals)} ${measureLabel(unit)}`.trim();
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
