/**
 * What the generator knows of its nine varieties. The figures are those of an invented company: they are made to be
 * plausible, not to be quoted.
 */
export interface Kind {
  readonly name: string;
  /** Short form for lot identifiers and file names. */
  readonly short: string;
  /** Rooms in a season of 48. */
  readonly rooms: number;
  /** Of these, rooms kept in air for early sale. */
  readonly airRooms: number;
  /** Hurt by carbon dioxide: goes to the rooms whose scrubber is sized to hold it low. */
  readonly lowCarbonDioxide: boolean;
  /** Takes the smallest rooms. */
  readonly small: boolean;
  /** First and last day of picking. */
  readonly harvest: readonly [string, string];
  /** First and last week of selling, counted from the season's first week. */
  readonly sale: readonly [number, number];
  /** Firmness of fruit picked for long keeping, newtons, and its soluble solids, per cent. */
  readonly firmness: number;
  readonly solubleSolids: number;
  readonly packout: { readonly first: number; readonly second: number; readonly lossAMonth: number };
  readonly price: number;
  readonly export: boolean;
  readonly regimes: { readonly air?: string; readonly mid: string; readonly long: string };
  readonly treatments: readonly string[];
  /** Said above its lots. */
  readonly note: string;
}

export const kinds: readonly Kind[] = [
  {
    name: 'Elstar',
    short: 'EL',
    rooms: 2,
    airRooms: 1,
    lowCarbonDioxide: false,
    small: true,
    harvest: ['2026-08-25', '2026-09-05'],
    sale: [2, 9],
    firmness: 70,
    solubleSolids: 12.4,
    packout: { first: 58, second: 20, lossAMonth: 1.6 },
    price: 21,
    export: false,
    regimes: { air: 'elstar-air', mid: 'elstar-ca', long: 'elstar-ca' },
    treatments: [],
    note: 'Elstar opens the season and is sold before it can lose its bite.',
  },
  {
    name: 'Gala',
    short: 'GA',
    rooms: 12,
    airRooms: 2,
    lowCarbonDioxide: false,
    small: false,
    harvest: ['2026-08-31', '2026-09-22'],
    sale: [3, 29],
    firmness: 83,
    solubleSolids: 11.8,
    packout: { first: 63, second: 17, lossAMonth: 1.2 },
    price: 22.5,
    export: true,
    regimes: { air: 'gala-air', mid: 'gala-ca', long: 'gala-long' },
    treatments: [],
    note: 'Gala: the ripe blocks of the lower terraces first, for the air rooms; then the fruit for keeping.',
  },
  {
    name: 'Jonagold',
    short: 'JO',
    rooms: 3,
    airRooms: 1,
    lowCarbonDioxide: false,
    small: true,
    harvest: ['2026-09-14', '2026-09-27'],
    sale: [5, 16],
    firmness: 77,
    solubleSolids: 12.9,
    packout: { first: 57, second: 21, lossAMonth: 1.4 },
    price: 18.5,
    export: false,
    regimes: { air: 'jonagold-air', mid: 'jonagold-ca', long: 'jonagold-ca' },
    treatments: [],
    note: 'Jonagold for the home market up to the new year.',
  },
  {
    name: 'Golden Delicious',
    short: 'GD',
    rooms: 8,
    airRooms: 0,
    lowCarbonDioxide: false,
    small: false,
    harvest: ['2026-09-12', '2026-10-03'],
    sale: [7, 32],
    firmness: 78,
    solubleSolids: 12.2,
    packout: { first: 62, second: 18, lossAMonth: 1.0 },
    price: 19.5,
    export: true,
    regimes: { mid: 'golden-ca', long: 'golden-long' },
    treatments: [],
    note: 'Golden Delicious: handled gently, bruises show.',
  },
  {
    name: 'Red Delicious',
    short: 'RD',
    rooms: 6,
    airRooms: 0,
    lowCarbonDioxide: false,
    small: false,
    harvest: ['2026-09-16', '2026-10-06'],
    sale: [10, 32],
    firmness: 81,
    solubleSolids: 11.6,
    packout: { first: 62, second: 18, lossAMonth: 0.9 },
    price: 18.5,
    export: true,
    regimes: { mid: 'red-ca', long: 'red-ca' },
    treatments: ['antioxidant'],
    note: 'Red Delicious: drenched against scald on arrival.',
  },
  {
    name: 'Granny Smith',
    short: 'GS',
    rooms: 4,
    airRooms: 0,
    lowCarbonDioxide: true,
    small: false,
    harvest: ['2026-09-28', '2026-10-12'],
    sale: [23, 39],
    firmness: 80,
    solubleSolids: 11.4,
    packout: { first: 64, second: 16, lossAMonth: 0.8 },
    price: 21,
    export: true,
    regimes: { mid: 'granny-ca', long: 'granny-ca' },
    treatments: ['antioxidant'],
    note: 'Granny Smith: scald is its weakness, so all of it is drenched.',
  },
  {
    name: 'Braeburn',
    short: 'BR',
    rooms: 4,
    airRooms: 0,
    lowCarbonDioxide: true,
    small: false,
    harvest: ['2026-10-01', '2026-10-15'],
    sale: [12, 27],
    firmness: 82,
    solubleSolids: 12.0,
    packout: { first: 61, second: 18, lossAMonth: 1.1 },
    price: 22,
    export: false,
    regimes: { mid: 'braeburn-ca', long: 'braeburn-ca' },
    treatments: [],
    note: 'Braeburn: cooled slowly, carbon dioxide low in the first months.',
  },
  {
    name: 'Fuji',
    short: 'FU',
    rooms: 5,
    airRooms: 0,
    lowCarbonDioxide: true,
    small: false,
    harvest: ['2026-10-07', '2026-10-26'],
    sale: [26, 44],
    firmness: 81,
    solubleSolids: 14.1,
    packout: { first: 61, second: 19, lossAMonth: 0.8 },
    price: 23.5,
    export: true,
    regimes: { mid: 'fuji-ca', long: 'fuji-ca' },
    treatments: [],
    note: 'Fuji: watercore checked at every receipt; carbon dioxide is kept low.',
  },
  {
    name: 'Cripps Pink',
    short: 'CP',
    rooms: 4,
    airRooms: 0,
    lowCarbonDioxide: true,
    small: false,
    harvest: ['2026-10-15', '2026-10-29'],
    sale: [29, 44],
    firmness: 84,
    solubleSolids: 14.0,
    packout: { first: 63, second: 17, lossAMonth: 0.8 },
    price: 25,
    export: true,
    regimes: { mid: 'pink-ca', long: 'pink-ca' },
    treatments: [],
    note: 'Cripps Pink closes the harvest and the season.',
  },
];

/** A room of two varieties that keep under one regime: the first variety's last room takes some of the second. */
export const mixtures: readonly {
  readonly first: string;
  readonly second: string;
  readonly regime: string;
}[] = [
  { first: 'Golden Delicious', second: 'Red Delicious', regime: 'golden-and-red' },
  { first: 'Braeburn', second: 'Fuji', regime: 'braeburn-and-fuji' },
];

/** Rooms of each variety when there are `rooms` in all: in proportion, the largest remainders rounded up. */
export function roomsByKind(rooms: number): ReadonlyMap<string, number> {
  const total = kinds.reduce((sum, kind) => sum + kind.rooms, 0);
  const exact = kinds.map((kind) => ({ name: kind.name, share: (kind.rooms * rooms) / total }));
  const counts = new Map(exact.map(({ name, share }) => [name, Math.floor(share)]));
  const left = rooms - [...counts.values()].reduce((sum, count) => sum + count, 0);
  const byRemainder = [...exact].sort((a, b) => (b.share % 1) - (a.share % 1));
  for (const { name } of byRemainder.slice(0, left)) counts.set(name, (counts.get(name) ?? 0) + 1);
  return counts;
}
