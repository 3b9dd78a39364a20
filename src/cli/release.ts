import { type Command, InvalidArgumentError, Option } from 'commander';
import { computeSeason, withCourses, withRelease } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import { checkSchedule } from '../release/checker';
import { whyNoSchedule } from '../release/lacks';
import { withPackingPlan } from '../release/packing-plan';
import { releaseProblem } from '../release/problem';
import type { ReleaseProblem, ReleaseResult } from '../release/types';
import { weekEdits } from '../release/week-edits';
import { releaseDefaults } from '../release/worker-protocol';
import { commandToCopy } from '../report/command-to-copy';
import { releaseReport } from '../report/release-report';
import { releaseText } from '../report/release-text';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { drawnSeasons } from './draws';
import { CannotRun, type Io } from './io';
import {
  atLeastOne,
  type PlanOptions,
  positiveNumber,
  type TodayOption,
  withFolder,
  withPlanOptions,
  withToday,
} from './options';
import { openPlan } from './plan-files';
import { progressLine } from './progress';
import { publishedWeeks } from './published-schedule';
import { foundWithReadings } from './readings-files';
import { EXIT, endWithFindings, print, type Run } from './run';
import { writeWeeks } from './write-weeks';

const HELP = `
The schedule is found by a search and a solver, then checked by a program that shares nothing with
them. "Within x % of a proven bound" means: no schedule can be worth more than the bound, and this
one is x % below it.

  Week by week   rooms that open; bins packed against what the packhouse can run; cartons wanted,
                 sold, short; unsold: packed and never sold, goes to processing; in stock: packed
                 cartons that wait for their sale at the week's end
  Room by room   the week each room opens, the week it is empty, the weeks it may be opened in,
                 and whether the week is pinned in the plan, or has passed by the day of --today
  Short          demand that is not met, and in which weeks
  Why            with --reasons: what one week earlier or later would cost and break, each solved
                 again with the other rooms as they are, and what would cure each shortage

With --keep-weeks, moving a room by a week from the schedule published last counts as much as
policy: price-of-change says, by default 0.2 % of what the room's fruit would bring; a room left
closed counts as moved to the farther end of its window. With --write, the weeks go into the plan
as open: of every fill that has none; comments and all else stay.

Where the plan records what has happened (progress, packed, sales), the schedule goes on from the
last day recorded, or from that of --as-of: opened rooms give what is left in them, no other opens
before, and what was packed and sold is done. With --keep-weeks each room that moves says what
keeping its published week would cost, so that weeks stay unless a change is worth its price.

With --draws, seasons are drawn in which crop, storage life, packout and demand differ from the
plan as policy: uncertainty says (by default 8, 10, 4 and 10 %): the chance of being short by week
and variety, what the schedule is worth, and the rooms it hangs on. Uneven work counts as each
season went; opening weeks are held, and what is packed of a room in each week is spread anew,
knowing how the season goes; fruit that keeps longer stays firm for buyers as much longer. Every
second season mirrors the one before, so that the plan is in their middle. The same seed draws the
same.

With --good-across, the opening weeks are sought that are worth most on average over so many seasons
drawn, and not only if all comes as expected: a room opened a little sooner may cost something in
the season as planned, and save a soft room or an empty week in many others. It starts from the
schedule that is best as expected, and is never worse than that on the seasons it is sought on,
there with rooms packed in the planned proportions. Both are then told on other seasons (--draws
says how many, by default 200), so that neither is flattered: mean, worst tenth, the chance of being
short by week and variety, the rooms that moved.
40 to 100 seasons are enough to seek on; more take longer and move less.

Ctrl-C stops the search and prints the best schedule found until then.

${wrap(caution, PAGE_WIDTH).join('\n')}

Examples:
  lotwright release plans/2026
  lotwright release --time-limit 60 --gap 0.5
  lotwright release --reasons
  lotwright release --draws 300 --seed 1
  lotwright release --good-across 60
  lotwright release --good-across 60 --draws 500 --write
  lotwright release --keep-weeks published.json --write
  lotwright release --as-of 2027-01-12 --keep-weeks published.json
  lotwright release --format json > release.json
`;

interface ReleaseOptions extends PlanOptions, TodayOption {
  readonly timeLimit: number;
  /** Per cent. */
  readonly gap: number;
  readonly reasons?: boolean;
  readonly keepWeeks?: string;
  readonly write?: boolean;
  readonly draws?: number;
  readonly goodAcross?: number;
}

export function addRelease(program: Command, run: Run): void {
  withToday(withPlanOptions(withFolder(program.command('release'))))
    .description('the release schedule: which room opens in which week, what is packed and sold')
    .addOption(
      new Option(
        '--time-limit <seconds>',
        'work for the proof, in seconds of a usual machine; counted, so that any machine finds the same',
      )
        .argParser(positiveNumber)
        .default(releaseDefaults.timeLimitSeconds),
    )
    .addOption(
      new Option('--gap <per cent>', 'stop when within this of the bound')
        .argParser(positiveNumber)
        .default(releaseDefaults.gap * 100),
    )
    .option('--reasons', 'why each room opens in its week, and what would cure each shortage')
    .addOption(
      new Option(
        '--draws <number>',
        `seasons to draw from policy: uncertainty, as 300, up to ${MOST_DRAWS}`,
      ).argParser(drawsNumber),
    )
    .addOption(
      new Option(
        '--good-across <number>',
        'seek weeks that are good across so many seasons drawn, as 60',
      ).argParser(drawsNumber),
    )
    .option('--keep-weeks <file>', 'count each change from a release report printed earlier as JSON')
    .option('--write', "put the weeks found into the plan's files, as pins of the fills that have none")
    .addHelpText('after', HELP)
    .action(async (folder: string | undefined, options: ReleaseOptions) => {
      if (options.write && options.asOf !== undefined)
        throw new CannotRun('Weeks are written into the plan as it is now. Leave out --as-of, or --write.');
      const season = computeSeason(openPlan(run.io, folder, options), { release: 'none' });
      const published =
        options.keepWeeks === undefined ? undefined : publishedWeeks(run.io, options.keepWeeks, folder);
      const problem = releaseProblem(season.plan, season.keeping, { published });
      if (!problem) throw new CannotRun(noProblem(season, options.folder));
      const highs = await run.io.loadSolver();
      const found = await solve(run.io, problem, options);
      const solved = { ...found, result: withPackingPlan(highs, problem, found.result) };
      const drawn = solved.stoppedEarly
        ? { ...solved, report: undefined }
        : await drawnSeasons(run.io, season, problem, solved.result, options);
      // A schedule stays what it is proven to be where only the drawing of seasons was stopped.
      const stoppedEarly = solved.stoppedEarly || (drawn.stoppedEarly && options.goodAcross !== undefined);
      const result = withPackingPlan(highs, problem, drawn.result);
      const violations = checkSchedule(problem, result.schedule, result.unmet);
      const release = { problem, result };
      const findings = foundWithReadings(run.io, withCourses(withRelease(season, release)), options);
      const sound = violations.length === 0 && !stoppedEarly;
      const weeks = weekEdits(season.plan, problem, result.schedule);
      if (options.write && sound) writeWeeks(run.io, season.plan, weeks);
      const report = releaseReport(season, release, findings, {
        units: options.units,
        violations,
        stoppedEarly,
        today: options.today ?? options.asOf ?? run.io.today,
        drawn: drawn.report,
        written: options.write && sound ? weeks : undefined,
      });
      print(run, options, report, () => releaseText(report, run.io.paint, { reasons: options.reasons }));
      endWithFindings(run, findings, options, 'With this schedule the plan has');
      if (drawn.stoppedEarly && !stoppedEarly)
        run.io.err.write('\nThe drawing of seasons was stopped: no chances are told.\n');
      if (violations.length > 0) run.exitCode = EXIT.cannotRun;
      if (options.write && !sound)
        run.io.err.write(
          `\nNothing is written: ${stoppedEarly ? 'the search was stopped' : 'the schedule is wrong'}.\n`,
        );
    });
}

/** More draws than this only cost time: chances are then told to a sixth of a point. */
const MOST_DRAWS = 100_000;

function drawsNumber(text: string): number {
  const value = atLeastOne(text);
  if (value > MOST_DRAWS)
    throw new InvalidArgumentError(
      `Write a whole number up to ${MOST_DRAWS}: more seasons tell nothing more.`,
    );
  return value;
}

function noProblem({ plan, keeping }: ComputedSeason, folder: string | undefined): string {
  const why = whyNoSchedule(plan, keeping);
  return `${why}${why.includes('\n') ? '\n' : ' '}See what is wrong with: ${commandToCopy('check', folder)}`;
}

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
