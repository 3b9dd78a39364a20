import type { Command } from 'commander';
import { computeSeason } from '../findings/compute';
import { findingsOf } from '../findings/find';
import { PAGE_WIDTH, wrap } from '../report/table';
import { windowsReport } from '../report/windows-report';
import { windowsText } from '../report/windows-text';
import { caution } from '../room/caution';
import { type PlanOptions, type TodayOption, withFolder, withPlanOptions, withToday } from './options';
import { openPlan } from './plan-files';
import { endWithFindings, print, type Run } from './run';

const HELP = `
  Earliest      first week the room may be opened: cooled, gassed, a law's days in store done
  Best before   opening later puts some fruit at risk of falling below standard
  Latest        last week in which opening still lets the room be packed out in time
  Set by        the limit and the lot behind the latest week
  Pinned        the week the plan asks for
  Today         where the day looked from lies (within the season only)

${wrap(caution, PAGE_WIDTH).join('\n')}

Examples:
  lotwright windows plans/2026
  lotwright windows --today 2027-03-01
  lotwright explain R01.latest
`;

export function addWindows(program: Command, run: Run): void {
  withToday(withPlanOptions(withFolder(program.command('windows'))))
    .description('when each room may be opened, and what sets it')
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: PlanOptions & TodayOption) => {
      const season = computeSeason(openPlan(run.io, folder), { seed: options.seed });
      const findings = findingsOf(season);
      const report = windowsReport(season, findings, {
        units: options.units,
        today: options.today ?? run.io.today,
      });
      print(run, options, report, () => windowsText(report, run.io.paint));
      endWithFindings(run, findings, options);
    });
}
