import { type Command, InvalidArgumentError, Option } from 'commander';
import { computeSeason } from '../findings/compute';
import type { ComputedSeason, Finding } from '../findings/types';
import { nearest } from '../plan/nearest';
import { commandToCopy } from '../report/command-to-copy';
import { courseReport } from '../report/course-report';
import { courseText } from '../report/course-text';
import { gasReport } from '../report/gas-report';
import { gasText } from '../report/gas-text';
import { plantReport } from '../report/plant-report';
import { plantText } from '../report/plant-text';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { CannotRun } from './io';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { foundWithReadings } from './readings-files';
import { endWithFindings, print, type Run } from './run';

const HELP = `
  Temp, O2, CO2   what the room's regime holds
  CO2 fill        carbon dioxide a day at field temperature in air, with every bin in
  In store        carbon dioxide a day at the regime, and the range of the sources
  N2              nitrogen from air to the regime's oxygen, and the hours its source takes for this
                  room alone
  Leak            oxygen that leaks in against what the fruit uses

Below the rooms, each sealed room's course, integrated from sealing to opening with the equipment
it shares: days until all fruit is cold, hours to 5 % oxygen and to the set-point, lowest oxygen,
highest carbon dioxide, points by which oxygen has risen at opening, and weight lost; ranges are
those of the sources' respiration. Then each week with load: what each scrubber has to take out,
and the hours each nitrogen source runs.

  --room R2        one room's course, by day for three weeks and then by week
  --calendar days  the shared plant by day around the harvest: refrigeration, nitrogen, scrubbing,
                   power, and its cost where season has a power-price; with peaks and their causes
  --crop +10%      what is asked for more than it gives, and from when, if the crop is larger

${wrap(caution, PAGE_WIDTH).join('\n')}

Examples:
  lotwright gas plans/2026
  lotwright gas --room R2
  lotwright gas --calendar weeks --crop +10%
  lotwright explain S1.peak-load
`;

interface GasOptions extends PlanOptions {
  readonly room?: string;
  readonly calendar?: 'days' | 'weeks';
  readonly crop?: number;
}

export function addGas(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('gas')))
    .addOption(new Option('--room <room>', "a room's, or a fill's, course from sealing to opening"))
    .addOption(
      new Option('--calendar <by>', 'the shared plant through the season').choices(['days', 'weeks']),
    )
    .addOption(
      new Option('--crop <change>', 'the shared plant with a larger or smaller crop, as +10%').argParser(
        perCentMore,
      ),
    )
    .description("each room's gas from sealing to opening, and the plant that the rooms share")
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: GasOptions) => {
      const plan = openPlan(run.io, folder, options);
      const season = computeSeason(plan, { seed: options.seed, courses: true });
      const findings = foundWithReadings(run.io, season, options);
      printOne(run, season, findings, options);
      endWithFindings(run, findings, options);
    });
}

function printOne(run: Run, season: ComputedSeason, findings: readonly Finding[], options: GasOptions): void {
  const { paint } = run.io;
  const { room, calendar: by, crop, units } = options;
  if (room !== undefined) {
    if (!isRoom(season, room)) throw new CannotRun(noRoom(season, room, options.folder));
    const report = courseReport(season, findings, room, units);
    print(run, options, report, () => courseText(report, paint, options.folder));
  } else if (by !== undefined || crop !== undefined) {
    const report = plantReport(season, findings, { units, by, crop });
    print(run, options, report, () => plantText(report, paint));
  } else {
    const report = gasReport(season, findings, units);
    print(run, options, report, () => gasText(report, paint));
  }
}

function isRoom({ plan }: ComputedSeason, id: string): boolean {
  return plan.rooms.has(id) || plan.fills.has(id);
}

function noRoom({ plan }: ComputedSeason, id: string, folder: string | undefined): string {
  const near = nearest(id, [...plan.rooms.keys(), ...plan.fills.keys()]);
  const rooms = `Rooms are listed by: ${commandToCopy('rooms', folder)}`;
  return `The plan has no room or fill called "${id}".${near === undefined ? ` ${rooms}` : ` Nearest: ${near}`}`;
}

/** `+10%`, `10 %` or `-5`. */
function perCentMore(text: string): number {
  const number = /^([+-]?\d+(?:\.\d+)?)\s*%$/.exec(text.trim())?.[1];
  const value = Number(number);
  if (number === undefined || value <= -100 || value > 1000)
    throw new InvalidArgumentError('Write a change in per cent, as +10% or -5%.');
  return value;
}
