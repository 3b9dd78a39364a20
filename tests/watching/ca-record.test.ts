import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import type { RoomReadings } from '../../src/readings/types';
import { caRecord, type Law, runs } from '../../src/watching/ca-record';
import { planText } from './room-plan';

const day = (text: string) => parseDay(text) ?? 0;
const SEALED = day('2026-09-18');
const PROGRESS =
  'first-bin: 2026-09-08, last-bin: 2026-09-16, sealed: 2026-09-18, low-oxygen: 2026-09-20, lots: { L1: 200 }';

/** Read at 6:00 every day; oxygen 20.9 % on the day of sealing and the next, then what is given. */
function daily(days: number, without: readonly number[] = [], oxygen = (_: number) => 1.5): RoomReadings {
  const read = Array.from({ length: days }, (_, index) => index).filter((index) => !without.includes(index));
  const column = (of: (index: number) => number) => Float32Array.from(read, of);
  return {
    room: 'R1',
    times: Float64Array.from(read, (index) => (SEALED + index) * 1440 + 360),
    values: {
      oxygen: column((index) => (index < 2 ? 20.9 : oxygen(index))),
      'carbon-dioxide': column(() => 1.8),
      temperature: column(() => 0.8),
      humidity: column(() => Number.NaN),
    },
  };
}

function recordOf(
  law: Law,
  progress: string,
  readings: RoomReadings | undefined,
  until = '2026-12-01',
  variety = 'Gala',
  next?: string,
) {
  const plan = readPlan([{ path: 'a.lotplan.yaml', text: planText({ variety, progress }) }]);
  const season = computeSeason(plan, { release: 'none' });
  const filled = season.filled.get('R1-fill');
  if (!filled) throw new Error('the example has its fill');
  return caRecord(
    filled,
    law,
    season.plan.progress.get('R1-fill'),
    readings,
    day(until),
    next === undefined ? undefined : day(next),
  );
}

describe('the record for a claim', () => {
  const until = '2026-12-01';
  const days = day(until) - SEALED + 1;

  it('lacks nothing where all days are on record and each is read', () => {
    const record = recordOf('washington', PROGRESS, daily(days));
    expect(record.lacks).toEqual([]);
    expect(record.days).toHaveLength(days);
    expect(record.days[2]?.readings.oxygen).toMatchObject({
      value: 1.5,
      count: 1,
      time: (SEALED + 2) * 1440 + 360,
    });
    expect(record.varieties).toEqual([{ variety: 'Gala', bins: 200 }]);
    // 45 days of Gala by WAC 16-450-041, from the day oxygen was at 5 %.
    expect(record.claims[0]?.from).toBe(day('2026-09-20') + 45);
  });

  it('of New York counts ninety days, and sixty for quick McIntosh', () => {
    expect(recordOf('new-york', PROGRESS, daily(days)).claims[0]?.from).toBe(day('2026-09-20') + 90);
    const quick = PROGRESS.replace('2026-09-08', '2026-09-14');
    expect(recordOf('new-york', quick, daily(days), until, 'McIntosh').claims[0]?.from).toBe(
      day('2026-09-20') + 60,
    );
  });

  it('names the days without a reading, day by day as spans', () => {
    const { lacks } = recordOf('washington', PROGRESS, daily(days, [5, 6, 7, 20]));
    const oxygen = lacks.filter(({ what }) => what === 'No reading of oxygen');
    expect(oxygen.map(({ days: span }) => span)).toEqual([
      [SEALED + 5, SEALED + 7],
      [SEALED + 20, SEALED + 20],
    ]);
    expect(lacks).toHaveLength(6);
  });

  it('names days that are only planned, and takes 5 % from the readings where nobody recorded it', () => {
    const { lacks, dates } = recordOf('washington', 'cool: 2026-09-20', daily(days));
    expect(dates['five-per-cent']).toEqual({ day: SEALED + 2, by: 'readings' });
    expect(dates.sealed).toEqual({ day: SEALED, by: 'plan' });
    expect(lacks.map(({ what }) => what)).toEqual([
      'No record of the day the first bin came in, only of the one planned: write it under progress.',
      'No record of the day the last bin came in, only of the one planned: write it under progress.',
      'No record of the day the room was sealed, only of the one planned: write it under progress.',
      'No record of the bins of each lot that went in: those of its lot are planned.',
      'The day oxygen was at 5 % is read, not recorded: write low-oxygen under progress.',
    ]);
  });

  it('names days above 5 %, a 5 % that came too late, and one that no reading shows', () => {
    const above = recordOf(
      'washington',
      PROGRESS,
      daily(days, [], (index) => (index === 30 ? 6 : 1.5)),
    );
    expect(above.lacks.map(({ days: span }) => span)).toEqual([[SEALED + 30, SEALED + 30]]);
    const late = PROGRESS.replace('low-oxygen: 2026-09-20', 'low-oxygen: 2026-10-10');
    expect(recordOf('washington', late, daily(days)).lacks.at(-1)?.what).toContain(
      'No claim for Gala: oxygen must be',
    );
    const early = PROGRESS.replace('low-oxygen: 2026-09-20', 'low-oxygen: 2026-09-18');
    expect(
      recordOf('washington', early, daily(days)).lacks.map(({ what, days: span }) => [what, span]),
    ).toEqual([
      ['Oxygen is on record as at 5 % or below before a reading shows it', [SEALED, SEALED + 2]],
      [
        'Oxygen was read above 5 %, single readings too: the days count only where they are continuous',
        [SEALED + 1, SEALED + 1],
      ],
    ]);
  });

  it('has no claim where the room was opened, empty or filled again after too few days', () => {
    const why = (progress: string, next?: string) => {
      const { claims, lacks } = recordOf('washington', progress, daily(days), until, 'Gala', next);
      const told = lacks.map(({ what }) => what).filter((what) => what.startsWith('No claim'));
      const [claim] = claims;
      expect(claim?.period?.kind === 'days').toBe(claim?.from !== undefined);
      return told;
    };
    // 5 % on 20 September, so that day 45 is 4 November.
    expect(why(`${PROGRESS}, opened: 2026-11-03`)).toEqual([
      'No claim for Gala: opened after 44 of 45 days (WAC 16-450-041, 45 continuous days).',
    ]);
    expect(why(`${PROGRESS}, opened: 2026-11-04`)).toEqual([]);
    expect(why(`${PROGRESS}, emptied: 2026-10-01`)[0]).toContain('empty after 11 of 45 days');
    expect(why(PROGRESS, '2026-10-01')[0]).toContain('filled again after 11 of 45 days');
    expect(why(`${PROGRESS}, opened: 2026-09-19`)[0]).toContain('opened after 0 of 45 days');
  });

  it('names varieties as the plan does, and ends no sentence before a day', () => {
    const red = recordOf('washington', 'cool: 2026-09-20', undefined, until, 'Red Delicious');
    expect(red.varieties.map(({ variety }) => variety)).toEqual(['Red Delicious']);
    expect(red.claims.map(({ variety }) => variety)).toEqual(['Red Delicious']);
    expect(red.lacks.filter(({ days: span }) => span).map(({ what }) => what)).toContain(
      'Neither record nor reading of oxygen at 5 % or below, due within 20 days of sealing',
    );
    expect(red.lacks.filter(({ what, days: span }) => span && what.endsWith('.'))).toEqual([]);
  });

  it('ends the day before the opening, and at the day it is looked at from', () => {
    const opened = recordOf('washington', `${PROGRESS}, opened: 2026-11-10`, daily(days));
    expect(opened.until).toBe(day('2026-11-09'));
    expect(opened.lacks).toEqual([]);
    const early = recordOf('washington', PROGRESS, daily(days), '2026-10-01');
    expect(early.days).toHaveLength(day('2026-10-01') - SEALED + 1);
  });

  it('ends before the room is filled again, or is empty, where no opening is recorded', () => {
    const again = recordOf('washington', PROGRESS, daily(days), until, 'Gala', '2026-11-20');
    expect(again.until).toBe(day('2026-11-19'));
    expect(again.days.at(-1)?.day).toBe(day('2026-11-19'));
    expect(again.lacks.map(({ what, days: span }) => [what, span])).toEqual([
      [expect.stringContaining('next fill begins'), [day('2026-11-20'), day('2026-11-20')]],
    ]);
    const emptied = `${PROGRESS}, emptied: 2026-11-15`;
    const empty = recordOf('washington', emptied, daily(days), until, 'Gala', '2026-11-20');
    expect(empty.until).toBe(day('2026-11-14'));
    expect(empty.lacks.map(({ what }) => what)).toEqual([
      'R1-fill is on record as empty, and no day of its opening is.',
    ]);
    const opened = `${PROGRESS}, opened: 2026-11-10, emptied: 2026-11-15`;
    expect(recordOf('washington', opened, daily(days), until, 'Gala', '2026-11-20').until).toBe(
      day('2026-11-09'),
    );
    // One that is still to come changes nothing.
    expect(recordOf('washington', PROGRESS, daily(days), until, 'Gala', '2026-12-10').lacks).toEqual([]);
  });

  it('without any reading lacks every day of each', () => {
    const { lacks } = recordOf('washington', PROGRESS, undefined);
    expect(lacks.map(({ days: span }) => span)).toEqual(Array(3).fill([SEALED, day(until)]));
  });
});

describe('days that follow one another', () => {
  it('are told as first and last', () => {
    expect(runs([])).toEqual([]);
    expect(runs([3, 4, 5, 9, 11, 12])).toEqual([
      [3, 5],
      [9, 9],
      [11, 12],
    ]);
  });
});
