import type { Plan } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { applyScenario } from '../../src/scenario/apply';
import type { Overlaid } from '../../src/scenario/types';
import { sampleFiles } from '../samples/sample';

export const files = sampleFiles('first-season');

/** The first season with scenarios beside it. */
export function planWith(scenarios: string): Plan {
  return readPlan([
    ...files,
    { path: 'scenarios.lotplan.yaml', text: `lotwright: 1\nscenarios:\n${scenarios}\n` },
  ]);
}

export function laid(body: string): Overlaid {
  const plan = planWith(`  one:\n${body}`);
  if (plan.problems.length > 0) throw new Error(plan.problems.map(({ message }) => message).join('\n'));
  const scenario = plan.scenarios.get('one');
  if (!scenario) throw new Error('no scenario');
  return applyScenario(plan, scenario);
}

/** The first season with its text changed: each text must stand there exactly once. */
export function edited(changes: readonly (readonly [old: string, now: string])[]): Plan {
  let texts = files.map(({ path, text }) => ({ path, text }));
  for (const [old, now] of changes) {
    const holding = texts.filter(({ text }) => text.split(old).length === 2);
    if (holding.length !== 1) throw new Error(`"${old}" stands in ${holding.length} files`);
    texts = texts.map(({ path, text }) => ({ path, text: text.replace(old, () => now) }));
  }
  return readPlan(texts);
}

const LEFT_OUT = new Set([
  'at',
  'places',
  'origin',
  'files',
  'scenarios',
  'expectations',
  'references',
  'allowances',
  'problems',
  'covers',
]);

/** All that a plan says, without where it says it, as text. */
export function said(plan: Plan): string {
  return JSON.stringify(plan, (key, value: unknown) => {
    if (LEFT_OUT.has(key)) return undefined;
    return value instanceof Map
      ? Object.fromEntries([...value].sort(([a], [b]) => (String(a) < String(b) ? -1 : 1)))
      : value;
  });
}
