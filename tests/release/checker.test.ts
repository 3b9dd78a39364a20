import { describe, expect, it } from 'vitest';
import { checkSchedule, violationKinds } from '../../src/release/checker';
import { quickRelease } from '../../src/release/quick';
import { seededRandom } from '../../src/release/random';
import type { ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { withProductsApart } from './features';
import { madeProblem } from './generate';

const problem = madeProblem({ rooms: 6, weeks: 16, varieties: 2, weeksToEmpty: 3 }, 3);
const good = quickRelease(problem, { seed: 1, moves: 4000 }).schedule;

/** The same with products that not every demand takes. */
const apart = (() => {
  const changed = withProductsApart(problem, seededRandom(2));
  return { problem: changed, schedule: quickRelease(changed, { seed: 1, moves: 4000 }).schedule };
})();

interface Draft {
  opens: (number | null)[];
  packed: number[][];
  sold: number[][];
  processed: number[][];
  value: number;
}

/** The good schedule with one thing wrong. */
function spoiled(change: (draft: Draft) => void): ReleaseSchedule {
  const draft: Draft = {
    opens: [...good.opens],
    packed: good.packed.map((row) => [...row]),
    sold: good.sold.map((row) => [...row]),
    processed: good.processed.map((row) => [...row]),
    value: good.value,
  };
  change(draft);
  return draft;
}

function kinds(
  schedule: ReleaseSchedule,
  changed: Partial<ReleaseProblem> = {},
  unmet: number[] = [],
): string[] {
  return checkSchedule({ ...problem, ...changed }, schedule, unmet).map((one) => one.kind);
}

/** A row and a week in which it is not zero. */
function somewhere(rows: readonly (readonly number[])[]): [number, number] {
  const row = rows.findIndex((one) => one.some((amount) => amount > 1));
  return [row, rows[row]?.findIndex((amount) => amount > 1) ?? -1];
}

function add(rows: number[][], row: number, week: number, amount: number): void {
  const of = rows[row] as number[];
  of[week] = (of[week] ?? 0) + amount;
}

/** The change that plants a violation, by the kind that must be found. */
const planted: Record<(typeof violationKinds)[number], () => string[]> = {
  shape: () => kinds(spoiled((draft) => draft.opens.pop())),
  'not-a-number': () => kinds(spoiled((draft) => add(draft.sold, 0, 0, Number.NaN))),
  negative: () => kinds(spoiled((draft) => add(draft.processed, 0, 0, -50))),
  week: () => kinds(spoiled((draft) => draft.opens.splice(0, 1, 4.5))),
  window: () => {
    const [first, ...others] = problem.rooms;
    const narrow = { ...(first as (typeof problem.rooms)[number]), latest: (good.opens[0] ?? 0) - 1 };
    return kinds(good, { rooms: [narrow, ...others] });
  },
  pin: () =>
    kinds(good, {
      rooms: problem.rooms.map((room, index) => ({ ...room, pinned: (good.opens[index] ?? 0) + 1 })),
    }),
  unmet: () => kinds(good, {}, [0]),
  'packed-outside': () =>
    kinds(
      spoiled((draft) => {
        const [room, week] = somewhere(draft.packed);
        const after = (draft.opens[room] ?? 0) + 3;
        add(draft.packed, room, week, -10);
        add(draft.packed, room, after < problem.weeks ? after : 0, 10);
      }),
    ),
  'packed-bins': () => kinds(spoiled((draft) => add(draft.packed, ...somewhere(draft.packed), -5))),
  'packing-capacity': () => kinds(good, { packingBins: problem.packingBins.map(() => 100) }),
  'rooms-open': () => kinds(good, { roomsOpenAtOnce: 0 }),
  order: () => {
    const opened = good.opens.flatMap((week, index) => (week === null ? [] : [{ week, index }]));
    const [first, ...others] = [...opened].sort((a, b) => a.week - b.week);
    const last = others.at(-1);
    return kinds(good, { opensBefore: [[last?.index ?? 0, first?.index ?? 0]] });
  },
  oversold: () =>
    kinds(
      spoiled((draft) =>
        add(
          draft.sold,
          ...somewhere(draft.sold),
          1 + Math.max(...problem.demands.flatMap((demand) => demand.cartons)),
        ),
      ),
    ),
  'not-there': () => {
    const rooms = problem.rooms.map((room, index) => {
      const week = good.opens[index] ?? 0;
      return { ...room, earliest: week, latest: week, fromField: { lot: 'L1', mostBins: [9, 9, 9] } };
    });
    return kinds(good, { rooms });
  },
  'packed-late': () => kinds(good, { lastWeekBins: problem.packingBins.map(() => 0) }),
  'sold-from': () => {
    const [demand, week] = somewhere(apart.schedule.soldFrom?.map(([first = []]) => first) ?? []);
    const soldFrom = apart.schedule.soldFrom?.map((sources, at) =>
      sources.map((row, source) =>
        row.map((cartons, index) => cartons - (at === demand && source === 0 && index === week ? 1 : 0)),
      ),
    );
    return checkSchedule(apart.problem, { ...apart.schedule, ...(soldFrom && { soldFrom }) }).map(
      (one) => one.kind,
    );
  },
  'not-accepted': () => {
    const demands = apart.problem.demands.map((demand) => ({
      ...demand,
      ...(demand.from && { from: demand.from.map((source) => ({ ...source, until: -1 })) }),
    }));
    return checkSchedule({ ...apart.problem, demands }, apart.schedule).map((one) => one.kind);
  },
  balance: () => kinds(spoiled((draft) => add(draft.processed, 0, 0, 100))),
  'waited-too-long': () =>
    kinds(
      spoiled((draft) => {
        const product = draft.processed.findIndex((row) => row.some((amount) => amount > 1));
        const week = draft.processed[product]?.findIndex((amount) => amount > 1) ?? 0;
        const amount = draft.processed[product]?.[week] ?? 0;
        add(draft.processed, product, week, -amount);
        add(draft.processed, product, problem.weeks - 1, amount);
      }),
    ),
  'left-over': () => kinds(spoiled((draft) => add(draft.processed, ...somewhere(draft.processed), -1))),
  value: () =>
    kinds(
      spoiled((draft) => {
        draft.value *= 1.001;
      }),
    ),
};

describe('the independent checker', () => {
  it('finds nothing wrong with a good schedule', () => {
    expect(good.opens.filter((week) => week !== null).length).toBeGreaterThan(3);
    expect(checkSchedule(problem, good)).toEqual([]);
    expect(checkSchedule(apart.problem, apart.schedule)).toEqual([]);
    expect(apart.schedule.soldFrom?.some((sources) => sources.length > 1)).toBe(true);
  });

  it('counts uneven work at the pace of a full week, and passes weeks without work over', () => {
    const evenWork = { price: 2, fullWeeks: problem.packingBins.map((_, week) => (week === 5 ? 0.5 : 1)) };
    const bins = problem.packingBins.map(
      (_, week) => good.packed.reduce((sum, row) => sum + (row[week] ?? 0), 0) * (week === 5 ? 2 : 1),
    );
    const uneven = bins.slice(1).reduce((sum, now, week) => sum + Math.abs(now - (bins[week] ?? 0)), 0);
    expect(uneven).toBeGreaterThan(100);
    expect(kinds(good, { evenWork })).toEqual(['value']);
    expect(kinds({ ...good, value: good.value - 2 * uneven }, { evenWork })).toEqual([]);
  });

  it.each(violationKinds)('finds a planted violation: %s', (kind) => {
    expect(planted[kind]()).toContain(kind);
  });

  it('counts the weeks that rooms are moved from the published schedule', () => {
    const published = { week: 3, price: 100 };
    const rooms = problem.rooms.map((room) => ({ ...room, published }));
    const moved = problem.rooms.reduce((sum, room, index) => {
      const week = good.opens[index] ?? null;
      const ends = week === null ? [room.earliest, room.latest] : [week];
      return sum + Math.max(week === null ? 1 : 0, ...ends.map((end) => Math.abs(end - 3)));
    }, 0);
    expect(moved).toBeGreaterThan(5);
    expect(kinds(good, { rooms })).toEqual(['value']);
    expect(kinds({ ...good, value: good.value - 100 * moved }, { rooms })).toEqual([]);
  });

  it('speaks of rooms and weeks by name', () => {
    const [violation] = checkSchedule(problem, good, [0]);
    expect(violation?.message).toMatch(/room R1 \(fill-001\) .* opens in 20\d\d-W\d\d/);
  });
});
