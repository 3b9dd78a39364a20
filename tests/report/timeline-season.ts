import type { ComputedSeason } from '../../src/findings/types';
import { type Day, parseDay, parseWeek, type Week } from '../../src/plan/dates';
import { type Figure, planFigure, type Unit } from '../../src/plan/figure';
import type { Span } from '../../src/plan/span';
import type { ReleaseProblem, ReleaseResult } from '../../src/release/types';

/** A season of two rooms and four weeks, made by hand: only what the timeline reads is there. */

export function day(text: string): Day {
  const parsed = parseDay(text);
  if (parsed === undefined) throw new Error(`${text} is not a day`);
  return parsed;
}

export function week(text: string): Week {
  const parsed = parseWeek(text);
  if (parsed === undefined) throw new Error(`${text} is not a week`);
  return parsed;
}

export const FILE = 'plan.lotplan.yaml';

/** An entry whose key and value stand at that place in the file. */
export function entry(id: string, start: number) {
  return {
    id,
    at: { file: FILE, start, end: start + 5 },
    places: { span: { file: FILE, start: start + 6, end: start + 50 } },
  };
}

export function figure<U extends Unit>(unit: U, value: number): Figure<U> {
  return planFigure('given', unit, value, { file: FILE, start: 0, end: 0 }, String(value));
}

const OPEN_AT: Span = { file: FILE, start: 130, end: 138 };

function given<T>(value: T, at: Span = { file: FILE, start: 0, end: 0 }) {
  return { value, at };
}

/** R10 is sealed and opens in the third week as pinned; R2 is kept in air and opens in the first. */
function filledRooms() {
  const bins = figure('bins', 100);
  const lot = (name: string, count: number) => ({
    lot: { variety: given(name) },
    variety: { name },
    bins: figure('bins', count),
  });
  return {
    r10: {
      fill: {
        ...entry('R10-gala', 100),
        regime: given('gala-ca'),
        firstBin: given(day('2026-09-02')),
        lastBin: given(day('2026-09-06')),
        sealed: given(day('2026-09-07')),
        open: given(week('2026-W38'), OPEN_AT),
      },
      room: entry('R10', 300),
      lots: [lot('Fuji', 20), lot('Gala', 80)],
      bins,
      nitrogenHours: figure('h', 30),
      respirationHours: figure('h', 12),
    },
    r2: {
      fill: {
        ...entry('R2-fuji', 200),
        regime: given('fuji-air'),
        firstBin: given(day('2026-08-31')),
        lastBin: given(day('2026-08-31')),
      },
      room: entry('R2', 400),
      lots: [lot('Fuji', 100)],
      bins,
    },
  };
}

const because = figure('days', 3);

const problem = {
  firstWeek: week('2026-W36'),
  weeks: 4,
  packingBins: [100, 100, 50, 100],
  rooms: [
    { fill: 'R10-gala', room: 'R10', earliest: 2, latest: 3, bestBefore: 2, pinned: 2 },
    { fill: 'R2-fuji', room: 'R2', earliest: 0, latest: 2, bestBefore: 1, pinned: null },
  ],
  products: [
    { variety: 'Gala', packClass: 'first' },
    { variety: 'Fuji', packClass: 'first' },
    { variety: 'Fuji', packClass: 'second' },
  ],
  demands: [
    { id: 'gala', product: 0, cartons: [0, 0, 800, 0] },
    { id: 'fuji', product: 1, cartons: [500, 500, 0, 300] },
  ],
} as unknown as ReleaseProblem;

const result = {
  schedule: {
    opens: [2, 0],
    packed: [
      [0, 0, 60, 40],
      [50, 50, 0, 0],
    ],
    sold: [
      [0, 0, 800, 0],
      [500, 400, 0, 0],
    ],
    processed: [
      [0, 0, 0, 0],
      [0, 0, 0, 0],
      [90, 110, 0, 0],
    ],
    value: 12_345.4,
  },
  bound: 12_592.3,
  gap: 0.02,
  boundRestsOn: 'a linear program',
  provenOptimal: false,
  conflicts: [],
} as ReleaseResult;

export function aSeason(over: Partial<ComputedSeason> = {}): ComputedSeason {
  const { r10, r2 } = filledRooms();
  const edge = (text: string, limit: string) => ({ week: week(text), limit, because });
  return {
    plan: {
      season: {
        name: given('Harvest 2026'),
        starts: given(day('2026-08-31')),
        ends: given(day('2026-09-27')),
        units: 'metric',
        currency: 'EUR',
      },
      rooms: new Map([r10.room, r2.room, entry('R1', 500)].map((room) => [room.id, room])),
      fills: new Map([r10.fill, r2.fill].map((fill) => [fill.id, fill])),
      demand: new Map(),
      packing: { at: { file: FILE, start: 800, end: 807 }, daysToEmpty: figure('days', 10) },
      policy: { mostScrubberLoad: figure('%', 90) },
    },
    filled: new Map<string, unknown>([
      ['R10-gala', r10],
      ['R2-fuji', r2],
    ]),
    keeping: new Map([
      [
        'R10-gala',
        {
          filled: r10,
          lots: [],
          window: {
            earliest: edge('2026-W38', 'cooling and gas'),
            bestBefore: edge('2026-W38', 'storage life'),
            latest: { ...edge('2026-W39', 'firmness'), lot: { id: 'GA-7' } },
          },
        },
      ],
    ]),
    plant: {
      scrubbers: [
        {
          scrubber: entry('S1', 600),
          rooms: [r10],
          capacity: figure('kg/day', 50),
          weeks: [0, 80, 95, 40].map((share, index) => ({
            week: week('2026-W36') + index,
            load: figure('kg/day', share / 2),
            share: figure('%', share),
          })),
          peak: { week: week('2026-W38'), load: figure('kg/day', 47.5), share: figure('%', 95) },
        },
        { scrubber: entry('S2', 700), rooms: [], weeks: [] },
      ],
    },
    release: { problem, result },
    ...over,
  } as unknown as ComputedSeason;
}
