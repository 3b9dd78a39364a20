import { describe, expect, it } from 'vitest';
import { firstDayOfWeek, formatWeek } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { checkSchedule } from '../../src/release/checker';
import { quickRelease } from '../../src/release/quick';
import type { ReleaseProblem } from '../../src/release/types';
import { files, keepingOf, problemOf, the } from './sample-problem';

const plain = the(problemOf());
const week = (label: string) =>
  Array.from({ length: plain.weeks }, (_, index) => formatWeek(plain.firstWeek + index)).indexOf(label);
const demand = (problem: ReleaseProblem, id: string) => {
  const found = problem.demands.find((one) => one.id === id);
  if (!found) throw new Error(`no demand ${id}`);
  return found;
};

/** Cartons that a room gives to a demand in a week, were it opened in time: of the products it may be filled from. */
function givenTo(problem: ReleaseProblem, fill: string, id: string, at: number): number {
  const room = problem.rooms.find((one) => one.fill === fill);
  const { product, from } = demand(problem, id);
  return (from ?? [{ product, until: problem.weeks - 1 }]).reduce(
    (sum, source) => sum + (at <= source.until ? (room?.cartonsABin[at]?.[source.product] ?? 0) : 0),
    0,
  );
}

describe('the firmness that a buyer accepts at least', () => {
  const plan = readPlan(files);
  const [room] = [...keepingOf(plan).values()].filter(({ filled }) => filled.fill.id === 'R2-gala');
  const lots = room?.lots ?? [];
  const at = week('2027-W02');
  const sunday = firstDayOfWeek(plain.firstWeek + at) + 6;
  // Between the firmness of the firmest lot and that of the others at the end of a week.
  const firmness = lots.map((lot) => lot.firmnessOn(sunday) ?? 0).sort((a, b) => b - a);
  const limit = ((firmness[0] ?? 0) + (firmness[1] ?? 0)) / 2;
  const strict = the(problemOf(['least-firmness: 55 N', `least-firmness: ${limit.toFixed(3)} N`]));

  it('leaves out of a week the lots that are softer at its end, by what is expected of them', () => {
    expect(firmness[0]).toBeGreaterThan((firmness[1] ?? 0) + 0.05);
    const [all, left] = [plain, strict].map((one) => givenTo(one, 'R2-gala', 'gala-winter', at));
    const share = (chosen: typeof lots) => chosen.reduce((sum, { inRoom }) => sum + inRoom.fruit.value, 0);
    const firm = lots.filter((lot) => (lot.firmnessOn(sunday) ?? 0) >= limit);
    expect(firm).toHaveLength(1);
    // The lots are packed alike but for some days of age.
    expect((left ?? 0) / (all ?? 1)).toBeCloseTo(share(firm) / share(lots), 2);
  });

  it('changes nothing for other buyers, nor for what a bin gives in all', () => {
    expect(givenTo(strict, 'R2-gala', 'school-fruit-winter', at)).toBeCloseTo(
      givenTo(plain, 'R2-gala', 'school-fruit-winter', at),
      9,
    );
    const bin = (one: ReleaseProblem) =>
      one.rooms[1]?.cartonsABin[at]?.reduce((sum, cartons) => sum + cartons, 0);
    expect(bin(strict)).toBeCloseTo(bin(plain) ?? 0, 9);
  });

  it('is kept by a schedule', () => {
    const { schedule } = quickRelease(strict, { seed: 1, moves: 500 });
    expect(checkSchedule(strict, schedule)).toEqual([]);
    const [soft, firm] = [plain, strict].map((one) => {
      const sold = quickRelease(one, { seed: 1, moves: 500 }).schedule.sold;
      return sold[one.demands.findIndex(({ id }) => id === 'gala-winter')]?.reduce(
        (sum, cartons) => sum + cartons,
      );
    });
    expect(firm).toBeLessThan((soft ?? 0) - 100);
  });
});

describe('a room kept for markets', () => {
  const kept = the(problemOf(['  R2-gala:\n', '  R2-gala:\n    for-markets: [schools]\n']));

  it('gives its cartons to these alone', () => {
    const at = week('2027-W02');
    expect(givenTo(plain, 'R2-gala', 'gala-winter', at)).toBeGreaterThan(5);
    expect(givenTo(kept, 'R2-gala', 'gala-winter', at)).toBe(0);
    expect(givenTo(kept, 'R2-gala', 'school-fruit-winter', at)).toBeCloseTo(
      givenTo(plain, 'R2-gala', 'school-fruit-winter', at),
      9,
    );
    const other = givenTo(kept, 'R1-gala', 'gala-winter', at);
    expect(other).toBeCloseTo(givenTo(plain, 'R1-gala', 'gala-winter', at), 9);
  });

  it('is kept by a schedule', () => {
    const { schedule } = quickRelease(kept, { seed: 1, moves: 500 });
    expect(checkSchedule(kept, schedule)).toEqual([]);
  });
});

describe('days that end within a week', () => {
  it('leave a room, in the week its emptying ends in, only the working days up to there', () => {
    // Ten days from a Monday end on the Wednesday after.
    const ten = the(problemOf(['days-to-empty: 28 days', 'days-to-empty: 10 days']));
    expect(ten.rooms.map((room) => room.weeksToEmpty)).toEqual([2, 2, 2, 2]);
    expect(ten.lastWeekBins?.[week('2026-W40')]).toBeCloseTo((110 * 3) / 5);
    // Thursday 24 December is closed, but not Monday to Wednesday; Easter Monday is.
    expect(ten.lastWeekBins?.[week('2026-W52')]).toBeCloseTo((110 * 3) / 5);
    expect(ten.lastWeekBins?.[week('2027-W13')]).toBeCloseTo((110 * 2) / 5);
    expect(plain.lastWeekBins).toBeUndefined();
    // Thirteen days end on a Saturday, and the packhouse works to Friday.
    const thirteen = the(problemOf(['days-to-empty: 28 days', 'days-to-empty: 13 days']));
    expect(thirteen.lastWeekBins?.[week('2026-W40')]).toBeCloseTo(110);
  });

  it('of the season count by their working days', () => {
    // From Wednesday 2 September to Thursday 22 April.
    const cut = the(
      problemOf(['starts: 2026-08-31', 'starts: 2026-09-02'], ['ends: 2027-04-25', 'ends: 2027-04-22']),
    );
    expect(cut.packingBins[0]).toBeCloseTo((110 * 3) / 5);
    expect(cut.packingBins.at(-1)).toBeCloseTo((110 * 4) / 5);
    expect(cut.packingBins.slice(1, -1)).toEqual(plain.packingBins.slice(1, -1));
  });
});

describe('a price of uneven work', () => {
  it('counts weeks by their working days, and is nothing where the plan names none', () => {
    const even = the(problemOf([/^policy:\n/m, 'policy:\n  price-of-uneven-work: 2.5\n']));
    expect(even.evenWork?.price).toBe(2.5);
    expect(even.evenWork?.fullWeeks[week('2026-W40')]).toBe(1);
    expect(even.evenWork?.fullWeeks[week('2026-W52')]).toBeCloseTo(3 / 5);
    expect(plain.evenWork).toBeUndefined();
    const { schedule } = quickRelease(even, { seed: 1, moves: 500 });
    expect(checkSchedule(even, schedule)).toEqual([]);
    expect(schedule.value).toBeLessThan(quickRelease(plain, { seed: 1, moves: 500 }).schedule.value);
  });
});
