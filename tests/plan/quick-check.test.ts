import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Item } from '../../src/plan/check/checked';
import { fullCheck } from '../../src/plan/check/full-check';
import { type EntrySection, type ItemKind, itemKinds, schemaOfKind } from '../../src/plan/check/item-kinds';
import { quickCheck } from '../../src/plan/check/quick-check';
import { planSchema } from '../../src/plan/check/schema';
import { ProblemSink } from '../../src/plan/problem-sink';
import { readChunk } from '../../src/plan/text/chunk';
import { type MapNode, type Node, pairOf } from '../../src/plan/text/nodes';
import { parseChunk } from '../../src/plan/text/parse';
import { shapedParse } from '../../src/plan/text/shaped-parse';
import { split } from '../../src/plan/text/split';
import { mutatedStretch, sampleTexts } from './mutated';
import { goodValue, spoilt } from './schema-values';

const choices = fc.array(fc.nat({ max: 1000 }), { minLength: 5, maxLength: 5 });

/** Whether the quick check answers; where it does, that it says what the full one does. */
function answers(item: Item): boolean {
  const quick = quickCheck(item);
  const sink = new ProblemSink(100);
  const full = fullCheck(item, sink);
  const isGood = sink.problems.length + sink.unsaid + full.bad.size === 0;
  if (!quick) return false;
  expect(isGood, JSON.stringify({ item, problems: sink.problems })).toBe(true);
  const plain = (all: readonly { section: string; id: string; at: { start: number; end: number } }[]) =>
    all.map(({ section, id, at }) => [section, id, at.start, at.end]);
  expect(plain(quick)).toEqual(plain(full.references));
  return true;
}

function itemOf(kind: ItemKind, value: unknown): Item {
  const { root } = parseChunk(JSON.stringify({ 'One-1': value }));
  const pair = root?.kind === 'map' ? root.pairs[0] : undefined;
  if (!pair) throw new Error('JSON is not read as YAML');
  return { kind, key: pair.key, value: pair.value };
}

describe('the quick check of an item', () => {
  for (const kind of itemKinds.filter((one) => one !== 'scenarios'))
    it(`answers for good ${kind} alone, and names what the full one names`, () => {
      const schema = schemaOfKind(planSchema, kind);
      fc.assert(
        fc.property(goodValue(schema), choices, fc.boolean(), (data, where, spoil) => {
          const item = itemOf(kind, spoil ? spoilt(data, where) : data);
          const sink = new ProblemSink(100);
          const isGood = fullCheck(item, sink).bad.size + sink.problems.length + sink.unsaid === 0;
          const hasFlag = JSON.stringify(data).includes('true') || JSON.stringify(data).includes('false');
          if (!hasFlag) expect(answers(item), JSON.stringify(data)).toBe(isGood);
          else answers(item);
        }),
        { numRuns: 150, seed: 5 },
      );
    });

  it('leaves scenarios to the full one', () => {
    expect(quickCheck(itemOf('scenarios', { says: 'so' }))).toBeUndefined();
  });

  it('answers for nearly all entries of the samples', () => {
    const seen = { quick: 0, all: 0 };
    for (const text of sampleTexts) for (const item of itemsIn(text)) count(seen, item);
    expect(seen.quick).toBeGreaterThan(0.9 * seen.all);
  });

  it('says of mutated text what the full one does', () => {
    const seen = { quick: 0, all: 0 };
    fc.assert(
      fc.property(mutatedStretch, (text) => {
        for (const item of itemsIn(text)) count(seen, item);
      }),
      { numRuns: 1500 },
    );
    expect(seen.quick).toBeGreaterThan(100);
    expect(seen.quick).toBeLessThan(seen.all);
  });
});

describe('the reading of an entry by its schema', () => {
  const plain = (node: Node): unknown =>
    node.kind === 'map'
      ? { ...own(node), pairs: node.pairs.map(({ key, value }) => ({ key, value: plain(value) })) }
      : node.kind === 'list'
        ? { ...own(node), items: node.items.map(plain) }
        : node;
  const own = ({ kind, flow, start, end }: MapNode | Extract<Node, { kind: 'list' }>) => ({
    kind,
    flow,
    start,
    end,
  });
  const under = (node: Node): boolean =>
    node.kind !== 'map' ||
    node.pairs.every(
      ({ key, value }) => (node.under?.(key.name) ?? pairOf(node, key.name)?.value) === value && under(value),
    );

  /** Whether it reads the chunk; where it does, that tree and check give the same and find nothing wrong. */
  function reads(kind: EntrySection, text: string): boolean {
    const item = shapedParse(kind, text);
    if (!item) return false;
    const { root, problems } = parseChunk(text);
    const pair = root?.kind === 'map' && root.pairs.length === 1 ? root.pairs[0] : undefined;
    if (!pair) throw new Error(`no entry: ${JSON.stringify(text)}`);
    const sink = new ProblemSink(100);
    const { bad, references } = fullCheck({ kind, ...pair }, sink);
    expect(problems.length + sink.problems.length + sink.unsaid + bad.size, JSON.stringify(text)).toBe(0);
    expect({ key: item.key, value: plain(item.value) }).toEqual({ key: pair.key, value: plain(pair.value) });
    expect(under(item.value)).toBe(true);
    expect(item.references.map(({ section, id, at }) => [section, id, at.start, at.end])).toEqual(
      references.map(({ section, id, at }) => [section, id, at.start, at.end]),
    );
    return true;
  }

  function readsOf(text: string, seen: { quick: number; all: number }): void {
    for (const { parent, start, end, heading } of split('a', text).chunks) {
      if (heading || parent === 'file' || parent === 'plant') continue;
      seen.all++;
      if (reads(parent, text.slice(start, end))) seen.quick++;
    }
  }

  it('gives the tree and the names of the full way, for most entries of the samples, with LF and CRLF', () => {
    const seen = { quick: 0, all: 0 };
    for (const text of sampleTexts)
      for (const one of [text, text.replaceAll('\n', '\r\n'), text.trimEnd()]) readsOf(one, seen);
    expect(seen.quick).toBeGreaterThan(0.8 * seen.all);
  });

  const signs = [
    '',
    ' ',
    ',',
    ':',
    '#',
    '}',
    '{',
    '[',
    ']',
    '"',
    '3',
    'x',
    '\n',
    '\r\n',
    ' #',
    ': ',
    ', ',
    '\n ',
  ];
  const written: readonly { kind: EntrySection; entry: string; deep: string }[] = [
    {
      kind: 'lots',
      entry: `  A-1: { variety: Elstar, grower: Hill 3,  picked: 2026-08-25, bins: 23,
         maturity: { starch: 5.1, firmness: 60 N }, treatments: [antioxidant] }\n`,
      deep: '         ',
    },
    {
      kind: 'fills',
      entry: `  N-1: # for early sale
    room: N001
    regime: elstar-air
    # first of all
    first-bin: 2026-08-25
    last-bin: 2026-08-30
    lots: { EL-001: 22, EL-001-2:  7, EL-002-2: 24 ,
            EL-003-3: 12, }
    open: 2026-W40\n`,
      deep: '            ',
    },
    {
      kind: 'rooms',
      entry: `  N001:
    inside: { length: 13.0 m, width: 5.7 m, height: 6.4 m }
    bin-type: plastic-1200
    lost-places: 6
    refrigeration:
      capacity: 24 kW
      group: plant-main
    ready: 2026-08-19\n`,
      deep: '      ',
    },
  ];

  it.each(written)('reads no entry of $kind otherwise for how the ones before were written', (one) => {
    const { kind, entry, deep } = one;
    const seen = { quick: 0, all: 0 };
    for (let at = 0; at <= entry.length; at++)
      for (const sign of signs)
        for (const behind of [at, at + 1]) {
          // Those that are written as they should be come in between, so that the next is expected to be like them.
          expect(shapedParse(kind, entry)).toBeDefined();
          readsOf(`${kind}:\n${entry.slice(0, at)}${sign}${entry.slice(behind)}`, seen);
        }
    for (const other of [
      entry.replaceAll('\n', '\r\n'),
      entry.replaceAll('  ', '   '),
      entry.replace(deep, '  '),
    ])
      readsOf(`${kind}:\n${other}`, seen);
    expect(seen.quick).toBeGreaterThan(100);
    expect(seen.quick).toBeLessThan(seen.all);
  });

  it('reads keys in another order, and a value that begins as the last one did', () => {
    const seen = { quick: 0, all: 0 };
    const lines = [
      'room: N001',
      'regime: elstar-air',
      'first-bin: 2026-08-25',
      'last-bin: 2026-08-30',
      'lots: { EL-001: 2, EL-002: 3 }',
    ];
    for (const end of ['', '2', ' b', ' ', ' # said', '\r', '  '])
      for (let turned = 0; turned < lines.length; turned++) {
        const entry = [...lines.slice(turned), ...lines.slice(0, turned)];
        readsOf(`fills:\n  N-1:\n${entry.map((line) => `    ${line}${end}\n`).join('')}`, seen);
        readsOf(`fills:\n  N-2:\n${lines.map((line) => `    ${line}\n`).join('')}`, seen);
      }
    expect(seen.quick).toBeGreaterThan(40);
  });

  it('leaves a lot that stands twice in a fill to the full way', () => {
    const entry = (second: string) =>
      `  N-1:\n    room: N001\n    regime: elstar-air\n    first-bin: 2026-08-25\n    last-bin: 2026-08-30\n    lots: { EL-001: 2, ${second}: 3 }\n`;
    expect(shapedParse('fills', entry('EL-002'))).toBeDefined();
    expect(shapedParse('fills', entry('EL-001'))).toBeUndefined();
    expect(shapedParse('fills', entry('EL-002').replace('3 }', '0 }'))).toBeUndefined();
  });

  it('reads no mutated entry otherwise than the full way', () => {
    const seen = { quick: 0, all: 0 };
    fc.assert(
      fc.property(mutatedStretch, (text) => readsOf(text, seen)),
      { numRuns: 4000 },
    );
    expect(seen.quick).toBeGreaterThan(100);
    expect(seen.quick).toBeLessThan(seen.all);
  });
});

function count(seen: { quick: number; all: number }, item: Item): void {
  seen.all++;
  if (answers(item)) seen.quick++;
}

function itemsIn(text: string): Item[] {
  return split('a', text).chunks.flatMap(({ parent, start, end, heading }) =>
    heading ? [] : [...readChunk(parent, text.slice(start, end), false).items],
  );
}
