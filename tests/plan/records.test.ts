import { describe, expect, it } from 'vitest';
import { formatDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';

const RECORDS = `lotwright: 1
progress:
  R01-gala:
    first-bin: 2026-09-03
    last-bin: 2026-09-08
    lots: { L001: 232, L002: 184 }
    sealed: 2026-09-10
    low-oxygen: 2026-09-14
    opened: 2027-02-15
samples:
  S01:
    lot: L001
    fill: R01-gala
    taken: 2027-01-12
    fruit: 20
    firmness: 14.8 lbf
    disorders: { scald: 2 %, rot: 0.5 % }
packed:
  P01:
    lot: L001
    fill: R01-gala
    day: 2027-02-17
    bins: 84
    cartons: { first: 910, second: 250 }
sales:
  V01: { market: home, variety: Gala, class: first, week: 2027-W08, cartons: 850, price: 21.2 }
`;

describe('the records of a season', () => {
  const plan = readPlan([{ path: 'records.lotplan.yaml', text: RECORDS }]);

  it('say what has happened to a fill, under its name', () => {
    const progress = plan.progress.get('R01-gala');
    expect(progress?.sealed && formatDay(progress.sealed.value)).toBe('2026-09-10');
    expect(progress?.lots.map(({ lot, bins }) => [lot.value, bins.value])).toEqual([
      ['L001', 232],
      ['L002', 184],
    ]);
    expect(progress?.emptied).toBeUndefined();
  });

  it('name the fills and lots they are of, so that these can be followed and renamed', () => {
    const named = plan.references.map(({ section, id }) => `${section} ${id}`);
    expect(named.filter((name) => name === 'fills R01-gala')).toHaveLength(3);
    expect(named.filter((name) => name === 'lots L001')).toHaveLength(3);
    const key = plan.references.find(({ section }) => section === 'fills')?.at;
    expect(key && RECORDS.slice(key.start, key.end)).toBe('R01-gala');
  });

  it('hold samples in the units of the tool, packing by class and sales by week', () => {
    const sample = plan.samples.get('S01');
    // 14.8 lbf at 4.4482216 N.
    expect(sample?.firmness?.value).toBeCloseTo(65.83, 2);
    expect([...(sample?.disorders ?? [])].map(([id, share]) => [id, share.value])).toEqual([
      ['scald', 2],
      ['rot', 0.5],
    ]);
    const run = plan.packed.get('P01');
    expect([run?.bins?.value, run?.cartons.get('first')?.value]).toEqual([84, 910]);
    expect(plan.sales.get('V01')?.cartons?.value).toBe(850);
  });

  it('are told apart from what is wrong with them', () => {
    expect(plan.problems).toEqual([]);
  });
});
