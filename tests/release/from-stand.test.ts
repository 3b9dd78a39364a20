import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeSeason, openingWeeks } from '../../src/findings/compute';
import { formatDay, formatWeek, parseDay, weekOfDay } from '../../src/plan/dates';
import { asOf } from '../../src/plan/known';
import { readPlan } from '../../src/plan/read';
import { checkSchedule } from '../../src/release/checker';
import { wholeSeasonOf } from '../../src/release/season-whole';
import { openingOf } from '../../src/report/timeline-room';
import { pinTo } from '../../src/server/services/pins';
import { sampleFiles } from '../samples/sample';

/** The small sample with what had happened by 12 January. */
const RECORDS = `lotwright: 1
progress:
  R1-gala: { first-bin: 2026-09-02, last-bin: 2026-09-10, opened: 2026-10-05, emptied: 2026-10-30 }
  R2-gala: { first-bin: 2026-09-08, last-bin: 2026-09-16, sealed: 2026-09-18, opened: 2027-01-04 }
packed:
  P1: { lot: G4, fill: R2-gala, day: 2027-01-06, bins: 40, cartons: { first: 380, second: 110 } }
  P2: { lot: G4, fill: R2-gala, day: 2027-01-12, bins: 38, cartons: { first: 360, second: 100 } }
sales:
  V1: { market: home, variety: Gala, class: first, week: 2027-W01, cartons: 300 }
`;

function seasonWith(records: string, day?: string) {
  const written = readPlan([...sampleFiles('first-season'), { path: 'records.lotplan.yaml', text: records }]);
  const season = computeSeason(day ? asOf(written, parseDay(day) as number) : written, { release: 'quick' });
  if (!season.release) throw new Error('the sample has a release problem');
  const { problem, result } = season.release;
  const week = (text: string) => weekOfDay(parseDay(text) as number) - problem.firstWeek;
  const room = (fill: string) => problem.rooms.find((one) => one.fill === fill);
  return { season, problem, result, week, room };
}

describe('a schedule from where the season stands', () => {
  const { problem, result, room, season } = seasonWith(RECORDS);
  const now = weekOfDay(parseDay('2027-01-17') as number) - problem.firstWeek;

  it('leaves out a room that was emptied, and knows when it was opened', () => {
    expect(room('R1-gala')).toBeUndefined();
    const opens = season.release && openingWeeks(season.release);
    expect(opens?.get('R1-gala') && formatWeek(opens.get('R1-gala') as number)).toBe('2026-W41');
  });

  it('packs what is left in a room that stands open: 235 bins less 78 packed', () => {
    expect(room('R2-gala')?.bins).toBe(157);
    const packed = result.schedule.packed[problem.rooms.findIndex(({ fill }) => fill === 'R2-gala')] ?? [];
    expect(packed.reduce((sum, bins) => sum + bins, 0)).toBeCloseTo(157, 6);
    // Days to empty are 28: opened in W01, it is to be empty by W04.
    expect(room('R2-gala')?.weeksToEmpty).toBe(3);
  });

  it('opens no other room before the stand, and packs nothing in weeks that are past', () => {
    for (const fill of ['R3-golden', 'R4-braeburn']) {
      expect(room(fill)?.earliest).toBeGreaterThanOrEqual(now);
      const at = problem.rooms.findIndex((one) => one.fill === fill);
      expect(result.schedule.opens[at] ?? now).toBeGreaterThanOrEqual(now);
    }
    for (const row of result.schedule.packed)
      expect(row.slice(0, now).every((bins) => bins === 0)).toBe(true);
    // 110 bins in five days; of the week of Tuesday the 12th three days are left, and 38 bins have been run.
    expect(problem.packingBins[now]).toBeCloseTo(Math.min((110 * 3) / 5, 110 - 38), 9);
  });

  it('sells the cartons in the cold store first: 740 of the first class packed, 300 sold', () => {
    expect(problem.standing?.stock).toBe(740 - 300 + 210);
    const fresh = computeSeason(readPlan(sampleFiles('first-season')), { release: 'quick' }).release?.problem;
    const wanted = (one: typeof problem | undefined, from: number) =>
      (one?.demands ?? [])
        .filter(({ product }) => one?.products[product]?.variety === 'Gala')
        .reduce((sum, { cartons }) => sum + cartons.slice(from).reduce((all, count) => all + count, 0), 0);
    expect(wanted(fresh, now) - wanted(problem, now)).toBeCloseTo(650, 6);
    expect(wanted(problem, 0)).toBe(wanted(problem, now));
  });

  it('the whole season is what was recorded and what is planned', () => {
    const whole = wholeSeasonOf(problem, result.schedule, season.plan);
    const fresh = computeSeason(readPlan(sampleFiles('first-season')), { release: 'quick' }).release?.problem;
    const cartons = (rows: readonly (readonly number[])[] | undefined) =>
      (rows ?? []).flat().reduce((sum, count) => sum + count, 0);
    expect(cartons(whole.demands.map((demand) => demand.cartons))).toBeCloseTo(
      cartons(fresh?.demands.map((demand) => demand.cartons)),
      6,
    );
    // Sold in W01, 300 of 320 wanted; in the cold store 650, which are sold in the weeks they may wait.
    expect(cartons(problem.standing?.sold)).toBeCloseTo(300 + 650, 6);
    expect(whole.packed[now]).toBeGreaterThanOrEqual(38);
    expect(whole.packed[now - 1]).toBe(40);
  });

  it('is found right by the checker that shares no code with the model', () => {
    expect(checkSchedule(problem, result.schedule)).toEqual([]);
  });
});

describe('records that say less', () => {
  it('openings without packing pin the rooms, and all of their fruit is still in the figures', () => {
    const { problem, room, week } = seasonWith(`lotwright: 1
progress:
  R2-gala: { sealed: 2026-09-18, opened: 2027-01-04 }
`);
    expect(room('R2-gala')).toMatchObject({ bins: 235, pinned: week('2027-01-04') });
    expect(problem.standing?.isPacked).toBe(false);
    expect(problem.packingBins[week('2026-11-02')]).toBeGreaterThan(0);
  });

  it('samples alone leave the schedule as it was', () => {
    const { problem } = seasonWith(`lotwright: 1
samples:
  S1: { lot: G4, taken: 2026-12-01, firmness: 70 N }
`);
    expect(problem.standing).toBeUndefined();
  });
});

describe('what holds on any day', () => {
  it('bins packed and bins still to be packed are the bins that went in; nothing opens in the past', () => {
    const first = parseDay('2026-09-01') as number;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 220 }), (after) => {
        const day = formatDay(first + after);
        const { problem, result, season } = seasonWith(RECORDS, day);
        const { plan } = season;
        for (const [at, { fill, bins, fromField }] of problem.rooms.entries()) {
          if (fromField) continue;
          const packed = [...plan.packed.values()].filter((run) => run.fill?.value === fill);
          const done = packed.reduce((sum, run) => sum + (run.bins?.value ?? 0), 0);
          expect(bins + done).toBe(season.filled.get(fill)?.bins?.value);
          const opens = result.schedule.opens[at] ?? null;
          if (problem.standing && opens !== null && !plan.fills.get(fill)?.opened)
            expect(opens).toBeGreaterThanOrEqual(problem.standing.week);
        }
        expect(checkSchedule(problem, result.schedule)).toEqual([]);
      }),
      { numRuns: 15 },
    );
  });
});

describe('an opened room in the editor', () => {
  const { season } = seasonWith(RECORDS);
  const opening = (fill: string) => {
    const filled = season.filled.get(fill);
    return filled && openingOf(season, filled);
  };

  it('is shown in the week it was opened, and packed out in the week it was emptied or will be', () => {
    const one = opening('R1-gala');
    expect(one && [formatWeek(one.week), one.opened, one.emptyBy && formatWeek(one.emptyBy)]).toEqual([
      '2026-W41',
      true,
      '2026-W44',
    ]);
    expect(opening('R2-gala')).toMatchObject({ opened: true });
  });

  it('is moved by no pin', () => {
    expect(pinTo(season.plan, 'R2-gala', '2027-W06')).toEqual([]);
    expect(pinTo(season.plan, 'R3-golden', '2027-W06')).toHaveLength(1);
  });
});
