import { type Command, Option } from 'commander';
import { computeSeason, withRelease } from '../findings/compute';
import { findingsOf } from '../findings/find';
import { checkSchedule } from '../release/checker';
import { releaseProblem } from '../release/problem';
import type { ReleaseProblem, ReleaseResult } from '../release/types';
import { releaseDefaults } from '../release/worker-protocol';
import { releaseReport } from '../report/release-report';
import { releaseText } from '../report/release-text';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { CannotRun, type Io } from './io';
import { type PlanOptions, positiveNumber, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { progressLine } from './progress';
import { EXIT, endWithFindings, print, type Run } from './run';

const HELP = `
The schedule is found by a search and a solver, then checked by a program that shares nothing with
them. "Within x % of a proven bound" means: no schedule can be worth more than the bound, and this
one is x % below it.

  Week by week   rooms that open; bins packed against what the packhouse can run; cartons wanted,
                 sold, short, and the cartons' worth that goes to processing
  Room by room   the week each room opens, the week it is empty, the weeks it may be opened in,
                 and whether the week is pinned in the plan
  Short          demand that is not met, and in which weeks
  Why            with --reasons: what one week earlier or later would cost and break, each solved
                 again with the other rooms as they are, and what would cure each shortage

Ctrl-C stops the search and prints the best schedule found until then.

${wrap(caution, PAGE_WIDTH).join('\n')}

Examples:
  lotwright release plans/2026
  lotwright release --time-limit 60 --gap 0.5
  lotwright release --reasons
  lotwright release --format json > release.json
`;

interface ReleaseOptions extends PlanOptions {
  readonly timeLimit: number;
  /** Per cent. */
  readonly gap: number;
  readonly reasons?: boolean;
}

export function addRelease(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('release')))
    .description('the release schedule: which room opens in which week, what is packed and sold')
    .addOption(
      new Option('--time-limit <seconds>', 'time for the solver, after a search of a few seconds')
        .argParser(positiveNumber)
        .default(releaseDefaults.timeLimitSeconds),
    )
    .addOption(
      new Option('--gap <per cent>', 'stop when within this of the bound')
        .argParser(positiveNumber)
        .default(releaseDefaults.gap * 100),
    )
    .option('--reasons', 'why each room opens in its week, and what would cure each shortage')
    .addHelpText('after', HELP)
    .action(async (folder: string | undefined, options: ReleaseOptions) => {
      const season = computeSeason(openPlan(run.io, folder), { release: 'none' });
      const problem = releaseProblem(season.plan, season.keeping);
      if (!problem) throw new CannotRun(NO_PROBLEM);
      const { result, stoppedEarly } = await solve(run.io, problem, options);
      const violations = checkSchedule(problem, result.schedule, result.unmet);
      const release = { problem, result };
      const findings = findingsOf(withRelease(season, release));
      const report = releaseReport(season, release, findings, {
        units: options.units,
        violations,
        stoppedEarly,
      });
      print(run, options, report, () => releaseText(report, run.io.paint, { reasons: options.reasons }));
      endWithFindings(run, findings, options);
      if (violations.length > 0) run.exitCode = EXIT.cannotRun;
    });
}

const NO_PROBLEM =
  'There is too little in the plan for a release schedule: it takes a season, rooms with fills that have an opening window, demand, and packing. See what is missing with: lotwright check';

async function solve(
  io: Io,
  problem: ReleaseProblem,
  options: ReleaseOptions,
): Promise<{ result: ReleaseResult; stoppedEarly: boolean }> {
  const stop = new AbortController();
  const line = progressLine(io.err);
  const settled = io.onInterrupt(() => stop.abort());
  try {
    const settings = { seed: options.seed, timeLimitSeconds: options.timeLimit, gap: options.gap / 100 };
    const result = await io.solve(problem, settings, line.show, stop.signal);
    return { result, stoppedEarly: stop.signal.aborted };
  } finally {
    settled();
    line.clear();
  }
}
