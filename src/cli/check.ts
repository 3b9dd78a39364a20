import { type Command, Option } from 'commander';
import { findingsOf } from '../findings/find';
import { rules } from '../findings/rules';
import type { ComputedSeason, Finding } from '../findings/types';
import { checkLines, checkReport, checkText } from '../report/check-report';
import { displayUnits } from '../report/explain';
import { annotations } from '../report/forge/annotations';
import { codeQuality } from '../report/forge/code-quality';
import { forgeFindings } from '../report/forge/forge-finding';
import { sarif } from '../report/forge/sarif';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { withReadings } from './readings-files';
import { repositoryPath } from './repository';
import { EXIT, type Run } from './run';
import { wholeSeason } from './season';

const HELP = `
Each finding is a line that terminals and editors can follow, then the line it speaks of:

  file:line:column severity code message

  error     the plan cannot work or cannot be understood as it stands
  warning   it will cost fruit, money or time unless something changes
  notice    worth knowing

What was read in the rooms, in files that the plan names under readings, is held against the rooms'
courses, and what is not as expected is a finding too, at the room's fill.

A finding's code has a page: lotwright explain <code>
Severities are set in the plan, under policy: findings.
A comment allows a finding at its place: # lotwright: allow <code> -- <reason>

Formats:
  text          for people; the caution about opening rooms once, before all that speaks of it
  lines         a line for each finding, for lists of problems in editors
  json          for programs, by its published schema: lotwright schema check-report
  sarif         SARIF 2.1.0, which forges and editors read; each rule with its page
  annotations   workflow commands: GitHub shows them beside the lines of a pull request
  code-quality  the report GitLab shows in a merge request

In the last three, paths begin at the root of the repository, and the worst comes first.

${wrap(caution, PAGE_WIDTH).join('\n')}

Examples:
  lotwright check plans/2026
  lotwright check --fail-on warning --format json > findings.json
  lotwright check plans/2026 --format sarif > findings.sarif
`;

const FORMATS = ['text', 'lines', 'json', 'sarif', 'annotations', 'code-quality'] as const;

interface CheckOptions extends Omit<PlanOptions, 'format'> {
  readonly format: (typeof FORMATS)[number];
  readonly pathsFrom?: string;
  readonly pagesAt?: string;
  readonly readings: boolean;
}

export function addCheck(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('check')), FORMATS)
    .description('check the plan: its text, rooms, gas, cooling, keeping and release')
    .option('--paths-from <folder>', "write paths from this folder (default: the repository's root)")
    .addOption(
      new Option('--pages-at <address>', 'the address where your findings pages are published, for sarif'),
    )
    .option('--no-readings', 'leave out the files of readings that the plan names')
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: CheckOptions) => {
      const plan = openPlan(run.io, folder, options);
      const computed = wholeSeason(plan, options);
      const season = options.readings ? withReadings(run.io, computed, options) : computed;
      const findings = findingsOf(season);
      const units = displayUnits(plan, options.units).system;
      const report = checkReport(season, findings, { units, failOn: options.failOn });
      const written: Record<CheckOptions['format'], () => string> = {
        text: () => checkText(report, plan.files, run.io.paint, folder),
        lines: () => checkLines(report),
        json: () => indented(report),
        ...forForges(run, season, findings, { folder, ...options }),
      };
      run.io.out.write(`${written[options.format]()}\n`);
      run.exitCode = report.failed ? EXIT.findings : EXIT.clean;
    });
}

function forForges(
  { io }: Run,
  { plan }: ComputedSeason,
  findings: readonly Finding[],
  { folder, pathsFrom, pagesAt }: CheckOptions & { readonly folder: string | undefined },
) {
  const written = repositoryPath(io, folder, pathsFrom);
  const placed = () => forgeFindings(plan, findings, written);
  return {
    sarif: () =>
      indented(
        sarif(placed(), {
          plan,
          version: io.version,
          repositoryPath: written,
          rules,
          page: (code) => io.resources.page(code),
          pagesAt,
        }),
      ),
    annotations: () => annotations(placed()),
    'code-quality': () => indented(codeQuality(placed())),
  };
}

function indented(value: object): string {
  return JSON.stringify(value, null, 2);
}
