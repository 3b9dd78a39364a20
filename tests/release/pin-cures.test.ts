import { describe, expect, it } from 'vitest';
import { judgeAll } from '../../src/expect/judge';
import { computeSeason } from '../../src/findings/compute';
import { formatWeek, parseDay } from '../../src/plan/dates';
import { applyEdits } from '../../src/plan/edits';
import { readPlan } from '../../src/plan/read';
import { checkSchedule } from '../../src/release/checker';
import { releaseReasons } from '../../src/release/reasons';
import { Standing } from '../../src/release/standing';
import type { ProblemRoom, ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { cureText, reasonText } from '../../src/report/reason-text';
import { releaseReport } from '../../src/report/release-report';
import { lotwright } from '../cli/in-process';
import { errorsAgainst } from '../cli/schemas';
import { type SampleFile, sampleFiles } from '../samples/sample';
import { madeProblem } from './generate';
import { loadHighs } from './highs';
import { othersHeld } from './others-held';

/** The first season with R2's pin in another week, and a promise that no order goes short. */
const pinnedLater: SampleFile[] = [
  ...sampleFiles('first-season').map(({ path, text }) => ({
    path,
    text: text.replace('open: 2027-W01', 'open: 2027-W03'),
  })),
  { path: 'expect.lotplan.yaml', text: 'lotwright: 1\nexpect:\n  all-met: { no-shortage: {} }\n' },
];

function seasonOf(files: readonly SampleFile[]) {
  const season = computeSeason(readPlan([...files]), { courses: true });
  if (!season.release) throw new Error('the season has no schedule');
  return { ...season, release: season.release };
}

/** Cartons short of every order, by hand. */
function shortOf({ release: { problem, result } }: ReturnType<typeof seasonOf>): number {
  return problem.demands.reduce(
    (all, { cartons }, demand) =>
      cartons.reduce((sum, wanted, week) => sum + wanted - (result.schedule.sold[demand]?.[week] ?? 0), all),
    0,
  );
}

describe('a shortage that a pin makes', () => {
  const season = seasonOf(pinnedLater);
  const { problem, result } = season.release;
  const report = (today: string) =>
    releaseReport(season, season.release, [], {
      violations: checkSchedule(problem, result.schedule),
      stoppedEarly: false,
      today: parseDay(today),
    });

  it('is none with the pin two weeks earlier', () => {
    expect(Math.round(shortOf(season))).toBe(820);
    expect(shortOf(seasonOf(sampleFiles('first-season')))).toBeCloseTo(0, 6);
  });

  it('is cured by taking the pin out, in every week that it leaves short', async () => {
    const { cures } = releaseReasons(problem, result.schedule);
    expect(cures).toHaveLength(4);
    for (const { unpin, short, left, move } of cures) {
      expect(problem.rooms[unpin?.room ?? -1]?.fill).toBe('R2-gala');
      expect(formatWeek(problem.firstWeek + (unpin?.week ?? 0))).toBe('2027-W01');
      expect(unpin).toMatchObject({ staysShort: 0 });
      expect(unpin?.inWeek).toBeCloseTo(short, 6);
      // With the pin kept nothing is cured.
      expect([move, left]).toEqual([undefined, short]);
    }
    // Solved again by linear program, R2 in that week and the other rooms as they are.
    const highs = await loadHighs();
    const solved = (week: number) => othersHeld(highs, problem, result.schedule, 1, week) ?? 0;
    const [pinned, unpinned] = [20, cures[0]?.unpin?.week ?? 0];
    const respread = new Standing(problem, result.schedule).whatIf(1, pinned)?.cost ?? 0;
    const cost = solved(pinned) + respread - solved(unpinned);
    expect(Math.abs(cost - (cures[0]?.unpin?.cost ?? 0))).toBeLessThan(1);
  });

  it('is told so, before buying in', () => {
    const [text] = report('2026-11-01').shortages.map((one) => cureText(one, 'EUR'));
    expect(text).toBe(
      'gala-winter in 2027-W01, 320 short: take out the pin of R2-gala (2027-W03): opened in 2027-W01, ' +
        '0 stay short (all 320 cartons, 640 in all its weeks, brings EUR 23,329 more); or, with the pin kept, buy in, or agree on 320 cartons less',
    );
  });

  it('is told so in weeks to come alone, and not once the pin has passed: it says what has happened', () => {
    const opens = (today: string) =>
      report(today).shortages.flatMap(({ weeks }) => weeks.map(({ cure }) => cure.unpin?.opens));
    // In the week before that of the pin what could have been sold before is past cure.
    expect(new Set(opens('2027-01-13'))).toEqual(new Set([undefined, '2027-W02']));
    expect(opens('2027-02-01')).toEqual([0, 0, 0, 0].map(() => undefined));
  });

  it('is told on the command line as text and as JSON by its schema', async () => {
    const given = { files: inFolder(pinnedLater) };
    const words = ['release', '--reasons', '--today', '2026-11-01', '/plan'];
    const { out } = await lotwright(words, given);
    expect(out.replaceAll(/\s+/g, ' ')).toContain(
      'take out the pin of R2-gala (2027-W03): opened in 2027-W01, 0 stay short',
    );
    const json = JSON.parse((await lotwright([...words, '--format', 'json'], given)).out);
    expect(errorsAgainst('release-report', json)).toEqual([]);
    expect(json.shortages[0].weeks[0].cure).toMatchObject({
      unpin: {
        room: 'R2',
        fill: 'R2-gala',
        pinned: '2027-W03',
        opens: '2027-W01',
        cartonsInWeek: 320,
        cartonsStillShort: 0,
      },
      smallerOrder: 320,
    });
    const markdown = await lotwright(['expect', '--format', 'markdown', '/plan'], given);
    expect(markdown.out).toContain(
      'cure: Take out the pin of R2-gala (2027-W03): opened in 2027-W01, 0 of 820',
    );
  });

  it('breaks a promise whose cure is the same, and whose fixes keep it', () => {
    const [outcome] = judgeAll(season, { thorough: true, findings: [], isCode: () => true });
    if (outcome?.verdict.state !== 'broken') throw new Error('it is not broken');
    const [first, second] = outcome.verdict.cures;
    expect(first?.text).toBe(
      'Take out the pin of R2-gala (2027-W03): opened in 2027-W01, 0 of 820 cartons stay short. ' +
        'With every other room as it is, that brings EUR 23,329 more.',
    );
    expect(second?.text).toBe(
      'An order of gala-winter smaller by 320 cartons in 2027-W01 is met there; ' +
        '500 cartons of other weeks or orders stay short.',
    );
    expect(first?.fixes.map(({ title }) => title)).toEqual([
      'Take out the pin of R2-gala',
      'Pin R2-gala to 2027-W01',
    ]);
    for (const { edits } of first?.fixes ?? []) {
      const mended = pinnedLater.map(({ path, text }) => ({
        path,
        text: applyEdits(
          text,
          edits.filter(({ at }) => at.file === path),
        ),
      }));
      const [again] = judgeAll(seasonOf(mended), { thorough: false, findings: [], isCode: () => true });
      expect(again?.verdict.state).toBe('kept');
    }
  });
});

describe('a pin', () => {
  const weeks = 6;
  const inWeek = (week: number, amount: number) =>
    Array.from({ length: weeks }, (_, at) => (at === week ? amount : 0));
  const room = (name: string, change: Partial<ProblemRoom>): ProblemRoom => ({
    fill: `${name}-gala`,
    room: name,
    bins: 100,
    weeksToEmpty: 1,
    earliest: 0,
    latest: weeks - 1,
    bestBefore: weeks - 1,
    pinned: null,
    cartonsABin: Array.from({ length: weeks }, () => [10]),
    riskCost: inWeek(0, 0),
    ...change,
  });
  /** R1 is pinned to week 4, R2 stands in week 5; 1000 cartons are wanted in week 2. */
  const problem: ReleaseProblem = {
    ...madeProblem({ rooms: 1, weeks, varieties: 1, weeksToEmpty: 1 }, 1),
    rooms: [room('R1', { pinned: 4 }), room('R2', { earliest: 5 })],
    products: [{ variety: 'Gala', packClass: 'first' }],
    demands: [
      { id: 'home', market: 'home', product: 0, cartons: inWeek(2, 1000), price: 20, priceOfShortage: 10 },
    ],
    packingBins: Array.from({ length: weeks }, () => 100),
    packedWaitWeeks: 0,
    costOfWaiting: 0,
    processingPrice: 3,
  };
  const schedule: ReleaseSchedule = {
    opens: [4, 5],
    packed: [inWeek(4, 100), inWeek(5, 100)],
    sold: [inWeek(2, 0)],
    processed: [inWeek(4, 1000).map((one, week) => one + (week === 5 ? 1000 : 0))],
    value: 2000 * 3 - 1000 * 10,
  };
  const [r1, r2] = problem.rooms as [ProblemRoom, ProblemRoom];
  const cureOf = (change: Partial<ReleaseProblem>) =>
    releaseReasons({ ...problem, ...change }, schedule).cures[0];

  it('is let go of where it alone forbids the week', () => {
    // 1000 cartons at 20 and not short at 10, in place of processed at 3.
    const unpin = { room: 0, week: 2, cost: -27_000, cartons: 1000, inWeek: 1000, staysShort: 0 };
    expect(cureOf({})).toMatchObject({ short: 1000, left: 1000, unpin });
  });

  it('is kept where the window or the packhouse forbids the week as well', () => {
    expect(cureOf({ rooms: [{ ...r1, earliest: 3 }, r2] })?.unpin).toBeUndefined();
    expect(cureOf({ packingBins: [100, 100, 40, 100, 100, 100] })?.unpin).toBeUndefined();
  });

  it('is kept where a free room cures as much at no cost, and let go of where that costs', () => {
    const free = { ...r2, earliest: 0 };
    const [kept, dear] = [0, 40_000].map((risk) =>
      cureOf({ rooms: [r1, { ...free, riskCost: inWeek(2, risk) }] }),
    );
    expect(kept).toMatchObject({ left: 0, move: { room: 1, week: 2, cost: -27_000 } });
    expect(kept?.unpin).toBeUndefined();
    expect(dear).toMatchObject({
      left: 0,
      move: { room: 1, cost: 13_000 },
      unpin: { room: 0, cost: -27_000 },
    });
  });
});

/** The files as a plan folder. */
function inFolder(files: readonly SampleFile[]) {
  const refused = () => ({ failure: 'not here' });
  const textOf = (path: string) => files.find((one) => path.endsWith(one.path))?.text ?? '';
  return {
    kindOf: (path: string) => (path.endsWith('.yaml') ? ('file' as const) : ('folder' as const)),
    list: () => files.map(({ path }) => ({ name: path, kind: 'file' as const })),
    read: textOf,
    writeAll: () => ({ ...refused(), file: '', left: [] }),
    restore: refused,
    save: refused,
    realPath: (path: string) => path,
  };
}

describe('a room that a pin in a week without fruit keeps shut', () => {
  const season = seasonOf(
    sampleFiles('first-season').map(({ path, text }) => ({
      path,
      text: text.replace('open: 2027-W01', 'open: 2027-W15'),
    })),
  );
  const { problem, result } = season.release;
  const report = releaseReport(season, season.release, [], {
    violations: checkSchedule(problem, result.schedule, result.unmet),
    stoppedEarly: false,
    today: parseDay('2026-12-23'),
  });
  const row = report.rooms.find(({ room }) => room === 'R2');

  it('is told the best week that is left, and to move the pin there', () => {
    const week = row?.reason.instead?.week ?? '';
    expect(row?.opens).toBeUndefined();
    expect(week >= '2026-W52').toBe(true);
    expect(row && reasonText(row, 'EUR')).toMatch(
      new RegExp(`but it is pinned to 2027-W15: move its pin to ${week}, or take the pin out$`),
    );
  });

  it('is named where it would cure a shortage, in no week that has passed', () => {
    const winter = report.shortages.find(({ demand }) => demand === 'gala-winter');
    const text = winter ? cureText(winter, 'EUR') : '';
    expect(text).toContain('take out the pin of R2-gala (2027-W15): opened in ');
    expect((/opened in (\d{4}-W\d\d)/.exec(text)?.[1] ?? '') >= '2026-W52').toBe(true);
  });
});
