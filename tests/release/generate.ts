import { parseWeek } from '../../src/plan/dates';
import { type Random, seededRandom } from '../../src/release/random';
import type { ProblemDemand, ProblemRoom, ReleaseProblem } from '../../src/release/types';

/** Sizes of made-up seasons. */
export const sizes = {
  tiny: { rooms: 4, weeks: 8, varieties: 2, weeksToEmpty: 2 },
  S: { rooms: 12, weeks: 32, varieties: 3, weeksToEmpty: 2 },
  M: { rooms: 60, weeks: 45, varieties: 8, weeksToEmpty: 2 },
  L: { rooms: 200, weeks: 45, varieties: 9, weeksToEmpty: 2 },
} as const;

export interface Made {
  readonly rooms: number;
  readonly weeks: number;
  readonly varieties: number;
  readonly weeksToEmpty: number;
  /** Cartons wanted as a share of those the rooms give. */
  readonly demand?: number;
  /** Bins the packhouse can run over the season as a multiple of those in the rooms. */
  readonly packhouse?: number;
  readonly roomsOpenAtOnce?: number | null;
}

const CLASSES = ['first', 'second'];
const SHARES = [0.62, 0.18];

/** A made-up season: invented rooms, windows, packouts and programmes, the same for the same seed. */
export function madeProblem(made: Made, seed: number): ReleaseProblem {
  const random = seededRandom(seed);
  const { weeks, varieties } = made;
  const products = Array.from({ length: varieties }, (_, variety) =>
    CLASSES.map((packClass) => ({ variety: `Variety ${variety + 1}`, packClass })),
  ).flat();
  const rooms = Array.from({ length: made.rooms }, (_, index) => madeRoom(made, index, random));
  const binsOfAll = rooms.reduce((sum, room) => sum + room.bins, 0);
  // Unless told otherwise a packhouse that can empty its largest room in good time.
  const ample = Math.max((binsOfAll / weeks) * 1.8, 1.2 * Math.max(...rooms.map((room) => room.bins)));
  const aWeek = made.packhouse === undefined ? ample : (binsOfAll / weeks) * made.packhouse;
  return {
    firstWeek: parseWeek('2026-W36') ?? 0,
    weeks,
    rooms,
    products,
    demands: products.flatMap((_, product) => madeDemands(made, rooms, product, random)),
    packingBins: Array.from({ length: weeks }, (_, week) => (week % 17 === 16 ? aWeek * 0.6 : aWeek)),
    roomsOpenAtOnce: made.roomsOpenAtOnce ?? null,
    packedWaitWeeks: Math.min(2, weeks - 1),
    costOfWaiting: 0.12,
    processingPrice: 3,
  };
}

function madeRoom(made: Made, index: number, random: Random): ProblemRoom {
  const { weeks } = made;
  const variety = index % made.varieties;
  // Every third room holds a second variety.
  const other = random() < 0.33 ? (variety + 1) % made.varieties : variety;
  const mix = other === variety ? 1 : 0.5 + 0.4 * random();
  const bins = Math.round(600 + 1000 * random());
  const earliest = Math.floor(weeks * (0.05 + 0.5 * random()));
  const latest = Math.min(
    weeks - made.weeksToEmpty,
    earliest + 2 + Math.floor(weeks * (0.1 + 0.3 * random())),
  );
  const bestBefore = Math.round(earliest + 0.7 * (latest - earliest));
  return {
    fill: `fill-${String(index + 1).padStart(3, '0')}`,
    room: `R${index + 1}`,
    bins,
    weeksToEmpty: made.weeksToEmpty,
    earliest,
    latest,
    bestBefore,
    pinned: null,
    cartonsABin: Array.from({ length: weeks }, (_, week) =>
      Array.from({ length: made.varieties * 2 }, (__, product) => {
        const of = Math.floor(product / 2);
        const share = (of === variety ? mix : 0) + (of === other ? 1 - mix : 0);
        return (300 / 18) * share * (SHARES[product % 2] ?? 0) * Math.max(0, 1 - (0.012 * week) / 4.35);
      }),
    ),
    riskCost: Array.from({ length: weeks }, (_, week) => bins * 3 * Math.max(0, week - bestBefore) ** 1.5),
  };
}

/** Two programmes for the first class, one of them late and better paid, and one for the second. */
function madeDemands(
  made: Made,
  rooms: readonly ProblemRoom[],
  product: number,
  random: Random,
): ProblemDemand[] {
  const { weeks } = made;
  const given = rooms.reduce((sum, room) => sum + room.bins * (room.cartonsABin[0]?.[product] ?? 0), 0);
  const first = product % 2 === 0;
  const programmes: [string, number, number, number, number][] = first
    ? [
        ['home', 0.1, 0.75, 0.6, 19 + 4 * random()],
        ['export', 0.45, 1, 0.4, 22 + 6 * random()],
      ]
    : [['schools', 0.15, 0.95, 1, 10 + 2 * random()]];
  return programmes.map(([market, from, to, share, price]) => {
    const [start, end] = [Math.floor(weeks * from), Math.min(weeks, Math.ceil(weeks * to))];
    const aWeek = (given * (made.demand ?? 0.9) * share) / Math.max(1, end - start);
    return {
      id: `${market}-${String(product).padStart(2, '0')}`,
      market,
      product,
      cartons: Array.from({ length: weeks }, (_, week) =>
        week < start || week >= end ? 0 : Math.round(aWeek * (0.7 + 0.6 * random())),
      ),
      price,
      priceOfShortage: price / 2,
    };
  });
}
