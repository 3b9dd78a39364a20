import { type Day, parseDay } from '../../src/plan/dates';
import type { RandomNumbers } from './random';
import type { Building, GeneratedRoom } from './types';
import { type Kind, kinds, roomsByKind } from './varieties';

/** Bins along the room, across it and high, for the two sizes of room in each building. */
const SIZES: Readonly<Record<Building, readonly (readonly [number, number, number])[]>> = {
  N: [
    [9, 5, 6],
    [10, 5, 7],
  ],
  E: [
    [12, 6, 7],
    [12, 6, 8],
  ],
  W: [
    [14, 6, 9],
    [14, 7, 9],
  ],
};

/** Share of the standard rooms, and of those held low in carbon dioxide, in each building. */
const BUILDING_SHARES: readonly (readonly [Building, boolean, number])[] = [
  ['N', false, 14 / 31],
  ['E', false, 8 / 31],
  ['W', false, 9 / 31],
  ['E', true, 10 / 17],
  ['W', true, 7 / 17],
];

const MOST_ROOMS_A_SCRUBBER = 14;
const MOST_ROOMS_A_NITROGEN_SOURCE = 18;

/** The rooms of a store of the given number of rooms, building by building. */
export function generateRooms(rooms: number, random: RandomNumbers): GeneratedRoom[] {
  const counts = roomsByKind(rooms);
  const low = sum(kinds.filter((kind) => kind.lowCarbonDioxide).map((kind) => counts.get(kind.name) ?? 0));
  const sections = sectionsOf(rooms - low, low);
  const digits = rooms > 99 ? 3 : 2;
  const made: GeneratedRoom[] = [];
  let scrubbers = 0;
  const inBuilding: Record<Building, number> = { N: 0, E: 0, W: 0 };
  for (const section of sections) {
    const served = Math.ceil(section.count / Math.ceil(section.count / MOST_ROOMS_A_SCRUBBER));
    for (let index = 0; index < section.count; index += 1) {
      if (index % served === 0) scrubbers += 1;
      const number = ++inBuilding[section.building];
      const size = SIZES[section.building][index % 3 === 1 ? 0 : 1] as readonly [number, number, number];
      made.push(room(section, number, digits, `S${scrubbers}`, size, random));
    }
  }
  return withNitrogen(made.sort((a, b) => order(a) - order(b)));
}

interface Section {
  readonly building: Building;
  readonly low: boolean;
  readonly count: number;
}

function sectionsOf(standard: number, low: number): Section[] {
  const left = { false: standard, true: low };
  const last = { false: 2, true: 4 };
  return BUILDING_SHARES.map(([building, isLow, share], index) => {
    const pool = isLow ? 'true' : 'false';
    const all = isLow ? low : standard;
    const count = index === last[pool] ? left[pool] : Math.min(left[pool], Math.round(all * share));
    left[pool] -= count;
    return { building, low: isLow, count };
  }).filter((section) => section.count > 0);
}

function room(
  section: Section,
  number: number,
  digits: number,
  scrubber: string,
  [along, across, high]: readonly [number, number, number],
  random: RandomNumbers,
): GeneratedRoom {
  const lostPlaces = Math.round(along * across * high * 0.018);
  return {
    id: `${section.building}${String(number).padStart(digits, '0')}`,
    building: section.building,
    lowCarbonDioxide: section.low,
    length: roundTo(along * 1.25 + 0.45, 0.1),
    width: roundTo(across * 1.05 + 0.45, 0.1),
    height: roundTo(high * 0.78 + 0.9, 0.1),
    lostPlaces,
    places: along * across * high - lostPlaces,
    counted: number % 7 === 0,
    scrubber,
    nitrogen: '',
    halfLife: Math.round(
      random.between(section.building === 'N' ? 24 : 31, section.building === 'W' ? 48 : 40),
    ),
    tested: (parseDay('2026-07-27') as Day) + random.whole(0, 18),
  };
}

function withNitrogen(rooms: readonly GeneratedRoom[]): GeneratedRoom[] {
  const names = new Map<string, string>();
  const seen: Record<Building, number> = { N: 0, E: 0, W: 0 };
  return rooms.map((room) => {
    const key = `${room.building}${Math.floor(seen[room.building]++ / MOST_ROOMS_A_NITROGEN_SOURCE)}`;
    if (!names.has(key)) names.set(key, `GEN-${names.size + 1}`);
    return { ...room, nitrogen: names.get(key) as string };
  });
}

/** Which rooms each variety takes: the small ones for the early varieties, for the others a mixture of all sizes. */
export function roomsForKinds(rooms: readonly GeneratedRoom[]): Map<Kind, GeneratedRoom[]> {
  const counts = roomsByKind(rooms.length);
  const given = new Map<Kind, GeneratedRoom[]>();
  for (const low of [false, true]) {
    let pool = rooms.filter((room) => room.lowCarbonDioxide === low);
    for (const kind of kinds.filter((one) => one.lowCarbonDioxide === low)) {
      const count = counts.get(kind.name) ?? 0;
      const taken = kind.small ? pool.slice(0, count) : spread(pool, count);
      pool = pool.filter((room) => !taken.includes(room));
      given.set(kind, taken);
    }
  }
  return given;
}

function spread<T>(list: readonly T[], count: number): T[] {
  return Array.from(
    { length: count },
    (_, index) => list[Math.floor(((index + 0.5) * list.length) / count)] as T,
  );
}

function order(room: GeneratedRoom): number {
  return 'NEW'.indexOf(room.building) * 10000 + Number(room.id.slice(1));
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}

function roundTo(value: number, step: number): number {
  return Math.round(Math.ceil(value / step - 1e-9) * step * 100) / 100;
}
