import { type Command, InvalidArgumentError, Option } from 'commander';
import { checkFill } from '../fill/checker';
import { newFills } from '../fill/new-fills';
import { proposeFill } from '../fill/propose';
import type { FillProposal } from '../fill/types';
import { computeSeason } from '../findings/compute';
import { judgeFills } from '../findings/fills/judge';
import { fillProblemOf } from '../findings/fills/problem';
import { fillRemarks } from '../findings/fills/remarks';
import { findingsOf } from '../findings/find';
import { hasRule, rules } from '../findings/rules';
import { nearest } from '../plan/nearest';
import { commandToCopy } from '../report/command-to-copy';
import { fillReport } from '../report/fill-report';
import { fillText } from '../report/fill-text';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { CannotRun } from './io';
import {
  type PlanOptions,
  positiveNumber,
  type TodayOption,
  wholeNumber,
  withFolder,
  withPlanOptions,
  withToday,
} from './options';
import { openPlan } from './plan-files';
import { EXIT, endWithFindings, print, type Run } from './run';
import { writeFills } from './write-fills';

const HELP = `
Lots whose bins no fill of the plan takes are put into the rooms that no fill uses. Bins received
count in place of bins expected. Aims, in this order: no bin left over; growers together whom
policy: growers wants together; few rooms, and those full; fruit of one storage term, and of one
month's keeping, together in a room; lots whole; seven days from first bin to last, ten at the usual
most; bins in on the day they are picked, two later at most; few growers. No more bins come into a
room on a day than policy: intake-a-day says, none before it is ready, and growers whom policy:
growers wants apart share no room.

What a fill of the plan holds stays in its room. With --top-up, its free places may take more bins,
in its regime, within 14 days of its first bin; its last bin and its sealing are then put off where
they have to be, which the reasons tell by days and bins: a day of a hundred bins counts as much as
a bin left over, and no sealing is put off beyond 14 days from the first bin and its conditioning,
unless policy: findings lets sealed-late pass. A fill with a pinned opening week (open) takes no
more, nor does a room that is sealed, or whose filling is over, by the day of --today (of the clock,
where it is left out); each such fill is named.

A proposal makes no error that the plan does not have, and no warning that loses fruit or cannot be
done: no fruit too ripe for a sealed room, no room too leaky to hold its regime or too large for the
packhouse to empty in days-to-empty, no cooler of a room overloaded. It is laid over the plan and
found anew; what is to blame is taken out, and each lot left out is told with its finding and with
what would let it in: findings to let pass, with what the schedule is worth then, an order more,
another regime, a room ready sooner or another room. Each is found by placing it again; where none
is found, that is said. --despite <code> lets findings of a code pass. What the weeks of the quick
schedule make of promises and orders keeps no fruit out. An overload that the plan has already is
told with what the proposal adds to it; one that it makes so heavy that fruit is lost keeps it out.
Other new warnings are told with the proposal, each
with its text: a scrubber above its policy but not above what it can remove, refrigeration or
nitrogen shared by too many, oxygen that climbs by less than a third of its set-point. With --strict
they keep lots out too. Bins that the open orders and the packhouse cannot take while they are good
go to no room, and the quick release schedule is worth no less with the proposal than without it.

  Terms      the storage terms that the maturity of its lots suits
  Lasts to   last week its first lot is within standard; later the room should be empty
  Sealed     two days after the last bin, later where the fruit is conditioned first

Up to six rooms are also solved exactly, and the proposal then says whether it is proven best. With
--write, the fills go into the plan's text behind its last fill; comments and all else stay.

${wrap(caution, PAGE_WIDTH).join('\n')}

Examples:
  lotwright fill plans/2026
  lotwright fill --room R7 --write
  lotwright fill --top-up --today 2026-09-20
  lotwright fill --moves 20000 --seed 3
  lotwright fill --format json > fill.json
`;

const USUAL_MOVES = 2000;
const USUAL_SECONDS = 10;

interface FillCommandOptions extends PlanOptions, TodayOption {
  readonly moves: number;
  readonly timeLimit: number;
  readonly room?: readonly string[];
  readonly topUp?: boolean;
  readonly despite?: readonly string[];
  readonly strict?: boolean;
  readonly write?: boolean;
}

export function addFill(program: Command, run: Run): void {
  withToday(withPlanOptions(withFolder(program.command('fill'))))
    .description('a fill proposal: which lots to put into which free room')
    .addOption(
      new Option('--moves <number>', 'rounds of the search: more find better fills')
        .argParser(wholeNumber)
        .default(USUAL_MOVES),
    )
    .addOption(
      new Option('--time-limit <seconds>', 'time for the solver, where the rooms are few')
        .argParser(positiveNumber)
        .default(USUAL_SECONDS),
    )
    .addOption(
      new Option('--room <room>', 'tell of, and write, this room only; may be repeated').argParser(another),
    )
    .option('--top-up', "put bins into the free places of the plan's fills too, unless pinned or sealed")
    .addOption(
      new Option(
        '--despite <code>',
        'propose even what makes findings of this code; may be repeated',
      ).argParser(another),
    )
    .option('--strict', 'propose nothing that makes any warning that the plan does not have')
    .option('--write', "put the proposed fills into the plan's files")
    .addHelpText('after', HELP)
    .action(async (folder: string | undefined, options: FillCommandOptions) => {
      const season = computeSeason(openPlan(run.io, folder, options), {
        release: 'quick',
        seed: options.seed,
      });
      const today = options.today ?? options.asOf ?? run.io.today;
      const { seed, moves, timeLimit: timeLimitSeconds, topUp, strict } = options;
      const despite = knownCodes(options.despite);
      const problem = fillProblemOf(season, { topUp, today, despite, strict });
      const loadHighs = run.io.loadSolver;
      const searched = await proposeFill(problem, { seed, moves, timeLimitSeconds, loadHighs });
      const { release } = season;
      const judged = judgeFills(season.plan, problem, searched, { seed, release, despite, strict });
      const { result } = judged;
      const violations = checkFill(problem, result.proposal);
      const fills = newFills(season.plan, problem, result.proposal.rooms);
      const asked = askedRooms(options.room, result.proposal, [...season.plan.rooms.keys()], folder);
      const accepted = fills.filter(({ room }) => asked === undefined || asked.includes(room));
      const sound = violations.length === 0;
      const written = options.write && sound ? writeFills(run.io, season.plan, accepted) : undefined;
      const findings = findingsOf({ ...season, release: undefined });
      const report = fillReport(season, { problem, result, fills }, findings, {
        units: options.units,
        violations,
        rooms: asked,
        judged,
        today,
        remarks: fillRemarks(season, problem, result.proposal, {
          topUp,
          today,
          despite,
          strict,
          takenOut: judged.takenOut,
          ofSchedule: judged.ofSchedule,
          inTheOpen: judged.inTheOpen,
          heavier: judged.heavier,
        }),
        written,
      });
      print(run, options, report, () => fillText(report, run.io.paint));
      const readings = season.plan.readings.size > 0 ? ' and its readings' : '';
      endWithFindings(run, findings, options, `Apart from its schedule${readings}, the plan has`);
      if (sound) return;
      run.exitCode = EXIT.cannotRun;
      if (options.write) run.io.err.write('\nNothing is written: the proposal is wrong.\n');
    });
}

function another(word: string, before: readonly string[] | undefined): readonly string[] {
  if (word.trim() === '') throw new InvalidArgumentError('Name one, as R7 or weight-loss-high.');
  return [...(before ?? []), word];
}

/** Throws `CannotRun` for a code that no finding has. */
function knownCodes(codes: readonly string[] | undefined): readonly string[] {
  for (const code of codes ?? []) {
    if (hasRule(code)) continue;
    const near = nearest(
      code,
      rules.map((rule) => rule.code),
    );
    throw new CannotRun(
      `No finding has the code ${code}.${near === undefined ? '' : ` Nearest: ${near}.`} lotwright explain findings lists them.`,
    );
  }
  return codes ?? [];
}

/** Throws `CannotRun` for a room that is not in the plan or that the proposal leaves empty. */
function askedRooms(
  asked: readonly string[] | undefined,
  proposal: FillProposal,
  known: readonly string[],
  folder: string | undefined,
): readonly string[] | undefined {
  for (const room of asked ?? []) {
    if (proposal.rooms.some((proposed) => proposed.room === room)) continue;
    const near = nearest(room, known);
    if (!known.includes(room))
      throw new CannotRun(
        `There is no room ${room} in the plan.${near === undefined ? '' : ` Nearest: ${near}.`}`,
      );
    throw new CannotRun(
      `Nothing is proposed for ${room}: a fill of the plan uses it, or the proposal leaves it empty. See all with: ${commandToCopy('fill', folder)}`,
    );
  }
  return asked;
}
