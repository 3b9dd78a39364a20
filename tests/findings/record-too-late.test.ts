import { describe, expect, it } from 'vitest';
import { SeasonAgain } from '../../src/findings/again/season-again';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { formatDay, parseDay } from '../../src/plan/dates';
import { asOf, withRecords } from '../../src/plan/known';
import { emptyPlanCache, readPlan } from '../../src/plan/read';
import { compareSeasons } from '../edits/same-again';
import { type SampleFile, sampleFiles } from '../samples/sample';

const CODE = 'record-too-late';

/** A sample with something else in its records, and what was added to them. */
function withRecord(sample: string, from: string, to: string): SampleFile[] {
  const files = sampleFiles(sample);
  const changed = files.map(({ path, text }) => ({
    path,
    text: path.startsWith('records') ? text.replace(from, to) : text,
  }));
  if (JSON.stringify(changed) === JSON.stringify(files)) throw new Error(`${sample} has no ${from}`);
  return changed;
}

function told(files: readonly SampleFile[]) {
  const season = computeSeason(readPlan(files), { release: 'quick' });
  const findings = findingsOf(season);
  const { plan } = season;
  return {
    stand: plan.stand === undefined ? undefined : formatDay(plan.stand),
    errors: findings.filter(({ severity }) => severity === 'error').map(({ code }) => code),
    others: findings.filter(({ code }) => code !== CODE).map(({ fingerprint }) => fingerprint),
    late: findings.filter(({ code }) => code === CODE),
    line: (at: { readonly file: string; readonly start: number; readonly end: number }) =>
      plan.files.get(at.file)?.text.slice(at.start, at.end),
  };
}

/** What is told of the sample as it is. */
const MID = told(sampleFiles('mid-harvest'));

describe('a record of a day that cannot be yet', () => {
  it('with another year, after the season, is an error at its day, and the season is looked at from the others', () => {
    const { stand, errors, late, line } = told(
      withRecord('mid-harvest', 'last-bin: 2026-09-10', 'last-bin: 2027-09-10'),
    );
    expect(errors).toEqual([CODE]);
    expect(late.map(({ message }) => message)).toEqual([
      "R1-gala: last bin is recorded on 2027-09-10, after the season's end (2027-04-25) and weeks after all others. It is left out, and the season is looked at from 2026-09-20, the last day of all other records. Expected is a day up to today: correct it, or let the season go on to 2027-09-10.",
    ]);
    expect(late[0] && line(late[0].at)).toBe('2027-09-10');
    expect(stand).toBe(MID.stand);
  });

  it('with another month, weeks after its room was to be full, is too, and nothing else is told than without', () => {
    const { stand, errors, late, others } = told(
      withRecord('mid-harvest', 'cool: 2026-09-12', 'cool: 2027-01-12'),
    );
    expect(errors).toEqual([CODE]);
    expect(late[0]?.message).toContain(
      'R1-gala: cool is recorded on 2027-01-12, 114 days after all others, and its fruit was to be in by 2026-09-10.',
    );
    expect(late[0]?.message).toContain('where it is right, look from it with `--as-of 2027-01-12`');
    expect(stand).toBe(MID.stand);
    expect(others).toEqual(MID.others);
  });

  it('a packed run alone half a year after all others is too, and counts as soon as others stand beside it', () => {
    const run = (id: string, day: string) =>
      `  ${id}: { lot: G1, day: ${day}, bins: 10, cartons: { first: 100 } }\n`;
    const withRuns = (...runs: readonly string[]) =>
      told([
        ...sampleFiles('mid-harvest'),
        { path: 'z.lotplan.yaml', text: `lotwright: 1\npacked:\n${runs.join('')}` },
      ]);
    const alone = withRuns(run('P1', '2027-03-30'));
    expect(alone.late[0]?.message).toContain(
      'Packed run P1 is recorded on 2027-03-30, 191 days after all others.',
    );
    expect(alone.stand).toBe('2026-09-20');
    const two = withRuns(run('P1', '2027-03-30'), run('P2', '2027-03-31'));
    expect(two.late).toEqual([]);
    expect(two.stand).toBe('2027-03-31');
  });

  it('counts where it is asked for: as of that day', () => {
    const plan = readPlan(withRecord('mid-harvest', 'cool: 2026-09-12', 'cool: 2027-01-12'));
    const day = parseDay('2027-01-12') ?? 0;
    const known = withRecords(asOf(plan, day));
    expect(known.tooLate).toBeUndefined();
    expect(known.progress.get('R1-gala')?.cool?.value).toBe(day);
  });
});

describe('a record that comes after a pause, and may', () => {
  it('is the opening of a room that stood closed for months', () => {
    const said = 'low-oxygen: 2026-09-20';
    const opening = withRecord('mid-harvest', said, `${said}\n    opened: 2027-01-04`);
    expect(told(opening)).toMatchObject({ late: [], stand: '2027-01-04' });
  });

  it('is the filling of the last room, on the days planned for it', () => {
    const records =
      'lotwright: 1\nprogress:\n  R1-gala: { first-bin: 2026-09-02 }\n  R4-braeburn: { first-bin: 2026-10-05 }\n';
    const files = [...sampleFiles('first-season'), { path: 'records.lotplan.yaml', text: records }];
    expect(told(files)).toMatchObject({ late: [], stand: '2026-10-05' });
  });

  it('and where all records lie after the season, its own days are wrong, not each record', () => {
    const records = 'lotwright: 1\nprogress:\n  R1-gala: { first-bin: 2028-09-02, last-bin: 2028-09-10 }\n';
    const files = [...sampleFiles('first-season'), { path: 'records.lotplan.yaml', text: records }];
    expect(told(files)).toMatchObject({ late: [], stand: '2028-09-10' });
  });
});

it('what is left out, and what counts again, is computed again as it is computed afresh', () => {
  const cache = emptyPlanCache();
  const ways = [new SeasonAgain(), new SeasonAgain({ byField: true })];
  const right = sampleFiles('mid-harvest');
  const wrong = withRecord('mid-harvest', 'cool: 2026-09-12', 'cool: 2027-01-12');
  const year = withRecord('mid-harvest', 'last-bin: 2026-09-10', 'last-bin: 2027-09-10');
  const longer = year.map(({ path, text }) => ({
    path,
    text: text.replace('ends: 2027-04-25', 'ends: 2027-09-25'),
  }));
  for (const files of [right, wrong, right, year, longer, year, wrong, right])
    compareSeasons(ways, { plan: readPlan(files, cache), fresh: readPlan(files), atHand: {} });
});
