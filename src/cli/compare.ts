import path from 'node:path';
import { type Command, Option } from 'commander';
import { comparePlans } from '../compare/compare';
import { gravities } from '../compare/types';
import { type Day, formatDay } from '../plan/dates';
import type { UnitSystem } from '../plan/display';
import { asOf } from '../plan/known';
import type { Plan } from '../plan/model';
import { readPlan } from '../plan/read';
import { toldIn } from '../plan/told-units';
import { compareMarkdown, MOST_CHARACTERS } from '../report/compare-markdown';
import { type ComparedPlans, compareReport, comparisonFails, type FailOn } from '../report/compare-report';
import { compareText } from '../report/compare-text';
import { displayUnits } from '../report/explain';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { folderOnDisk, mergeBase, nameInGit, planAtRevision, type RevisionFolder } from './git-plans';
import { CannotRun, type Io } from './io';
import { day, wholeNumber } from './options';
import { openPlan } from './plan-files';
import { repositoryPath } from './repository';
import { EXIT, type Run } from './run';

const HELP = `
Says what a change of the plan is, and what it does to rooms, weeks and cartons. Each of the two plans is
a folder, or <revision>:<folder> as git has it: from the repository's root, or from the current folder
where it begins with ./ or ../ (HEAD:./2026, HEAD:.). Without the first, the new plan is compared with
the commit at which the work at hand left its base (--base); without both, with the current folder's.

With --since the plan is compared with itself as it was known on a day: what has been recorded after it,
and what that did.

Text that says the same is no change: files moved, entries in another order, comments, other units for
the same quantity, other names.

What follows comes worse before better, each the gravest first, by facts alone:
  error      a finding of severity error: the plan cannot work as it stands
  closed     fruit in a room with no week it can be opened in, or that the schedule leaves closed
  short      cartons that are wanted and not there
  overload   a scrubber, nitrogen source or cooling asked for more than it gives
  warning    a finding of severity warning
  value      what the schedule is worth
  shift      a window, week, load or amount that is other than it was, within what the plan allows

Because of   the edits that bring it about. A few edits are each tried alone on the old plan, and what
             they do together beyond that is told; more than six are made one upon the other, and more
             than 24 in groups: which edit of a group it is cannot be told, and it is said so
Too small    differences below policy: compare: of the plan; they are counted, not listed

Both plans are scheduled in the same opening weeks, so that what differs comes of the change and not of
another search: a room leaves its week only where it must, or where it gains more than moving costs
(policy: price-of-change). A check of either plan alone, or a comparison with a third one, may choose
other weeks, so that the same plan is worth somewhat more or less there.

Each room is followed through its gas (oxygen that climbs, set-points reached late) where there are no
more than 24 edits; with more, only with --courses, and what was not computed is said.

With --format markdown it is a comment for a pull request: its first line tells it from other comments,
so that the next one can take its place; it is empty where nothing has changed. --link-base is what
stands before a file's path from the repository's root in its links, whatever folder the command is
run in, as https://forge.example/us/plans/blob/4f2a1c/

${wrap(caution, PAGE_WIDTH).join('\n')}

Exit codes:
  0   nothing for the worse that is as grave as --fail-on
  1   something is
  2   a plan could not be read, or the command was not understood

Examples:
  lotwright compare plans/2025 plans/2026
  lotwright compare plans/2026
  lotwright compare main:plans/2026 plans/2026 --fail-on short
  lotwright compare plans/2026 --since 2027-01-05
  lotwright compare HEAD~1:plans/2026 HEAD:plans/2026 --format json
  lotwright compare plans/2026 --base origin/main --format markdown > comment.md
`;

interface CompareCommandOptions {
  readonly format: 'text' | 'json' | 'markdown';
  readonly units?: UnitSystem;
  readonly failOn: FailOn;
  readonly seed: number;
  readonly courses?: boolean;
  readonly base?: string;
  readonly since?: Day;
  readonly linkBase: string;
  readonly marker?: string;
}

export function addCompare(program: Command, run: Run): void {
  program
    .command('compare')
    .description('what a change of the plan does to rooms, weeks and cartons')
    .argument(
      '[old]',
      'the plan as it was: a folder or <revision>:<folder> (default: where the work left its base)',
    )
    .argument('[new]', 'the plan as it is (default: the same folder as it stands)')
    .addOption(
      new Option('--format <format>', 'text for people, json for programs, markdown for a pull request')
        .choices(['text', 'json', 'markdown'])
        .default('text'),
    )
    .addOption(
      new Option('--units <system>', 'units results are shown in (default: as the new plan says)').choices([
        'metric',
        'us',
      ]),
    )
    .addOption(
      new Option('--fail-on <gravity>', 'least gravity for the worse that gives exit code 1')
        .choices([...gravities, 'never'])
        .default('error'),
    )
    .addOption(
      new Option('--seed <number>', 'seed of the search for the weeks').argParser(wholeNumber).default(1),
    )
    .option('--courses', 'follow each room through its gas however many edits there are')
    .option('--base <revision>', 'the branch the work left (default: what it tracks, else main or master)')
    .addOption(
      new Option(
        '--since <date>',
        'what has been recorded after a day has done to the plan, as 2027-01-05',
      ).argParser(day),
    )
    .option('--link-base <address>', 'what stands before the paths in the links of the comment', '')
    .option('--marker <text>', "what tells this comment from others (default: the new plan's folder)")
    .addHelpText('after', HELP)
    .action((first: string | undefined, second: string | undefined, options: CompareCommandOptions) => {
      const opened =
        options.since === undefined
          ? openBoth(run.io, first, second, options.base)
          : openSince(run.io, first, second, options.since);
      const units = displayUnits(opened.now.plan, options.units);
      // Findings of both are told in the same units, so that they can be held against each other.
      const told = ({ name, plan }: ComparedPlans['now']) => ({ name, plan: toldIn(plan, units.system) });
      const plans = { old: told(opened.old), now: told(opened.now) };
      const { comparison } = comparePlans(plans.old.plan, plans.now.plan, {
        seed: options.seed,
        courses: options.courses === true ? true : 'unless-many',
        since: options.since,
      });
      run.io.out.write(printed());
      run.exitCode = comparisonFails(comparison, options.failOn) ? EXIT.findings : EXIT.clean;

      function printed(): string {
        switch (options.format) {
          case 'json':
            return `${JSON.stringify(compareReport(comparison, plans, { units, failOn: options.failOn }), null, 2)}\n`;
          case 'markdown':
            return compareMarkdown(comparison, plans, {
              units,
              linkBase: options.linkBase,
              // Behind the base stands the path from the repository's root, wherever the command is run.
              ...(options.linkBase !== '' && { linkPath: repositoryPath(run.io, undefined, undefined) }),
              marker: options.marker ?? plans.now.name,
              most: MOST_CHARACTERS,
            });
          case 'text':
            return `${compareText(comparison, plans, units, run.io.paint)}\n`;
        }
      }
    });
}

/** The two plans of a command line. Throws `CannotRun` where one cannot be read. */
export function openBoth(
  io: Io,
  first: string | undefined,
  second: string | undefined,
  base: string | undefined,
): ComparedPlans {
  if (first !== undefined && second !== undefined) return { old: open(io, first), now: open(io, second) };
  const at = first === undefined ? undefined : revisionIn(io, first);
  if (first !== undefined && at) return { old: open(io, first), now: open(io, folderOnDisk(io, at.named)) };
  const folder = first ?? '.';
  // Wrong folders are told before anything is said of branches.
  const now = open(io, folder);
  const { commit, of } = mergeBase(io, base);
  return { old: atRevision(io, { revision: commit, named: nameInGit(io, folder), called: of }), now };
}

/** A plan as it was known on a day, and as it is known now. */
function openSince(
  io: Io,
  folder: string | undefined,
  second: string | undefined,
  since: Day,
): ComparedPlans {
  if (second !== undefined)
    throw new CannotRun('--since compares a plan with itself as it was known on a day. Give one folder.');
  const now = open(io, folder ?? '.');
  return { old: { name: `${now.name} as of ${formatDay(since)}`, plan: asOf(now.plan, since) }, now };
}

function open(io: Io, given: string): { readonly name: string; readonly plan: Plan } {
  const at = revisionIn(io, given);
  return at ? atRevision(io, at) : { name: given, plan: openPlan(io, given) };
}

function atRevision(io: Io, at: RevisionFolder): { readonly name: string; readonly plan: Plan } {
  const { name, files } = planAtRevision(io, at);
  return { name, plan: readPlan(files) };
}

/** What stands before and behind the colon of `main:plans/2026`; undefined for a folder, whatever its name. */
function revisionIn(io: Io, given: string): RevisionFolder | undefined {
  const colon = given.indexOf(':');
  if (colon <= 0 || io.files.kindOf(path.resolve(io.cwd, given)) !== 'missing') return undefined;
  return { revision: given.slice(0, colon), named: given.slice(colon + 1) };
}
