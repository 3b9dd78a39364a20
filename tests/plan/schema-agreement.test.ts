import { Ajv } from 'ajv';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { itemKinds, schemaOfKind } from '../../src/plan/check/item-kinds';
import { overlayErrors } from '../../src/plan/check/overlay-errors';
import { planSchema } from '../../src/plan/check/schema';
import { schemaErrors } from '../../src/plan/check/schema-errors';
import { planFile } from '../../src/plan/schema/plan-file';
import type { Node } from '../../src/plan/text/nodes';
import { parseChunk } from '../../src/plan/text/parse';
import { sampleFiles } from '../samples/sample';
import { goodValue, spoilt } from './schema-values';

// The published schema as any tool would compile it; numbers that JSON does not have are refused.
const published = new Ajv({ allErrors: true, strict: false, strictNumbers: true }).compile(planSchema);
const choices = fc.array(fc.nat({ max: 1000 }), { minLength: 5, maxLength: 5 });

function expectSameVerdict(data: unknown): boolean {
  const zodSays = planFile.safeParse(data).success;
  expect(published(data), JSON.stringify(data)).toBe(zodSays);
  return zodSays;
}

describe('the published schema and the schema in the code', () => {
  it('both accept the sample plans', () => {
    for (const name of ['first-season', 'full-season', 'us-units'])
      for (const { path, text } of sampleFiles(name)) expect(expectSameVerdict(parse(text)), path).toBe(true);
  });

  it('both accept several hundred generated plans', () => {
    fc.assert(
      fc.property(goodValue(planSchema), (data) => {
        expect(expectSameVerdict(data)).toBe(true);
      }),
      { numRuns: 300, seed: 1 },
    );
  });

  it('give the same verdict on several hundred spoilt ones, most of them bad', () => {
    let bad = 0;
    fc.assert(
      fc.property(goodValue(planSchema), choices, (data, where) => {
        if (!expectSameVerdict(spoilt(data, where))) bad++;
      }),
      { numRuns: 700, seed: 2 },
    );
    expect(bad).toBeGreaterThan(300);
  });

  it('give the same verdict on each single value spoilt in the full season', () => {
    const data: unknown[] = sampleFiles('full-season').map(({ text }) => parse(text));
    fc.assert(
      fc.property(fc.constantFrom(...data), choices, (plan, where) => {
        expectSameVerdict(spoilt(plan, where));
      }),
      { numRuns: 300, seed: 3 },
    );
  });
});

function nodeOf(value: unknown): Node {
  const { root } = parseChunk(JSON.stringify({ value }));
  if (root?.kind !== 'map' || !root.pairs[0]) throw new Error('JSON is not read as YAML');
  return root.pairs[0].value;
}

describe('the validators the program runs', () => {
  for (const kind of itemKinds)
    it(`agree with the published schema on ${kind}`, () => {
      const schema = schemaOfKind(planSchema, kind);
      const compiled = new Ajv({ strict: false, strictNumbers: true }).compile(schema);
      fc.assert(
        fc.property(goodValue(schema), choices, fc.boolean(), (data, where, spoil) => {
          const value = spoil ? spoilt(data, where) : data;
          // What a scenario lays over the plan is checked by the validators of what it is.
          const says =
            schemaErrors(kind, value).length === 0 &&
            (kind !== 'scenarios' || overlayErrors(nodeOf(value)).length === 0);
          expect(says, JSON.stringify(value)).toBe(compiled(value));
        }),
        { numRuns: 60, seed: 4 },
      );
    });
});
