import type { TextChange } from './forty-edits';

/** A change planted in the first season. */
export interface Planted {
  readonly what: string;
  readonly changes: readonly TextChange[];
  /** What the first three lines of the comment must name as the cause. */
  readonly cause: string;
  /** And as what gravely follows. */
  readonly follows: string;
}

const [FRUIT, BUILDINGS] = ['fruit', 'orrowby'] as const;

export const planted: readonly Planted[] = [
  {
    what: 'a lot moved into a room kept for another variety',
    changes: [
      [FRUIT, 'lots: { G4: 78, G5: 81, G6: 76 }', 'lots: { G4: 78, G6: 76 }'],
      [FRUIT, 'lots: { B1: 100, B2: 95, B3: 95 }', 'lots: { B1: 100, B2: 95, G5: 81, B3: 14 }'],
    ],
    cause: 'lot G5 moved from R2-gala to R4-braeburn, 81 bins',
    follows: 'Braeburn first short',
  },
  {
    what: 'a doubled bin count',
    changes: [[FRUIT, 'G4: 78, G5', 'G4: 156, G5']],
    cause: 'lot G4 in R2-gala: 78 → 156 bins',
    follows: 'lot-placed-beyond-its-bins: Lot G4 has 78 bins received, but the fills take 78 bins more',
  },
  {
    what: "a variety's life cut by its regime",
    changes: [[FRUIT, 'storage-life: 8 months', 'storage-life: 4 months']],
    cause: 'regime braeburn-own: storage-life 243 → 122 days',
    follows: '2,730 more cartons of Braeburn first short',
  },
  {
    what: 'a demand six weeks earlier',
    changes: [
      [
        BUILDINGS,
        'weeks: 2027-W08..2027-W14\n    cartons: 390',
        'weeks: 2027-W02..2027-W08\n    cartons: 390',
      ],
    ],
    cause: 'demand braeburn-spring 6 weeks earlier',
    follows: 'more cartons of Braeburn first short',
  },
  {
    what: 'a demand raised',
    changes: [[BUILDINGS, 'cartons: 320', 'cartons: 420']],
    cause: 'demand gala-winter: 2,240 → 2,940 cartons',
    follows: 'more cartons of Gala first short',
  },
  {
    what: 'one week of a demand raised',
    changes: [[BUILDINGS, '2026-W51: 520', '2026-W51: 1520']],
    cause: 'demand golden-christmas: 2,700 → 3,700 cartons in all, 2026-W51',
    follows: 'more cartons of Golden Delicious first short',
  },
  {
    what: 'a pin long before the fruit is wanted',
    changes: [[FRUIT, 'open: 2027-W01', 'open: 2026-W40']],
    cause: 'fill R2-gala pinned to 2026-W40, 2027-W01 before',
    follows: '2,240 more cartons of Gala first short',
  },
  {
    what: 'a pin after the window',
    changes: [[FRUIT, 'open: 2027-W01', 'open: 2027-W15']],
    cause: 'fill R2-gala pinned to 2027-W15, 2027-W01 before',
    follows: 'R2-gala is pinned to 2027-W15, after its opening window',
  },
  {
    what: 'a pin that changes nothing',
    changes: [[FRUIT, '    open: 2027-W01', '   ']],
    cause: 'fill R2-gala: its pin to 2027-W01 taken out',
    follows: 'Nothing follows',
  },
  {
    what: 'a lot picked riper',
    changes: [[FRUIT, 'starch: 2.8, firmness: 83 N', 'starch: 6.4, firmness: 68 N']],
    cause: 'lot G4: maturity.starch 2.8 → 6.4',
    follows: 'after its opening window',
  },
  {
    what: 'a scrubber far weaker',
    changes: [[BUILDINGS, 'removal: 18 kg/day', 'removal: 5 kg/day']],
    cause: 'scrubber S1: removal 18.0 → 5.0 kg/day',
    follows: 'scrubber-overloaded: S1 is loaded above 100 % of what it can remove in 7 weeks',
  },
  {
    what: 'a lime box too small',
    changes: [[BUILDINGS, 'removal: 5 kg/day', 'removal: 1 kg/day']],
    cause: 'scrubber lime-box: removal 5.0 → 1.0 kg/day',
    follows: 'scrubber-overloaded: lime-box is loaded above 100 % of what it can remove in 19 weeks',
  },
  {
    what: 'nitrogen that flows slower',
    changes: [
      [BUILDINGS, 'flow: 60 m3/h', 'flow: 3 m3/h'],
      [BUILDINGS, 'flow: 28 m3/h', 'flow: 2 m3/h'],
    ],
    cause: 'nitrogen source N1: flows',
    follows: 'nitrogen source N1: hours asked in its heaviest week',
  },
  {
    what: 'nitrogen less pure',
    changes: [[BUILDINGS, 'purity: 99.2 %', 'purity: 98 %']],
    cause: 'nitrogen source N1: flows',
    follows: 'nitrogen-cannot-reach: R2-gala',
  },
  {
    what: 'cooling of all rooms cut',
    changes: [[BUILDINGS, 'engine-room: { capacity: 36 kW', 'engine-room: { capacity: 20 kW']],
    cause: 'refrigeration group engine-room: capacity 36.0 → 20.0 kW',
    follows: 'refrigeration group engine-room: load in its heaviest week 64 % →',
  },
  {
    what: "a room's cooler too small",
    changes: [[BUILDINGS, 'capacity: 16 kW', 'capacity: 6 kW']],
    cause: 'room R2: refrigeration.capacity 16.0 → 6.0 kW',
    follows: "R2-gala: its cooler's load",
  },
  {
    what: 'a room with fewer places',
    changes: [[BUILDINGS, 'lost-places: 4', 'lost-places: 40']],
    cause: 'room R2: lost-places 4 → 40 places',
    follows: 'R2-gala puts 235 bins into R2, which has 200 places: 35 bins too many',
  },
  {
    what: 'a leaky room',
    changes: [[BUILDINGS, 'after: 26 min', 'after: 6 min']],
    cause: 'room R2: tightness.after 26 → 6 min',
    follows: 'oxygen-climbs: R2-gala',
  },
  {
    what: 'a room ready too late',
    changes: [[BUILDINGS, 'ready: 2026-09-07', 'ready: 2026-10-07']],
    cause: 'room R3: ready 2026-09-07 → 2026-10-07',
    follows: 'room-not-ready: R3-golden',
  },
  {
    what: 'a room sealed three weeks late',
    changes: [[FRUIT, 'sealed: 2026-09-18', 'sealed: 2026-10-09']],
    cause: 'fill R2-gala: sealed 2026-09-18 → 2026-10-09',
    follows: 'sealed-late: R2-gala is sealed 31 days after its first bin',
  },
  {
    what: 'oxygen below what the variety bears',
    changes: [[FRUIT, 'oxygen: 1.5 %', 'oxygen: 0.3 %']],
    cause: 'regime gala-own: oxygen 1.5 → 0.3 %',
    follows: 'oxygen-below-limit: R2-gala: 0.3 % oxygen is below',
  },
  {
    what: 'carbon dioxide above what the variety bears',
    changes: [[FRUIT, 'carbon-dioxide: 0.8 %', 'carbon-dioxide: 4 %']],
    cause: 'regime braeburn-own: carbon-dioxide 0.8 → 4.0 %',
    follows: 'carbon-dioxide-above-limit: R4-braeburn',
  },
  {
    what: 'a temperature at which fruit freezes',
    changes: [[FRUIT, 'temperature: 0.8 °C', 'temperature: -3 °C']],
    cause: 'regime gala-own: temperature 0.8 → -3.0 °C',
    follows: 'freezing-risk: R2-gala',
  },
  {
    what: 'the packhouse at half speed',
    changes: [[BUILDINGS, 'bins-a-week: 110', 'bins-a-week: 45']],
    cause: 'packing: bins-a-week 110 → 45 bins/week',
    follows: 'room-too-large-to-empty: R2-gala',
  },
  {
    what: 'rooms to be emptied twice as fast',
    changes: [[BUILDINGS, 'days-to-empty: 28 days', 'days-to-empty: 14 days']],
    cause: 'packing: days-to-empty 28 → 14 days',
    follows: 'room-too-large-to-empty: R2-gala',
  },
  {
    what: 'a packout lower than thought',
    changes: [[BUILDINGS, 'Braeburn: { shares: { first: 61 %', 'Braeburn: { shares: { first: 41 %']],
    cause: 'packing: packout.Braeburn.shares.first 61.0 → 41.0 %',
    follows: 'more cartons of Braeburn first short',
  },
  {
    what: 'a buyer who asks for firmer fruit',
    changes: [[BUILDINGS, 'least-firmness: 55 N', 'least-firmness: 78 N']],
    cause: 'demand gala-winter: least-firmness 55 → 78 N',
    follows: '2,240 more cartons of Gala first short',
  },
  {
    what: 'a price halved',
    changes: [[BUILDINGS, 'price: 23.00', 'price: 11.50']],
    cause: 'demand braeburn-spring: price 23.00 → 11.50 EUR',
    follows: 'the schedule is worth EUR 31,395 less',
  },
  {
    what: 'a lot left without a room',
    changes: [[FRUIT, 'D1: 97, D2: 95, D3: 95', 'D1: 97, D2: 95']],
    cause: 'lot D3 taken out of R3-golden, 95 bins',
    follows: 'more cartons of Golden Delicious first short',
  },
  {
    what: 'a fill moved to a smaller room that is still full',
    changes: [[FRUIT, 'room: R4', 'room: R1']],
    cause: 'fill R4-braeburn moved from room R4 to room R1',
    follows: 'R1 is filled by R4-braeburn from 2026-10-05 while R1-gala is still in it',
  },
  {
    what: 'a regime that was never written',
    changes: [[FRUIT, 'regime: braeburn-own', 'regime: braeburn-best']],
    cause: 'fill R4-braeburn: regime braeburn-own → braeburn-best',
    follows: 'No regime',
  },
  {
    what: 'a room that is not in the plan',
    changes: [[FRUIT, 'room: R2', 'room: R9']],
    cause: 'fill R2-gala moved from room R2 to room R9',
    follows: 'No room',
  },
  {
    what: 'windows surer than before',
    changes: [[BUILDINGS, 'confidence: 90 %', 'confidence: 99 %']],
    cause: 'policy: confidence 90.0 → 99.0 %',
    follows: 'R2-gala must be opened by 2027-W04, 4 weeks earlier',
  },
  {
    what: 'a customer who takes nothing any more',
    changes: [[BUILDINGS, 'cartons: 390', 'cartons: 0']],
    cause: 'demand braeburn-spring: 2,730 → 0 cartons',
    follows: 'room-mostly-unsold: R4-braeburn',
  },
];
