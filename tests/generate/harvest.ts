import { type Day, formatDay, isoWeekday, parseDay } from '../../src/plan/dates';
import { pickBlock } from './orchards';
import type { RandomNumbers } from './random';
import type { GeneratedFill, GeneratedLot, GeneratedMaturity, GeneratedRoom, Role } from './types';
import { type Kind, kinds, mixtures } from './varieties';

/** The plan is written as it stands at the end of this day: what was picked by then has been received. */
export const AS_OF = parseDay('2026-09-26') as Day;

/** Blocks to be picked within this many days have been tested. */
const TESTED_AHEAD = 9;
const BINS_A_LOT = 76;

export interface Harvest {
  readonly lots: readonly GeneratedLot[];
  readonly fills: readonly GeneratedFill[];
}

/** Fills each variety's rooms one after another over its picking time, each room from its own lots. */
export function generateHarvest(
  roomsOf: ReadonlyMap<Kind, readonly GeneratedRoom[]>,
  random: RandomNumbers,
): Harvest {
  const lots = new Map<Kind, GeneratedLot[]>(kinds.map((kind) => [kind, []]));
  const fills: GeneratedFill[] = [];
  for (const kind of kinds) {
    const rooms = roomsOf.get(kind) ?? [];
    const own = rooms.map((room, index) => fillRoom(kind, room, index, rooms.length, lots, random));
    splitLots(own, lots.get(kind) ?? [], random);
    fills.push(...own);
  }
  return { lots: kinds.flatMap((kind) => lots.get(kind) ?? []), fills };
}

function fillRoom(
  kind: Kind,
  room: GeneratedRoom,
  index: number,
  count: number,
  lots: ReadonlyMap<Kind, GeneratedLot[]>,
  random: RandomNumbers,
): GeneratedFill {
  const role = roleOf(kind, index, count);
  const length = Math.min(10, Math.max(6, Math.round(room.places / 95) + random.whole(1, 3)));
  const [start, end] = kind.harvest.map((day) => parseDay(day) as Day) as [Day, Day];
  const latestStart = Math.max(start, end - length + 1);
  const first = Math.round(start + ((latestStart - start) * index) / Math.max(1, count - 1));
  const last = first + length - 1;
  const mixture = mixtures.find((one) => one.first === kind.name && index === count - 1 && count > 2);
  const treated = role === 'long' && !mixture && random.chance(0.55);
  const target = Math.round(room.places * random.between(0.93, 0.985));
  const made = lotsFor(
    kind,
    role,
    { first, last },
    mixture ? Math.round(target * 0.68) : target,
    treated,
    random,
  );
  const other = mixture && kinds.find((one) => one.name === mixture.second);
  const extra = other
    ? lotsFor(other, 'mid', { first: last - 4, last }, target - sumOf(made), false, random)
    : [];
  const lotsIn = new Map<string, number>();
  for (const lot of [...made, ...extra]) {
    const list = lots.get(lot.kind) as GeneratedLot[];
    const id = `${lot.kind.short}-${String(list.length + 1).padStart(3, '0')}`;
    list.push({ ...lot, id });
    lotsIn.set(id, lot.bins);
  }
  return {
    id: `${room.id}-${(mixture?.regime ?? kind.name).toLowerCase().replaceAll(' ', '-')}`,
    kind,
    room,
    role,
    regime: mixture?.regime ?? regimeOf(kind, role),
    first,
    last,
    sealed: role === 'air' ? undefined : last + random.whole(1, 3),
    lots: lotsIn,
    open: count < kind.rooms ? undefined : pinOf(kind, index),
    note: noteOf(role, treated, mixture !== undefined),
  };
}

/** The first rooms are for early sale; the fruit of the middle of the harvest keeps longest, the last the least. */
function roleOf(kind: Kind, index: number, count: number): Role {
  const airRooms = Math.min(kind.airRooms, Math.ceil((count * kind.airRooms) / kind.rooms));
  if (index < airRooms) return 'air';
  const position = (index - airRooms + 0.5) / Math.max(1, count - airRooms);
  return position < 0.58 ? 'long' : position < 0.85 ? 'mid' : 'short';
}

function regimeOf(kind: Kind, role: Role): string {
  if (role === 'air') return kind.regimes.air ?? kind.regimes.mid;
  return role === 'long' ? kind.regimes.long : kind.regimes.mid;
}

/** Weeks the planner has promised. */
const PINS: Readonly<Record<string, readonly [number, string]>> = {
  Gala: [0, '2026-W38'],
  'Golden Delicious': [7, '2026-W51'],
  Fuji: [0, '2027-W13'],
};

function pinOf(kind: Kind, index: number): string | undefined {
  const pin = PINS[kind.name];
  return pin && pin[0] === index ? pin[1] : undefined;
}

function noteOf(role: Role, treated: boolean, mixed: boolean): string | undefined {
  if (mixed) return 'two varieties, kept by what the more sensitive one bears';
  if (role === 'air') return 'cold air, for early sale';
  if (treated) return 'treated with 1-MCP, for the last weeks of the variety';
  return role === 'short' ? 'ripe when picked: open early' : undefined;
}

function lotsFor(
  kind: Kind,
  role: Role,
  days: { readonly first: Day; readonly last: Day },
  bins: number,
  treated: boolean,
  random: RandomNumbers,
): GeneratedLot[] {
  const count = Math.max(3, Math.round(bins / (BINS_A_LOT * random.between(0.92, 1.08))));
  const weights = Array.from({ length: count }, () => random.between(0.55, 1.45));
  const amounts = shareOut(bins, weights);
  const length = days.last - days.first + 1;
  return amounts.map((amount, index) => {
    const first = days.first + Math.floor((index * (length - 1)) / count);
    const last = index === count - 1 ? days.last : Math.min(days.last, first + random.whole(1, 3));
    return lot(kind, role, { first, last }, amount, treated, random);
  });
}

function lot(
  kind: Kind,
  role: Role,
  picked: { readonly first: Day; readonly last: Day },
  bins: number,
  treated: boolean,
  random: RandomNumbers,
): GeneratedLot {
  const received = picked.last <= AS_OF;
  const maturity = maturityOf(kind, role, picked.first, random);
  const overMature = maturity.starch > 5 && role !== 'air' && role !== 'short';
  return {
    id: '',
    kind,
    ...pickBlock(random),
    ...picked,
    bins,
    expected: received ? Math.max(4, Math.round(bins * random.between(0.93, 1.06))) : bins,
    received,
    fieldTemperature: fieldTemperature(picked.first, random),
    maturity: picked.first <= AS_OF + TESTED_AHEAD ? maturity : undefined,
    treatments: [...(treated ? ['1-mcp'] : []), ...kind.treatments],
    note: overMature && picked.first <= AS_OF + TESTED_AHEAD ? 'riper than its room: watch it' : undefined,
  };
}

const STARCH: Readonly<Record<Role, number>> = { air: 4.9, long: 2.5, mid: 3.1, short: 4.0 };
/** Newtons less than fruit picked for long keeping. */
const SOFTER: Readonly<Record<Role, number>> = { air: 8, long: 0, mid: 2.5, short: 5 };

function maturityOf(kind: Kind, role: Role, picked: Day, random: RandomNumbers): GeneratedMaturity {
  const ripe = random.chance(0.02) ? 2.7 : 0;
  return {
    tested: Math.min(AS_OF, picked - random.whole(1, 3)),
    starch: Math.round(Math.min(7.5, Math.max(1.4, random.normal(STARCH[role] + ripe, 0.35))) * 10) / 10,
    firmness: Math.round(random.normal(kind.firmness - SOFTER[role] - ripe * 2.5, 1.8)),
    solubleSolids: Math.round(random.normal(kind.solubleSolids + ripe / 3, 0.4) * 10) / 10,
  };
}

/** Afternoon fruit cools with the autumn, by a degree a week. */
function fieldTemperature(day: Day, random: RandomNumbers): number {
  const weeks = (day - (parseDay('2026-08-24') as Day)) / 7;
  const sunday = isoWeekday(day) === 7 ? -1 : 0;
  return Math.round(random.normal(22 - 1.05 * weeks + sunday, 1.2));
}

/** Where two rooms of a variety fill at the same time, a lot now and then ends in the one and begins in the other. */
function splitLots(
  fills: readonly GeneratedFill[],
  lots: readonly GeneratedLot[],
  random: RandomNumbers,
): void {
  for (const [index, fill] of fills.entries()) {
    const next = fills[index + 1];
    if (!next || next.role !== fill.role || !random.chance(0.55)) continue;
    const free = fill.room.places - [...fill.lots.values()].reduce((sum, bins) => sum + bins, 0);
    const candidate = lots.find(
      (one) => next.lots.has(one.id) && one.first >= fill.first && one.last <= fill.last,
    );
    const moved = Math.min(Math.floor(free * 0.6), Math.floor((candidate?.bins ?? 0) / 3));
    if (!candidate || moved < 3) continue;
    fill.lots.set(candidate.id, moved);
    next.lots.set(candidate.id, candidate.bins - moved);
  }
}

function shareOut(total: number, weights: readonly number[]): number[] {
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  const amounts = weights.map((weight) => Math.floor((total * weight) / all));
  const rest = total - amounts.reduce((sum, amount) => sum + amount, 0);
  return amounts.map((amount, index) => amount + (index < rest ? 1 : 0));
}

function sumOf(lots: readonly GeneratedLot[]): number {
  return lots.reduce((sum, one) => sum + one.bins, 0);
}

/** `2026-09-03..2026-09-05`, or one date where picking took one day. */
export function daySpanText(first: Day, last: Day): string {
  return first === last ? formatDay(first) : `${formatDay(first)}..${formatDay(last)}`;
}
