import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstDayOfWeek, formatDay, parseWeek, type Week } from '../../src/plan/dates';
import { plantSeason } from '../../src/plant/season';
import { coolingCourse } from '../../src/room/cooling-course';
import { expectFormulasHold } from '../fruit/formulas';
import {
  aFill,
  aLot,
  aNitrogenSource,
  aPlan,
  aRoom,
  aScrubber,
  day,
  figure,
  filledRooms,
  known,
} from '../room/orchard';

function week(text: string): Week {
  const parsed = parseWeek(text);
  if (parsed === undefined) throw new Error(text);
  return parsed;
}

function seasonOf(plan = aPlan(), opens?: ReadonlyMap<string, Week>) {
  const filled = filledRooms(plan);
  const season = plantSeason(plan, filled, opens);
  if (!season) throw new Error('no season');
  const [scrubber] = season.scrubbers;
  const [nitrogen] = season.nitrogen;
  const [refrigeration] = season.refrigeration;
  if (!scrubber || !nitrogen || !refrigeration) throw new Error('the plan has one of each');
  const [room] = filled.values();
  if (!room) throw new Error('the plan has a room');
  return { season, scrubber, nitrogen, refrigeration, room, filled };
}

/** Sealed on Monday of week 38, so that whole weeks count. */
const sealedMonday = aFill({ sealed: formatDay(firstDayOfWeek(week('2026-W38'))) });

describe('a scrubber over the season', () => {
  const { scrubber, room } = seasonOf(aPlan({ fills: [sealedMonday] }));
  const loadIn = (text: string) => scrubber.weeks.find((one) => one.week === week(text))?.load.value;

  it('has a load in every week of the season, from sealing on', () => {
    expect(scrubber.weeks[0]?.week).toBe(week('2026-W35'));
    expect(scrubber.weeks.at(-1)?.week).toBe(week('2027-W29'));
    expect(loadIn('2026-W37')).toBe(0);
    expect(loadIn('2026-W39')).toBe(known(room.carbonDioxideInStore));
    expect(loadIn('2027-W29')).toBe(known(room.carbonDioxideInStore));
  });

  it('peaks in the week of sealing, on the way down from the rate in air', () => {
    const [inAir, inStore] = [known(room.carbonDioxideBeforePullDown), known(room.carbonDioxideInStore)];
    // A straight fall over four days leaves 4/4, 3/4, 2/4 and 1/4 of the difference: 2.5 days of it in the week.
    expect(loadIn('2026-W38')).toBeCloseTo(inStore + ((inAir - inStore) * 2.5) / 7, 9);
    expect(scrubber.peak?.week).toBe(week('2026-W38'));
  });

  it('can remove in proportion to the carbon dioxide its rooms hold', () => {
    // Rated 260 kg/day at 3 %, rooms at 1.5 %.
    expect(known(scrubber.capacity)).toBeCloseTo(130, 9);
    expect(known(scrubber.peak?.share)).toBeCloseTo((100 * known(scrubber.peak?.load)) / 130, 9);
    expect(known(scrubber.settlesAt)).toBeCloseTo((known(scrubber.peak?.load) * 3) / 260, 9);
  });

  it('removes less when it runs fewer hours or waits for its beds', () => {
    const half = seasonOf(aPlan({ scrubbers: [aScrubber({ hoursADay: figure('h', 12) })] }));
    expect(known(half.scrubber.capacity)).toBeCloseTo(65, 9);
    const beds = {
      at: { file: 'test', start: 0, end: 0 },
      number: 2,
      carbon: figure('kg', 140),
      adsorb: figure('min', 8),
      regenerate: figure('min', 10),
      voidVolume: figure('m3', 0.5),
    };
    const waiting = seasonOf(aPlan({ scrubbers: [aScrubber({ beds })] })).scrubber;
    expect(known(waiting.capacity)).toBeCloseTo(130 * 0.8, 9);
    // 24 h of 8 min turns, four fifths of the time: 144 changes.
    expect(known(waiting.oxygenCarriedIn)).toBeCloseTo((144 * 0.5 * (20.9 - 1.8)) / 100, 9);
  });

  it('rests once its room is opened, as pinned or as scheduled', () => {
    const pinned = seasonOf(aPlan({ fills: [aFill({ open: week('2027-W09') })] })).scrubber;
    const load = (one: typeof pinned, text: string) =>
      one.weeks.find((each) => each.week === week(text))?.load.value;
    expect(load(pinned, '2027-W08')).toBeGreaterThan(0);
    expect(load(pinned, '2027-W09')).toBe(0);
    const opens = new Map([['F1', week('2027-W03')]]);
    const scheduled = seasonOf(aPlan({ fills: [aFill({ open: week('2027-W09') })] }), opens).scrubber;
    expect(load(scheduled, '2027-W02')).toBeGreaterThan(0);
    expect(load(scheduled, '2027-W03')).toBe(0);
  });

  it('adds up its rooms and no others', () => {
    const rooms = [aRoom(), aRoom({ id: 'R2' }), aRoom({ id: 'R3', scrubber: undefined })];
    const fills = rooms.map(({ id }, index) =>
      aFill({ id: `F${index + 1}`, room: id, sealed: '2026-09-14' }),
    );
    const { scrubber: both, room: one } = seasonOf(aPlan({ rooms, fills }));
    expect(both.rooms.length).toBe(2);
    expect(both.weeks.at(-1)?.load.value).toBeCloseTo(2 * known(one.carbonDioxideInStore), 9);
  });

  it('has neither load nor peak from rooms kept in air', () => {
    const plan = aPlan({ fills: [aFill({ sealed: undefined })], regimes: { plain: { oxygen: undefined } } });
    expect(seasonOf(plan).scrubber.peak).toBeUndefined();
    expect(seasonOf(plan).scrubber.settlesAt).toBeUndefined();
  });
});

describe('nitrogen over the season', () => {
  /** Rooms sealed on the same Monday, more than a week's hours for their one source. */
  const rooms = Array.from({ length: 9 }, (_, index) => aRoom({ id: `R${index + 1}` }));
  const fills = rooms.map(({ id }, index) => aFill({ id: `F${index + 1}`, room: id, sealed: '2026-09-14' }));
  const slow = aNitrogenSource([[99, 60]]);
  const crowded = aPlan({ rooms, fills, nitrogen: [slow] });

  it('carries what a week has no hours for to the next', () => {
    const { nitrogen, room } = seasonOf(crowded);
    const all = 9 * known(room.nitrogenHours);
    const busy = nitrogen.weeks.filter(({ hours }) => hours.value > 0);
    expect(all).toBeGreaterThan(2 * 168);
    expect(busy.length).toBe(Math.ceil(all / 168));
    busy.forEach(({ hours, carried, runs, left }, index) => {
      expect(hours.value).toBeCloseTo(all - 168 * index, 6);
      expect(carried.value).toBeCloseTo(index === 0 ? 0 : all - 168 * index, 6);
      expect(runs.value).toBeCloseTo(Math.min(168, all - 168 * index), 6);
      expect(left.value).toBeCloseTo(Math.max(0, all - 168 * (index + 1)), 6);
      expectFormulasHold(hours);
    });
  });

  it('runs for as many hours in all as its flushes take, whatever the days of sealing', () => {
    const sealing = fc.array(fc.integer({ min: 9, max: 29 }), { minLength: 9, maxLength: 9 });
    fc.assert(
      fc.property(sealing, (days) => {
        const own = fills.map((fill, index) => ({
          ...fill,
          sealed: { value: day(`2026-09-${String(days[index]).padStart(2, '0')}`), at: fill.at },
        }));
        const { nitrogen, room } = seasonOf(aPlan({ rooms, fills: own, nitrogen: [slow] }));
        const runs = nitrogen.weeks.reduce((sum, one) => sum + one.runs.value, 0);
        expect(runs).toBeCloseTo(9 * known(room.nitrogenHours), 6);
        for (const one of nitrogen.weeks) {
          expect(one.runs.value).toBeLessThanOrEqual(168 + 1e-9);
          expect(one.runs.value + one.left.value).toBeCloseTo(one.hours.value, 6);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('is needed in the week of sealing, room after room', () => {
    const rooms = [aRoom(), aRoom({ id: 'R2' })];
    const fills = rooms.map(({ id }, index) => aFill({ id: `F${index + 1}`, room: id }));
    const { nitrogen, room } = seasonOf(aPlan({ rooms, fills }));
    const busy = nitrogen.weeks.filter(({ hours }) => hours.value > 0);
    expect(busy.map((one) => one.week)).toEqual([week('2026-W37')]);
    expect(busy[0]?.hours.value).toBeCloseTo(2 * known(room.nitrogenHours), 9);
    expect(busy[0]?.share.value).toBeCloseTo((200 * known(room.nitrogenHours)) / 168, 9);
  });
});

describe('refrigeration over the season', () => {
  const plan = aPlan();
  const { refrigeration, room } = seasonOf(plan);
  const loadIn = (text: string) => refrigeration.weeks.find((one) => one.week === week(text));

  it('takes the highest day of each week, hour by hour', () => {
    const days = coolingCourse(plan, room)?.days ?? [];
    const inWeek = days.filter(({ day: one }) => one >= day('2026-08-31') && one <= day('2026-09-06'));
    const asked = Math.max(...inWeek.map(({ askedKw }) => askedKw));
    expect(loadIn('2026-W36')?.load.value).toBeCloseTo(asked, 9);
    // By the day's balance without hours it is the same to some hundredths.
    expect(asked / (room.intake[3]?.heat.value ?? 0)).toBeCloseTo(1, 1);
    expect(loadIn('2026-W36')?.share?.value).toBeCloseTo((loadIn('2026-W36')?.load.value ?? 0) / 4, 9);
    expect(loadIn('2026-W35')?.load.value).toBe(0);
  });

  it('holds the room cold until the season ends or the opened room is empty', () => {
    expect(loadIn('2027-W29')?.load.value).toBe(known(room.holdingCooling));
    const opened = seasonOf(aPlan({ fills: [aFill({ open: week('2027-W09') })] })).refrigeration;
    const load = (text: string) => opened.weeks.find((one) => one.week === week(text))?.load.value;
    expect(load('2027-W09')).toBe(known(room.emptyingCooling));
    expect(load('2027-W11')).toBe(0);
  });

  it('tells its load as a sum that comes to what was counted, each room within its cooler', () => {
    const { refrigeration: weak } = seasonOf(aPlan({ rooms: [aRoom({ coolerCapacity: figure('kW', 25) })] }));
    const load = weak.weeks.find((one) => one.week === week('2026-W37'))?.load;
    expect(load?.value).toBeGreaterThan(20);
    expect(load?.value).toBeLessThanOrEqual(25 + 1e-9);
    if (load) expectFormulasHold(load);
    expect(JSON.stringify(load)).toContain('heat beyond its own cooler');
    const first = loadIn('2026-W36')?.load;
    if (first) expectFormulasHold(first);
  });

  it('never asks less with warmer fruit, warmer air or more lights', () => {
    const peak = (over: Parameters<typeof aPlan>[0]) =>
      Math.max(...seasonOf(aPlan(over)).refrigeration.weeks.map(({ load }) => load.value));
    const lit = (kilowatts: number) => ({
      at: { file: 'orchard.lotplan.yaml', start: 0, end: 1 },
      lights: figure('kW', kilowatts),
      vehicles: undefined,
      vehicleHeat: undefined,
      people: undefined,
      hoursADay: undefined,
    });
    const some = fc.double({ min: 0, max: 10, noNaN: true });
    fc.assert(
      fc.property(some, some, some, some, (field, add, lights, air) => {
        const of = (more: number) => ({
          lots: [aLot('L1', 'Gala', 8 + field + more), aLot('L2', 'Fuji', 8 + field + more)],
          rooms: [aRoom({ coolerCapacity: figure('kW', 200), loading: lit(lights + more) })],
          outside: 5 + air + more,
        });
        expect(peak(of(add))).toBeGreaterThanOrEqual(peak(of(0)) - 1e-9);
      }),
      { numRuns: 12 },
    );
  });

  it('works hardest after a warm hold while the room steps down', () => {
    const conditioning = { temperature: 10, days: 7 };
    const { refrigeration: warm, room: held } = seasonOf(
      aPlan({ regimes: { plain: { temperature: 3, conditioning } } }),
    );
    const stepping = warm.weeks.find((one) => one.week === week('2026-W38'));
    expect(stepping?.load.value).toBe(held.stepDown?.cooling.value);
  });
});

describe('a plan that is not ready', () => {
  it('has no season without its dates, and none of centuries', () => {
    const plan = aPlan();
    expect(plantSeason({ ...plan, season: undefined }, new Map())).toBeUndefined();
    const season = plan.season && { ...plan.season, ends: { value: 2_000_000, at: plan.season.at } };
    expect(plantSeason({ ...plan, season }, new Map())).toBeUndefined();
    const backwards = plan.season && { ...plan.season, ends: { value: 0, at: plan.season.at } };
    expect(plantSeason({ ...plan, season: backwards }, new Map())).toBeUndefined();
  });

  it('has loads without shares where the plant states no capacity', () => {
    const { scrubber } = seasonOf(aPlan({ scrubbers: [aScrubber({ removal: undefined })] }));
    expect(scrubber.capacity).toBeUndefined();
    expect(scrubber.settlesAt).toBeUndefined();
    expect(scrubber.peak?.share).toBeUndefined();
    expect(known(scrubber.peak?.load)).toBeGreaterThan(0);
  });
});
