import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { comparePlans } from '../../src/compare/compare';
import type { Comparison, Consequence, PlanChange } from '../../src/compare/types';
import type { PlanFile } from '../../src/plan/read';
import { readPlan } from '../../src/plan/read';
import { editedFiles, edits } from '../plan/edited';
import { sampleFiles } from '../samples/sample';
import { fortyEdits, withChanges } from './forty-edits';

const OPTIONS = { seed: 1, courses: false } as const;

function compare(before: readonly PlanFile[], after: readonly PlanFile[]): Comparison {
  return comparePlans(readPlan(before), readPlan(after), OPTIONS).comparison;
}

const ROUNDING = 6;

/** Numbers in a text, each made another one by its own digit: some few at a time. */
function withNumbers(files: readonly PlanFile[], picks: readonly (readonly [number, number])[]): PlanFile[] {
  const texts = files.map(({ text }) => text);
  for (const [where, digit] of picks) {
    const file = where % texts.length;
    const text = texts[file] ?? '';
    const digits = [...text.matchAll(/(?<=: |\.|-)[1-9](?=\d*(?: |,|%|$|\.))/gm)].map(({ index }) => index);
    const at = digits[Math.floor(where / texts.length) % Math.max(1, digits.length)];
    if (at !== undefined) texts[file] = `${text.slice(0, at)}${digit}${text.slice(at + 1)}`;
  }
  return files.map(({ path }, index) => ({ path, text: texts[index] ?? '' }));
}

const numbers = fc.array(fc.tuple(fc.nat(100_000), fc.integer({ min: 1, max: 9 })), {
  minLength: 1,
  maxLength: 4,
});

/** What a change is, whichever way it is looked at. */
function nameOf({ kind, things, key }: PlanChange): string {
  const other = kind === 'added' ? 'removed' : kind === 'removed' ? 'added' : kind;
  const turned = kind === 'lot-moved' ? [things[0], things[2], things[1]] : things;
  return JSON.stringify([other, turned, key]);
}

function sameName({ kind, things, key }: PlanChange): string {
  return JSON.stringify([kind, things, key]);
}

function expectMirrored(there: Comparison, back: Comparison): void {
  expect(back.changes.map(nameOf).sort()).toEqual(there.changes.map(sameName).sort());
  const returned = new Map(back.changes.map((change) => [nameOf(change), change]));
  for (const change of there.changes) {
    const other = returned.get(sameName(change));
    expect(other?.before).toEqual(change.after);
    expect(other?.after).toEqual(change.before);
    if (change.kind === 'lot-moved') expect(other?.amount).toEqual(change.amount);
  }
  expect(back.edits).toHaveLength(there.edits.length);
  expect(back.consequences.map(({ key }) => key).sort()).toEqual(
    there.consequences.map(({ key }) => key).sort(),
  );
  const mirrored = new Map(back.consequences.map((one) => [one.key, one]));
  for (const one of there.consequences) expectTurned(one, mirrored.get(one.key));
  const count = ({ heldBack }: Comparison) =>
    heldBack.map(({ kind, count: held }) => `${kind} ${held}`).sort();
  expect(count(back)).toEqual(count(there));
  expect(back.thresholds).toEqual(there.thresholds);
  expect(back.totals?.old.errors).toBe(there.totals?.now.errors);
  expect(back.totals?.now.errors).toBe(there.totals?.old.errors);
  const weeks = { old: 'new', new: 'old', both: 'both' } as const;
  expect(back.weeksOf).toBe(there.weeksOf && weeks[there.weeksOf]);
}

function expectTurned(one: Consequence, other: Consequence | undefined): void {
  const turned = { worse: 'better', better: 'worse', neither: 'neither' }[one.direction];
  expect([one.key, other?.direction]).toEqual([one.key, turned]);
  expect(other?.gravity).toBe(one.gravity);
  expectClose(other?.before, one.after);
  expectClose(other?.after, one.before);
  expect(other?.newFinding?.message).toBe(one.oldFinding?.message);
  expect(other?.oldFinding?.message).toBe(one.newFinding?.message);
  expect(other?.byWeek?.map(({ week }) => week)).toEqual(one.byWeek?.map(({ week }) => week));
}

function expectClose(a: number | undefined, b: number | undefined): void {
  if (a === undefined || b === undefined) expect(a).toBe(b);
  else expect(a).toBeCloseTo(b, ROUNDING);
}

/** The parts of every amount and what the edits do together add up to the whole. */
function expectPartsToSum({ consequences }: Comparison): number {
  let amounts = 0;
  for (const { key, before, after, causes } of consequences) {
    if (causes.together === undefined) continue;
    const parts = causes.parts.reduce((sum, { part }) => sum + (part ?? 0), 0);
    expect([key, Math.round((parts + causes.together) * 1e4)]).toEqual([
      key,
      Math.round(((after ?? 0) - (before ?? 0)) * 1e4),
    ]);
    amounts++;
  }
  return amounts;
}

function expectCausesToBeEdits({ consequences, edits: all }: Comparison): void {
  for (const { causes } of consequences) {
    if (all.length > 0) expect(causes.parts.length).toBeGreaterThan(0);
    for (const { edits: own } of causes.parts) {
      expect(new Set(own).size).toBe(own.length);
      for (const edit of own) expect(all[edit]).toBeDefined();
    }
  }
}

describe.each(['first-season', 'us-units'])('%s with some of its numbers changed', (name) => {
  const files = sampleFiles(name);

  test('compared there and back mirrors', () => {
    fc.assert(
      fc.property(numbers, (picks) => {
        const after = withNumbers(files, picks);
        expectMirrored(compare(files, after), compare(after, files));
      }),
      { numRuns: 15 },
    );
  });

  test('the parts of its consequences sum to the whole', () => {
    let amounts = 0;
    fc.assert(
      fc.property(numbers, numbers, (some, others) => {
        const comparison = compare(withNumbers(files, some), withNumbers(files, others));
        amounts += expectPartsToSum(comparison);
        expectCausesToBeEdits(comparison);
      }),
      { numRuns: 12 },
    );
    expect(amounts).toBeGreaterThan(50);
  });
});

describe('forty edits of the full season', () => {
  const files = sampleFiles('full-season');
  const after = withChanges(files, fortyEdits);

  test('mirror, and their parts sum to the whole', () => {
    const [there, back] = [compare(files, after), compare(after, files)];
    expectMirrored(there, back);
    expect(there.edits.length).toBeGreaterThan(30);
    expect(expectPartsToSum(there)).toBeGreaterThan(50);
    expectCausesToBeEdits(there);
  });

  test('six of them, each tried alone, sum to the whole with what they do together', () => {
    const few = compare(
      files,
      withChanges(
        files,
        [0, 3, 11, 18, 22, 30].flatMap((at) => (fortyEdits[at] ? [fortyEdits[at]] : [])),
      ),
    );
    expect(few.edits).toHaveLength(6);
    expect(expectPartsToSum(few)).toBeGreaterThan(5);
  });
});

describe('any text', () => {
  test.each(['first-season', 'with-mistakes'])(
    'of %s can be compared, and gives the same each time',
    (name) => {
      const files = sampleFiles(name);
      fc.assert(
        fc.property(edits(files), (sequence) => {
          const after = editedFiles(files, sequence).at(-1) ?? files;
          const comparison = compare(files, after);
          expectPartsToSum(comparison);
          expectCausesToBeEdits(comparison);
          expect(compare(files, after)).toEqual(comparison);
        }),
        { numRuns: 20 },
      );
    },
  );
});
