import type {
  FillProblem,
  FreeRoom,
  HeldFruit,
  LotToPlace,
  PinnedFill,
  RegimeChoice,
} from '../../src/fill/types';
import { type Random, seededRandom } from '../../src/plan/random';

/** Made-up fill problems as plain numbers, for tests against brute force and for the checker. */

export function problemOf(given: Partial<FillProblem> & Pick<FillProblem, 'rooms' | 'lots'>): FillProblem {
  const regimes: RegimeChoice[] = [
    { name: 'in-air', sealed: false, lowCarbonDioxide: false, conditioningDays: 0 },
    { name: 'sealed', sealed: true, lowCarbonDioxide: false, conditioningDays: 0 },
  ];
  return { regimes, pinned: [], mostFillingDays: 14, mostWaitingDays: 1, leftOut: [], ...given };
}

export function room(id: string, given: Partial<FreeRoom> = {}): FreeRoom {
  return { id, places: 20, binsADay: 5, ready: null, sealable: true, costInRegime: [0, 0], ...given };
}

export function lot(
  id: string,
  arrivals: readonly (readonly [day: number, bins: number])[],
  given: Partial<LotToPlace> = {},
): LotToPlace {
  const bins = arrivals.reduce((sum, [, count]) => sum + count, 0);
  return {
    id,
    variety: 'Gala',
    grower: 'Hollow Farm',
    apart: false,
    together: false,
    inFills: 0,
    arrivals: arrivals.map(([day, count]) => ({ day, bins: count })),
    bins,
    allBins: bins,
    term: 0,
    keeps: [
      { latest: 10, costABin: 0.5 },
      { latest: 30, costABin: 0 },
    ],
    ...given,
  };
}

/** So small that every fill can be tried: two rooms, two lots, a handful of bins. */
export function tinyProblem(seed: number): FillProblem {
  const random = seededRandom(seed);
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const rooms = ['R1', 'R2'].map((id) =>
    room(id, {
      places: whole(2, 6),
      binsADay: whole(1, 3),
      ready: random() < 0.4 ? whole(0, 2) : null,
      sealable: random() < 0.7,
      costInRegime: [whole(0, 1) * 20, 0],
    }),
  );
  const lots = ['L1', 'L2'].map((id) =>
    lot(id, tinyArrivals(random), {
      grower: whole(0, 1) === 0 ? 'Weir Orchard' : 'Larkfield',
      term: random() < 0.3 ? null : whole(0, 3),
      keeps: [
        random() < 0.8 ? { latest: whole(5, 12), costABin: 0.5 } : null,
        { latest: whole(20, 30), costABin: random() < 0.3 ? 0.3 : 0 },
      ],
    }),
  );
  return problemOf({ rooms, lots });
}

/** A tiny harvest of growers who are to be kept apart, or together, or both. */
export function tinyWithGrowers(seed: number): FillProblem {
  const problem = tinyProblem(seed);
  const lots = problem.lots.map((one, index) => {
    const grower = seed % 2 === 0 && index === 1 ? 'Larkfield' : one.grower;
    return { ...one, grower, apart: seed % 3 === 0 && grower === 'Larkfield', together: seed % 3 > 0 };
  });
  return { ...problem, lots };
}

/** A tiny harvest whose first room a fill of the plan has begun, with some of the first lot or of another. */
export function tinyBegun(seed: number): FillProblem {
  const problem = tinyWithGrowers(seed);
  const [first, second] = problem.rooms;
  const [mine] = problem.lots;
  if (!first || !second || !mine) throw new Error('a tiny harvest has two rooms and two lots');
  const bins = 1 + (seed % 2);
  const own = seed % 4 < 2;
  const fill = own ? mine : { ...mine, id: 'L0', grower: 'Hollow Farm', apart: false, term: 3 };
  const held: HeldFruit = {
    fill: 'R1-gala',
    regime: 1,
    bins,
    firstDay: 0,
    lastDay: seed % 3,
    binsADay: 1,
    lots: [fill.id],
    growers: [fill.grower],
    apart: fill.apart,
    terms: fill.term === null ? [] : [fill.term],
    latest: [seed % 5 === 0 ? 12 : 24],
  };
  const pinned: PinnedFill = {
    fill: 'R1-gala',
    room: first.id,
    lots: [{ lot: fill.id, bins }],
    together: fill.together ? [fill.grower] : [],
  };
  return {
    ...problem,
    rooms: [{ ...first, places: first.places + bins, sealable: true, ready: null, held }, second],
    lots: own
      ? problem.lots.map((lot) => (lot === mine ? { ...lot, allBins: lot.allBins + bins, inFills: 1 } : lot))
      : problem.lots,
    pinned: [pinned],
  };
}

/** The same, its room to be sealed some days after its last bin, and by no more than so late, or as late as need be. */
export function tinySealing(seed: number): FillProblem {
  const problem = tinyBegun(seed);
  const sealing = {
    day: (seed % 3) + (seed % 4),
    daysAfter: seed % 2,
    lastBinBy: seed % 7 === 0 ? Number.POSITIVE_INFINITY : (seed % 3) + (seed % 7) - 1,
  };
  const rooms = problem.rooms.map((one) => (one.held ? { ...one, held: { ...one.held, sealing } } : one));
  return { ...problem, rooms };
}

function tinyArrivals(random: Random): (readonly [number, number])[] {
  const first = Math.floor(random() * 3);
  const [one, two] = [1 + Math.floor(random() * 2), Math.floor(random() * 3)];
  const late = first + (random() < 0.2 ? 8 : 1);
  return two === 0
    ? [[first, one]]
    : [
        [first, one],
        [late, two],
      ];
}

/** A harvest of some rooms, with more or less fruit than places. */
export function smallHarvest(seed: number, rooms: number, load: number): FillProblem {
  const random = seededRandom(seed);
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const made = Array.from({ length: rooms }, (_, index) => {
    const places = whole(20, 40) * 10;
    return room(`R${String(index + 1).padStart(2, '0')}`, {
      places,
      binsADay: Math.floor(places * 0.15),
      ready: whole(0, 2 * rooms),
      sealable: index % 4 !== 0,
    });
  });
  const bins = made.reduce((sum, { places }) => sum + places, 0) * load;
  const lots: LotToPlace[] = [];
  for (let placed = 0; placed < bins; ) {
    const count = Math.min(Math.ceil(bins - placed), whole(40, 110));
    placed += count;
    const [day, late] = [whole(0, 3 * rooms), random() < 0.3];
    const half = Math.floor(count / 2);
    lots.push(
      lot(
        `L${String(lots.length + 1).padStart(3, '0')}`,
        [
          [day, half],
          [day + 1, count - half],
        ],
        {
          grower: `Orchard ${whole(1, 5)}`,
          term: random() < 0.2 ? null : whole(0, late ? 2 : 1),
          keeps: [
            { latest: 12 + Math.floor(day / 7), costABin: 0.6 },
            { latest: (late ? 24 : 33) + Math.floor(day / 7), costABin: 0 },
          ],
        },
      ),
    );
  }
  return problemOf({ rooms: made, lots });
}
