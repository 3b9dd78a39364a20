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
