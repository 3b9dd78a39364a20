import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { parseWeek } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { checkSchedule } from '../../src/release/checker';
import { policyCures } from '../../src/release/policy-cures';
import { releaseReasons } from '../../src/release/reasons';
import { Standing } from '../../src/release/standing';
import { policyTrials } from '../../src/report/policy-trials';
import { cureText } from '../../src/report/reason-text';
import { releaseReport } from '../../src/report/release-report';
import { errorsAgainst } from '../cli/schemas';
import { type SampleFile, sampleFiles } from '../samples/sample';

/** The first season with another packing policy, and a text of it otherwise. */
function seasonWith(wait: string, empty: string, [now, then]: readonly [string, string] = ['', '']) {
  const policy = (text: string) =>
    text
      .replace(/packed-wait: .*/, wait)
      .replace(/days-to-empty: .*/, empty)
      .replace(now, then);
  return seasonOf(sampleFiles('first-season').map(({ path, text }) => ({ path, text: policy(text) })));
}

function seasonOf(files: readonly SampleFile[]) {
  const season = computeSeason(readPlan([...files]), { courses: true });
  if (!season.release) throw new Error('the season has no schedule');
  return { ...season, release: season.release };
}

function reportOf(season: ReturnType<typeof seasonWith>) {
  const { problem, result } = season.release;
  return releaseReport(season, season.release, [], {
    violations: checkSchedule(problem, result.schedule),
    stoppedEarly: false,
  });
}

describe('a week that stays short because packed fruit may not wait for it', () => {
  // A packhouse that sends out within two weeks what it packs, and empties a room in two.
  const season = seasonWith('packed-wait: 14 days', 'days-to-empty: 14 days');
  const report = reportOf(season);
  const { problem, result } = season.release;
  const autumn = report.shortages.find(({ demand }) => demand === 'gala-autumn');
  const last = autumn?.weeks.at(-1);

  it('is told to let it wait longer, or to take longer over the room, and to buy in last', () => {
    if (!autumn) throw new Error('the order is not short');
    expect(cureText(autumn, 'EUR')).toBe(
      'gala-autumn in 2026-W44, 250 short: no room moved alone or with one other, and no more packing, makes it noticeably smaller; ' +
        'with `packed-wait: 21 days` (now 14) 250 cartons of it are met; ' +
        'or with `days-to-empty: 21 days` (now 14) and R1 packed out over more weeks 250 cartons of it are met; ' +
        'or buy in, or agree on 250 cartons less',
    );
  });

  it('has been tried: with that wait in the plan the same openings and packing fill the week', () => {
    expect(last).toMatchObject({ week: '2026-W44', cartonsShort: 250 });
    const wait = last?.cure.policy?.find(({ key }) => key === 'packed-wait');
    expect(wait).toMatchObject({ days: 21, insteadOf: 14, cartonsInWeek: 250 });
    const longer = seasonWith('packed-wait: 21 days', 'days-to-empty: 14 days').release.problem;
    const at = (parseWeek('2026-W44') ?? 0) - problem.firstWeek;
    const order = problem.demands.findIndex(({ id }) => id === 'gala-autumn');
    expect(result.schedule.sold[order]?.[at]).toBeCloseTo(0, 6);
    expect(new Standing(longer, result.schedule).sold[order]?.[at]).toBeCloseTo(250, 6);
  });

  it('and with these days to empty the room opens in the same week and fills it', () => {
    const days = last?.cure.policy?.find(({ key }) => key === 'days-to-empty');
    expect(days?.room).toMatchObject({ room: 'R1', opens: days?.room?.insteadOf });
    const longer = seasonWith('packed-wait: 14 days', 'days-to-empty: 21 days').release.problem;
    const opens = result.schedule.opens[0] ?? -1;
    expect(longer.rooms[0]).toMatchObject({ room: 'R1' });
    expect(opens).toBeLessThanOrEqual(longer.rooms[0]?.latest ?? -1);
    const order = longer.demands.findIndex(({ id }) => id === 'gala-autumn');
    const at = (parseWeek('2026-W44') ?? 0) - longer.firstWeek;
    expect(new Standing(longer, result.schedule).whatIf(0, opens)?.sold[order]?.[at]).toBeCloseTo(250, 3);
  });

  it('as JSON keeps its schema', () => {
    expect(errorsAgainst('release-report', report)).toEqual([]);
  });
});

describe('a week that is short because there is no more fruit', () => {
  it('has no policy to be told: buying in is all there is', () => {
    const season = seasonWith('packed-wait: 21 days', 'days-to-empty: 28 days', [
      'cartons: 250',
      'cartons: 2500',
    ]);
    const autumn = reportOf(season).shortages.find(({ demand }) => demand === 'gala-autumn');
    expect(autumn?.weeks.length).toBeGreaterThan(0);
    for (const { cure } of autumn?.weeks ?? []) expect(cure.policy).toBeUndefined();
    expect(autumn && cureText(autumn, 'EUR')).not.toContain('packed-wait');
    expect(autumn && cureText(autumn, 'EUR')).toContain('buy in');
  });

  it('makes no trial where no week is short', () => {
    const season = seasonOf(sampleFiles('first-season'));
    const { problem, result } = season.release;
    const { cures } = releaseReasons(problem, result.schedule);
    let trials = 0;
    const counting = () => {
      trials += 1;
      return policyTrials(season, problem);
    };
    expect(policyCures(problem, result.schedule, cures, counting)).toEqual([]);
    expect(trials).toBe(0);
  });
});
