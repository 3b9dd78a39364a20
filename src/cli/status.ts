import type { Command } from 'commander';
import { findingsOf } from '../findings/find';
import { asOf } from '../plan/known';
import { type RecordedDays, recordedDays } from '../plan/recorded-days';
import { counted } from '../plan/wording';
import { commandToCopy } from '../report/command-to-copy';
import { packedSeason } from '../report/papers/packed-season';
import { statusReport } from '../report/status-report';
import { statusMarkdown, statusText } from '../report/status-text';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { inWeeks } from './papers/in-weeks';
import { openPlan } from './plan-files';
import { publishedWeeks } from './published-schedule';
import { withReadings } from './readings-files';
import { EXIT, endWithFindings, print, type Run } from './run';
import { wholeSeason } from './season';

const HELP = `
The records in the plan (received-by-day of lots, progress of fills, samples, packed, sales) count
instead of what was planned, up to the end of the day given with --as-of; without it, of the last
day that has a record. What is late is counted as done on that day until a record says more.

  Estimate     bins of the lots as estimated; Expected are those received and those still to come
  Of its lots  what a fill that is not full yet will find of its lots: earlier fills are served
               first. What is left over goes where places of its fills are left empty
  In brackets  a day that is due and has no record: as planned, or as computed from what has
               happened (cool, 5 % oxygen, set-point), or the week the schedule found (opened)
  Still there  bins in, less bins packed. Not recorded: of a room that is told to be empty
  In stock     cartons packed, less cartons sold
  Short        cartons of a week that were wanted and not sold in it; no other week makes them good.
               Beyond: cartons sold in a week beyond what it wanted

What the files of readings show that is an error is told before all else: it comes before any work
at its room.

The work of the next two weeks is what lotwright papers has for each reader, less what is done, and
rests on the same schedule: a quick one, or with --keep-weeks the weeks published before.

${wrap(caution, PAGE_WIDTH).join('\n')}

Findings are counted as of the same day: lotwright check --as-of <day> tells them.

Exit codes: 0 told, 1 told of a plan with errors, 2 the plan could not be read.

Examples:
  lotwright status plans/2026
  lotwright status plans/2026 --as-of 2026-10-05
  lotwright status plans/2026 --format markdown
`;

interface StatusOptions extends Omit<PlanOptions, 'format'> {
  readonly format: PlanOptions['format'] | 'markdown';
  readonly keepWeeks?: string;
}

export function addStatus(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('status')), ['text', 'json', 'markdown'])
    .description('where the season stands: crop, rooms, stock, sales, and the work of the next two weeks')
    .option('--keep-weeks <file>', 'open rooms as published: a release report in JSON')
    .addHelpText('after', HELP)
    .action(async (folder: string | undefined, options: StatusOptions) => {
      const plan = openPlan(run.io, folder, { units: options.units });
      const recorded = recordedDays(plan);
      const stand = options.asOf ?? recorded.last ?? run.io.today;
      const { keepWeeks, seed } = options;
      const published = keepWeeks === undefined ? undefined : publishedWeeks(run.io, keepWeeks, folder);
      const kept = inWeeks(wholeSeason(asOf(plan, stand), options), published, seed);
      const season = await packedSeason(kept, run.io.loadSolver);
      const found = findingsOf(withReadings(run.io, season, { asOf: stand }));
      const report = statusReport(season, stand, options.units, published, found);
      if (options.format === 'markdown') run.io.out.write(statusMarkdown(report, folder));
      else
        print(run, { ...options, format: options.format }, report, () =>
          statusText(report, run.io.paint, folder),
        );
      // What came in by then counts instead of what was planned, so that a check as of the same day finds the same.
      endWithFindings(run, found, { ...options, asOf: stand });
      if (options.asOf === undefined) tellLeftOut(run, recorded, folder);
    });
}

/** Records whose day cannot be are an error, of which a look from a day before them would say nothing. */
function tellLeftOut(run: Run, { tooLate }: RecordedDays, folder: string | undefined): void {
  if (tooLate.length === 0) return;
  run.exitCode = Math.max(EXIT.findings, run.exitCode);
  const records = counted(tooLate.length, 'record is', 'records are');
  run.io.err.write(
    `\n${records} left out, of days that cannot be yet. See: ${commandToCopy('check', folder)}\n`,
  );
}
