import type { Command } from 'commander';
import { computeSeason } from '../findings/compute';
import { findingsOf } from '../findings/find';
import { gasReport } from '../report/gas-report';
import { gasText } from '../report/gas-text';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { endWithFindings, print, type Run } from './run';

const HELP = `
  Temp, O2, CO2   what the room's regime holds
  CO2 fill        carbon dioxide a day at field temperature in air, with every bin in
  In store        carbon dioxide a day at the regime, and the range of the sources
  N2              nitrogen from air to the regime's oxygen, and the hours its source takes for this
                  room alone
  Leak            oxygen that leaks in against what the fruit uses

Below the rooms, each week with load: what each scrubber has to take out, as an amount and as a
share of what it can remove, and the hours each nitrogen source runs.

Examples:
  lotwright gas plans/2026
  lotwright explain S1.peak-load
`;

export function addGas(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('gas')))
    .description('carbon dioxide by room, scrubber load by week, nitrogen hours')
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: PlanOptions) => {
      const season = computeSeason(openPlan(run.io, folder), { seed: options.seed, courses: true });
      const findings = findingsOf(season);
      const report = gasReport(season, findings, options.units);
      print(run, options, report, () => gasText(report, run.io.paint));
      endWithFindings(run, findings, options);
    });
}
