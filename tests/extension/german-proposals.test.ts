import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { translator } from '../../extension/translator';
import { computeSeason } from '../../src/findings/compute';
import { itemKinds } from '../../src/plan/check/item-kinds';
import { dimensions } from '../../src/plan/quantity';
import { readPlan } from '../../src/plan/read';
import { completionAt } from '../../src/server/services/completion';
import { root } from '../cli/in-process';

const bundle: Record<string, string> = JSON.parse(
  fs.readFileSync(path.join(root, 'extension/l10n/bundle.l10n.de.json'), 'utf8'),
);

/** What proposals behind each key and on each line of a sample's files say they are. */
function detailsIn(sample: string): { readonly details: ReadonlySet<string>; readonly written: string } {
  const folder = path.join(root, 'sample-plans', sample);
  const files = (fs.readdirSync(folder, { recursive: true }) as string[])
    .filter((name) => name.endsWith('.lotplan.yaml'))
    .map((name) => ({ path: name, text: fs.readFileSync(path.join(folder, name), 'utf8') }));
  const plan = readPlan(files);
  const season = computeSeason(plan, { release: 'quick', seed: 1, courses: false });
  const details = new Set<string>();
  for (const { path: file, text } of files)
    for (const { index } of text.matchAll(/(?<=: )\S|\n(?= *\S)/g))
      for (const { detail } of completionAt(plan, { file, offset: index }, season))
        if (detail) details.add(detail);
  return { details, written: files.map(({ text }) => text).join('\n') };
}

describe('what proposals say they are, in German', () => {
  it.each(['first-season', 'mid-harvest'])('but for names and sections: %s', (sample) => {
    const { details, written } = detailsIn(sample);
    const left = new Set<string>();
    const say = translator(bundle, 'de', (part) => left.add(part));
    for (const detail of details) say(detail);
    expect(details.size).toBeGreaterThan(20);
    const sections: readonly string[] = itemKinds;
    const untold = [...left].filter((part) => !sections.includes(part) && !written.includes(part));
    expect(untold).toEqual([]);
  });

  it('has each default that is told in words', () => {
    const told = [
      ...new Set(
        fs
          .readdirSync(path.join(root, 'schemas'))
          .filter((name) => name.endsWith('.json'))
          .flatMap((name) => [
            ...fs
              .readFileSync(path.join(root, 'schemas', name), 'utf8')
              .matchAll(/"x-default": "([^"]*\b[a-z]{2,} [a-z][^"]*)"/g),
          ])
          .map(([, words]) => words ?? ''),
      ),
    ];
    expect(told.length).toBeGreaterThan(20);
    for (const words of told) expect(bundle, words).toHaveProperty([`default: ${words}`]);
  });

  it('has each dimension', () => {
    for (const dimension of Object.keys(dimensions)) expect(bundle, dimension).toHaveProperty([dimension]);
  });
});
