import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SeasonAgain } from '../../src/findings/again/season-again';
import { emptyPlanCache, type PlanFile, readPlan } from '../../src/plan/read';
import { settledFor, smallPlan } from '../edits/bases';
import { compareSeasons, sameAfterEdits, sequences } from '../edits/same-again';
import { edits } from '../plan/edited';
import { sampleFiles } from '../samples/sample';

/** How many sequences of edits are tried; `npm run test:edits` tries ten thousand, most of them of small plans. */
const RUNS = { ofSmallPlans: 40, ofSamples: 6 };

it('a plan that is edited, computed again, is what it is computed afresh', () => {
  let states = 0;
  fc.assert(
    fc.property(sequences, (sequence) => {
      states += sameAfterEdits(sequence);
    }),
    { numRuns: RUNS.ofSmallPlans },
  );
  expect(states).toBeGreaterThan(RUNS.ofSmallPlans);
});

it.each(['first-season', 'with-mistakes', 'us-units'])('and so is the sample %s', (name) => {
  const files = sampleFiles(name);
  // The schedule and the courses at hand stay while the plan is typed in, as they do in an editor.
  const found = settledFor(files);
  const base = { files, atHand: () => found };
  let states = 0;
  fc.assert(
    fc.property(edits(files), (sequence) => {
      const atHand = ['kept', 'kept', 'kept', 'kept', 'none'] as const;
      states += sameAfterEdits({ base, edits: sequence, atHand, asAWhole: true });
    }),
    { numRuns: RUNS.ofSamples },
  );
  expect(states).toBeGreaterThan(RUNS.ofSamples);
});

describe('an edit that is seen', () => {
  const files = smallPlan('orchard');

  it.each([
    ["a room's cooler in a group", 'capacity: 16 kW, group', 'capacity: 9 kW, group'],
    ['its fans while holding', 'capacity: 16 kW, group', 'capacity: 16 kW, fans-holding: 40 %, group'],
    ['the oxygen of a regime, told once and not for each entry', '    oxygen: 1.5 %', '    oxygen: 71.5 %'],
    ['lots that change their bins with each other', '{ G1: 58, G2: 80 }', '{ G1: 80, G2: 58 }'],
  ])('%s', (_, from, to) => {
    const cache = emptyPlanCache();
    const ways = [new SeasonAgain(), new SeasonAgain({ byField: true })];
    const changed = files.map(({ path, text }) => ({ path, text: text.replace(from, to) }));
    expect(changed).not.toEqual(files);
    for (const now of [files, changed, files] satisfies (readonly PlanFile[])[])
      compareSeasons(ways, { plan: readPlan(now, cache), fresh: readPlan(now), atHand: {} });
  });
});
