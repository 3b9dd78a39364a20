import { describe, expect, test } from 'vitest';
import type { Solve } from '../../src/cli/io';
import { quickRelease } from '../../src/release/quick';
import { sampleFiles } from '../samples/sample';
import { inMemory, lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const FIRST = 'sample-plans/first-season';

describe('the release command', () => {
  test('passes on seed, time limit and gap', async () => {
    let seen: unknown;
    const solve: Solve = async (problem, settings) => {
      seen = settings;
      return quickRelease(problem, { seed: settings.seed, moves: 500 });
    };
    await lotwright(['release', FIRST, '--seed', '7', '--time-limit', '2.5', '--gap', '3'], { solve });
    expect(seen).toEqual({ seed: 7, timeLimitSeconds: 2.5, gap: 0.03 });
  });

  test('shows progress where someone watches, and only there', async () => {
    const watched = await lotwright(['release', FIRST], { terminal: true });
    expect(watched.err).toContain('searching 50 %, best so far 100, within 9.1 % of the bound');
    expect(watched.err.endsWith('\r\u001B[K')).toBe(true);
    const piped = await lotwright(['release', FIRST]);
    expect(piped.err).toBe('');
    expect(piped.out).toBe(watched.out);
  });

  test('stops when asked to, prints the best schedule so far and says so', async () => {
    let interrupt = () => {};
    const solve: Solve = async (problem, { seed }, _onProgress, stop) => {
      expect(stop.aborted).toBe(false);
      interrupt();
      expect(stop.aborted).toBe(true);
      return quickRelease(problem, { seed, moves: 200 });
    };
    let ended = false;
    const { out, code } = await lotwright(['release', FIRST], {
      solve,
      onInterrupt: (stop) => {
        interrupt = stop;
        return () => {
          ended = true;
        };
      },
    });
    expect(code).toBe(0);
    expect(out).toContain('Stopped before the search was done: this is the best schedule found until then.');
    expect(ended).toBe(true);
  });

  test('stops drawing seasons when asked to, and keeps the schedule found before', async () => {
    let asked = 0;
    const { out, code } = await lotwright(['release', FIRST, '--good-across', '6'], {
      onInterrupt: (stop) => {
        asked += 1;
        // The solver is let be; the drawing is stopped at once.
        if (asked === 2) stop();
        return () => {};
      },
    });
    expect(code).toBe(0);
    expect(out).toContain('Stopped before the search was done');
    expect(out).not.toContain('Good across seasons');
    const { out: usual } = await lotwright(['release', FIRST]);
    expect(out.slice(out.indexOf('Week by week'))).toBe(usual.slice(usual.indexOf('Week by week')));
  });

  test('--good-across tells both schedules on seasons neither was sought on', async () => {
    const words = ['release', FIRST, '--good-across', '6', '--draws', '20', '--format', 'json'];
    const { out } = await lotwright(words);
    const { goodAcross, uncertainty } = JSON.parse(out);
    expect(goodAcross.mean).toBeGreaterThanOrEqual(goodAcross.meanBefore);
    expect([goodAcross.draws, goodAcross.expected.draws, uncertainty.draws]).toEqual([6, 20, 20]);
    const { out: alone } = await lotwright(['release', FIRST, '--draws', '20', '--format', 'json']);
    // The first seasons of a seed are those that are sought on.
    expect(JSON.parse(alone).uncertainty.mean).not.toBe(goodAcross.expected.mean);
  });

  test('the same seed gives the same schedule', async () => {
    const runs = await Promise.all([1, 2].map(() => lotwright(['release', FIRST, '--format', 'json'])));
    expect(runs[0]?.out).toBe(runs[1]?.out);
  });

  test('a schedule that the independent check finds wrong is never passed on as good', async () => {
    const solve: Solve = async (problem, { seed }) => {
      const result = quickRelease(problem, { seed, moves: 500 });
      return { ...result, schedule: { ...result.schedule, value: result.schedule.value + 1000 } };
    };
    const { code, out } = await lotwright(['release', FIRST], { solve });
    expect(code).toBe(2);
    expect(out).toContain('An independent check found the schedule wrong; do not use it');
  });

  test('more seasons than tell anything are refused, and in a log each tenth of many is a line', async () => {
    const tooMany = await lotwright(['release', FIRST, '--draws', '1000000']);
    expect(tooMany.code).toBe(2);
    expect(tooMany.err).toContain('Write a whole number up to 100000');
    const { err } = await lotwright(['release', FIRST, '--draws', '2000']);
    expect(err.match(/drawing seasons \d+ %/g)).toEqual(
      expect.arrayContaining(['drawing seasons 50 %', 'drawing seasons 100 %']),
    );
    const few = await lotwright(['release', FIRST, '--draws', '20']);
    expect(few.err).not.toContain('drawing seasons');
  });

  test('drawing that is stopped leaves the schedule what it is, and says so', async () => {
    let starts = 0;
    // Solving comes first and may be stopped too; here somebody stops the drawing.
    const onInterrupt = (stop: () => void) => {
      starts++;
      if (starts === 2) stop();
      return () => {};
    };
    const { out, err } = await lotwright(['release', FIRST, '--draws', '2000'], { onInterrupt });
    expect(err).toContain('The drawing of seasons was stopped: no chances are told.');
    expect(out).not.toContain('Stopped before the search was done');
  });

  test('a plan with too little for a schedule says what it takes', async () => {
    const files = inMemory({ '/p/a.lotplan.yaml': 'season:\n  name: Test\n' });
    const { code, out, err } = await lotwright(['release', 'p'], { files, cwd: '/' });
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(
      '`season` has no `starts` that can be read; `season` has no `ends` that can be read',
    );
  });

  test('of a plan that cannot be wholly read, nothing is told as proven without that word', async () => {
    // The bracket of a lot is not closed: what stands behind it may be lost.
    const files = inMemory(
      Object.fromEntries(
        sampleFiles('first-season').map(({ path: file, text }) => [
          `/p/${file}`,
          text.replace(
            'D3: { variety: Golden Delicious, block: Larkfield East',
            'D3: { variety: [Golden Delicious',
          ),
        ]),
      ),
    );
    const given = { files, cwd: '/' };
    const { code, out } = await lotwright(['release', 'p'], given);
    expect(code).toBe(1);
    const told = out.replace(/\s+/g, ' ');
    expect(told).toMatch(/Not all of the plan could be read: .*fruit\.lotplan\.yaml:\d+:\d+/);
    expect(told.indexOf('Not all of the plan could be read')).toBeLessThan(told.indexOf('Value EUR'));
    expect(told).not.toContain('Proven: no schedule');
    const windows = await lotwright(['windows', 'p'], given);
    expect(windows.out).toContain('Not all of the plan could be read');
    const json = await lotwright(['release', 'p', '--format', 'json'], given);
    const report = JSON.parse(json.out);
    expect(errorsAgainst('release-report', report)).toEqual([]);
    expect(report.plan.notRead.first.file).toContain('fruit.lotplan.yaml');
  });
});
