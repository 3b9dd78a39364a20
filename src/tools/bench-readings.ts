/**
 * `npm run bench:readings [-- --json] [--days 365]`: what it costs to read, watch and sum up hourly readings of the 48
 * rooms of the full-size sample season, and one day more from what was kept. Nothing here is a test.
 */
import { spawnSync } from 'node:child_process';
import { appendFileSync, cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { buildSync } from 'esbuild';
import { formatDay, parseDay } from '../plan/dates';
import { seededRandom } from '../plan/random';
import type { ReadingRun } from './bench-reading';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const program = path.join(root, 'out/bench/reading.cjs');
const { values: options } = parseArgs({
  options: { json: { type: 'boolean', default: false }, days: { type: 'string', default: '365' } },
});

const LAYOUT = `lotwright: 1
readings:
  year:
    file: readings.csv
    columns: { time: Time, room: Room, oxygen: O2, carbon-dioxide: CO2, temperature: Air, humidity: RH }
`;

const WINGS = { E: 18, N: 14, W: 16 };
const rooms = Object.entries(WINGS).flatMap(([wing, count]) =>
  Array.from({ length: count }, (_, index) => `${wing}${String(index + 1).padStart(2, '0')}`),
);

const folder = mkdtempSync(path.join(os.tmpdir(), 'lotwright-readings-'));
try {
  measureIn(folder);
} finally {
  rmSync(folder, { recursive: true });
}

function measureIn(at: string): void {
  cpSync(path.join(root, 'sample-plans/full-season'), at, { recursive: true });
  writeFileSync(path.join(at, 'readings.lotplan.yaml'), LAYOUT);
  const days = Number(options.days);
  const lastDay = writeReadings(path.join(at, 'readings.csv'), days);
  mkdirSync(path.dirname(program), { recursive: true });
  buildSync({
    absWorkingDir: root,
    entryPoints: ['src/tools/bench-reading.ts'],
    outfile: program,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    logLevel: 'warning',
  });
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, at, lastDay], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(stderr);
  const run = JSON.parse(stdout) as ReadingRun;
  if (options.json) console.log(JSON.stringify(run, null, 2));
  else
    console.log(
      [
        `${run.rows} rows, ${run.values} values of ${rooms.length} rooms in ${days} days; ${run.sightings} sightings`,
        `the year:          ${run.year.toFixed(2)} s of processor time`,
        `a day, ${run.dayRows} rows:  ${run.day.toFixed(2)} s of processor time`,
        `memory at most:    ${run.memory.toFixed(0)} MB, the season's computing included`,
        `kept between runs: ${run.kept.toFixed(1)} MB`,
      ].join('\n'),
    );
}

/** Invented: set-points of a room with an analyser's noise, from the first of September on. The rows of one day more. */
function writeReadings(file: string, days: number): string {
  const random = seededRandom(7);
  const noise = (by: number) => (random() + random() + random() - 1.5) * 2 * by;
  const first = parseDay('2026-09-01') ?? 0;
  const dayText = (day: number) =>
    Array.from({ length: 24 }, (_, hour) =>
      rooms.map((room) => {
        const row = [1.5 + noise(0.03), 1.8 + noise(0.05), 0.8 + noise(0.1), 94 + noise(1)];
        const time = `${formatDay(first + day)} ${String(hour).padStart(2, '0')}:00`;
        return `${time},${room},${row.map((value) => value.toFixed(2)).join(',')}\n`;
      }),
    )
      .flat()
      .join('');
  writeFileSync(file, 'Time,Room,O2,CO2,Air,RH\n');
  for (let day = 0; day < days; day++) appendFileSync(file, dayText(day));
  return dayText(days);
}
