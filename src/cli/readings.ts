import type { Command } from 'commander';
import { nearest } from '../plan/nearest';
import { readingsReport, readingsText } from '../report/readings-report';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { CannotRun } from './io';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { readingsOfPlan } from './readings-files';
import { EXIT, print, type Run } from './run';
import { wholeSeason } from './season';

const HELP = `
The files stand beside the plan, which says under readings how they are laid out:

  readings:
    cold-store:
      file: readings/cold-store.csv       # from the folder of the plan file
      columns: { time: Time, room: Room, oxygen: O2, carbon-dioxide: CO2, temperature: Air }
      separator: semicolon                # comma (default), semicolon or tab
      decimal: comma                      # point (default) or comma
      dates: day-month-year               # year-month-day (default) or month-day-year
      units: { temperature: °F }          # °C and % without it
      names: { room: { K01: R1 } }        # what the file calls by another name

A row has a time, a room, and oxygen, carbon-dioxide, temperature or humidity of it. Nothing in the
files is ever changed.

  Expected  what the plan computes for the time of the latest reading
  Gap       the longest time between two readings, in hours
  Without   days between the first and the last without a reading

${wrap(caution, PAGE_WIDTH).join('\n')}

Exit codes: 0 all rows are taken, 1 some are not, 2 a file or the plan could not be read.

Examples:
  lotwright readings plans/2026
  lotwright readings plans/2026 --room R2 --format json
`;

interface ReadingsOptions extends PlanOptions {
  readonly room?: string;
}

export function addReadings(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('readings')))
    .description('what was read in the rooms, beside what the plan expects')
    .option('--room <room>', 'one room')
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: ReadingsOptions) => {
      const plan = openPlan(run.io, folder, options);
      if (plan.readings.size === 0)
        throw new CannotRun(
          'The plan has no `readings`. See lotwright readings --help for how to name a file.',
        );
      const { files, rooms } = readingsOfPlan(run.io, plan);
      const { room } = options;
      if (room !== undefined && !plan.rooms.has(room)) {
        const meant = nearest(room, plan.rooms.keys());
        throw new CannotRun(`The plan has no room ${room}.${meant ? ` Is ${meant} meant?` : ''}`);
      }
      const asked = room === undefined ? rooms : new Map([...rooms].filter(([id]) => id === room));
      const report = readingsReport(wholeSeason(plan, options), files, asked, options.units);
      print(run, options, report, () => readingsText(report, run.io.paint));
      run.exitCode = files.some(({ read }) => read.notTaken > 0) ? EXIT.findings : EXIT.clean;
    });
}
