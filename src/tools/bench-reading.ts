/** One run of `npm run bench:readings`: reads and watches a year, then a day more from the kept state. Prints JSON. */
import { appendFileSync } from 'node:fs';
import path from 'node:path';
import { nodeFiles } from '../cli/files';
import { openPlan } from '../cli/plan-files';
import { type PlanReadings, readingsOfPlan } from '../cli/readings-files';
import { computeSeason } from '../findings/compute';
import { readingsReport } from '../report/readings-report';
import { expectedOf } from '../report/watching';

export interface ReadingRun {
  readonly rows: number;
  readonly values: number;
  readonly sightings: number;
  /** Processor time, seconds: of the year, and of the day after it. */
  readonly year: number;
  readonly day: number;
  readonly dayRows: number;
  /** Megabytes: greatest of the process, and of what is kept between two runs. */
  readonly memory: number;
  readonly kept: number;
}

const [folder = '', lastDay = ''] = process.argv.slice(2);
const io = { files: nodeFiles, cwd: folder } as Parameters<typeof openPlan>[0];
const plan = openPlan(io, '.');
const season = computeSeason(plan, { release: 'quick', courses: true });
const expected = expectedOf(season);

const seconds = (since: NodeJS.CpuUsage) => {
  const { user, system } = process.cpuUsage(since);
  return (user + system) / 1e6;
};
const before = process.cpuUsage();
const year = readingsOfPlan(io, plan, expected);
const report = readingsReport(season, year.files, year.records);
const yearSeconds = seconds(before);

const text = JSON.stringify(year.kept);
appendFileSync(path.join(folder, 'readings.csv'), lastDay);
const again = process.cpuUsage();
const day: PlanReadings = readingsOfPlan(io, plan, expected, { kept: JSON.parse(text) });
readingsReport(season, day.files, day.records);
const daySeconds = seconds(again);

const run: ReadingRun = {
  rows: year.files[0]?.read.rows ?? 0,
  values: report.rooms.flatMap(({ quantities }) => quantities).reduce((sum, { count }) => sum + count, 0),
  sightings: report.sightings.length,
  year: yearSeconds,
  day: daySeconds,
  dayRows: day.files[0]?.newRows ?? 0,
  memory: process.resourceUsage().maxRSS / 1024,
  kept: text.length / 1e6,
};
process.stdout.write(JSON.stringify(run));
