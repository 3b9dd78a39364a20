import { describe, expect, it } from 'vitest';
import { firstDayOfWeek, formatWeek, parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { releaseProblem } from '../../src/release/problem';
import { files, keepingOf, problemOf, the } from './sample-problem';

const problem = the(problemOf());
const week = (label: string) =>
  Array.from({ length: problem.weeks }, (_, index) => formatWeek(problem.firstWeek + index)).indexOf(label);
const product = (variety: string, packClass: string) =>
  problem.products.findIndex((one) => one.variety === variety && one.packClass === packClass);

/** The sample with a policy. */
const withPolicy = (policy: string) => the(problemOf([/^policy:\n/m, `policy:\n  ${policy}\n`]));

describe('wishes that the policy holds', () => {
  const at = (fill: string) => problem.rooms.findIndex((room) => room.fill === fill);

  it('an order of opening becomes pairs of rooms; a fill that is not there is left out', () => {
    const ordered = withPolicy('open-before: { R1-gala: [R2-gala, R4-braeburn], R2-gala: [R9-none] }');
    expect(ordered.opensBefore).toEqual([
      [at('R1-gala'), at('R2-gala')],
      [at('R1-gala'), at('R4-braeburn')],
    ]);
    expect(problem.opensBefore).toBeUndefined();
  });

  it('a published week costs 0.2 % of the worth of the room for each week of change, or what the plan says', () => {
    const published = new Map([['R1-gala', problem.firstWeek + 4]]);
    const plan = readPlan(files);
    const usual = the(releaseProblem(plan, keepingOf(plan), { published })).rooms[at('R1-gala')];
    // One week past best before counts one per cent of the same worth.
    const worth = 100 * (usual?.riskCost[(usual?.bestBefore ?? 0) + 1] ?? 0);
    expect(usual?.published?.week).toBe(4);
    expect(usual?.published?.price).toBeCloseTo(0.002 * worth, 6);
    expect(problem.rooms.every((room) => room.published === undefined)).toBe(true);
  });
});

describe('a room that is filled again', () => {
  const latestOf = (firstBin: string) => {
    const again = `fills:\n  R1-late: { room: R1, regime: early-air, first-bin: ${firstBin}, last-bin: 2026-11-20, lots: { G1: 10 } }\n`;
    const changed = the(problemOf([/^fills:\n/m, again]));
    return formatWeek(
      changed.firstWeek + (changed.rooms.find(({ fill }) => fill === 'R1-gala')?.latest ?? 0),
    );
  };

  it('is opened so early that it is empty by then', () => {
    // Its fruit keeps until week 41. Emptying takes 28 days from a Monday on: week 40 begins on 28 September.
    expect(latestOf('2026-11-02')).toBe('2026-W41');
    expect(latestOf('2026-11-01')).toBe('2026-W40');
    expect(latestOf('2026-10-26')).toBe('2026-W40');
    expect(latestOf('2026-10-25')).toBe('2026-W39');
  });

  it('keeps its window where its fruit cannot be out so early, for then a finding says so', () => {
    expect(latestOf('2026-09-20')).toBe('2026-W41');
  });
});

describe('the release problem of the first sample', () => {
  it('covers the weeks from the first day of harvest to the last day of sale', () => {
    expect(formatWeek(problem.firstWeek)).toBe('2026-W36');
    expect(formatWeek(problem.firstWeek + problem.weeks - 1)).toBe('2027-W16');
  });

  it('has every room, with its bins, its pin and the weeks it may take to empty', () => {
    expect(problem.rooms.map(({ room, bins }) => [room, bins])).toEqual([
      ['R1', 154],
      ['R2', 235],
      ['R3', 287],
      ['R4', 290],
    ]);
    expect(problem.rooms.map((room) => room.pinned)).toEqual([null, week('2027-W01'), null, null]);
    // 28 days.
    expect(problem.rooms.map((room) => room.weeksToEmpty)).toEqual([4, 4, 4, 4]);
  });

  it('has windows within the season, the best week within the window', () => {
    for (const { earliest, bestBefore, latest } of problem.rooms) {
      expect(earliest).toBeGreaterThanOrEqual(0);
      expect(bestBefore).toBeGreaterThanOrEqual(earliest);
      expect(latest).toBeGreaterThanOrEqual(bestBefore);
      expect(latest).toBeLessThan(problem.weeks);
    }
  });

  it('packs a bin of Gala into cartons by share, loss and months since picking', () => {
    // Room R2: 300 kg bins, 18 kg cartons, 62 % first class less 1.2 % of it a month; lots of 78, 81 and 76 bins
    // picked by 10, 14 and 16 September.
    const at = week('2027-W01');
    const monday = firstDayOfWeek(problem.firstWeek + at);
    const cartons = [
      ['2026-09-10', 78],
      ['2026-09-14', 81],
      ['2026-09-16', 76],
    ].reduce((sum, [picked, bins]) => {
      const months = (monday - (parseDay(String(picked)) ?? 0)) / (365.2425 / 12);
      return sum + (Number(bins) / 235) * (300 / 18) * 0.62 * (1 - 0.012 * months);
    }, 0);
    expect(cartons).toBeCloseTo(9.87, 2);
    expect(problem.rooms[1]?.cartonsABin[at]?.[product('Gala', 'first')]).toBeCloseTo(cartons, 9);
    expect(problem.rooms[1]?.cartonsABin[at]?.[product('Braeburn', 'first')]).toBe(0);
  });

  it('runs fewer bins in weeks with closed days', () => {
    expect(problem.packingBins[0]).toBe(110);
    // Thursday 24 and Friday 25 December; the weekend is no working day.
    expect(problem.packingBins[week('2026-W52')]).toBeCloseTo((110 * 3) / 5);
    // Thursday 31 December and Friday 1 January.
    expect(problem.packingBins[week('2026-W53')]).toBeCloseTo((110 * 3) / 5);
    // Good Friday, then Easter Monday.
    expect(problem.packingBins[week('2027-W12')]).toBeCloseTo((110 * 4) / 5);
    expect(problem.packingBins[week('2027-W13')]).toBeCloseTo((110 * 4) / 5);
  });

  it('spreads demand over its weeks, those named apart included', () => {
    const christmas = problem.demands.find((demand) => demand.id === 'golden-christmas');
    expect(christmas?.cartons[week('2026-W45')]).toBe(0);
    expect(christmas?.cartons[week('2026-W46')]).toBe(360);
    expect(christmas?.cartons[week('2026-W51')]).toBe(520);
    expect(christmas?.cartons[week('2026-W53')]).toBe(0);
    expect(christmas?.product).toBe(product('Golden Delicious', 'first'));
  });

  it('counts a shortage as half the price where the plan does not say', () => {
    expect(problem.demands.find((demand) => demand.id === 'gala-winter')).toMatchObject({
      price: 24,
      priceOfShortage: 12,
    });
  });

  it('lets packed cartons wait whole weeks, and has the prices of the plan', () => {
    // 21 days.
    expect(problem).toMatchObject({
      packedWaitWeeks: 3,
      costOfWaiting: 0.12,
      processingPrice: 3,
      roomsOpenAtOnce: null,
    });
    expect(problemOf(['packed-wait: 21 days', 'packed-wait: 13 days'])?.packedWaitWeeks).toBe(1);
  });

  it('counts the risk of opening late from the week after the best, more each week', () => {
    for (const { riskCost, bestBefore } of problem.rooms) {
      const cost = (late: number) => riskCost[bestBefore + late] ?? Number.NaN;
      expect(cost(0)).toBe(0);
      if (bestBefore + 4 >= problem.weeks) continue;
      expect(cost(1)).toBeGreaterThan(0);
      // Weeks to the power 1.5: four weeks late count eight times one.
      expect(cost(4)).toBeCloseTo(8 * cost(1), 6);
    }
  });
});

describe('what a plan lacks', () => {
  it('leaves out a room with a lot whose packout is not known', () => {
    const without = the(problemOf([/ {4}Braeburn: \{ shares.*\n/, '']));
    expect(without.rooms.map((room) => room.room)).toEqual(['R1', 'R2', 'R3']);
  });

  it('leaves out a demand without a price', () => {
    const without = the(problemOf([/ {4}price: 24.00\n/, '']));
    expect(without.demands).toHaveLength(problem.demands.length - 1);
  });

  it.each([
    ['season days', / {2}ends: .*\n/],
    ['a carton', / {2}carton: .*\n/],
    ['the packhouse', / {2}bins-a-week: .*\n/],
    ['any demand', /\ndemand:[\s\S]*?\n\npacking:/],
  ] as const)('gives no problem without %s', (_, text) => {
    expect(problemOf([text, text.source.endsWith('packing:') ? '\npacking:' : ''])).toBeUndefined();
  });

  it('gives no problem for a season of centuries', () => {
    expect(problemOf(['ends: 2027-04-25', 'ends: 2927-04-25'])).toBeUndefined();
  });

  it('keeps a pin that lies outside the season, for the conflict to name', () => {
    const pinned = the(problemOf(['open: 2027-W01', 'open: 2030-W01']));
    expect(pinned.rooms[1]?.pinned).toBeGreaterThan(pinned.weeks);
  });
});
