import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';

const root = path.resolve(import.meta.dirname, '../..');
const { contributes } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));

interface Snippet {
  readonly isFileTemplate: boolean;
  readonly prefix?: string;
  readonly description: string;
  readonly body: readonly string[];
}

const [declared] = contributes.snippets;
const snippets: Readonly<Record<string, Snippet>> = JSON.parse(
  readFileSync(path.join(root, declared.path), 'utf8'),
);

/** The text of a snippet of which every place is left as it is. */
function taken({ body }: Snippet): string {
  return body
    .join('\n')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace('$0', '');
}

describe('the templates for a file of a plan', () => {
  it('are for our language alone, and never among what is offered while a plan is typed', () => {
    expect(contributes.snippets.map(({ language }: { language: string }) => language)).toEqual(['lotplan']);
    // What the plan knows is offered there; a prefix would offer an example beside it.
    for (const { isFileTemplate, prefix } of Object.values(snippets))
      expect([isFileTemplate, prefix]).toEqual([true, undefined]);
  });

  it('number their places in order, and say the same thing at each place of one number', () => {
    for (const [name, snippet] of Object.entries(snippets)) {
      const places = [...snippet.body.join('\n').matchAll(/\$\{(\d+):([^}]*)\}/g)];
      const said = new Map<string, string>();
      for (const [, number = '', text = ''] of places) {
        expect(said.get(number) ?? text, `${name}, place ${number}`).toBe(text);
        said.set(number, text);
      }
      expect([...said.keys()].map(Number), name).toEqual([...said.keys()].map((_, at) => at + 1));
      expect(snippet.body.at(-1)).toBe('$0');
    }
  });

  it('taken together as they are make a plan without a problem, and without an error', () => {
    const plan = readPlan(
      Object.values(snippets).map((snippet, at) => ({ path: `${at}.lotplan.yaml`, text: taken(snippet) })),
    );
    expect(plan.problems).toEqual([]);
    const season = computeSeason(plan);
    const errors = findingsOf(season).filter(({ severity }) => severity === 'error');
    expect(errors.map(({ message }) => message)).toEqual([]);
    expect(season.release?.result.schedule.opens).toEqual([expect.any(Number)]);
  });
});
