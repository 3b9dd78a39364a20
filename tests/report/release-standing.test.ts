import { describe, expect, it } from 'vitest';
import { computeSeason, openingWeeks } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { releaseProblem } from '../../src/release/problem';
import { quickRelease } from '../../src/release/quick';
import { releaseReport } from '../../src/report/release-report';
import { releaseText } from '../../src/report/release-text';
import { sampleFiles } from '../samples/sample';

const RECORDS = `lotwright: 1
progress:
  R1-gala: { last-bin: 2026-09-10, opened: 2026-10-05, emptied: 2026-10-30 }
  R2-gala: { last-bin: 2026-09-16, sealed: 2026-09-18, opened: 2027-01-11 }
packed:
  P1: { lot: G4, fill: R2-gala, day: 2027-01-12, bins: 38, cartons: { first: 360, second: 100 } }
sales:
  V1: { market: home, variety: Gala, class: first, week: 2027-W01, cartons: 300 }
`;

describe('a schedule that goes on from where the season stands', () => {
  const published = computeSeason(readPlan(sampleFiles('first-season')), { release: 'quick' });
  const weeks = published.release && openingWeeks(published.release);
  const files = [...sampleFiles('first-season'), { path: 'records.lotplan.yaml', text: RECORDS }];
  const season = computeSeason(readPlan(files), { release: 'none' });
  const problem = releaseProblem(season.plan, season.keeping, { published: weeks });
  if (!problem) throw new Error('the sample has a release problem');
  const release = { problem, result: quickRelease(problem, { seed: 1, moves: 2000 }) };
  const report = releaseReport(season, release, [], { violations: [], stoppedEarly: false });
  const text = releaseText(report).replaceAll(/\s+/g, ' ');

  it('says up to when it is known, and what is left out because it is done', () => {
    expect(text).toContain('As of 2027-01-12: 2 fills have been opened, no other opens before 2027-W02.');
    expect(text).toMatch(/of [\d,]+ cartons wanted [\d,]+ were sold, [\d,]+ were short/);
    expect(text).toContain(
      '160 cartons wait in the cold store: 160 of them fill what is wanted from now on.',
    );
  });

  it('says under the table that what is packed already is taken off in it', () => {
    const fills = report.standing?.cartonsFromColdStore;
    expect(fills).toBeGreaterThan(0);
    expect(text).toContain(
      `Stock that is packed already is taken off: Wanted and Sold are without the ${fills} cartons that it fills of what is ordered, and In stock counts only what is packed from 2027-W02 on, not the 160 cartons that wait now.`,
    );
    const { standing, ...rest } = report;
    const without = standing && { ...rest, standing: { ...standing, cartonsInColdStore: 0 } };
    expect(releaseText(rest)).not.toContain('is packed already');
    expect(without && releaseText(without)).not.toContain('is packed already');
  });

  it('tells cartons sold alike in both lines, and what rounding leaves over where it is told once', () => {
    const fruit = {
      cartonsInRooms: 2332.5,
      cartonsSold: 1619.5,
      cartonsUnsold: 100.5,
      cartonsNotPacked: 612.5,
      cartonsLeftInRooms: 0,
    };
    const { cartonsSold, cartonsUnsold } = fruit;
    const told = releaseText({ ...report, fruit, totals: { ...report.totals, cartonsSold, cartonsUnsold } });
    expect(told).toMatch(/^1,620 of/m);
    expect(told).toContain('2,333 = 1,620 sold + 101 packed and unsold + 612 not');
    // With nothing of it told once to take it, it goes to the largest, so that the line adds up all the same.
    const bare = { ...fruit, cartonsInRooms: 1720, cartonsNotPacked: 0 };
    expect(releaseText({ ...report, fruit: bare })).toContain('1,720 = 1,619 sold + 101 packed');
  });

  it('shows an opened room in the week it was opened, with the bins that are left', () => {
    const room = report.rooms.find(({ fill }) => fill === 'R2-gala');
    expect(room).toMatchObject({ opens: '2027-W02', opened: true, bins: 197 });
    expect(report.weeks.flatMap(({ opens }) => opens)).not.toContain('R2');
  });

  it('says of each room that does not keep its published week why', () => {
    const moved = new Map(report.changes?.moved.map((move) => [move.room, move]));
    expect(moved.get('R2')).toMatchObject({ from: '2027-W01', to: '2027-W02', opened: true });
    expect(text).toContain('R2 2027-W01 to 2027-W02, when it was opened');
    expect(text).toMatch(/R3 2026-W\d\d to 2027-W\d\d: the published week has passed/);
  });
});
