import { type Command, Option } from 'commander';
import { findingsOf } from '../findings/find';
import type { UnitSystem } from '../plan/display';
import { expectJunit } from '../report/expect-junit';
import { expectMarkdown } from '../report/expect-markdown';
import { expectReport } from '../report/expect-report';
import { expectText } from '../report/expect-text';
import { present } from '../report/parts';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { type AsOfOption, asOfOption, type FolderOption, wholeNumber, withFolder } from './options';
import { openPlan } from './plan-files';
import { withReadings } from './readings-files';
import { EXIT, endOn, type Run } from './run';
import { wholeSeason } from './season';

const HELP = `
Promises stand in the plan, under expect: each with one of these keys, and why with because.

  expect:
    gala-to-spring: { no-shortage: { variety: Gala, before: 2027-W12 }, because: the contract }
    export:         { shortage: { market: export, at-most: 400 } }
    R3-first:       { opens: { room: R3, before-room: R5 } }
    R3-soon:        { opens: { room: R3, before: 2027-W09 } }
    R3-wide:        { window: { room: R3, at-least: 4 weeks } }
    headroom:       { scrubber-load: { scrubber: S1, at-most: 85 % } }
    lean-weeks:     { nitrogen-load: { nitrogen: N1, at-most: 90 % } }
    cold:           { refrigeration-load: { group: engine-room, at-most: 95 % } }
    shifts:         { packhouse-use: { at-most: 95 %, from: 2026-W45 } }
    late-fuji:      { in-store: { variety: Fuji, on: 2027-04-01, at-least: 12 % } }
    paid-out:       { grower-out: { grower: Hollow Farm, by: 2027-W12 } }
    all-opened:     { no-finding: { code: room-left-closed } }
    worth-it:       { value: { at-least: 250000 } }

Each is kept, broken, or cannot be judged, which is said with the reason. Of a broken one you read
what was promised and what came out, in which week, room or lot, and what would cure it, worked out
on the schedule. Weeks are those of a quick schedule; pinned weeks are kept.

Broken promises are findings too (expectation-broken), so check and the editor show them.

${wrap(caution, PAGE_WIDTH).join('\n')}

Exit codes:
  0   none is broken
  1   one is broken (with --strict: or cannot be judged), or the plan has errors
  2   the plan could not be read, or the command was not understood

Examples:
  lotwright expect plans/2026
  lotwright expect --strict --format junit > expectations.xml
  lotwright expect --format markdown
`;

interface ExpectCommandOptions extends AsOfOption, FolderOption {
  readonly format: 'text' | 'json' | 'junit' | 'markdown';
  readonly units?: UnitSystem;
  readonly strict?: boolean;
  readonly seed: number;
}

export function addExpect(program: Command, run: Run): void {
  withFolder(program.command('expect'))
    .description('what the plan promises under expect: kept or broken, by how much, and what would cure it')
    .addOption(
      new Option('--format <format>', 'text for people, json for programs, junit for build servers, markdown')
        .choices(['text', 'json', 'junit', 'markdown'])
        .default('text'),
    )
    .addOption(
      new Option('--units <system>', 'units results are shown in (default: as the plan says)').choices([
        'metric',
        'us',
      ]),
    )
    .option('--strict', 'a promise that cannot be judged fails too')
    .addOption(
      new Option('--seed <number>', 'seed of the search: the same seed gives the same schedule')
        .argParser(wholeNumber)
        .default(1),
    )
    .addOption(asOfOption())
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: ExpectCommandOptions) => {
      const plan = openPlan(run.io, folder, options);
      const season = withReadings(run.io, wholeSeason(plan, options), options);
      const findings = findingsOf(season);
      const report = expectReport(season, findings, {
        units: options.units,
        strict: options.strict ?? false,
      });
      run.io.out.write(written(report, options, run));
      endOn(run, report.failed ? EXIT.findings : EXIT.clean, findings, present({ folder }));
    });
}

function written(
  report: ReturnType<typeof expectReport>,
  { format }: ExpectCommandOptions,
  run: Run,
): string {
  if (format === 'json') return `${JSON.stringify(report, null, 2)}\n`;
  if (format === 'junit') return expectJunit(report);
  return format === 'markdown' ? expectMarkdown(report) : `${expectText(report, run.io.paint)}\n`;
}
