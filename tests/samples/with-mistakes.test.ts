import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';

const FOLDER = path.resolve(__dirname, '../../sample-plans/with-mistakes');
const files = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.lotplan.yaml'))
  .sort()
  .map((name) => ({ path: name, text: readFileSync(path.join(FOLDER, name), 'utf8') }));

function lineOf(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}

/** What the plan itself says it must give: `finds <code>` beside the line. */
function written(): string[] {
  return files.flatMap(({ path: name, text }) =>
    text.split('\n').flatMap((line, index) => {
      const comment = /#.*$/.exec(line)?.[0] ?? '';
      return [...comment.matchAll(/\bfinds ([a-z][a-z-]*[a-z])/g)].map(
        (match) => `${name}:${index + 1} ${match[1]}`,
      );
    }),
  );
}

describe('the sample plan with mistakes', () => {
  const plan = readPlan(files);
  const found = findingsOf(computeSeason(plan, { courses: true })).map(
    ({ at, code }) => `${at.file}:${lineOf(plan.files.get(at.file)?.text ?? '', at.start)} ${code}`,
  );

  it('gives exactly the findings written beside its lines', () => {
    expect([...new Set(found)].sort()).toEqual(written().sort());
  });

  it('has at least twenty-five kinds of mistake', () => {
    expect(new Set(written().map((line) => line.split(' ')[1])).size).toBeGreaterThanOrEqual(25);
  });
});
