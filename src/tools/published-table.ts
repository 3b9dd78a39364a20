/**
 * Writes the table of published checks, `tests/published/README.md`: `npm run published`. With `--check`, holds what
 * is committed against the checks that a test run has recorded (`PUBLISHED_CHECKS_FILE`) and fails when it differs.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { MadeCheck } from '../../tests/published/published';
import { publishedTable } from './published-text';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const table = path.join(root, 'tests/published/README.md');
const recorded = process.env.PUBLISHED_CHECKS_FILE ?? path.join(root, 'out/published-checks.jsonl');
const onlyCheck = process.argv.includes('--check');

if (!onlyCheck) makeChecks();
const text = publishedTable(readChecks());
if (!onlyCheck) {
  writeFileSync(table, text);
} else if (readText(table) !== text) {
  console.error('tests/published/README.md is out of date: run `npm run published` and commit it');
  process.exitCode = 1;
}

function makeChecks(): void {
  mkdirSync(path.dirname(recorded), { recursive: true });
  rmSync(recorded, { force: true });
  const { status } = spawnSync(
    process.execPath,
    ['node_modules/vitest/vitest.mjs', 'run', 'tests/published'],
    {
      cwd: root,
      stdio: 'inherit',
      env: { ...process.env, PUBLISHED_CHECKS_FILE: recorded },
    },
  );
  if (status !== 0) process.exit(status ?? 1);
}

function readChecks(): MadeCheck[] {
  const lines = readText(recorded).split('\n').filter(Boolean);
  if (lines.length === 0)
    throw new Error(`no checks in ${path.relative(root, recorded)}: run the tests first`);
  return lines.map((line) => JSON.parse(line) as MadeCheck);
}

function readText(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}
