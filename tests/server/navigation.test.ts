import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/plan/read';
import type { Span } from '../../src/plan/span';
import { definitionAt, referencesAt } from '../../src/server/services/definition';
import { outlineOf } from '../../src/server/services/outline';
import { caretIn, samplePlan } from './plans';

const files = samplePlan('first-season');
const plan = readPlan(files);
const textOf = (span: Span | undefined) =>
  span && files.find(({ path }) => path === span.file)?.text.slice(span.start, span.end);

describe('go to definition', () => {
  it.each([
    ['fruit', '    room: R‸2', 'orrowby', 'R2'],
    ['fruit', '    regime: gala-‸own', 'fruit', 'gala-own'],
    ['fruit', '    lots: { G1: 54, G‸2: 52', 'fruit', 'G2'],
    ['orrowby', '    scrubber: lime-‸box', 'orrowby', 'lime-box'],
    [
      'orrowby',
      'inside: { length: 10.6 m, width: 4.8 m, height: 5.0 m }\n    bin-type: plastic-‸1200',
      'orrowby',
      'plastic-1200',
    ],
  ])('from %s at %s', (file, marked, to, id) => {
    const found = definitionAt(plan, caretIn(files, `${file}.lotplan.yaml`, marked));
    expect(found?.file).toBe(`${to}.lotplan.yaml`);
    expect(textOf(found)).toBe(id);
  });

  it('of a built-in variety is nowhere', () => {
    expect(
      definitionAt(plan, caretIn(files, 'fruit.lotplan.yaml', 'B1: { variety: Brae‸burn')),
    ).toBeUndefined();
  });
});

describe('find references', () => {
  it('gives every place that names the entry, in all files', () => {
    const caret = caretIn(files, 'orrowby.lotplan.yaml', '  R‸2:\n');
    expect(referencesAt(plan, caret, true).map(({ file }) => file)).toEqual([
      'orrowby.lotplan.yaml',
      'fruit.lotplan.yaml',
    ]);
    expect(referencesAt(plan, caret, false).map(({ file }) => file)).toEqual(['fruit.lotplan.yaml']);
  });

  it('does not mix up entries of different sections with the same name', () => {
    const text = [
      'rooms:\n  A: { scrubber: A }',
      'plant:\n  scrubbers:\n    A: { kind: lime }',
      'fills:\n  F: { room: A }\n',
    ].join('\n');
    const two = readPlan([{ path: 'p.lotplan.yaml', text }]);
    const caret = { file: 'p.lotplan.yaml', offset: text.indexOf('room: A') + 6 };
    const places = referencesAt(two, caret, true).map(({ start }) => text.slice(0, start).split('\n').length);
    expect(places).toEqual([2, 7]);
  });
});

describe('outline', () => {
  it('has the sections of the file in their order, with their entries', () => {
    const outline = outlineOf(plan, 'fruit.lotplan.yaml');
    expect(outline.map(({ name, detail }) => `${name} ${detail}`)).toEqual([
      'regimes 3',
      'lots 12',
      'fills 4',
    ]);
    expect(outline[2]?.children.map(({ name, detail }) => `${name}: ${detail}`)).toContain(
      'R2-gala: R2, gala-own',
    );
  });

  it('selects names that lie inside what they head, and each entry inside its section', () => {
    for (const { path } of files)
      for (const section of outlineOf(plan, path)) {
        if (section.children.length > 0) expect(textOf(section.nameAt)).toBe(section.name);
        for (const item of [section, ...section.children]) {
          expect(item.nameAt.start).toBeGreaterThanOrEqual(item.whole.start);
          expect(item.nameAt.end).toBeLessThanOrEqual(item.whole.end);
        }
        for (const { whole } of section.children) {
          expect(whole.start).toBeGreaterThanOrEqual(section.whole.start);
          expect(whole.end).toBeLessThanOrEqual(section.whole.end);
        }
      }
  });

  it('is empty for a file that is not in the plan', () => {
    expect(outlineOf(plan, 'other.lotplan.yaml')).toEqual([]);
  });
});
