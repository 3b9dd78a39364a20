import { beforeAll, describe, expect, test } from 'vitest';
import { checkFill } from '../../src/fill/checker';
import { proposeFill } from '../../src/fill/propose';
import type { Entry, FillProblem, FillProposal, HeldFruit, ProposedRoom } from '../../src/fill/types';
import { type Random, seededRandom } from '../../src/plan/random';
import { lot, problemOf, room, smallHarvest } from './small';

/**
 * The checker is given good proposals with one thing made wrong, and must find each. Every mistake is made by its own
 * few lines below, which know nothing of how proposals are found.
 */
type Mistake = (problem: FillProblem, good: FillProposal, random: Random) => [FillProblem, FillProposal];

const pick = <T>(list: readonly T[], random: Random): T => list[Math.floor(random() * list.length)] as T;

function withEntry(
  good: FillProposal,
  random: Random,
  change: (entry: Entry) => Entry | Entry[],
): FillProposal {
  const chosen = pick(good.rooms, random);
  const at = Math.floor(random() * chosen.entries.length);
  const entries = chosen.entries.flatMap((entry, index) => (index === at ? change(entry) : [entry]));
  return withRoom(good, chosen, { entries });
}

function withRoom(good: FillProposal, chosen: ProposedRoom, change: Partial<ProposedRoom>): FillProposal {
  return { ...good, rooms: good.rooms.map((one) => (one === chosen ? { ...one, ...change } : one)) };
}

/** Tells the problem another limit for the chosen room, so that a good fill breaks it by one. */
function withLimit(
  problem: FillProblem,
  id: string,
  change: Partial<FillProblem['rooms'][number]>,
): FillProblem {
  return { ...problem, rooms: problem.rooms.map((one) => (one.id === id ? { ...one, ...change } : one)) };
}

/** A room in which a fill has begun, so far with next to nothing. */
const begun = (given: Partial<HeldFruit>): HeldFruit => ({
  fill: 'R01-gala',
  regime: 1,
  bins: 0,
  firstDay: -1,
  lastDay: -1,
  binsADay: 0,
  lots: [],
  growers: [],
  apart: false,
  terms: [],
  latest: [],
  ...given,
});

const binsOf = (entries: readonly Entry[]) => entries.reduce((sum, { bins }) => sum + bins, 0);

const MISTAKES: Readonly<Record<string, Mistake>> = {
  places: (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    return [withLimit(problem, chosen.room, { places: binsOf(chosen.entries) - 1 }), good];
  },
  intake: (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    const { entered } = pick(chosen.entries, random);
    const that = binsOf(chosen.entries.filter((entry) => entry.entered === entered));
    return [withLimit(problem, chosen.room, { binsADay: that - 1 }), good];
  },
  ready: (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    const first = Math.min(...chosen.entries.map(({ entered }) => entered));
    return [withLimit(problem, chosen.room, { ready: first + 1 }), good];
  },
  seal: (problem, good, random) => {
    const chosen = pick(
      good.rooms.filter(({ regime }) => regime === 'sealed'),
      random,
    );
    return [withLimit(problem, chosen.room, { sealable: false }), good];
  },
  sealing: (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    const regime = problem.regimes.findIndex(({ name }) => name === chosen.regime);
    const days = chosen.entries.map(({ entered }) => entered);
    const [firstDay, last] = [Math.min(...days), Math.max(...days)];
    const sealing = { day: last + 5, daysAfter: 2, lastBinBy: last - 1 };
    return [
      withLimit(problem, chosen.room, { held: begun({ regime, firstDay, lastDay: firstDay, sealing }) }),
      good,
    ];
  },
  'filling days': (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    const days = chosen.entries.map(({ entered }) => entered);
    const length = Math.max(...days) - Math.min(...days) + 1;
    return [{ ...problem, mostFillingDays: length - 1 }, good];
  },
  variety: (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    const regime = problem.regimes.findIndex(({ name }) => name === chosen.regime);
    const { lot: id } = pick(chosen.entries, random);
    const lots = problem.lots.map((one) =>
      one.id === id
        ? { ...one, keeps: one.keeps.map((keeps, index) => (index === regime ? null : keeps)) }
        : one,
    );
    return [{ ...problem, lots }, good];
  },
  regime: (problem, good, random) => [
    problem,
    withRoom(good, pick(good.rooms, random), { regime: 'no such' }),
  ],
  room: (problem, good, random) => [problem, withRoom(good, pick(good.rooms, random), { room: 'R99' })],
  'room twice': (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    const [first, ...rest] = chosen.entries;
    if (!first || rest.length === 0) return [problem, { ...good, rooms: [...good.rooms, chosen] }];
    const halves = [
      { ...chosen, entries: [first] },
      { ...chosen, entries: rest },
    ];
    return [problem, { ...good, rooms: good.rooms.flatMap((one) => (one === chosen ? halves : [one])) }];
  },
  empty: (problem, good) => {
    const free = problem.rooms.find(({ id }) => !good.rooms.some((one) => one.room === id));
    return [
      problem,
      { ...good, rooms: [...good.rooms, { room: free?.id ?? '', regime: 'in-air', entries: [] }] },
    ];
  },
  'pinned fill': (problem, good, random) => {
    const { room: id } = pick(good.rooms, random);
    const pinned = [{ fill: `${id}-gala`, room: id, lots: [], together: [] }];
    return [{ ...problem, pinned, rooms: problem.rooms.filter((one) => one.id !== id) }, good];
  },
  'growers apart': (problem, good, random) => {
    const growersOf = ({ entries }: ProposedRoom) =>
      problem.lots.filter(({ id }) => entries.some((entry) => entry.lot === id)).map(({ grower }) => grower);
    const chosen = pick(
      good.rooms.filter((one) => new Set(growersOf(one)).size > 1),
      random,
    );
    const apart = pick(growersOf(chosen), random);
    const lots = problem.lots.map((one) => (one.grower === apart ? { ...one, apart: true } : one));
    return [{ ...problem, lots }, good];
  },
  'barred room': (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    const regime = problem.regimes.findIndex(({ name }) => name === chosen.regime);
    const barred = [{ regime, code: 'room-too-leaky', reason: 'It leaks.' }];
    return [withLimit(problem, chosen.room, { barred }), good];
  },
  'barred lot': (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    const regime = problem.regimes.findIndex(({ name }) => name === chosen.regime);
    const { lot: id } = pick(chosen.entries, random);
    const barred = [{ regime, code: 'over-mature-lot-sealed', reason: 'It is too ripe.' }];
    const lots = problem.lots.map((one) => (one.id === id ? { ...one, barred } : one));
    return [{ ...problem, lots }, good];
  },
  'regime begun': (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    const regime = problem.regimes.findIndex(({ name }) => name !== chosen.regime);
    return [withLimit(problem, chosen.room, { held: begun({ regime }) }), good];
  },
  'before the first bin': (problem, good, random) => {
    const chosen = pick(good.rooms, random);
    const firstDay = Math.min(...chosen.entries.map(({ entered }) => entered)) + 1;
    return [withLimit(problem, chosen.room, { held: begun({ firstDay, lastDay: firstDay }) }), good];
  },
  waiting: (problem, good, random) => {
    const late = withEntry(good, random, (entry) => ({ ...entry, entered: entry.picked + 2 }));
    return [problem, late];
  },
  'before picking': (problem, good, random) => [
    problem,
    withEntry(good, random, (entry) => ({ ...entry, entered: entry.picked - 1 })),
  ],
  'whole bins': (problem, good, random) => [
    problem,
    withEntry(good, random, (entry) => [
      { ...entry, bins: entry.bins - 0.5 },
      { ...entry, bins: 0.5 },
    ]),
  ],
  picking: (problem, good, random) => {
    // Of a lot placed whole, so that every bin of the day is in a room.
    const over = new Set(good.unplaced.map(({ lot: one }) => one));
    const entries = good.rooms.flatMap((one) => one.entries).filter(({ lot: one }) => !over.has(one));
    const { lot: id, picked } = pick(entries, random);
    // The same bins in all, a day's picking one short and another's one more.
    const lots = problem.lots.map((one) =>
      one.id === id
        ? {
            ...one,
            arrivals: [
              ...one.arrivals.map(({ day, bins }) => ({ day, bins: day === picked ? bins - 1 : bins })),
              { day: picked + 40, bins: 1 },
            ],
          }
        : one,
    );
    return [{ ...problem, lots }, good];
  },
  bins: (problem, good, random) => [
    problem,
    random() < 0.5
      ? withEntry(good, random, (entry) => (entry.bins > 1 ? { ...entry, bins: entry.bins - 1 } : []))
      : { ...good, unplaced: [...good.unplaced, { lot: pick(problem.lots, random).id, bins: 1 }] },
  ],
  lot: (problem, good, random) => [
    problem,
    withEntry(good, random, (entry) => ({ ...entry, lot: 'no such lot' })),
  ],
  cost: (problem, good, random) => [problem, { ...good, cost: good.cost + (random() < 0.5 ? 1 : -1) }],
};

describe('the checker', () => {
  const problems = [1, 2, 3, 4].map((seed) => smallHarvest(seed, 8, 0.7));
  let good: FillProposal[] = [];
  beforeAll(async () => {
    good = await Promise.all(
      problems.map(async (problem) => (await proposeFill(problem, { seed: 1, moves: 150 })).proposal),
    );
  });

  test('finds nothing wrong with what the search proposes', () => {
    for (const [index, problem] of problems.entries())
      expect(checkFill(problem, good[index] as FillProposal)).toEqual([]);
  });

  // 48 of each of 24 kinds: more than a thousand.
  test.each(Object.entries(MISTAKES))('finds the planted mistake: %s', (kind, plant) => {
    for (let seed = 1; seed <= 48; seed++) {
      const index = seed % problems.length;
      const [problem, wrong] = plant(
        problems[index] as FillProblem,
        good[index] as FillProposal,
        seededRandom(seed),
      );
      expect(
        checkFill(problem, wrong).map((violation) => violation.kind),
        `seed ${seed}`,
      ).toContain(kind);
    }
  });
});

test('the cost is what it says, worked out by hand', () => {
  const problem = problemOf({
    rooms: [room('R1', { places: 100, binsADay: 10, costInRegime: [20, 0] })],
    lots: [
      lot(
        'L1',
        [
          [0, 12],
          [1, 3],
        ],
        { term: 0, grower: 'Larkfield' },
      ),
      lot('L2', [[8, 5]], { term: 2, keeps: [{ latest: 20, costABin: 1 }, null] }),
      lot('L3', [[9, 4]], { keeps: [null, { latest: 5, costABin: 0 }] }),
    ],
  });
  const entries = [
    { lot: 'L1', picked: 0, entered: 0, bins: 10 },
    { lot: 'L1', picked: 0, entered: 1, bins: 2 },
    { lot: 'L1', picked: 1, entered: 1, bins: 3 },
    { lot: 'L2', picked: 8, entered: 8, bins: 5 },
  ];
  // A room in air that could be sealed, 80 places empty, hardly filled; nine days of filling; two bins wait a day;
  // long beside short fruit, weeks 10 and 20; two growers; 15 bins at 0.5 and 5 at 1; four bins left over.
  const cost =
    200 +
    20 +
    80 +
    150 +
    5 * 2 +
    1 * 2 +
    0.1 * 100 * 2 +
    0.03 * 100 * (20 - 10 - 4) +
    2 * 2 +
    15 * 0.5 +
    5 * 1 +
    4 * 1000;
  const proposal = {
    rooms: [{ room: 'R1', regime: 'in-air', entries }],
    unplaced: [{ lot: 'L3', bins: 4 }],
    cost,
  };
  expect(checkFill(problem, proposal)).toEqual([]);
});

test('one bin is told as one', () => {
  const problem = problemOf({
    rooms: [room('R1', { places: 0, binsADay: 0 })],
    lots: [lot('L1', [[0, 2]])],
  });
  const entries = [{ lot: 'L1', picked: 0, entered: 0, bins: 1 }];
  const proposal = { rooms: [{ room: 'R1', regime: 'in-air', entries }], unplaced: [], cost: 0 };
  const messages = checkFill(problem, proposal).map(({ message }) => message);
  expect(messages).toContain('R1 holds 1 bin and has 0 places.');
  expect(messages).toContain('R1 takes 1 bin on 1970-01-01; 0 may come in.');
  expect(messages).toContain('L1 has 2 bins; 1 is accounted for.');
});
