import { describe, expect, test } from 'vitest';
import { roomKeeping } from '../../src/keeping/room-keeping';
import { weekOfDay } from '../../src/plan/dates';
import { expectFormulasHold } from '../fruit/formulas';
import { given, ownVariety, present, written } from '../fruit/plans';
import { day, galaKeeping, type RoomValues, roomOf } from './rooms';

function keepingOf(values: RoomValues) {
  const { plan, filled } = roomOf(values);
  const keeping = roomKeeping(plan, filled);
  return { ...keeping, first: keeping.lots[0] };
}

function windowOf(values: RoomValues) {
  return present(keepingOf(values).window, 'window');
}

const MATURE_GALA = { firmnessLbf: 18, starch: 2.5 };

describe('storage life of a lot', () => {
  test('mature Gala filled in the usual time keeps as long as its regime does', () => {
    const { first } = keepingOf({ lots: [MATURE_GALA] });
    expect(first?.term).toBe('long');
    // Four to five months, the middle of it.
    expect(first?.storageLife.value).toBeCloseTo(4.5 * (365.2425 / 12), 6);
    // A quarter of the month between the ends of the range.
    expect(first?.spread.value).toBeCloseTo(365.2425 / 12 / 4, 6);
  });

  test("a regime's own life goes before the variety's, and the planner's before both", () => {
    const life = (values: RoomValues) => keepingOf(values).first?.storageLife.value;
    expect(life({ regime: 'gala-low-oxygen' })).toBeCloseTo(213.06, 1);
    expect(life({ regime: 'gala-low-oxygen', varieties: [galaKeeping(240)] })).toBe(240);
    // Another variety in the room does not take over the life the regime has for Gala.
    const fuji = keepingOf({ regime: 'gala-low-oxygen', lots: [{ variety: 'Fuji' }] }).first;
    expect(fuji?.storageLife.value).toBeCloseTo(365.2425, 3);
  });

  test('a short-term lot in a long regime reaches its share of the life, a long-term one all of it', () => {
    const life = (lot: object) =>
      keepingOf({ regime: 'fuji-handbook', lots: [{ variety: 'Fuji', ...lot }] }).first?.storageLife.value;
    const full = present(life({ firmnessLbf: 18, starch: 3 }));
    expect(life({ firmnessLbf: 17, starch: 3 })).toBeCloseTo(0.8 * full);
    expect(life({ firmnessLbf: 16, starch: 3 })).toBeCloseTo(0.6 * full);
    expect(life({ firmnessLbf: 15, starch: 3 })).toBeCloseTo(0.4 * full);
  });

  test('a short-term lot loses nothing in a regime that is short itself', () => {
    const short = keepingOf({ regime: 'gala-new-york', lots: [{ firmnessLbf: 16.5, starch: 4 }] }).first;
    expect(short?.term).toBe('short');
    expect(short?.storageLife.value).toBeCloseTo(121.75, 1);
  });

  test('days in a warm yard cost 8.5 days each at 21 °C, less when the fruit is cooler', () => {
    const lost = (field: number, firstBin: string) => {
      const dates = { firstBin, lastBin: '2026-09-05', sealed: '2026-09-08' };
      const prompt = keepingOf({ ...dates, firstBin: '2026-09-02', lots: [{ field }] }).first;
      const late = keepingOf({ ...dates, lots: [{ field }] }).first;
      return present(prompt).storageLife.value - present(late).storageLife.value;
    };
    expect(lost(21, '2026-09-04')).toBeCloseTo(2 * 8.5);
    expect(lost(10, '2026-09-04')).toBeLessThan(2 * 8.5 * 0.5);
    expect(lost(10, '2026-09-04')).toBeGreaterThan(0);
  });

  test('a late seal costs life in store, and a conditioning regime is given its days', () => {
    const life = (regime: string, variety: string, sealed: string) =>
      present(keepingOf({ regime, sealed, lots: [{ variety }] }).first).storageLife.value;
    expect(life('gala-standard', 'Gala', '2026-09-08')).toBeCloseTo(136.97, 1);
    expect(life('gala-standard', 'Gala', '2026-09-22')).toBeCloseTo(136.97 - 14 * (136.97 / 76.09 - 1), 1);
    expect(life('honeycrisp-conditioned', 'Honeycrisp', '2026-09-15')).toBeCloseTo(228.28, 1);
    expect(life('honeycrisp-conditioned', 'Honeycrisp', '2026-09-29')).toBeLessThan(228.28);
  });

  test('an air room uses life in air, whatever the regime could do when sealed', () => {
    const air = (regime: string) => keepingOf({ regime, sealed: null }).first?.storageLife.value;
    expect(air('gala-air')).toBeCloseTo(76.09, 1);
    expect(air('gala-standard')).toBeCloseTo(76.09, 1);
  });

  test('1-MCP adds a modest tenth and slows softening', () => {
    const lot = { ...MATURE_GALA, picked: '2026-09-01' };
    const untreated = present(keepingOf({ lots: [lot] }).first);
    const treated = present(keepingOf({ lots: [{ ...lot, treatments: ['1-mcp'] }] }).first);
    expect(treated.storageLife.value / untreated.storageLife.value).toBeCloseTo(1.1);
    const june = day('2027-06-01');
    expect(present(treated.firmnessOn(june))).toBeGreaterThan(present(untreated.firmnessOn(june)));
  });
});

describe('firmness', () => {
  test('without a firmness test nothing is claimed about it', () => {
    const { first } = keepingOf({ lots: [{ starch: 3 }] });
    expect(first?.firmnessOn(day('2027-01-01'))).toBeUndefined();
    expect(first?.latestSetBy).toBe('storage life');
  });

  test('a soft lot is ended by firmness, a firm one by storage life', () => {
    const lot = (firmnessLbf: number) =>
      present(keepingOf({ regime: 'gala-low-oxygen', lots: [{ firmnessLbf, starch: 2 }] }).first);
    expect(lot(13).latestSetBy).toBe('firmness');
    expect(lot(19).latestSetBy).toBe('storage life');
    expect(lot(13).latest).toBeLessThan(lot(19).latest);
  });

  test("the planner's own softening goes before the regime's", () => {
    const own = ownVariety("Cox's Orange Pippin", { softening: written(5, 'N/month') });
    const cox = { variety: 'Cox', firmnessLbf: 19 };
    const on = (values: RoomValues) =>
      present(
        keepingOf({ regime: 'cox-standard', lots: [cox], ...values }).first?.firmnessOn(day('2027-02-01')),
      );
    expect(on({ varieties: [own] })).toBeLessThan(on({}));
  });

  test('fruit in air softens twice as fast from picking on, without a loss while filling', () => {
    const { first } = keepingOf({ regime: 'gala-air', sealed: null, lots: [MATURE_GALA] });
    const lost = 18 * 4.4482216152605 - present(present(first).firmnessOn(day('2026-09-01') + 365.2425 / 12));
    expect(lost).toBeCloseTo(2 * 2, 9);
  });

  test('a late seal never makes fruit firmer', () => {
    const on = (sealed: string) =>
      present(keepingOf({ sealed, lots: [MATURE_GALA] }).first?.firmnessOn(day('2027-01-15')));
    expect(on('2026-09-08')).toBeGreaterThan(on('2026-09-29'));
    expect(on('2026-09-04')).toBeCloseTo(on('2026-09-08'), 0);
  });

  test('fruit already below standard at harvest has its last week before picking', () => {
    const { first } = keepingOf({ lots: [{ firmnessLbf: 10.5, starch: 6 }] });
    expect(first?.latestSetBy).toBe('firmness');
    expect(first?.latest).toBeLessThan(weekOfDay(day('2026-09-01')));
    expect(first?.withinStandard(weekOfDay(day('2026-09-10')))).toBeLessThan(0.5);
  });
});

describe('opening window', () => {
  test('the chance of being within standard reaches the confidence in the last week, not in the next', () => {
    for (const lot of [MATURE_GALA, { firmnessLbf: 15, starch: 3 }, { firmnessLbf: 14.2, starch: 3 }, {}]) {
      const { first } = keepingOf({ regime: 'gala-low-oxygen', lots: [lot], confidence: 85 });
      const keeping = present(first);
      expect(keeping.withinStandard(keeping.latest)).toBeGreaterThanOrEqual(0.85 - 1e-9);
      expect(keeping.withinStandard(keeping.latest + 1)).toBeLessThan(0.85);
    }
  });

  test('leaves time to empty the room before its first lot falls below standard', () => {
    const { window, lots } = keepingOf({ lots: [MATURE_GALA, { id: 'L2', firmnessLbf: 14, starch: 5 }] });
    const weakest = present(lots[1]);
    expect(window?.latest.lot?.id).toBe('L2');
    expect(window?.latest.week).toBe(weakest.latest - 2 + 1);
    const slower = windowOf({ lots: [MATURE_GALA], daysToEmpty: 28 });
    expect(slower.latest.week).toBe(windowOf({ lots: [MATURE_GALA] }).latest.week - 2);
  });

  test('best before is no later than latest and explains itself', () => {
    const window = windowOf({ lots: [MATURE_GALA] });
    expect(window.bestBefore.week).toBeLessThanOrEqual(window.latest.week);
    for (const { because } of [window.earliest, window.bestBefore, window.latest]) {
      expect(because.origin.kind).toBe('computed');
      expectFormulasHold(because);
    }
  });

  test('every explanation holds, whatever ends the lot', () => {
    const fruit = [{ firmnessLbf: 13.5, starch: 6 }, { firmnessLbf: 10, starch: 8 }, { firmnessLbf: 20 }, {}];
    for (const lot of fruit) {
      for (const confidence of [30, 50, 90, 99.9, 100]) {
        for (const sealed of ['2026-09-03', '2026-09-08', '2026-10-08', null]) {
          const window = windowOf({ lots: [lot], confidence, sealed });
          expectFormulasHold(window.latest.because);
          expectFormulasHold(window.bestBefore.because);
        }
      }
    }
  });

  test('a Washington room waits for its CA claim: 45 days for Gala, 60 with Fuji in it', () => {
    // Sealed Tuesday 8 September, at 5 % on the 11th, 45 days to Monday 26 October.
    const gala = windowOf({ law: 'washington' });
    expect(gala.earliest.limit).toBe('law');
    expect(gala.earliest.week).toBe(weekOfDay(day('2026-10-26')));
    const mixed = windowOf({ law: 'washington', lots: [{}, { id: 'L2', variety: 'Fuji' }] });
    expect(mixed.earliest.lot?.id).toBe('L2');
    expect(mixed.earliest.week).toBe(weekOfDay(day('2026-11-16')));
    expect(windowOf({ law: 'new-york' }).earliest.week).toBe(weekOfDay(day('2026-12-14')));
    const none = windowOf({ law: 'none' });
    expect([none.earliest.limit, none.earliest.week]).toEqual([
      'cooling and gas',
      weekOfDay(day('2026-09-14')),
    ]);
  });

  test('an air room may be opened the week after its last bin: it waits for its cooling, has no gas and makes no claim', () => {
    const air = windowOf({ regime: 'gala-air', sealed: null, law: 'washington' });
    expect(air.earliest.limit).toBe('cooling');
    expect(air.earliest.week).toBe(weekOfDay(day('2026-09-07')));
  });

  test('the season ends a window that the fruit would leave open', () => {
    const window = windowOf({ regime: 'gala-low-oxygen', seasonEnds: '2026-12-27' });
    expect(window.latest.limit).toBe('season');
    // Emptied over two weeks, the second of which is the last of the season.
    expect(window.latest.week).toBe(weekOfDay(day('2026-12-27')) - 1);
    expectFormulasHold(window.latest.because);
  });

  test('fruit that does not last until the room may open keeps both edges as they are', () => {
    const window = windowOf({ law: 'new-york', lots: [{ firmnessLbf: 12, starch: 7 }] });
    expect(window.latest.week).toBeLessThan(window.earliest.week);
  });

  test('a room that lacks what a window needs has none', () => {
    const { plan, filled } = roomOf({});
    expect(roomKeeping(plan, { ...filled, regime: undefined })).toEqual({
      filled: { ...filled, regime: undefined },
      lots: [],
    });
    expect(roomKeeping(plan, { ...filled, lots: [] }).window).toBeUndefined();
    const undated = { ...filled.fill, firstBin: undefined, lastBin: undefined, sealed: undefined };
    expect(roomKeeping(plan, { ...filled, fill: undated }).window).toBeUndefined();
    const bare = roomKeeping({ ...plan, season: undefined, packing: undefined }, filled);
    expect(bare.window?.latest.week).toBe(roomKeeping(plan, filled).window?.latest.week);
  });

  test('a lot without a picking date counts from the first bin', () => {
    const { plan, filled } = roomOf({});
    const undated = filled.lots.map((each) => ({ ...each, lot: { ...each.lot, picked: undefined } }));
    const [first] = roomKeeping(plan, { ...filled, lots: undated }).lots;
    expect(first?.latest).toBe(roomKeeping(plan, filled).lots[0]?.latest);
    const fill = { ...filled.fill, firstBin: given(day('2026-09-08')) };
    const [later] = roomKeeping(plan, { ...filled, fill, lots: undated }).lots;
    expect(present(later).latest).toBe(present(first).latest + 1);
  });
});
