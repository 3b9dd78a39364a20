import { type Command, InvalidArgumentError, Option } from 'commander';
import { countedFigure } from '../plan/figure';
import type { Plan } from '../plan/model';
import { nearest } from '../plan/nearest';
import { parseQuantity } from '../plan/quantity';
import { PAGE_WIDTH, wrap } from '../report/table';
import { windowsReport } from '../report/windows-report';
import { windowsText } from '../report/windows-text';
import { caution } from '../room/caution';
import { CannotRun } from './io';
import { type PlanOptions, type TodayOption, withFolder, withPlanOptions, withToday } from './options';
import { openPlan } from './plan-files';
import { foundWithReadings } from './readings-files';
import { endWithFindings, print, type Run } from './run';
import { wholeSeason } from './season';

const HELP = `
  Earliest      first week the room may be opened: cooled, gassed, a law's days in store done
  Best before   opening later puts some fruit at risk of falling below standard
  Latest        last week in which opening still lets the room be packed out in time
  Latest at     the same at other confidences than the plan's; a higher one never allows a later
                week. Spreads tells how well the spread between lots is known that it rests on
  Set by        the limit and the lot behind the latest week
  Would move    what one change alone would do to the latest week, the window reckoned anew: without
                the lot that sets it, treated, in another regime, sealed sooner, emptied faster
  At risk of    disorders with the weeks they threaten in, as far as a source tells, and why;
                varieties: disorders in the plan gives own values, or switches one off
  Pinned        the week the plan asks for
  Today         where the day looked from lies, and whether the week a quick schedule chose for a
                room without a pin has passed (within the season only); \`no week\` for a room that
                can be opened in none: its window is empty, or it holds too many bins to be emptied
                in time
  Opened        rooms on record as opened have no window any more: below the table, with the day

${wrap(caution, PAGE_WIDTH).join('\n')}

Examples:
  lotwright windows plans/2026
  lotwright windows --room R07
  lotwright windows --today 2027-03-01
  lotwright windows --confidence 95%
  lotwright explain R01.latest
  lotwright explain R01.latest-at-80
`;

type WindowsOptions = PlanOptions & TodayOption & { readonly confidence?: number; readonly room?: string };

export function addWindows(program: Command, run: Run): void {
  withToday(withPlanOptions(withFolder(program.command('windows'))))
    .description('when each room may be opened, and what sets it')
    .addOption(
      new Option(
        '--confidence <share>',
        'how sure windows must be, as 95 % (default: as the plan says)',
      ).argParser(confidence),
    )
    .option(
      '--room <room>',
      'one room in full: every edge, what would move it, its disorders and their sources',
    )
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: WindowsOptions) => {
      const plan = atConfidence(openPlan(run.io, folder, options), options.confidence);
      const { room } = options;
      if (room !== undefined && !plan.rooms.has(room)) {
        const near = nearest(room, [...plan.rooms.keys()]);
        throw new CannotRun(
          `There is no room ${room} in the plan.${near === undefined ? '' : ` Nearest: ${near}.`}`,
        );
      }
      const season = wholeSeason(plan, options);
      const findings = foundWithReadings(run.io, season, options);
      const report = windowsReport(season, findings, {
        units: options.units,
        today: options.today ?? options.asOf ?? run.io.today,
        room,
      });
      print(run, options, report, () => windowsText(report, run.io.paint, room));
      endWithFindings(run, findings, options);
    });
}

/** Per cent, from `95 %` or `0.95`. */
function confidence(text: string): number {
  const plain = text.trim();
  const value = parseQuantity(plain, 'share')?.value ?? (plain === '' ? Number.NaN : 100 * Number(plain));
  if (!(value > 0 && value < 100))
    throw new InvalidArgumentError(
      'Write a share between 0 and 1, as 0.95, or per cent with their sign, as 95%.',
    );
  return value;
}

/** The plan as it would be with another confidence under policy. */
function atConfidence(plan: Plan, percent: number | undefined): Plan {
  if (percent === undefined) return plan;
  const asked = countedFigure('confidence of windows', '%', percent, 'as asked for with --confidence');
  return { ...plan, policy: { ...plan.policy, confidence: asked } };
}
