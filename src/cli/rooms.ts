import type { Command } from 'commander';
import { roomsReport } from '../report/rooms-report';
import { roomsText } from '../report/rooms-text';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { foundWithReadings } from './readings-files';
import { endWithFindings, print, type Run } from './run';
import { wholeSeason } from './season';

const HELP = `
  Places     bins the room takes, as stated or by its size, stacking and clearances
  Full       bins of the fill against places
  Volume     inside volume of the empty room
  Free gas   what is left for gas between fruit and bins
  Peak       cooling load on the heaviest day of intake
  Hold       cooling load with the fruit cold
  Cooler     what the room's own cooler can give
  Sealed     day the door is sealed, or "in air"

Examples:
  lotwright rooms plans/2026
  lotwright rooms --units us
  lotwright explain R01.free-gas-volume
`;

export function addRooms(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('rooms')))
    .description('each room: places, bins, fruit, gas volume, cooling')
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: PlanOptions) => {
      const season = wholeSeason(openPlan(run.io, folder, options), options);
      const findings = foundWithReadings(run.io, season, options);
      const report = roomsReport(season, findings, options.units);
      print(run, options, report, () => roomsText(report, run.io.paint));
      endWithFindings(run, findings, options);
    });
}
