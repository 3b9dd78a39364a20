import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/plan/read';
import { completionAt } from '../../src/server/services/completion';
import { allowancesAt } from '../../src/server/services/completion-allowances';
import { atCaret } from './cursor';
import { computed, samplePlan } from './plans';

const firstSeason = samplePlan('first-season');
const file = 'more.lotplan.yaml';

/** What is offered in a further file of the first season, with its detail. */
function offered(marked: string): [label: string, detail: string][] {
  const { text, offset } = atCaret(marked);
  const plan = readPlan([...firstSeason, { path: file, text }]);
  return completionAt(plan, { file, offset }).map(({ label, detail }) => [label, detail]);
}

describe('completion of fruit', () => {
  it('offers the regimes that suit the lots of the fill first', () => {
    const regimes = offered('fills:\n  F1:\n    lots: { B1: 20 }\n    regime: ‸');
    expect(regimes[0]).toEqual(['braeburn-own', 'for Braeburn']);
    const suited = regimes.findIndex(([, detail]) => detail === 'not for Braeburn');
    expect(suited).toBeGreaterThan(0);
    expect(regimes.slice(suited).every(([, detail]) => detail === 'not for Braeburn')).toBe(true);
    expect(regimes.slice(suited).map(([label]) => label)).toContain('gala-own');
  });

  it('puts a regime that suits both varieties of a fill before those that suit one', () => {
    const regimes = offered('fills:\n  F1:\n    lots: { B1: 20, G1: 20 }\n    regime: ‸');
    const ranks = ['for none of its varieties', 'not for Braeburn', 'for all its varieties'];
    const counts = regimes.map(([, detail]) => ranks.indexOf(detail.replace('Gala', 'Braeburn')));
    expect(counts).toEqual(counts.toSorted((a, b) => b - a));
    expect(regimes).toContainEqual(['gala-own', 'not for Braeburn']);
  });

  it('leaves the order as it is while the fill has no lots: regimes of the plan, then those built in', () => {
    const regimes = offered('fills:\n  F1:\n    regime: ‸');
    expect(regimes[0]?.[0]).toBe('early-air');
    expect(regimes.every(([, detail]) => detail === 'regimes')).toBe(true);
  });

  it('offers the varieties that most lots of the plan are of before all others', () => {
    const varieties = offered('lots:\n  N1: { bins: 4, variety: ‸ }').map(([label]) => label);
    expect(varieties.slice(0, 3)).toEqual(['Gala', 'Braeburn', 'Golden Delicious']);
    expect(varieties).toContain('Fuji');
  });

  it('offers the lots that suit the regime of a fill that has none yet', () => {
    const more =
      'lots:\n  N1: { variety: Gala, bins: 40 }\n  N2: { variety: Braeburn, bins: 30 }\nfills:\n  F1:\n    regime: braeburn-own\n    lots: { ‸ }';
    expect(offered(more).slice(0, 2)).toEqual([
      ['N2', 'Braeburn, 30 bins left'],
      ['N1', 'Gala, 40 bins left'],
    ]);
  });
});

describe('completion of what a comment allows', () => {
  const allowed = (marked: string) => {
    const { text, offset } = atCaret(marked);
    const { season, findings } = computed([...firstSeason, { path: file, text }]);
    return allowancesAt(season.plan, { file, offset }, findings);
  };

  it('offers the finding of its own line first, and leaves the reason to be written', () => {
    const more = 'lots:\n  N1: { variety: Gala, bins: 40 } # lotwright: allow lot‸\n';
    const found = allowed(more);
    expect(found?.[0]).toMatchObject({ label: 'lot-not-placed', newText: 'lot-not-placed -- ' });
    const begun = '# lotwright: allow '.length + more.indexOf('# lotwright');
    expect(found?.[0]?.at).toMatchObject({ start: begun, end: begun + 'lot'.length });
    expect(found?.filter(({ detail }) => detail === 'told here').length).toBeGreaterThan(0);
    expect(found?.map(({ label }) => label)).toContain('room-partly-filled');
  });

  it('offers the finding of the line below where the comment stands alone', () => {
    const found = allowed(
      'lots:\n  # lotwright: allow ‸\n  # from the late block\n  N1: { variety: Gala, bins: 40 }\n',
    );
    expect(found?.filter(({ detail }) => detail === 'told here').map(({ label }) => label)).toContain(
      'lot-not-placed',
    );
  });

  it('keeps the reason that is there, and offers nothing that may not be allowed', () => {
    const found = allowed(
      'lots:\n  N1: { variety: Gala, bins: 40 } # lotwright: allow ‸ -- sold at the gate\n',
    );
    expect(found?.[0]?.newText).not.toContain('--');
    expect(found?.map(({ label }) => label)).not.toContain('yaml-syntax');
  });

  it('is offered in no other place', () => {
    expect(allowed('lots:\n  N1: { variety: Gala, bins: 40 } # allow ‸\n')).toBeUndefined();
    expect(allowed('lots:\n  N1: { variety: ‸ }\n')).toBeUndefined();
  });
});
