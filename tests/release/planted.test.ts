import { describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/release/checker';
import { quickRelease } from '../../src/release/quick';
import { type Random, seededRandom } from '../../src/release/random';
import type { ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { withEvenWork, withFruitFromField, withPartWeeks, withProductsApart } from './features';
import { madeProblem } from './generate';

interface Case {
  readonly problem: ReleaseProblem;
  readonly schedule: ReleaseSchedule;
}

const base = Array.from({ length: 5 }, (_, index): Case => {
  const made = madeProblem(
    { rooms: 6, weeks: 16, varieties: 2, weeksToEmpty: 2, roomsOpenAtOnce: 3 },
    index + 1,
  );
  const rooms = made.rooms.map((room, at) => ({ ...room, published: { week: 2 + at, price: 250 } }));
  const wishes = { ...made, rooms, opensBefore: [[0, 1]] as const };
  const random = seededRandom(index);
  const told = withEvenWork(withPartWeeks(withProductsApart(wishes, random), random), 0.4);
  const problem = withFruitFromField(withFruitFromField(told, random), random);
  return { problem, schedule: quickRelease(problem, { seed: 1, moves: 1500 }).schedule };
});

const pick = (random: Random, count: number) => Math.floor(random() * count);

function changed(rows: readonly (readonly number[])[], row: number, week: number, amount: number) {
  return rows.map((one, at) =>
    at === row ? one.map((value, index) => (index === week ? value + amount : value)) : one,
  );
}

const openRooms = ({ schedule }: Case) =>
  schedule.opens.flatMap((week, room) => (week === null ? [] : [{ room, week }]));

/** What demands take of the products they name. */
const sourcesSold = ({ schedule }: Case) =>
  (schedule.soldFrom ?? []).flatMap((sources, demand) =>
    sources.flatMap((row, source) =>
      row.flatMap((cartons, week) => (cartons > 10 ? [{ demand, source, week, cartons }] : [])),
    ),
  );

/** Ways to spoil a schedule or to take away what it rests on; every one of them must be found. */
const ways: Record<string, (one: Case, random: Random) => Case> = {
  'cartons sold that were never packed': ({ problem, schedule }, random) => {
    const at = [pick(random, problem.demands.length), pick(random, problem.weeks)] as const;
    return { problem, schedule: { ...schedule, sold: changed(schedule.sold, ...at, 1 + 500 * random()) } };
  },
  'cartons processed that were never packed': ({ problem, schedule }, random) => {
    const at = [pick(random, problem.products.length), pick(random, problem.weeks)] as const;
    return {
      problem,
      schedule: { ...schedule, processed: changed(schedule.processed, ...at, 1 + 500 * random()) },
    };
  },
  'bins packed that are not there, or not packed that are': ({ problem, schedule }, random) => {
    const at = [pick(random, problem.rooms.length), pick(random, problem.weeks)] as const;
    const amount = (random() < 0.5 ? -1 : 1) * (1 + 50 * random());
    return { problem, schedule: { ...schedule, packed: changed(schedule.packed, ...at, amount) } };
  },
  'a room closed, its bins packed all the same': (one, random) => {
    const open = openRooms(one);
    const { room } = open[pick(random, open.length)] ?? { room: 0 };
    return {
      ...one,
      schedule: { ...one.schedule, opens: one.schedule.opens.map((week, at) => (at === room ? null : week)) },
    };
  },
  'a window that ends before': (one, random) => {
    const open = openRooms(one);
    const { room, week } = open[pick(random, open.length)] ?? { room: 0, week: 0 };
    const rooms = one.problem.rooms.map((each, at) => (at === room ? { ...each, latest: week - 1 } : each));
    return { ...one, problem: { ...one.problem, rooms } };
  },
  'a pin to another week': (one, random) => {
    const room = pick(random, one.problem.rooms.length);
    const pinned = ((one.schedule.opens[room] ?? 0) + 1 + pick(random, 10)) % one.problem.weeks;
    const rooms = one.problem.rooms.map((each, at) => (at === room ? { ...each, pinned } : each));
    return { ...one, problem: { ...one.problem, rooms } };
  },
  'an order that is not kept': (one, random) => {
    const open = [...openRooms(one)].sort((a, b) => a.week - b.week);
    const later = 1 + pick(random, open.length - 1);
    const pair = [open[later]?.room ?? 0, open[pick(random, later)]?.room ?? 0] as const;
    return { ...one, problem: { ...one.problem, opensBefore: [pair] } };
  },
  'a week in which the packhouse runs less': (one, random) => {
    const busy = one.problem.packingBins.flatMap((_, week) => {
      const bins = one.schedule.packed.reduce((sum, row) => sum + (row[week] ?? 0), 0);
      return bins > 10 ? [{ week, bins }] : [];
    });
    const { week, bins } = busy[pick(random, busy.length)] ?? { week: 0, bins: 0 };
    const packingBins = one.problem.packingBins.map((most, at) =>
      at === week ? bins * (0.2 + 0.7 * random()) : most,
    );
    return { ...one, problem: { ...one.problem, packingBins } };
  },
  'a published week that was another': (one, random) => {
    const open = openRooms(one);
    const { room, week } = open[pick(random, open.length)] ?? { room: 0, week: 0 };
    // Counted before as far away as it is now, it would cost the same.
    const away = Math.abs(week - (one.problem.rooms[room]?.published?.week ?? 0));
    const published = { week: week + away + 1 + pick(random, 4), price: 250 };
    const rooms = one.problem.rooms.map((each, at) => (at === room ? { ...each, published } : each));
    return { ...one, problem: { ...one.problem, rooms } };
  },
  'cartons of a product that the demand no longer accepts': (one, random) => {
    const sales = sourcesSold(one);
    const sale = sales[pick(random, sales.length)] ?? { demand: 0, source: 0, week: 0, cartons: 0 };
    const demands = one.problem.demands.map((demand, at) =>
      at === sale.demand && demand.from
        ? {
            ...demand,
            from: demand.from.map((source, index) =>
              index === sale.source ? { ...source, until: sale.week - 1 } : source,
            ),
          }
        : demand,
    );
    return { ...one, problem: { ...one.problem, demands } };
  },
  'cartons said to be of another product than they are': (one, random) => {
    const sales = sourcesSold(one).filter(
      ({ demand }) => (one.problem.demands[demand]?.from?.length ?? 0) > 1,
    );
    const sale = sales[pick(random, sales.length)] ?? { demand: 0, source: 0, week: 0, cartons: 0 };
    const soldFrom = (one.schedule.soldFrom ?? []).map((sources, at) =>
      at === sale.demand
        ? sources.map((row, index) =>
            row.map((cartons, week) =>
              week !== sale.week ? cartons : index === sale.source ? 0 : cartons + sale.cartons,
            ),
          )
        : sources,
    );
    return { ...one, schedule: { ...one.schedule, soldFrom } };
  },
  'days left to a room that are fewer': (one, random) => {
    const late = openRooms(one).flatMap(({ room, week }) => {
      if (one.problem.rooms[room]?.fromField) return [];
      const last = week + (one.problem.rooms[room]?.weeksToEmpty ?? 0) - 1;
      return (one.schedule.packed[room]?.[last] ?? 0) > 10 ? [last] : [];
    });
    const week = late[pick(random, late.length)];
    const lastWeekBins = one.problem.packingBins.map((bins, at) => (at === week ? 5 * random() : bins));
    return { ...one, problem: { ...one.problem, lastWeekBins } };
  },
  'more fruit from the field than can be packed while it is there': ({ problem, schedule }, random) => {
    const fields = problem.rooms.flatMap((room, at) => (room.fromField ? [{ ...room, at }] : []));
    const { at = 0, earliest = 0, fromField } = fields[pick(random, fields.length)] ?? {};
    const since = pick(random, fromField?.mostBins.length ?? 0);
    const packed = schedule.packed[at]?.[earliest + since] ?? 0;
    const more = (fromField?.mostBins[since] ?? 0) - packed + 1 + 50 * random();
    return {
      problem,
      schedule: {
        ...schedule,
        opens: schedule.opens.map((week, room) => (room === at ? earliest : week)),
        packed: changed(schedule.packed, at, earliest + since, more),
      },
    };
  },
  'fruit from the field of which more goes to processing': (one, random) => {
    const rooms = one.problem.rooms.map((each) =>
      each.fromField ? { ...each, bins: each.bins + 5 + 50 * random() } : each,
    );
    return { ...one, problem: { ...one.problem, rooms } };
  },
  'uneven work that costs more': (one, random) => {
    const { price = 0, fullWeeks = [] } = one.problem.evenWork ?? {};
    return { ...one, problem: { ...one.problem, evenWork: { price: price + 0.2 + random(), fullWeeks } } };
  },
  "a value that is not the schedule's": ({ problem, schedule }, random) => {
    const off = (random() < 0.5 ? -1 : 1) * (20 + 1000 * random());
    return { problem, schedule: { ...schedule, value: schedule.value + off } };
  },
};

describe('of more than a thousand schedules, each with one planted violation, the checker finds every one', () => {
  it('and nothing in those without', () => {
    for (const { problem, schedule } of base) {
      expect(checkSchedule(problem, schedule)).toEqual([]);
      expect(openRooms({ problem, schedule }).length).toBeGreaterThan(3);
    }
  });

  it.each(Object.keys(ways))('%s', (name) => {
    const random = seededRandom(name.length);
    for (let count = 0; count < 100; count++) {
      const one = base[count % base.length] as Case;
      const spoiled = ways[name]?.(one, random);
      if (!spoiled) throw new Error('nothing planted');
      expect(checkSchedule(spoiled.problem, spoiled.schedule), `case ${count}`).not.toEqual([]);
    }
  });
});
