import type { Command } from 'commander';
import { findingsOf } from '../findings/find';
import { checkReport, checkText } from '../report/check-report';
import { displayUnits } from '../report/explain';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { EXIT, print, type Run } from './run';
import { wholeSeason } from './season';

const HELP = `
Each finding is a line that terminals and editors can follow, then the line it speaks of:

  file:line:column severity code message

  error     the plan cannot work or cannot be understood as it stands
  warning   it will cost fruit, money or time unless something changes
  notice    worth knowing

A finding's code has a page: lotwright explain <code>
Severities are set in the plan, under policy: findings.
A comment allows a finding at its place: # lotwright: allow <code> -- <reason>

Examples:
  lotwright check plans/2026
  lotwright check --fail-on warning --format json > findings.json
`;

export function addCheck(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('check')))
    .description('check the plan: its text, rooms, gas, cooling, keeping and release')
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: PlanOptions) => {
      const plan = openPlan(run.io, folder);
      const season = wholeSeason(plan, options);
      const findings = findingsOf(season);
      const units = displayUnits(plan, options.units).system;
      const report = checkReport(season, findings, { units, failOn: options.failOn });
      print(run, options, report, () => checkText(report, plan.files, run.io.paint));
      run.exitCode = report.failed ? EXIT.findings : EXIT.clean;
    });
}
