import { type Command, Option } from 'commander';
import { lastRecordedDay } from '../plan/known';
import { caRecordReport } from '../report/ca-record';
import { caRecordCsv, caRecordHtml, caRecordText } from '../report/ca-record-text';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { CannotRun } from './io';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { valuesOfPlan } from './readings-files';
import { mustHaveRoom } from './room-option';
import { EXIT, type Run } from './run';
import { saveOut } from './save-out';
import { wholeSeason } from './season';

const HELP = `
Of each sealed room with law: washington or law: new-york in the plan, the record that its rule asks
for before fruit may be called "CA": room, varieties and bins, the days on which it was filled,
sealed, at 5 % oxygen and opened, and each day's oxygen, carbon dioxide and temperature with the
time of the first reading. What is missing is listed, by day.

Days count as they are on record (progress: in the plan) or as the readings beside the plan show;
one that is only planned is missing. The record ends the day before the room was opened, or on the
day given with --as-of; without it, on the last day of which there is a record or a reading.

  text     what each record rests on and lacks; --days adds every day
  html     to print on A4 or Letter: a page and its days for each room
  csv      a line a room and day
  json     by its published schema

This is an aid. The text of the rule in force governs, and the inspectors of the state decide.

${wrap(caution, PAGE_WIDTH).join('\n')}

Exit codes: 0 nothing is missing that was looked for, 1 something is, 2 it could not be made.

Examples:
  lotwright ca-record plans/2026
  lotwright ca-record plans/2026 --room R2 --days
  lotwright ca-record plans/2026 --format html --paper letter --out issued/ca-record.html
`;

interface CaRecordOptions extends Omit<PlanOptions, 'format'> {
  readonly format: PlanOptions['format'] | 'html' | 'csv';
  readonly room?: string;
  readonly days?: boolean;
  readonly paper?: 'a4' | 'letter';
  readonly out?: string;
}

export function addCaRecord(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('ca-record')), ['text', 'json', 'html', 'csv'])
    .description('the record that a "CA" claim needs, and what is missing in it')
    .option('--room <room>', 'one room')
    .option('--days', 'every day, in the text')
    .addOption(
      new Option('--paper <size>', 'of HTML (default: letter in US units, else a4)').choices([
        'a4',
        'letter',
      ]),
    )
    .option('--out <file>', 'the file to write')
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: CaRecordOptions) => {
      const { io } = run;
      const plan = openPlan(io, folder, options);
      const { room } = options;
      mustHaveRoom(plan, room);
      const readings = valuesOfPlan(io, plan, options);
      const lastRead = Math.max(...[...readings.values()].map(({ times }) => times.at(-1) ?? Number.NaN));
      const last = Math.max(
        lastRecordedDay(plan) ?? Number.NEGATIVE_INFINITY,
        Number.isFinite(lastRead) ? Math.floor(lastRead / 1440) : Number.NEGATIVE_INFINITY,
      );
      const until = options.asOf ?? (Number.isFinite(last) ? last : io.today);
      const report = caRecordReport(wholeSeason(plan, options), readings, until, options);
      const isEmpty = report.records.length === 0;
      if (isEmpty && options.format === 'html') throw new CannotRun(nothingOf(room));
      if (isEmpty && options.format === 'csv') io.err.write(`${nothingOf(room)}\n`);
      const text = {
        text: () => (isEmpty ? `${nothingOf(room)}\n` : `${caRecordText(report, options.days ?? false)}\n`),
        json: () => `${JSON.stringify(report, null, 2)}\n`,
        csv: () => caRecordCsv(report),
        html: () => caRecordHtml(report, options.paper ?? (report.units === 'us' ? 'letter' : 'a4')),
      }[options.format]();
      if (options.out === undefined) io.out.write(text);
      else saveOut(io, options.out, text);
      run.exitCode = report.records.every(({ lacks }) => lacks.length === 0) ? EXIT.clean : EXIT.findings;
    });
}

function nothingOf(room: string | undefined): string {
  const which = room === undefined ? 'No sealed room that has begun to be filled' : `Room ${room}`;
  return `${which} has a rule to be held against. A room names its rule in the plan with the key \`law:\`, which takes \`washington\`, \`new-york\` or \`none\` (as where it is not written): under \`rooms:\`, write \`law: washington\` below the room. Its fill must have the day of sealing, as \`sealed: 2026-09-18\`.`;
}
