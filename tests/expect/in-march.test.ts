import { describe, expect, it } from 'vitest';
import type { Verdict } from '../../src/expect/types';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';
import { outcomes } from './plans';

const files = sampleFiles('in-march');

/** What came of one promise over the season as it stood in March; `change` edits its files before. */
function verdictOf(claim: string, change: (text: string) => string = (text) => text): Verdict {
  const changed = files.map(({ path, text }) => ({ path, text: change(text) }));
  const promise = { path: 'expect.lotplan.yaml', text: `lotwright: 1\nexpect:\n  one: ${claim}\n` };
  const season = computeSeason(readPlan([...changed, promise]));
  const found = outcomes(season, true).get('one');
  if (!found) throw new Error('no outcome');
  return found.verdict;
}

function measured(verdict: Verdict): number | null {
  if (verdict.state === 'not judged') throw new Error(verdict.why);
  return verdict.measured.kind === 'figure' ? verdict.measured.figure.value : verdict.measured.week;
}

function cures(verdict: Verdict): string[] {
  return verdict.state === 'broken' ? verdict.cures.map(({ text }) => text) : [];
}

function withoutSales(text: string): string {
  return text.replace(/^sales:\n(?: .*\n?)*/m, '');
}

/** No packing is written of R1, though it is emptied. */
function withoutPackingOfR1(text: string): string {
  return text.replace(/^ {2}P\d+-R1-gala: .*\n/gm, '');
}

describe('promises over rooms that were opened', () => {
  it('hold the week in which they were opened', () => {
    expect(verdictOf('{ opens: { room: R1, in: 2026-W39 } }')).toMatchObject({
      state: 'kept',
      why: 'R1 was opened in 2026-W39.',
    });
    // Part of R4 is still to be packed: the schedule has it from 2027-W10 on, but it was opened on 2027-02-22.
    expect(verdictOf('{ opens: { room: R4, in: 2027-W08 } }').state).toBe('kept');
    expect(verdictOf('{ opens: { room: R1, before-room: R4 } }').state).toBe('kept');
  });

  it('offer no cure that would move them', () => {
    for (const claim of [
      '{ opens: { room: R1, before: 2026-W39 } }',
      '{ opens: { room: R4, after: 2027-W10 } }',
      '{ opens: { room: R4, before-room: R1 } }',
      '{ window: { room: R2, at-least: 40 weeks } }',
      '{ grower-out: { grower: Hollow Farm, by: 2027-W02 } }',
      '{ in-store: { variety: Gala, on: 2026-12-01, at-least: 70 % } }',
      '{ in-store: { variety: Gala, on: 2026-09-30, at-most: 50 % } }',
    ]) {
      const verdict = verdictOf(claim);
      expect(cures(verdict), claim).toEqual([expect.stringContaining('which cannot be changed any more.')]);
      expect(verdict.state === 'broken' && verdict.cures[0]?.fixes, claim).toEqual([]);
    }
  });
});

describe('promises over what is in store', () => {
  it.each([
    // R1 took in 154 bins (54 + 52 + 48), R2 235 (78 + 81 + 76): 389. On 1 December R1 is emptied.
    ['2026-12-01', 'Gala', 389, 235],
    // By 30 September 19 + 20 + 15 + 4 = 58 bins of R1 were packed; the 19 of 1 October were not.
    ['2026-09-30', 'Gala', 389, 331],
    // By 14 January 29 + 30 + 19 + 10 + 30 = 118 of the 235 in R2.
    ['2027-01-14', 'Gala', 389, 117],
    // R3 took in 97 + 86 + 93 = 276; by 17 November 35 + 34 + 28 + 7 = 104 were packed.
    ['2026-11-17', 'Golden Delicious', 276, 172],
    // R4 took in 98 + 91 + 92 = 281; by 7 March 35 + 35 + 28 + 7 + 36 = 141 were packed.
    ['2027-03-07', 'Braeburn', 281, 140],
  ])('count on %s the %s as recorded', (day, variety, stored, left) => {
    const verdict = verdictOf(`{ in-store: { variety: ${variety}, on: ${day}, at-least: 0 % } }`);
    expect(verdict.state).toBe('kept');
    expect(measured(verdict)).toBeCloseTo((100 * left) / stored, 9);
    expect(verdict.why).toContain(`${left} bins of ${stored} bins`);
  });

  it('take what the schedule packs after the stand out of what the records leave', () => {
    const verdict = verdictOf('{ in-store: { variety: Braeburn, on: 2027-04-24, at-most: 0 % } }');
    expect(verdict.state).toBe('kept');
    expect(measured(verdict)).toBeCloseTo(0, 6);
  });

  it('take as much out on each day of a room that is emptied and of which no packing is written', () => {
    // Opened on 21 September, emptied on 16 October: 26 days, of which 10 are over by 30 September.
    const verdict = verdictOf(
      '{ in-store: { variety: Gala, on: 2026-09-30, at-least: 0 % } }',
      withoutPackingOfR1,
    );
    expect(measured(verdict)).toBeCloseTo((100 * (235 + 154 * (16 / 26))) / 389, 9);
  });
});

describe('promises over orders', () => {
  it('count what was short in weeks that are past', () => {
    // 21 of the autumn's first class, 6 of the schools' autumn, 6 of the winter's first class, 3 of the schools' winter.
    const gala = verdictOf('{ shortage: { variety: Gala, at-most: 2 } }');
    expect(gala.state).toBe('broken');
    expect(measured(gala)).toBe(36);
    expect(cures(gala)).toEqual([
      'Weeks that are past were short of 36 cartons, which no schedule makes up for.',
    ]);
    expect(verdictOf('{ shortage: { variety: Gala, at-most: 36 } }').state).toBe('kept');
    // 3 + 1 + 19 + 4 + 36 of first class, 2 + 1 + 1 of second.
    const golden = verdictOf('{ no-shortage: { variety: Golden Delicious } }');
    expect(golden.state).toBe('broken');
    expect(measured(golden)).toBe(67);
    expect(golden.why).toContain('67 cartons of 3,470 cartons undelivered');
  });

  it('hold the weeks they are for', () => {
    const verdict = verdictOf('{ shortage: { variety: Gala, from: 2027-W01, at-most: 9 } }');
    expect(verdict.state).toBe('kept');
    expect(measured(verdict)).toBe(9);
  });

  it('do not judge deliveries of the past where no sale is recorded', () => {
    // Without sales the last day recorded is that of the last packing, 2027-03-04.
    const unknown =
      'No sale is recorded, so that what was delivered before 2027-W09 is not known and not counted.';
    expect(verdictOf('{ no-shortage: { variety: Gala } }', withoutSales)).toMatchObject({
      state: 'not judged',
      why: unknown,
    });
    expect(verdictOf('{ shortage: { variety: Braeburn, at-most: 1500 } }', withoutSales)).toMatchObject({
      state: 'kept',
      why: expect.stringContaining(unknown),
    });
  });

  it('do not judge deliveries of the past where no packing is recorded', () => {
    const withoutPacking = (text: string) => text.replace(/^packed:\n[\s\S]*/m, '');
    // The last day recorded is that of R4's opening, 2027-02-22, in 2027-W08.
    const unknown =
      'No packing is recorded, so that what was delivered before 2027-W08 is not known and not counted.';
    expect(verdictOf('{ no-shortage: { variety: Gala } }', withoutPacking)).toMatchObject({
      state: 'not judged',
      why: unknown,
    });
    const value = verdictOf('{ value: { at-least: 1000000 } }', withoutPacking);
    expect(value.why).toContain(unknown);
    // Nothing of Gala and Golden Delicious counts as short: not 2700 cartons of golden-christmas.
    expect(value.why).not.toContain('golden-christmas');
  });
});

describe('promises over growers, the packhouse and money', () => {
  it('hold the last week in which fruit of a grower was packed', () => {
    // The last of Hollow Farm is G5 of R2, on 21 January; 12 + 29 bins of it after 2027-W02.
    expect(verdictOf('{ grower-out: { grower: Hollow Farm, by: 2027-W03 } }')).toMatchObject({
      state: 'kept',
      why: 'The last of it was packed in 2027-W03.',
    });
    expect(verdictOf('{ grower-out: { grower: Hollow Farm, by: 2027-W02 } }').why).toBe(
      'Later than 2027-W02 come 41 bins in R2, which was opened in 2027-W01 and was packed out in 2027-W03.',
    );
  });

  it('hold what the packhouse ran in weeks that are past', () => {
    // In 2027-W09 28 + 7 + 36 = 71 of the 110 bins of a full week; no week before it has more.
    const verdict = verdictOf('{ packhouse-use: { before: 2027-W10, at-most: 60 % } }');
    expect(verdict.state).toBe('broken');
    expect(measured(verdict)).toBeCloseTo((100 * 71) / 110, 9);
    expect(verdict.why).toContain('It runs R4 71 bins.');
    expect(cures(verdict)).toEqual(['2027-W09 is past and cannot be changed any more.']);
  });

  it('hold the worth of the whole season', () => {
    // Sold of what was wanted, at the prices of the demand.
    const sold = 1409 * 21.5 + 2637 * 20 + 2234 * 24 + 771 * 23 + 414 * 11 + 627 * 11 + 766 * 9.5 + 193 * 10;
    // Short of it, at half the price, as the plan says nothing else.
    const short = (21 * 21.5 + 63 * 20 + 6 * 24 + 9 * 23 + 6 * 11 + 3 * 11 + 4 * 9.5 + 7 * 10) / 2;
    // Braeburn packed and not sold yet: 1373 less 778 of first class, 419 less 193 of second.
    const stock = 595 * 23 + 226 * 10;
    // Gala packed and not sold, of which nothing is wanted any more: 3892 less 3666 of first class, 1191 less 1045 of
    // second; Golden Delicious of second class 863 less 770. They go to processing.
    const leftOver = (226 + 146 + 93) * 3;
    const rest = computeSeason(readPlan(files)).release?.result.schedule.value ?? 0;
    const verdict = verdictOf('{ value: { at-least: 1 } }');
    expect(measured(verdict)).toBeCloseTo(rest + sold - short + stock + leftOver, 6);
    expect(verdict.why).toContain('sold and short before 2027-W10, at the prices of the demand');
  });

  it('hold a machine that was loaded too much in a week that is past, and offer no change of it', () => {
    const verdict = verdictOf('{ scrubber-load: { scrubber: S1, at-most: 40 % } }');
    expect(cures(verdict)).toEqual(['2026-W40 is past and cannot be changed any more.']);
  });
});

describe('promises over a season that is over', () => {
  const emptied = (text: string) =>
    text.replace('    opened: 2027-02-22\n', '    opened: 2027-02-22\n    emptied: 2027-03-20\n');

  it('are judged by the records where these are enough', () => {
    expect(
      verdictOf('{ in-store: { variety: Gala, on: 2026-12-01, at-least: 60 % } }', emptied),
    ).toMatchObject({
      state: 'kept',
      why: '235 bins of 389 bins (60.4 %) are in store on 2026-12-01.',
    });
    const late = verdictOf('{ in-store: { variety: Braeburn, on: 2027-03-20, at-most: 0 % } }', emptied);
    expect(measured(late)).toBe(0);
    expect(verdictOf('{ opens: { room: R4, in: 2027-W08 } }', emptied).state).toBe('kept');
    expect(verdictOf('{ grower-out: { grower: Hollow Farm, by: 2027-W03 } }', emptied).state).toBe('kept');
  });

  it('over orders count what was sold, and what nothing is left for', () => {
    const gala = verdictOf('{ shortage: { variety: Gala, at-most: 36 } }', emptied);
    expect(gala.state).toBe('kept');
    expect(measured(gala)).toBe(36);
    expect(gala.why).toContain('The season as recorded, with what has been delivered, leaves 36 cartons');
    // Of the orders of Braeburn the cold store has what was packed and not sold; no fruit is left for the rest.
    const before = verdictOf('{ shortage: { variety: Braeburn, at-most: 0 } }');
    const after = verdictOf('{ shortage: { variety: Braeburn, at-most: 0 } }', emptied);
    expect(measured(after)).toBeGreaterThan(measured(before) ?? 0);
    expect(cures(after).length).toBeLessThanOrEqual(1);
  });

  it('over money and the packhouse hold what is recorded, and offer no schedule', () => {
    const value = verdictOf('{ value: { at-least: 1000000 } }', emptied);
    expect(value.why).toMatch(/^The season as recorded is worth .* with what was sold and short before /);
    expect(cures(value)).toEqual(['Every room is packed out: no schedule changes it any more.']);
    const use = verdictOf('{ packhouse-use: { before: 2027-W10, at-most: 60 % } }', emptied);
    expect(measured(use)).toBeCloseTo((100 * 71) / 110, 9);
  });

  it('are not judged where nobody wrote what was packed', () => {
    const text = (all: string) => emptied(all).replace(/^packed:\n[\s\S]*/m, '');
    const verdict = verdictOf('{ value: { at-least: 1 } }', text);
    expect(verdict).toMatchObject({
      state: 'not judged',
      why: expect.stringContaining('Every room is packed out, and the records do not say what was packed'),
    });
  });
});
