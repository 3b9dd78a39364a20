/**
 * `npm run bench:fills [-- --json] [--rooms 12,60,200] [--loads 0.92,1.05] [--seeds 5] [--moves 2000]`: how well harvests
 * of generated seasons are filled into their rooms, and how long that takes. Nothing here is a test.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { buildSync } from 'esbuild';
import type { FillRun } from './bench-fill';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const program = path.join(root, 'out/bench/fill.cjs');

const { values: options } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    rooms: { type: 'string', default: '12,60,200' },
    loads: { type: 'string', default: '0.92,1.05' },
    seeds: { type: 'string', default: '5' },
    moves: { type: 'string', default: '2000' },
  },
});

mkdirSync(path.dirname(program), { recursive: true });
buildSync({
  absWorkingDir: root,
  entryPoints: ['src/tools/bench-fill.ts'],
  outfile: program,
  bundle: true,
  platform: 'node',
  format: 'cjs',
  target: 'node20',
  logLevel: 'warning',
});
const runs: FillRun[] = [];
if (!options.json) console.log(row(headings()));
for (const rooms of options.rooms.split(','))
  for (const load of options.loads.split(','))
    for (let seed = 1; seed <= Number(options.seeds); seed++) {
      const run = runOnce([rooms, load, String(seed), options.moves]);
      runs.push(run);
      if (!options.json) console.log(row(cellsOf(run)));
    }
if (options.json) console.log(JSON.stringify(runs, null, 2));

function runOnce(args: readonly string[]): FillRun {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], { encoding: 'utf8' });
  if (status !== 0) throw new Error(`${args.join(' ')} failed:\n${stderr}`);
  return JSON.parse(stdout) as FillRun;
}

function headings(): string[] {
  return [
    ...['rooms', 'load', 'seed', 'used', 'fewest', 'partly', 'over', 'least', 'over %'],
    ...['lots', 'splits', 'forced', 'in part', 'wrong', 'seconds', 'cpu s'],
  ];
}

function cellsOf(run: FillRun): string[] {
  return [
    run.rooms,
    run.load,
    run.seed,
    run.used,
    run.fewest,
    run.partly,
    run.unplaced,
    run.leastUnplaced,
    ((100 * (run.unplaced - run.leastUnplaced)) / run.bins).toFixed(3),
    run.lots,
    run.splits,
    run.forced,
    run.partlyLeft,
    run.violations,
    run.seconds.toFixed(1),
    run.processorSeconds.toFixed(1),
  ].map(String);
}

function row(cells: readonly string[]): string {
  return cells.map((cell) => cell.padStart(7)).join(' ');
}
