import type { Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { firstDayOfWeek, formatWeek, parseDay, weekOfDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { checkSchedule } from '../../src/release/checker';
import { drawInputs } from '../../src/release/draw-inputs';
import { binsInNoFill, netFruitOf } from '../../src/release/field-sources';
import { moneyUnpacked, worthUnpacked } from '../../src/release/from-field';
import { quickRelease } from '../../src/release/quick';
import { seededRandom } from '../../src/release/random';
import { solveRelease } from '../../src/release/solve';
import type { ProblemRoom, ReleaseProblem } from '../../src/release/types';
import { releaseUncertainty } from '../../src/release/uncertainty';
import { withFruitFromField } from './features';
import { madeProblem } from './generate';
import { loadHighs } from './highs';
import { bestValue } from './oracle';
import { files, keepingOf, problemOf, the } from './sample-problem';

const LOTS = '  # Gala picked in time for keeping\n';
/** Ninety bins, picked on three days of one week and two of the next. */
const fresh = (more = '') =>
  `  F1: { variety: Gala, picked: 2026-09-18..2026-09-22, bins: 90, packed-at-harvest: 10 days, maturity: { firmness: 73 N }${more} }\n${LOTS}`;

const plain = the(problemOf());
const problem = the(problemOf([LOTS, fresh()]));
const label = (week: number) => formatWeek(problem.firstWeek + week);
const fromField = ({ rooms }: ReleaseProblem) => rooms.filter((room) => room.fromField);
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});
const solve = (one: ReleaseProblem) =>
  solveRelease(one, { seed: 1, moves: 500, timeLimitSeconds: 60, gap: 0, loadHighs: async () => highs });

describe('a lot packed at harvest', () => {
  it('is there only where the plan says so, and changes no room', () => {
    expect(fromField(plain)).toEqual([]);
    const rooms = problem.rooms.filter((room) => !room.fromField);
    const opening = ({ cartonsABin: _, ...room }: ProblemRoom) => room;
    expect(rooms.map(opening)).toEqual(plain.rooms.map(opening));
  });

  it('is spread evenly over its days of picking, and is there so many days after the last one of a week', () => {
    const found = fromField(problem).map((room) => ({
      bins: room.bins,
      from: label(room.earliest),
      until: label(room.earliest + room.weeksToEmpty - 1),
      most: room.fromField?.mostBins,
    }));
    // Friday to Sunday: three days of five. Ten days after the Sunday is a Wednesday.
    expect(found[0]).toMatchObject({ bins: 54, from: '2026-W38', until: '2026-W40' });
    // Monday and Tuesday; ten days after the Tuesday is a Friday.
    expect(found[1]).toMatchObject({ bins: 36, from: '2026-W39', until: '2026-W40' });
    // 110 bins on five working days: of the first week Friday alone, of the last one Monday to Wednesday.
    expect(found[0]?.most?.map(Math.round)).toEqual([22, 110, 66]);
    expect(found[1]?.most?.map(Math.round)).toEqual([110, 110]);
  });

  it('gives what its packout gives, less what is lost since picking', () => {
    const [first] = fromField(problem);
    const monday = firstDayOfWeek(problem.firstWeek + (first?.earliest ?? 0) + 1);
    const months = Math.max(0, monday - (parseDay('2026-09-22') ?? 0)) / (365.2425 / 12);
    const cartons = sum(first?.cartonsABin[(first?.earliest ?? 0) + 1] ?? []);
    expect(cartons).toBeCloseTo((300 / 18) * 0.8 * (1 - 0.012 * months), 9);
  });

  it('is the rest of a lot that is partly in a fill', () => {
    const changed = files.map(({ path, text }) => ({
      path,
      text: text.replace('bins: 55, received: 54,', 'bins: 55, received: 74, packed-at-harvest: 14 days,'),
    }));
    const plan = readPlan(changed);
    const lot = plan.lots.get('G1');
    if (!lot) throw new Error('no lot');
    expect(binsInNoFill(plan, lot)).toBe(20);
  });

  it('counts its bins as the room with other bins of the lot does, else as most rooms do, in whatever order', () => {
    const other = `bins:
  big-bin:
    outside: { length: 1.20 m, width: 1.20 m, height: 0.78 m }
    net-fruit: 400 kg
    tare: 45 kg
    material: plastic
`;
    const found = [true, false].map((isFirst) => {
      const changed = files.map(({ path, text }) => ({ path, text: text.replace(LOTS, fresh()) }));
      const one = { path: isFirst ? 'a.lotplan.yaml' : 'z.lotplan.yaml', text: `lotwright: 1\n${other}` };
      const plan = readPlan(isFirst ? [one, ...changed] : [...changed, one]);
      return ['F1', 'G1'].map((id) => {
        const lot = plan.lots.get(id);
        return lot && netFruitOf(plan, lot);
      });
    });
    expect(found).toEqual([
      [300, 300],
      [300, 300],
    ]);
  });

  it('is sold in its weeks, and a schedule with it is proven and holds', async () => {
    const { schedule, provenOptimal } = await solve(problem);
    expect(provenOptimal).toBe(true);
    expect(checkSchedule(problem, schedule)).toEqual([]);
    const quick = quickRelease(problem, { seed: 1, moves: 2000 });
    expect(checkSchedule(problem, quick.schedule)).toEqual([]);
    expect(quick.schedule.value).toBeGreaterThan(0.99 * schedule.value);
    const packed = problem.rooms.map((room, at) => (room.fromField ? sum(schedule.packed[at] ?? []) : 0));
    expect(sum(packed)).toBeGreaterThan(20);
    // It comes on top of the rooms' fruit: worth more than without it.
    expect(schedule.value).toBeGreaterThan((await solve(plain)).schedule.value);
  });

  it('goes to processing where no order takes it, each bin for the cartons it would have given', async () => {
    const late = the(
      problemOf(
        [LOTS, fresh()],
        ['weeks: 2026-W39..2026-W44', 'weeks: 2026-W46..2026-W50'],
        [/by-week: .*/, ''],
      ),
    );
    const alone = { ...late, demands: late.demands.filter(({ id }) => !id.includes('school')) };
    const { schedule } = await solve(alone);
    expect(checkSchedule(alone, schedule)).toEqual([]);
    const rooms = fromField(alone);
    for (const room of rooms)
      expect(worthUnpacked(alone, room)).toBeCloseTo(3 * sum(room.cartonsABin[room.earliest] ?? []), 9);
    // Nothing is gained by packing it for processing.
    const money = sum(rooms.map((room) => room.bins * worthUnpacked(alone, room)));
    const all = alone.rooms.map((room, at) => (room.fromField ? (schedule.packed[at] ?? []) : []));
    const asPacked = sum(
      all.flatMap((row, at) =>
        row.map((bins, week) => 3 * bins * sum(alone.rooms[at]?.cartonsABin[week] ?? [])),
      ),
    );
    expect(moneyUnpacked(alone, schedule.packed) + asPacked).toBeLessThan(money + 1e-6);
    const quick = quickRelease(alone, { seed: 1, moves: 500 }).schedule;
    expect(quick.opens.filter((_, at) => alone.rooms[at]?.fromField)).toEqual([null, null]);
  });

  it('takes no place among the rooms that stand open', () => {
    const tight = the(problemOf([LOTS, fresh()], ['policy:\n', 'policy:\n  rooms-open-at-once: 1\n']));
    expect(tight.roomsOpenAtOnce).toBe(1);
    const { schedule, conflicts } = quickRelease(tight, { seed: 1, moves: 2000 });
    expect(conflicts).toEqual([]);
    expect(checkSchedule(tight, schedule)).toEqual([]);
  });

  it('is not sold to a buyer for whom it is too soft in cold air', () => {
    const wants = (firmness: string) =>
      the(problemOf([LOTS, fresh()], ['price: 21.50', `price: 21.50\n    least-firmness: ${firmness}`]));
    const takes = (one: ReleaseProblem) => {
      const order = one.demands.find(({ id }) => id === 'gala-autumn');
      const sources = order?.from ?? [{ product: order?.product ?? -1, until: one.weeks - 1 }];
      const [room] = fromField(one);
      const week = (room?.earliest ?? 0) + 1;
      return sources.some(
        ({ product, until }) => week <= until && (room?.cartonsABin[week]?.[product] ?? 0) > 0,
      );
    };
    expect(takes(wants('70 N'))).toBe(true);
    expect(takes(wants('74 N'))).toBe(false);
  });

  it('differs with the crop in seasons drawn, and is none of the rooms they hang on', () => {
    const plan = readPlan(files.map(({ path, text }) => ({ path, text: text.replace(LOTS, fresh()) })));
    const { schedule } = quickRelease(problem, { seed: 1, moves: 500 });
    const inputs = drawInputs(plan, keepingOf(plan), problem);
    const ranges = { crop: 0.3, storageLife: 0, packout: 0, demand: 0 };
    const none = { crop: 0, storageLife: 0, packout: 0, demand: 0 };
    const drawn = releaseUncertainty(problem, schedule, { ...inputs, ranges }, { draws: 40, seed: 1 });
    const still = releaseUncertainty(problem, schedule, { ...inputs, ranges: none }, { draws: 2, seed: 1 });
    expect(still.mean).toBeCloseTo(still.planned, 4);
    expect(drawn.high).toBeGreaterThan(drawn.low + 1);
    expect(drawn.rooms.map(({ room }) => problem.rooms[room]?.fill)).not.toContain(
      fromField(problem)[0]?.fill,
    );
    expect(drawn.rooms).toHaveLength(plain.rooms.length);
  });

  it('never makes a season worth less', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const season = madeProblem({ rooms: 2, weeks: 6, varieties: 1, weeksToEmpty: 2, packhouse: 1.5 }, seed);
      const more = withFruitFromField(season, seededRandom(seed));
      const [without, withIt] = [bestValue(highs, season), bestValue(highs, more)];
      if (Number.isFinite(without)) expect(withIt, `season ${seed}`).toBeGreaterThan(without - 1e-3);
    }
  });
});

describe('rooms kept in air', () => {
  it('open before rooms in controlled atmosphere of the same variety, whose fruit keeps longer', async () => {
    const unpinned = the(problemOf([/ {4}open: 2027-W01.*\n/, '']));
    const at = (fill: string) => unpinned.rooms.findIndex((room) => room.fill === fill);
    const [air, sealed] = [at('R1-gala'), at('R2-gala')];
    expect(unpinned.rooms[sealed]?.pinned).toBeNull();
    expect(unpinned.rooms[air]?.bestBefore).toBeLessThan(unpinned.rooms[sealed]?.bestBefore ?? 0);
    for (const { schedule } of [quickRelease(unpinned, { seed: 1, moves: 2000 }), await solve(unpinned)])
      expect(schedule.opens[air]).toBeLessThan(schedule.opens[sealed] ?? 0);
  });

  it('open first where an order in each half of the season could be filled from either', async () => {
    const made = madeProblem({ rooms: 2, weeks: 24, varieties: 1, weeksToEmpty: 2 }, 4);
    const [one] = made.rooms;
    if (!one) throw new Error('no room');
    const cartonsABin = one.cartonsABin.map(() => [10, 0]);
    const like = { ...one, bins: 100, earliest: 3, cartonsABin, riskCost: one.riskCost.map(() => 0) };
    // Named so that the order of names speaks for the sealed room.
    const sealed = { ...like, fill: 'a-sealed', room: 'A', latest: 22, bestBefore: 20 };
    const air = { ...like, fill: 'b-air', room: 'B', latest: 16, bestBefore: 14 };
    const order = (id: string, week: number) => ({
      id,
      market: 'home',
      product: 0,
      cartons: Array.from({ length: 24 }, (_, at) => (at === week ? 1000 : 0)),
      price: 20,
      priceOfShortage: 10,
    });
    for (const rooms of [
      [sealed, air],
      [air, sealed],
    ]) {
      const both: ReleaseProblem = {
        ...made,
        rooms,
        demands: [order('first-half', 6), order('second-half', 13)],
        packingBins: made.packingBins.map(() => 100),
        packedWaitWeeks: 0,
      };
      const opens = (opening: readonly (number | null)[], fill: string) =>
        opening[rooms.findIndex((room) => room.fill === fill)] ?? 99;
      for (const { schedule } of [quickRelease(both, { seed: 1, moves: 2000 }), await solve(both)]) {
        expect(sum(schedule.sold.map(sum))).toBeCloseTo(2000, 3);
        expect(opens(schedule.opens, 'b-air')).toBeLessThan(opens(schedule.opens, 'a-sealed'));
      }
    }
  });
});

it('weeks of the test are what they are called', () => {
  expect(formatWeek(weekOfDay(parseDay('2026-09-20') ?? 0))).toBe('2026-W38');
});
