import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { formatWeek } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { timelineView } from '../../src/report/timeline';
import { marksOf, weekTold } from '../../src/report/timeline-marks';
import { timeAxis } from '../../src/report/timeline-weeks';
import { sampleFiles } from '../samples/sample';
import { aSeason, week } from './timeline-season';

const files = sampleFiles('first-season');
const season = computeSeason(readPlan(files));
const edited = (from: string, to: string) =>
  computeSeason(readPlan(files.map(({ path, text }) => ({ path, text: text.replace(from, to) }))));

describe('the plan against another state', () => {
  test('that is the same differs nowhere', () => {
    const view = timelineView(season, [], { revision: 1, against: { label: 'itself', season } });
    expect(view.against?.note).toMatch(/^Against itself: no room differs\./);
    for (const row of view.rows) {
      expect(row.other?.opens).toBe(row.opens?.week);
      expect(row.other?.window?.latest).toBe(row.window?.latest);
      expect(row.other?.difference).toBe('');
    }
    for (const series of view.supply) expect(series.other).toEqual(series.supply);
  });

  test('without one of its fills says so, and draws nothing for it', () => {
    const other = edited('  R4-braeburn:', '  R4-other:');
    const view = timelineView(season, [], { revision: 1, against: { label: 'before', season: other } });
    expect(view.against?.note).toContain('1 fill only here, 1 fill only there');
    const row = view.rows.find(({ key }) => key === 'R4-braeburn');
    expect([row?.other, row?.cells.slice(-2)]).toEqual([undefined, ['', '']]);
    expect(row?.description).toContain('Not in the other state.');
  });
});

test('loads of the equipment are the shares that the plant and the schedule have', () => {
  const full = computeSeason(readPlan(sampleFiles('full-season')));
  const view = timelineView(full, [], { revision: 1 });
  const axis = timeAxis(full);
  const of = (part: string) => view.loads?.find((band) => band.part === part)?.series ?? [];
  for (const { source, weeks } of full.plant?.nitrogen ?? []) {
    const series = of('nitrogen').find(({ name }) => name === source.id);
    for (const one of weeks)
      expect(series?.share[one.week - (axis?.firstWeek ?? 0)]).toBeCloseTo(one.share.value, 1);
  }
  expect(of('refrigeration').map(({ name }) => name)).toEqual(
    full.plant?.refrigeration.filter(({ rooms }) => rooms.length > 0).map(({ group }) => group.id),
  );
  const [packhouse] = of('packhouse');
  const { problem, result } = full.release ?? {};
  const shift = (problem?.firstWeek ?? 0) - (axis?.firstWeek ?? 0);
  problem?.packingBins.forEach((most, index) => {
    const bins = result?.schedule.packed.reduce((sum, room) => sum + (room[index] ?? 0), 0) ?? 0;
    if (most > 0) expect(packhouse?.share[index + shift]).toBeCloseTo((100 * bins) / most, 1);
  });
});

test('a packhouse above what it can run says so, with its week', () => {
  // Ten bins of a hundred and fifty places: the third week has 60 bins and room for 50.
  const view = timelineView(aSeason(), [], { revision: 1 });
  const [packhouse] = view.loads?.find(({ part }) => part === 'packhouse')?.series ?? [];
  expect(packhouse?.share).toEqual([50, 50, 120, 40]);
  expect(packhouse?.description).toContain('More than all of it in 2026-W38');
});

describe('findings at their week', () => {
  test('go by the first week or day that their message names', () => {
    expect(weekTold({ message: 'too much from 2026-W41 until 2026-W44' })).toBe(week('2026-W41'));
    expect(weekTold({ message: 'sealed on 2026-09-18' })).toBe(week('2026-W38'));
    expect(weekTold({ message: 'room 2026-99 is short' })).toBeUndefined();
    expect(weekTold({ message: 'at 2026-13-45' })).toBeUndefined();
  });

  test('stand in the row of their room, the gravest first', () => {
    const mistakes = computeSeason(readPlan(sampleFiles('with-mistakes')), { courses: true });
    const findings = findingsOf(mistakes);
    const view = timelineView(mistakes, findings, { revision: 1 });
    const marks = view.rows.flatMap((row) => row.marks ?? []);
    expect(marks.length).toBeGreaterThan(0);
    for (const { week: at, text } of marks)
      expect(formatWeek(weekTold({ message: text }) ?? 0)).toBe(view.weeks[at]);
    const axis = timeAxis(mistakes);
    if (!axis) throw new Error('no weeks');
    const order = marksOf(findings, axis).map(({ severity }) =>
      ['error', 'warning', 'notice'].indexOf(severity),
    );
    expect(order).toEqual([...order].sort());
  });
});
