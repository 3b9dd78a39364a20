import { expect, it } from 'vitest';
import { judgeAll } from '../../src/expect/judge';
import { computeSeason } from '../../src/findings/compute';
import { hasRule } from '../../src/findings/rules';
import { applyEdits } from '../../src/plan/edits';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';

/** Every room is pinned, and no more than two may stand open at once. */
const PINS = {
  'R1-gala': '2026-W41',
  'R2-gala': '2026-W46',
  'R3-golden': '2026-W44',
  'R4-braeburn': '2026-W50',
};

function files(): { path: string; text: string }[] {
  const pinned = (text: string) =>
    Object.entries(PINS).reduce(
      (now, [fill, week]) =>
        now
          .replace(new RegExp(`(^  ${fill}:\\n(?:    .*\\n)*?)    open: .*\\n`, 'm'), '$1')
          .replace(new RegExp(`^  ${fill}:\\n`, 'm'), `  ${fill}:\n    open: ${week}\n`),
      text,
    );
  const text = 'lotwright: 1\nexpect:\n  golden: { no-shortage: { variety: Golden Delicious } }\n';
  return [
    ...sampleFiles('first-season').map((file) => ({
      path: file.path,
      text: pinned(file.text).replace(
        '  confidence: 90 %\n',
        '  confidence: 90 %\n  rooms-open-at-once: 2\n',
      ),
    })),
    { path: 'expect.lotplan.yaml', text },
  ];
}

function golden(all: readonly { path: string; text: string }[]) {
  const plan = readPlan(all);
  expect(plan.problems).toEqual([]);
  const season = computeSeason(plan, { release: 'quick', seed: 1 });
  const [one] = judgeAll(season, { thorough: true, findings: [], isCode: hasRule });
  if (!one || one.verdict.state === 'not judged') throw new Error('not judged');
  return one.verdict;
}

it('where letting go of one pin does not help, two rooms that must move together are offered, and their fix keeps the promise', () => {
  const all = files();
  const broken = golden(all);
  expect(broken.state).toBe('broken');
  const pair = broken.cures.find(({ text }) => text.includes('as one alone does not help'));
  expect(pair?.text).toMatch(
    /^Take out the pins of R3-golden \(2026-W44\) and R2-gala \(2026-W46\), as one alone does not help: with R3-golden opened in 2026-W46 and R2-gala opened in 2026-W42, 0 of 1,120 cartons stay short\. With every other room as it is, that brings EUR [\d,]+ more\.$/,
  );
  const [out, moved] = pair?.fixes ?? [];
  expect(out?.title).toBe('Take out the pins of R3-golden and R2-gala');
  const fixed = (edits = moved?.edits) =>
    all.map((file) => ({
      ...file,
      text: applyEdits(
        file.text,
        (edits ?? []).filter(({ at }) => at.file === file.path),
      ),
    }));
  expect(golden(fixed()).state).toBe('kept');
  const free = readPlan(fixed(out?.edits)).fills;
  expect([...free.values()].filter(({ open }) => open === undefined).map(({ id }) => id)).toEqual([
    'R2-gala',
    'R3-golden',
  ]);
});
