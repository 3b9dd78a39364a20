import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const root = path.resolve(__dirname, '../..');
const called = (...args: string[]) => spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });

describe('what builds, and what runs the suite in a window', () => {
  it.each(['src/tools/build.mjs', 'tests/host/run-host.mjs'])('%s begins nothing it cannot read', (tool) => {
    const { status, stderr } = called(tool, '--whatever');
    expect(status).not.toBe(0);
    expect(stderr).toMatch(/Unknown option '--whatever'/);
    const help = called(tool, '--help');
    expect([help.status, help.stderr]).toEqual([0, '']);
    expect(help.stdout).toMatch(/run/);
  });
});
