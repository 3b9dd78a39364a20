import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { checkSchedule } from '../../src/release/checker';
import { whyNoSchedule } from '../../src/release/lacks';
import { releaseReport } from '../../src/report/release-report';
import { releaseText } from '../../src/report/release-text';
import { windowsReport } from '../../src/report/windows-report';
import { windowsText } from '../../src/report/windows-text';
import { lensesOf } from '../../src/server/services/lenses';
import { sampleFiles } from '../samples/sample';
import { findingsOnExample, readPage } from './page';

/** The first season, after some of its text was written otherwise. */
function seasonWith(...changes: readonly (readonly [was: string | RegExp, now: string])[]) {
  const files = sampleFiles('first-season').map(({ path, text }) => ({
    path,
    text: changes.reduce((all, [was, now]) => all.replace(was, now), text),
  }));
  const season = computeSeason(readPlan(files));
  if (!season.release) throw new Error('the season has no schedule');
  const findings = findingsOf(season);
  return {
    ...season,
    release: season.release,
    said: (code: string) => findings.flatMap((one) => (one.code === code ? [one.message] : [])),
  };
}

const onePage = (text: string) => text.replace(/\s+/g, ' ');
/** A packhouse for 20 bins in the 28 days of emptying, and rooms of more than 150. */
const FEW: readonly [string, string] = ['bins-a-week: 110', 'bins-a-week: 5'];

describe('a room that can be opened in no week', () => {
  const season = seasonWith(FEW);
  const { problem, result } = season.release;
  const today = season.plan.season?.starts?.value ?? 0;

  test('is told so with its windows, and why', () => {
    const report = windowsReport(season, [], { today });
    expect(report.rooms.map(({ status }) => status)).toEqual(report.rooms.map(() => 'no week'));
    expect(report.rooms.find(({ room }) => room === 'R2')?.tooLarge).toEqual({ packableBins: 20, weeks: 4 });
    expect(onePage(windowsText(report))).toContain(
      'R2 has no week to open in: it holds 235 bins, and the packhouse runs at most 20 in the 4 weeks it may take to empty a room.',
    );
  });

  test('has no weeks in the schedule, nor above its fill', () => {
    const report = releaseReport(season, season.release, [], {
      violations: checkSchedule(problem, result.schedule, result.unmet),
      stoppedEarly: false,
    });
    expect(report.rooms.map(({ noWeek }) => noWeek)).toEqual(report.rooms.map(() => true));
    // Nobody has wished anything that cannot be had: the rooms are too large.
    expect(releaseText(report)).toContain('Rooms that must stay shut, and why:\n  Room R1 (R1-gala) holds');
    expect(releaseText(report)).not.toMatch(/wish/i);
    expect(releaseText(report)).toMatch(/R3 +Golden Delicious +287 +stays shut +- +no week/);
    const titles = lensesOf(season, 'fruit.lotplan.yaml').map(({ title }) => title);
    expect(titles.filter((title) => title.includes('no week to open in'))).toHaveLength(4);
    expect(titles.join()).not.toContain('window ');
    // Nothing that could be moved would cure what goes short.
    for (const { weeks } of report.shortages)
      for (const { cure } of weeks) expect(cure.nothingInReach).toBe(true);
  });

  test('is not said to open in the week of a disorder', () => {
    const [wrong = ''] = readPage('disorder-before-opening').wrong;
    const packing = `packing: { bins-a-week: 20, packout: { Granny Smith: { shares: { first: 62 % } } } }
demand: { all: { market: home, variety: Granny Smith, class: first, weeks: 2026-W50..2027-W10, cartons: 50, price: 20 } }
`;
    const [told] = findingsOnExample(`${wrong}${packing}`).flatMap(({ code, message }) =>
      code === 'disorder-before-opening' ? [message] : [],
    );
    expect(told).toMatch(
      /\(R1-gala from \d{4}-W\d\d, with no week to open in as it is too large to empty in time\)/,
    );
    expect(told).not.toContain('open in 2027-W10');
  });

  test('gives both reasons in one round where its window is empty too', () => {
    const both = seasonWith(
      FEW,
      ['starts: 2026-08-31', 'starts: 2028-08-31'],
      ['ends: 2027-04-25', 'ends: 2029-04-25'],
      ['weeks: 2026-W46..2026-W52', 'weeks: 2028-W46..2028-W52'],
    );
    const empty = both.said('window-empty').map((message) => message.split(' ')[0]);
    const large = both.said('room-too-large-to-empty').map((message) => message.split(' ')[0]);
    expect(empty.length).toBeGreaterThan(0);
    expect(large).toEqual(expect.arrayContaining(empty));
    expect(onePage(windowsText(windowsReport(both, [], { today })))).toContain(
      'has no week to open in: not before',
    );
  });
});

describe('a room too large to be emptied, in a plan whose demand is not written yet', () => {
  const text = (file: string) => file.replace(/^demand:\n(?: .*\n|\n|#.*\n)*/m, '').replace(...FEW);
  const files = sampleFiles('first-season').map(({ path, text: file }) => ({ path, text: text(file) }));
  const season = computeSeason(readPlan(files));
  const large = (one: typeof season) =>
    findingsOf(one).flatMap(({ code, message }) => (code === 'room-too-large-to-empty' ? [message] : []));

  test('is told as with demand', () => {
    expect([season.plan.demand.size, season.release]).toEqual([0, undefined]);
    expect(large(season)).toEqual(seasonWith(FEW).said('room-too-large-to-empty'));
    expect(large(season)).toHaveLength(4);
  });

  // Five bins a week for four weeks, and 235 bins in R2.
  test('is told where no schedule can be computed, as a schedule tells it', () => {
    const told = whyNoSchedule(season.plan, season.keeping);
    expect(told).toContain('`demand` is missing or cannot be read.\nRoom R1 (R1-gala) holds');
    const { conflicts } = seasonWith(FEW).release.result;
    expect(
      conflicts.some((one) => one.startsWith('Room R2 (R2-gala) holds 235 bins, but in the 4 weeks')),
    ).toBe(true);
    for (const conflict of conflicts) expect(told).toContain(conflict);
  });

  test('is told too where the schedule leaves it out, as its packout is not known', () => {
    const some = seasonWith(FEW, [/^ {4}Braeburn: .*\n/m, '']);
    expect(some.release.problem.rooms.map(({ fill }) => fill)).not.toContain('R4-braeburn');
    expect(some.said('room-too-large-to-empty')).toEqual(expect.arrayContaining(large(season)));
  });
});

describe('the caution before opening', () => {
  test('names the week of the first pin that is kept, and none of a room that stays shut', () => {
    expect(seasonWith().said('caution-before-opening')[0]).toContain('R2-gala in 2027-W01.');
    const late = seasonWith(['open: 2027-W01', 'open: 2027-W15']);
    expect(late.release.result.schedule.opens[1]).toBeNull();
    const [told] = late.said('caution-before-opening');
    expect(told).toMatch(/^R2-gala and 2 more sealed rooms will be opened\. Sealed rooms kill/);
  });
});

describe('a plan without a filled room', () => {
  test('has no opening windows, and is not said to have opened all its rooms', () => {
    const files = sampleFiles('first-season').map(({ path, text }) => ({
      path,
      text: text.replace(/^fills:\n(?: .*\n|\n|#.*\n)*/m, ''),
    }));
    const none = computeSeason(readPlan(files));
    expect(none.plan.fills.size).toBe(0);
    const text = windowsText(windowsReport(none, [], { today: 0 }));
    expect(text).toContain('the plan has no filled room yet, and none to be opened');
    expect(text).not.toContain('no room is left');
  });
});
