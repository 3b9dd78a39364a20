import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const root = path.resolve(__dirname, '../..');
const tracked = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard'], { cwd: root })
  .toString()
  .trim()
  .split('\n');

const linesOf = (file: string) => readFileSync(path.join(root, file), 'utf8').split('\n').length;

describe('the layout', () => {
  it('has only the agreed entries at the top', () => {
    const top = [...new Set(tracked.map((file) => file.split('/')[0] ?? ''))];
    const agreed =
      /^(\..*|README\.md|DEVELOPERS\.md|CHANGELOG\.md|LICENSE|package\.json|package\.nls(\.[a-z]+)?\.json|package-lock\.json|tsconfig.*\.json|[a-z]+\.config\.[a-z]+|biome\.json|extension|schemas|src|tests|sample-plans)$/;
    expect(top.filter((name) => !agreed.test(name))).toEqual([]);
  });

  it('keeps source files to one idea: none over 400 lines', () => {
    const sources = tracked.filter(
      (file) => /^(src|extension)\/.*\.(ts|mjs|css)$/.test(file) && !file.includes('.generated.'),
    );
    expect(sources.length).toBeGreaterThan(50);
    expect(sources.filter((file) => linesOf(file) > 400)).toEqual([]);
  });
});
