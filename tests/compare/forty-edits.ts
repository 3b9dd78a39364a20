import type { SampleFile } from '../samples/sample';

/** One edit of a plan's text: in which file, what stands there, what comes in its place. */
export type TextChange = readonly [file: string, from: string, to: string];

/** A day's and a week's work on the full-size season: receipts, moves, demand, pins, plant, the planner's own values. */
export const fortyEdits: readonly TextChange[] = [
  // Fewer or more bins than placed
  ['fills', 'GA-001: 86', 'GA-001: 80'],
  ['fills', 'GA-011: 82', 'GA-011: 74'],
  ['fills', 'GA-018: 115', 'GA-018: 100'],
  ['fills', 'JO-002: 109', 'JO-002: 99'],
  ['fills', 'JO-009: 97', 'JO-009: 90'],
  ['fills', 'GD-003: 108', 'GD-003: 88'],
  ['lots/elstar', 'bins: 64, received: 65', 'bins: 64, received: 67'],
  // Lots moved
  ['fills', 'GA-022: 91, ', ''],
  ['fills', 'lots: { GA-027: 84', 'lots: { GA-022: 91, GA-027: 84'],
  ['fills', 'GA-044: 52, ', ''],
  ['fills', 'lots: { GA-053: 90', 'lots: { GA-044: 52, GA-053: 90'],
  // Demand
  ['demand', 'cartons: 700', 'cartons: 760'],
  ['demand', 'cartons: 1440', 'cartons: 1500'],
  ['demand', '2026-W51: 1950', '2026-W51: 2250'],
  ['demand', '2027-W04: 1740', '2027-W04: 1840'],
  ['demand', 'cartons: 890', 'cartons: 940'],
  ['demand', 'price: 21.50', 'price: 22.00'],
  // Pins
  ['fills', '    open: 2026-W38 # promised to the customer\n', ''],
  ['fills', 'sealed: 2026-09-13\n', 'sealed: 2026-09-13\n    open: 2027-W06\n'],
  ['fills', 'sealed: 2026-09-26\n', 'sealed: 2026-09-26\n    open: 2027-W02\n'],
  // Dates
  ['fills', 'sealed: 2026-09-21\n', 'sealed: 2026-09-22\n'],
  ['fills', 'sealed: 2026-09-30\n', 'sealed: 2026-10-01\n'],
  // Rooms and plant
  ['rooms-north', 'lost-places: 6', 'lost-places: 8'],
  ['rooms-north', 'capacity: 18 kW', 'capacity: 16 kW'],
  ['rooms-east', 'after: 3', 'after: 2'],
  ['rooms-west', 'lost-places: ', 'lost-places: 1'],
  ['plant', 'removal: 65 kg/day', 'removal: 55 kg/day'],
  ['plant', 'removal: 165 kg/day', 'removal: 180 kg/day'],
  ['plant', 'capacity: 240 kW', 'capacity: 220 kW'],
  ['plant', 'flow: 75 m3/h', 'flow: 60 m3/h'],
  // The planner's own values
  ['varieties-and-regimes', 'softening: 2.2 N', 'softening: 2.5 N'],
  ['varieties-and-regimes', 'softening: 2.8 N', 'softening: 3.0 N'],
  ['varieties-and-regimes', 'storage-life: 6 months', 'storage-life: 5 months'],
  ['varieties-and-regimes', 'storage-life: 8 months', 'storage-life: 7 months'],
  ['varieties-and-regimes', 'storage-life: 10 months', 'storage-life: 9 months'],
  // Lots tested, and later than thought
  ['lots/braeburn', 'bins: 89', 'bins: 95'],
  ['lots/braeburn', 'firmness: 84 N', 'firmness: 78 N'],
  ['lots/braeburn', 'starch: 2.1', 'starch: 3.2'],
  ['lots/cripps-pink', 'picked: 2026-10-15..2026-10-18', 'picked: 2026-10-17..2026-10-20'],
  // The packhouse and policy
  ['packing', 'bins-a-week: 1120', 'bins-a-week: 1060'],
  ['packing', 'Fuji:             { shares: { first: 61 %', 'Fuji:             { shares: { first: 58 %'],
  ['season', 'most-scrubber-load: 95 %', 'most-scrubber-load: 90 %'],
];

/** The files with the changes made, each at the first place where the text stands. Throws where it stands nowhere. */
export function withChanges(files: readonly SampleFile[], changes: readonly TextChange[]): SampleFile[] {
  const texts = new Map(files.map(({ path, text }) => [path, text]));
  for (const [name, from, to] of changes) {
    const path = `${name}.lotplan.yaml`;
    const text = texts.get(path);
    if (!text?.includes(from)) throw new RangeError(`${path} does not hold ${from}`);
    texts.set(
      path,
      text.replace(from, () => to),
    );
  }
  return [...texts].map(([path, text]) => ({ path, text }));
}
