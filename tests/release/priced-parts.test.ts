import type { Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { ascend } from '../../src/release/ascent';
import { findConflicts } from '../../src/release/conflicts';
import { boundOfParts } from '../../src/release/parts-certificate';
import { boundAtPrices } from '../../src/release/price-certificate';
import type { PartProof, PriceTree } from '../../src/release/price-tree';
import { PartsByPrices } from '../../src/release/prove-by-prices';
import { seededRandom } from '../../src/release/random';
import type { ReleaseProblem } from '../../src/release/types';
import { seasonOfEverything } from './everything';
import { madeProblem, sizes } from './generate';
import { loadHighs } from './highs';
import { bestValue } from './oracle';

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

function partsOf(problem: ReleaseProblem, known: number, rounds: number): PartsByPrices {
  const parts = new PartsByPrices(problem, ascend(problem, [], { turns: 60, known }));
  for (let round = 0; round < rounds && parts.round(() => true); round++);
  return parts;
}

describe('a season in parts at prices', () => {
  it.each(Array.from({ length: 12 }, (_, index) => 10 * index))(
    'is limited by its cases, whatever they are, seasons %i and the nine after',
    (first) => {
      for (let seed = first; seed < first + 10; seed++) {
        const problem = seasonOfEverything(seed);
        if (findConflicts(problem).messages.length > 0) continue;
        const best = bestValue(highs, problem);
        const close = 1e-6 * Math.max(1e5, Math.abs(best));
        const { proof, bound } = partsOf(problem, best, 6);
        const again = boundOfParts(problem, [], proof);
        expect(again).toBeGreaterThan(best - close);
        expect(again).toBeLessThan(bound + close);
        // Any sharing of what rooms bring, any prices, any cases.
        const random = seededRandom(seed);
        const spoilt = proof.parts.map(
          (part): PartProof => ({
            ...part,
            rooms: part.rooms.map((room) => ({
              ...room,
              weeks: room.weeks.map((one) => ({ ...one, brings: one.brings - 500 * random() })),
            })),
            tree: anyTree(problem, random, 3),
          }),
        );
        expect(boundOfParts(problem, [], { ...proof, parts: spoilt })).toBeGreaterThan(best - close);
      }
    },
  );

  it('proves as much as the prices do, and more with each case', () => {
    const problem = madeProblem({ ...sizes.M, demand: 1 / 1.15 }, 2);
    const ascent = ascend(problem, [], { turns: 300, known: 11_134_600 });
    const parts = new PartsByPrices(problem, ascent);
    const whole = boundAtPrices(problem, [], ascent.prices);
    const bounds = [boundOfParts(problem, [], parts.proof)];
    expect(bounds[0]).toBeLessThan(whole * (1 + 1e-7));
    for (let round = 0; round < 30; round++) {
      parts.round(() => true);
      if (round % 15 === 14) bounds.push(boundOfParts(problem, [], parts.proof));
    }
    expect(bounds[1]).toBeLessThan(bounds[0] ?? 0);
    expect(bounds[2]).toBeLessThan(bounds[1] ?? 0);
    expect(bounds[2]).toBeLessThan(whole * 0.9975);
    expect(bounds[2]).toBeGreaterThan(11_168_807);
    expect(Math.abs((bounds[2] ?? 0) / parts.bound - 1)).toBeLessThan(1e-7);
  });

  it('refuses parts that leave products out', () => {
    const problem = madeProblem(sizes.S, 1);
    const { proof } = partsOf(problem, 0, 0);
    const fewer = { ...proof, parts: proof.parts.slice(1) };
    expect(() => boundOfParts(problem, [], fewer)).toThrow(/every product once/);
    const twice = { ...proof, parts: [...proof.parts, ...proof.parts.slice(1)] };
    expect(() => boundOfParts(problem, [], twice)).toThrow(/every product once/);
  });
});

function anyTree(problem: ReleaseProblem, random: () => number, depth: number): PriceTree {
  if (depth === 0)
    return {
      kind: 'leaf',
      wanted: Float64Array.from(
        { length: problem.weeks * problem.demands.length },
        () => 30 * (random() - 0.2),
      ),
    };
  const room = Math.floor(random() * problem.rooms.length);
  const below = () => anyTree(problem, random, depth - 1);
  if (random() < 0.3) return { kind: 'open', room, closed: below(), opened: below() };
  return { kind: 'weeks', room, week: Math.floor(random() * problem.weeks), before: below(), after: below() };
}
