import { type DisplayUnits, fixed, type Measure, measure, measureLabel } from '../plan/display';
import type { Unit } from '../plan/figure';
import type { Severity } from '../plan/problem';
import type { Sighting, WatchedQuantity, WatchKind } from './types';

/** The same gap of several quantities is one. */
export interface Seen extends Sighting {
  readonly quantities: readonly WatchedQuantity[];
}

export function gapsTogether(sightings: readonly Sighting[]): Seen[] {
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

/** Of what is going on. */
export const watchSeverities: Readonly<Record<WatchKind, Severity>> = {
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
export function severityOf({ kind, until, limit }: Sighting, isLaw: boolean): Severity {
  if (kind === 'record-gap') return isLaw ? 'warning' : 'notice';
  // Beyond what the fruit bears it is hurt, whatever the plan expects.
  if (until === undefined && limit !== undefined) return 'error';
  return until === undefined ? watchSeverities[kind] : 'notice';
}

/** A sighting in the units it is shown in, and in a sentence. */
export interface Told {
  readonly size: Measure;
  readonly read: Measure | undefined;
  readonly expected: Measure | undefined;
  readonly message: string;
}

/** `isLaw` where the law of its room wants readings every day. */
export function toldOf(seen: Seen, isLaw: boolean, units: DisplayUnits): Told {
  const shown = (value: number | undefined, unit: Unit) =>
    value === undefined ? undefined : measure(Number(value.toFixed(4)), unit, units);
  const [sizeUnit, readUnit] = unitsOfSighting(seen);
  const size = shown(seen.size, sizeUnit) ?? { value: seen.size, unit: '' };
  const [read, expected] = [shown(seen.read, readUnit), shown(seen.expected, readUnit)];
  return { size, read, expected, message: messageOf(seen, { size, read, expected }, isLaw) };
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
  temperature: 'air temperature',
};

type Shown = Omit<Told, 'message'>;

function messageOf(seen: Seen, { size, read, expected }: Shown, isLaw: boolean): string {
  const most =
    read && expected ? `: ${amountText(read, 2)} where ${amountText(expected, 2)} is expected` : '';
  const points = `${fixed(size.value, 2)} points`;
  const beyond = limitText(seen);
  const name = NAMES[seen.quantity];
  switch (seen.kind) {
    case 'opened-room-low-oxygen':
      return `The room is on record as opened, and its oxygen reads ${read ? amountText(read, 1) : 'low'}. Nobody goes near but the trained, licensed people who read it from outside, as local codes ask, until that is cleared up.`;
    case 'oxygen-high':
      return `Oxygen is up to ${points} too high${most}${climbs(seen) ? ', and climbs' : ''}.`;
    case 'carbon-dioxide-high':
      return `Carbon dioxide is up to ${points} too high${most}${beyond}${climbs(seen) ? ', and does not come down' : ''}.`;
    case 'oxygen-low':
    case 'carbon-dioxide-low':
      return `${capital(name)} is up to ${points} too low${most}${beyond}.`;
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
      return `${seen.size === 1 ? 'One whole day has' : `${fixed(seen.size, 0)} whole days have`} no reading of ${listed(seen.quantities.map((one) => NAMES[one]))}.${isLaw ? ' The law wants one of each every day.' : ''}`;
  }
}

/** What the fruit bears, where what was read is beyond it. */
function limitText({ limit, kind }: Sighting): string {
  if (limit === undefined) return '';
  const [side, bound] = kind === 'oxygen-low' ? ['below', 'least'] : ['above', 'most'];
  return `, ${side} the ${fixed(limit, 2)} % that the fruit bears at ${bound}`;
}

function listed(names: readonly string[]): string {
  const [last = '', ...before] = [...names].reverse();
  return before.length === 0 ? last : `${before.reverse().join(', ')} and ${last}`;
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
