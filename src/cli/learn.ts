import type { Command } from 'commander';
import { computeSeason, QUICK_MOVES } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import type { Lesson } from '../learning/lesson';
import { lessonEdits } from '../learning/written';
import type { Week } from '../plan/dates';
import type { Plan } from '../plan/model';
import { nearest } from '../plan/nearest';
import { finish } from '../plan/steps';
import { releaseProblem } from '../release/problem';
import { releaseInWeeks } from '../release/published-weeks';
import { commandToCopy } from '../report/command-to-copy';
import { learnReport } from '../report/learn-report';
import { type LearnedSeason, learnSeasonSteps } from '../report/learn-season';
import { learnText } from '../report/learn-text';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { CannotRun } from './io';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { publishedWeeks } from './published-schedule';
import { foundWithReadings, valuesOfPlan } from './readings-files';
import { endWithFindings, print, type Run } from './run';
import { wholeSeason } from './season';
import { writeWeeks } from './write-weeks';

const HELP = `
What the records of the season say of the values the plan reckons with:

  respiration/<fill>  how fast its fruit breathes in its gas, as a share of what the varieties give:
                      from the climb of carbon dioxide in its readings while nothing scrubs
  leakage/<room>      the air that leaks and weather bring in: from how oxygen changes meanwhile
  firmness/<lot>      firmness at harvest and softening, from its samples; with few of them the
                      test at harvest and the variety count the more
  packout/<lot>       share of each class, from what was packed of it
  crop/<lot>          what a lot to come will give, from the receipts of its block, grower, variety

Each is told with the limits between which it lies 95 times in 100; \`differs\` marks those for which
the plan's own value lies outside. Rests are found in the readings themselves: 6 hours or more in
which carbon dioxide climbs and nothing feeds, scrubs or lets air in. With --of you see what was
read beside what was fitted, what the interval is made of, and what the lesson changes: of its room
or lot, and of the season, windows, opening weeks, loads and orders before and after. Rooms keep the
weeks of the quick schedule there, or with --keep-weeks those published before, where they can.

Nothing is written until you take a lesson into the plan with --write: it stands there as a value of
your own with its source beside it, every comment stays, and deleting it takes it back.

${wrap(caution, PAGE_WIDTH).join('\n')}

Exit codes: 0 told, 1 told of a plan with errors, 2 the plan or a file could not be read, or
there is no such lesson.

Examples:
  lotwright learn plans/2026
  lotwright learn plans/2026 --of respiration/R2-gala
  lotwright learn plans/2026 --write respiration/R2-gala leakage/R2
  lotwright learn plans/2026 --of firmness/G4 --keep-weeks published.json
  lotwright learn plans/2026 --as-of 2026-12-01 --format json
`;

interface LearnOptions extends PlanOptions {
  readonly of?: readonly string[];
  readonly write?: readonly string[];
  readonly keepWeeks?: string;
}

export function addLearn(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('learn')))
    .description('what records teach: respiration, leaks, firmness, packout and crop, with intervals')
    .option('--of <lesson...>', 'only these, with what they rest on and what they change')
    .option('--write <lesson...>', 'take these into the plan, with their source')
    .option('--keep-weeks <file>', 'open rooms as published: a release report in JSON')
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: LearnOptions) => {
      const plan = openPlan(run.io, folder, options);
      const readings = valuesOfPlan(run.io, plan, options);
      const wanted = [...new Set([...(options.of ?? []), ...(options.write ?? [])])];
      const of = wanted.length > 0 ? wanted : undefined;
      const release =
        options.keepWeeks === undefined
          ? undefined
          : asPublished(plan, publishedWeeks(run.io, options.keepWeeks, options.folder), options.seed);
      const learned = finish(learnSeasonSteps(plan, readings, { of, release }));
      const taken = lessonsNamed(learned, options.write ?? [], options.folder);
      lessonsNamed(learned, wanted, options.folder);
      if (taken.length > 0) writeLessons(run, plan, taken);
      const shown =
        wanted.length === 0
          ? learned
          : { ...learned, lessons: learned.lessons.filter(({ id }) => wanted.includes(id)), not: [] };
      const report = learnReport(shown, new Set(taken.map(({ id }) => id)), options.units);
      print(run, options, report, () => learnText(report, wanted.length > 0, run.io.paint));
      endWithFindings(run, foundWithReadings(run.io, wholeSeason(plan, options), options), options);
    });
}

/** The schedule with its rooms opened in the weeks published; undefined where the plan has too little for one. */
function asPublished(plan: Plan, weeks: ReadonlyMap<string, Week>, seed: number): ComputedSeason['release'] {
  const season = computeSeason(plan, { release: 'none' });
  const problem = releaseProblem(season.plan, season.keeping);
  return problem && { problem, result: releaseInWeeks(problem, weeks, { seed, moves: QUICK_MOVES }) };
}

function lessonsNamed(
  { lessons, not }: LearnedSeason,
  ids: readonly string[],
  folder: string | undefined,
): Lesson[] {
  return ids.map((id) => {
    const found = lessons.find((lesson) => lesson.id === id);
    if (found) return found;
    const untold = not.find(({ kind, entry }) => `${kind}/${entry}` === id);
    if (untold) throw new CannotRun(`Nothing can be told of ${id}. ${untold.reason}`);
    const meant = nearest(
      id,
      lessons.map((lesson) => lesson.id),
    );
    throw new CannotRun(
      `There is no lesson ${id}.${meant ? ` Is ${meant} meant?` : ` ${commandToCopy('learn', folder)} lists those there are.`}`,
    );
  });
}

/** Of an interval: what has been written and is nearer than this to what would be is the same but for rounding. */
const SAME = 1 / 20;

/** Whether the plan has a value of its own in the lesson's place that is the same but for rounding. */
function isThere(plan: Plan, lesson: Lesson): boolean {
  const edits = lessonEdits(plan, lesson);
  const replaces = edits.length > 0 && edits.every(({ at }) => at.end > at.start);
  return (
    replaces &&
    lesson.values.every(
      ({ before, fitted: { value, low, high } }) =>
        before !== undefined && Math.abs(before - value) <= SAME * (high - low),
    )
  );
}

function writeLessons(run: Run, plan: Plan, lessons: readonly Lesson[]): void {
  const there = lessons.filter((lesson) => isThere(plan, lesson));
  if (there.length > 0) run.io.err.write(`Already there: ${there.map(({ id }) => id).join(', ')}\n`);
  const edits = lessons.flatMap((lesson) => (there.includes(lesson) ? [] : lessonEdits(plan, lesson)));
  const files = [...new Set(edits.map(({ at }) => at.file))];
  writeWeeks(
    run.io,
    plan,
    files.map((file) => ({ file, edits: edits.filter(({ at }) => at.file === file) })),
  );
}
