import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import esbuild from 'esbuild';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from './in-process';

/** The program as users run it: bundled, in a process of its own, with the solver in a worker. */

const from = (file: string) => path.join(root, file);
const FULL = 'sample-plans/full-season';
let folder = '';
let bundled: string[] = [];

beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-'));
  const common = {
    absWorkingDir: root,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    alias: { highs: from('node_modules/highs/build/highs.js') },
    define: { LOTWRIGHT_VERSION: '"9.8.7"' },
    metafile: true,
    logLevel: 'error',
  } as const;
  const program = await esbuild.build({
    ...common,
    entryPoints: ['src/cli/main.ts'],
    outfile: path.join(folder, 'cli.cjs'),
  });
  await esbuild.build({
    ...common,
    entryPoints: ['src/release/worker-node.ts'],
    outfile: path.join(folder, 'worker.cjs'),
  });
  bundled = Object.keys(program.metafile.inputs);
  fs.copyFileSync(from('node_modules/highs/build/highs.wasm'), path.join(folder, 'highs.wasm'));
  fs.cpSync(from('schemas'), path.join(folder, 'schemas'), { recursive: true });
  fs.cpSync(from('src/findings/pages'), path.join(folder, 'pages'), { recursive: true });
  // What a run took, for the limits it must keep to.
  fs.writeFileSync(
    path.join(folder, 'usage.cjs'),
    "process.on('exit', () => require('node:fs').writeFileSync(process.env.USAGE_FILE, JSON.stringify(process.resourceUsage())));",
  );
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
  readonly usage: { readonly maxRSS: number };
}

/** A program that the signal ended at once leaves none. */
function readUsage(file: string): Ended['usage'] {
  if (!fs.existsSync(file)) return { maxRSS: 0 };
  return JSON.parse(fs.readFileSync(file, 'utf8'));
}

function run(words: readonly string[], whileRunning: (kill: () => void) => void = () => {}): Promise<Ended> {
  const usageFile = path.join(folder, `usage-${words.join('-').replaceAll('/', '_')}.json`);
  const child = spawn(
    process.execPath,
    ['--require', path.join(folder, 'usage.cjs'), path.join(folder, 'cli.cjs'), ...words],
    { cwd: root, env: { PATH: process.env.PATH, USAGE_FILE: usageFile } },
  );
  let [out, err] = ['', ''];
  child.stdout.on('data', (data) => {
    out += data;
  });
  child.stderr.on('data', (data) => {
    err += data;
  });
  whileRunning(() => child.kill('SIGINT'));
  return new Promise((resolve) => {
    child.on('close', (code) => {
      resolve({ code, out, err, usage: readUsage(usageFile) });
    });
  });
}

describe('the bundled program', () => {
  test('does without the schema library', () => {
    expect(bundled.filter((file) => file.includes('node_modules/zod/'))).toEqual([]);
  });

  test('knows its version, its schemas and its pages', async () => {
    expect((await run(['--version'])).out).toBe('9.8.7\n');
    expect((await run(['schema'])).out).toContain('release-report');
    expect((await run(['explain', 'room-overfilled', FULL])).out.length).toBeGreaterThan(300);
  });

  test('checks the full-size season without errors, in under 600 MB', async () => {
    const { code, usage } = await run(['check', FULL]);
    expect(code).toBe(0);
    // How long it takes is the benchmark's to say: a busy machine must not fail a test.
    expect(usage.maxRSS / 1024).toBeLessThan(600);
  });

  test('finds a checked schedule for it within three per cent of a proven bound, in under 600 MB', async () => {
    const { code, out, usage } = await run(['release', FULL, '--format', 'json']);
    const report = JSON.parse(out);
    expect(code).toBe(0);
    expect(report.violations).toEqual([]);
    expect(report.gap).toBeLessThan(0.03);
    expect(report.stoppedEarly).toBe(false);
    expect(usage.maxRSS / 1024).toBeLessThan(600);
  });

  test('stops at Ctrl-C and prints the best schedule found until then', async () => {
    const words = ['release', FULL, '--format', 'json', '--time-limit', '300', '--gap', '0.000001'];
    // On a busy machine the signal may come before there is a schedule, or before the search has begun: then later.
    for (const delay of [3000, 10_000, 30_000, 90_000]) {
      const { code, out, err } = await run(words, (kill) => setTimeout(kill, delay));
      if (code === null) continue;
      if (code === 2) {
        expect(err).toContain('Stopped before a schedule was found.');
        continue;
      }
      expect(JSON.parse(out)).toMatchObject({ violations: [] });
      return;
    }
    throw new Error('no signal came while there was a schedule to print');
  }, 300_000);

  test('ends quietly when its reader has seen enough', async () => {
    const child = spawn(process.execPath, [path.join(folder, 'cli.cjs'), 'schema', 'lot-plan'], {
      cwd: root,
    });
    let err = '';
    child.stderr.on('data', (data) => {
      err += data;
    });
    child.stdout.destroy();
    const code = await new Promise((resolve) => child.on('close', resolve));
    expect(err).toBe('');
    expect(code).toBe(0);
  });
});
