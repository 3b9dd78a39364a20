import path from 'node:path';
import type { Command } from 'commander';
import { fails } from '../report/check-report';
import { readingsReport, readingsText } from '../report/readings-report';
import { PAGE_WIDTH, wrap } from '../report/table';
import { expectedOf } from '../report/watching';
import { caution } from '../room/caution';
import { watchDelays } from '../watching/delays';
import { watchKinds } from '../watching/types';
import { CannotRun, type Io } from './io';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { type KeptReadings, readingsOfPlan } from './readings-files';
import { mustHaveRoom } from './room-option';
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

Then what is not as expected: since when, how much, what is probably behind it, the likeliest first,
and what to look at first. Gas is held against the room's course from a day after its set-point was
to be reached until the day it is opened (progress: ... opened), of an opened room only the air's
temperature and whether its oxygen reads like air. A room's own level in its first five days of
holding is taken as its instruments'. How soon things are told, with readings every hour:

${delayLines().join('\n')}

What is told from is a planning assumption, no rule of anybody's. With --state a file keeps what was
read so far, and the next time only the rows that were added are read.

${wrap(caution, PAGE_WIDTH).join('\n')}

Exit codes: 0 all rows are taken and nothing at or above the failing severity is going on, 1 some
are not or something is, 2 a file or the plan could not be read.

Examples:
  lotwright readings plans/2026
  lotwright readings plans/2026 --room R2 --format json
  lotwright readings plans/2026 --state readings-state.json
  lotwright readings plans/2026 --as-of 2027-01-31 --fail-on warning
`;

function delayLines(): string[] {
  return watchKinds.flatMap((kind) => {
    const { hours, when } = watchDelays[kind];
    const within = hours < 49 ? `${hours} h` : `${hours / 24} days`;
    const lines = wrap(`within ${within}, ${when}`, PAGE_WIDTH - 26);
    return lines.map((line, index) => `  ${(index === 0 ? kind : '').padEnd(24)}${line}`);
  });
}

const NONE = 'The plan has no `readings`. See lotwright readings --help for how to name a file.';

interface ReadingsOptions extends PlanOptions {
  readonly room?: string;
  readonly state?: string;
}

export function addReadings(program: Command, run: Run): void {
  withPlanOptions(withFolder(program.command('readings')))
    .description('what was read in the rooms, beside what the plan expects')
    .option('--room <room>', 'one room')
    .option('--state <file>', 'keeps what was read, so that the next time only new rows are')
    .addHelpText('after', HELP)
    .action((folder: string | undefined, options: ReadingsOptions) => {
      const plan = openPlan(run.io, folder, options);
      const { room, state, asOf } = options;
      mustHaveRoom(plan, room);
      if (state !== undefined && asOf !== undefined)
        throw new CannotRun('--state goes on from what was read last: it does not go with --as-of.');
      const season = wholeSeason(plan, options);
      const kept = state === undefined ? undefined : keptIn(run.io, state);
      const {
        files,
        records,
        kept: toKeep,
      } = readingsOfPlan(run.io, plan, expectedOf(season), { asOf, kept });
      if (state !== undefined && toKeep && plan.readings.size > 0) keep(run.io, state, toKeep);
      const report = readingsReport(season, files, records, options);
      print(run, options, report, () =>
        plan.readings.size === 0 ? NONE : readingsText(report, run.io.paint),
      );
      const going = report.sightings.filter(
        ({ until, kind }) => until === undefined || kind === 'record-gap',
      );
      const isClean = files.every(({ read }) => read.notTaken === 0) && !fails(going, options.failOn);
      run.exitCode = isClean ? EXIT.clean : EXIT.findings;
    });
}

/** What was kept; undefined where there is no such file yet. */
function keptIn(io: Io, file: string): KeptReadings | undefined {
  const full = path.resolve(io.cwd, file);
  if (io.files.kindOf(full) === 'missing') return undefined;
  const text = io.files.read(full);
  const kept = typeof text === 'string' ? parsed(text) : undefined;
  if (kept?.format !== 'lotwright-readings-state')
    throw new CannotRun(`${file} is no state that lotwright readings has kept: name another file.`);
  return kept.version === 1 ? (kept as KeptReadings) : undefined;
}

function parsed(text: string): Partial<KeptReadings> | undefined {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function keep(io: Io, file: string, kept: KeptReadings): void {
  const failed = io.files.save(path.resolve(io.cwd, file), JSON.stringify(kept));
  if (failed) throw new CannotRun(`${file} could not be written: ${failed.failure}.`);
}
