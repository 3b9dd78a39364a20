import type { Command } from 'commander';
import { lastRecordedDay } from '../plan/known';
import { decisive } from '../report/sampling-plan';
import { samplingCsv, samplingReport, samplingText } from '../report/sampling-report';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { atLeastOne, type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { foundWithReadings } from './readings-files';
import { mustHaveRoom } from './room-option';
import { EXIT, endOn, type Run } from './run';
import { saveOut } from './save-out';
import { wholeSeason } from './season';

const HELP = `
Rooms are opened by test, not by calendar, so each lot is tested in time: fruit held near the door at
half and three quarters of the room's stay (a June room in February and in April), and a sample of
each orchard from under the hatch once a month. A lot whose test could still move the room's latest
week by ${decisive.moves.value} weeks or more is tested once more ${decisive.before.value} days before the opening. It is the same list as in
lotwright papers --for lab.

Then what the next test of each lot could change: the room's latest week worked out again for a mean
that comes in a standard deviation low, as expected, or high.

  Known to   how far the lot may be from the expected firmness now: a standard deviation
  Worth      weeks between low and high, times the bins of the room: test these lots first

With records in the plan the list begins on the last recorded day, or on --as-of: tests that are on
record (samples:) are left out, those whose day has passed without one are overdue, and rooms on
record as opened are over. What samples have shown counts once it is in the plan (lotwright learn).

${wrap(caution, PAGE_WIDTH).join('\n')}

Exit codes: 0 told, 1 a test is overdue or the plan has errors, 2 the plan could not be read.

Examples:
  lotwright sampling plans/2026
  lotwright sampling plans/2026 --as-of 2027-02-01 --weeks 4
  lotwright sampling plans/2026 --format csv --out issued/sampling.csv
`;

interface SamplingOptions extends Omit<PlanOptions, 'format'> {
  readonly format: PlanOptions['format'] | 'csv';
  readonly room?: string;
  readonly weeks?: number;
  readonly out?: string;
}

export function addSampling(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('sampling')), ['text', 'json', 'csv'])
    .description('which lots to test in which week, and what the next test could change')
    .option('--room <room>', 'one room')
    .option('--weeks <number>', 'so many weeks ahead (default: all)', atLeastOne)
    .option('--out <file>', 'the file to write')
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: SamplingOptions) => {
      const { io } = run;
      const plan = openPlan(io, folder, options);
      const { room } = options;
      mustHaveRoom(plan, room);
      const stand = options.asOf ?? lastRecordedDay(plan);
      const season = wholeSeason(plan, options);
      const report = samplingReport(season, stand, options);
      const text = {
        text: () => `${samplingText(report)}\n`,
        json: () => `${JSON.stringify(report, null, 2)}\n`,
        csv: () => samplingCsv(report),
      }[options.format]();
      if (options.out === undefined) io.out.write(text);
      else saveOut(io, options.out, text);
      const isOverdue = report.samples.some(({ overdue }) => overdue);
      endOn(run, isOverdue ? EXIT.findings : EXIT.clean, foundWithReadings(run.io, season, options), options);
    });
}
