import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeSeason, opensIn } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { formatWeek, parseDay, weekOfDay } from '../../src/plan/dates';
import { applyEdits } from '../../src/plan/edits';
import { readPlan } from '../../src/plan/read';
import { judged, outcomes, seasonWith } from './plans';

const season = seasonWith('  none: { value: { at-least: 1 } }');
const { problem, result } = season.release ?? {};
if (!problem || !result) throw new Error('the first season has no schedule');

function state(claim: string): string {
  return judged(claim).verdict.state;
}

/** Cartons short of the demands that are meant, by hand. */
function shortOf(isMeant: (id: string) => boolean): number {
  return (problem?.demands ?? []).reduce((all, demand, index) => {
    if (!isMeant(demand.id)) return all;
    return (
      all +
      demand.cartons.reduce(
        (sum, wanted, week) => sum + Math.max(0, wanted - (result?.schedule.sold[index]?.[week] ?? 0)),
        0,
      )
    );
  }, 0);
}

describe('promises over shortage', () => {
  it('are broken by exactly what the schedule leaves short', () => {
    const short = Math.round(shortOf(() => true));
    expect(state(`{ shortage: { at-most: ${short} } }`)).toBe('kept');
    expect(state(`{ shortage: { at-least: ${short} } }`)).toBe('kept');
    if (short > 0) expect(state(`{ shortage: { at-most: ${short - 1} } }`)).toBe('broken');
    expect(state(`{ shortage: { at-least: ${short + 1} } }`)).toBe('broken');
    expect(state('{ no-shortage: {} }')).toBe(short > 0 ? 'broken' : 'kept');
  });

  it('are told the bins for what is too many, not for all that is short', () => {
    const more = `demand:
  more: { market: home, variety: Gala, class: first, weeks: 2026-W40..2026-W43, cartons: 900, price: 12 }`;
    const told = (most: number) => {
      const verdict = outcomes(seasonWith(`  one: { shortage: { at-most: ${most} } }\n${more}`)).get(
        'one',
      )?.verdict;
      const [, short = '', over = short] =
        /leaves ([\d,]+) cartons of [\d,]+ cartons undelivered(?:, ([\d,]+) cartons? too many)?,/.exec(
          verdict?.why ?? '',
        ) ?? [];
      const bins = /The fruit of ([\d,]+) bins? more in those weeks would do\./.exec(verdict?.why ?? '')?.[1];
      const [shortAll, tooMany, needed] = [short, over, bins ?? ''].map((text) =>
        Number(text.replaceAll(',', '')),
      );
      return { short: shortAll ?? 0, tooMany: tooMany ?? 0, bins: needed ?? 0 };
    };
    const all = told(0);
    expect(all.short).toBeGreaterThan(400);
    expect(all.bins).toBeGreaterThan(20);
    for (const share of [0.25, 0.5, 0.75]) {
      const part = told(Math.round(all.short * share));
      expect(part.tooMany).toBe(all.short - Math.round(all.short * share));
      // A bin gives more in some weeks than in others, and those weeks are told first.
      expect(part.bins).toBeLessThanOrEqual(Math.ceil(all.bins * (1 - share)));
      expect(part.bins).toBeGreaterThan(0.8 * all.bins * (1 - share));
    }
    expect(told(all.short - 1).bins).toBe(1);
  });

  it('speak of the orders that they name and of no others', () => {
    const gala = Math.round(shortOf((id) => season.plan.demand.get(id)?.variety?.value === 'Gala'));
    const { verdict } = judged('{ shortage: { variety: Gala, at-most: 0 } }');
    if (verdict.state === 'not judged') throw new Error(verdict.why);
    expect(verdict.measured.kind === 'figure' && Math.round(verdict.measured.figure.value)).toBe(gala);
    expect(judged('{ no-shortage: { market: overseas } }').verdict).toMatchObject({
      state: 'not judged',
      why: expect.stringContaining('There is no order for overseas.'),
    });
  });

  it('speak of no week from which they are not promised any more', () => {
    expect(state('{ no-shortage: { before: 2026-W30 } }')).toBe('not judged');
    expect(state('{ no-shortage: { from: 2027-W05, before: 2027-W05 } }')).toBe('not judged');
  });
});

describe('promises over openings', () => {
  const opens = opensIn(season);

  it.each([...season.plan.fills.values()].map(({ id }) => id))('hold the week of %s exactly', (fill) => {
    const week = opens?.get(fill);
    const room = season.plan.fills.get(fill)?.room?.value;
    if (week === undefined) throw new Error(`${fill} stays shut`);
    expect(state(`{ opens: { room: ${room}, in: ${formatWeek(week)} } }`)).toBe('kept');
    expect(state(`{ opens: { room: ${room}, before: ${formatWeek(week + 1)} } }`)).toBe('kept');
    expect(state(`{ opens: { room: ${room}, before: ${formatWeek(week)} } }`)).toBe('broken');
    expect(state(`{ opens: { room: ${room}, after: ${formatWeek(week)} } }`)).toBe('broken');
    expect(state(`{ opens: { room: ${room}, after: ${formatWeek(week - 1)} } }`)).toBe('kept');
  });

  it('hold the order of two rooms', () => {
    const [r1, r4] = [opens?.get('R1-gala') ?? 0, opens?.get('R4-braeburn') ?? 0];
    expect(state('{ opens: { room: R1, before-room: R4 } }')).toBe(r1 < r4 ? 'kept' : 'broken');
    expect(state('{ opens: { room: R4, before-room: R1 } }')).toBe(r4 < r1 ? 'kept' : 'broken');
  });

  it('are kept once the pin that a cure offers is written', () => {
    const week = opens?.get('R3-golden') ?? 0;
    const window = season.keeping.get('R3-golden')?.window;
    const broken = seasonWith(`  one: { opens: { room: R3, after: ${formatWeek(week)} } }`);
    const verdict = outcomes(broken, true).get('one')?.verdict;
    expect(window?.latest.week).toBeGreaterThan(week);
    if (verdict?.state !== 'broken') throw new Error('it is not broken');
    const [fix] = verdict.cures.flatMap(({ fixes }) => fixes);
    const files = [...broken.plan.files.values()].map(({ path, text }) => ({
      path,
      text: applyEdits(text, fix?.edits.filter(({ at }) => at.file === path) ?? []),
    }));
    const mended = computeSeason(readPlan(files));
    expect(outcomes(mended).get('one')?.verdict.state).toBe('kept');
  });

  it('say which lot sets the edge of a window that is too narrow', () => {
    const { verdict } = judged('{ window: { room: R1, at-least: 40 weeks } }');
    const latest = season.keeping.get('R1-gala')?.window?.latest;
    expect(verdict).toMatchObject({ state: 'broken' });
    expect(verdict.why).toContain(latest?.lot ? `${latest.limit} of lot ${latest.lot.id}` : latest?.limit);
  });
});

describe('promises over loads', () => {
  const peak = season.plant?.scrubbers.find(({ scrubber }) => scrubber.id === 'S1')?.peak?.share?.value ?? 0;

  it('hold the heaviest week of a scrubber', () => {
    expect(state(`{ scrubber-load: { scrubber: S1, at-most: ${Math.ceil(peak)} % } }`)).toBe('kept');
    expect(state(`{ scrubber-load: { scrubber: S1, at-most: ${Math.floor(peak) - 1} % } }`)).toBe('broken');
  });

  it('are kept with the removal that the cure names', () => {
    const { verdict } = judged('{ scrubber-load: { scrubber: S1, at-most: 40 % } }', true);
    if (verdict.state !== 'broken') throw new Error('it is not broken');
    const removal = /A removal of S1 of ([\d.]+) kg\/day/.exec(verdict.cures[0]?.text ?? '')?.[1];
    const plan = season.plan;
    const scrubbers = new Map(
      [...plan.scrubbers].map(([id, one]) => [
        id,
        id === 'S1' && one.removal ? { ...one, removal: { ...one.removal, value: Number(removal) } } : one,
      ]),
    );
    const after = computeSeason({ ...plan, scrubbers }).plant?.scrubbers.find(
      ({ scrubber }) => scrubber.id === 'S1',
    );
    expect(after?.peak?.share?.value).toBeLessThanOrEqual(40);
    expect(after?.peak?.share?.value).toBeGreaterThan(38);
  });
});

describe('promises over what is in store', () => {
  it('count what is packed before the day and in its week as out', () => {
    const day = parseDay('2027-02-01') ?? 0;
    const week = weekOfDay(day) - problem.firstWeek;
    const rooms = problem.rooms.flatMap(({ fill, bins }, index) =>
      fill === 'R3-golden' ? [{ bins, packed: result.schedule.packed[index] ?? [] }] : [],
    );
    const [one] = rooms;
    if (!one) throw new Error('no Golden Delicious');
    const left = one.bins - one.packed.slice(0, week + 1).reduce((all, bins) => all + bins, 0);
    const { verdict } = judged('{ in-store: { variety: Golden Delicious, on: 2027-02-01, bins: 100000 } }');
    if (verdict.state !== 'broken' || verdict.measured.kind !== 'figure') throw new Error(verdict.why);
    expect(verdict.measured.figure.value).toBeCloseTo(left, 6);
  });

  it("hold the last week of a grower's fruit", () => {
    expect(state('{ grower-out: { grower: Larkfield, by: 2027-W17 } }')).toBe('kept');
    expect(state('{ grower-out: { grower: Larkfield, by: 2026-W45 } }')).toBe('broken');
    expect(state('{ grower-out: { grower: Nobody, by: 2026-W45 } }')).toBe('not judged');
  });
});

describe('promises over value, packhouse and findings', () => {
  it('hold the value to the unit', () => {
    const { value } = result.schedule;
    expect(state(`{ value: { at-least: ${Math.floor(value)} } }`)).toBe('kept');
    expect(state(`{ value: { at-least: ${Math.ceil(value) + 1} } }`)).toBe('broken');
    const { verdict } = judged(`{ value: { at-least: ${Math.ceil(result.bound) + 1} } }`);
    expect(verdict.state === 'broken' && verdict.cures[0]?.text).toContain('No schedule of this plan');
  });

  it('hold the busiest week of the packhouse', () => {
    const shares = problem.packingBins.map((capacity, week) =>
      capacity > 0
        ? (100 * result.schedule.packed.reduce((all, room) => all + (room[week] ?? 0), 0)) / capacity
        : 0,
    );
    const peak = Math.max(...shares);
    expect(state(`{ packhouse-use: { at-most: ${Math.ceil(peak)} % } }`)).toBe('kept');
    expect(state(`{ packhouse-use: { at-most: ${Math.max(1, Math.floor(peak) - 1)} % } }`)).toBe('broken');
  });

  it('hold findings of a code', () => {
    const codes = new Set(findingsOf(season).map(({ code }) => code));
    expect(state('{ no-finding: { code: room-overfilled } }')).toBe(
      codes.has('room-overfilled') ? 'broken' : 'kept',
    );
    for (const code of codes) expect(state(`{ no-finding: { code: ${code} } }`)).toBe('broken');
    expect(state('{ no-finding: { code: no-such-code } }')).toBe('not judged');
  });

  it('are one at a time', () => {
    expect(judged('{ value: { at-least: 1 }, no-shortage: {} }').verdict).toMatchObject({
      state: 'not judged',
      why: expect.stringContaining('2 things'),
    });
    expect(judged('{ because: nothing yet }').verdict.state).toBe('not judged');
  });
});

describe('findings of promises', () => {
  it('stand at the bound that is broken, with the caution where weeks are told', () => {
    const broken = seasonWith('  soon: { opens: { room: R3, before: 2026-W41 }, because: the contract }');
    const found = findingsOf(broken).find(({ code }) => code === 'expectation-broken');
    const text = broken.plan.files.get('expect.lotplan.yaml')?.text ?? '';
    expect(text.slice(found?.at.start, found?.at.end)).toBe('2026-W41');
    expect(found?.message).toContain('the contract');
    expect(found?.message).toContain('calibrated instrument');
  });

  it('may be allowed at their place, and are not hidden from those that speak of findings', () => {
    const allowed = seasonWith(
      '  # lotwright: allow expectation-broken -- known\n  soon: { opens: { room: R3, before: 2026-W41 } }\n  other: { no-finding: { code: tightness-not-tested } }',
    );
    const codes = findingsOf(allowed).map(({ code }) => code);
    expect(codes).not.toContain('allowance-unused');
    expect(codes.filter((code) => code === 'expectation-broken').length).toBeLessThanOrEqual(1);
  });
});

describe('any promise', () => {
  it('never makes judging throw, and is told in words', () => {
    const scalars = fc.constantFrom('R1', 'Gala', '2027-W05', '2027-02-01', '40 %', '7', 'x', '[]', '{}', '');
    const keys = fc.constantFrom(
      'room',
      'before',
      'after',
      'in',
      'before-room',
      'variety',
      'market',
      'on',
      'by',
      'at-most',
      'at-least',
      'scrubber',
      'nitrogen',
      'group',
      'grower',
      'code',
      'bins',
      'from',
      'class',
    );
    const kinds = fc.constantFrom(
      'no-shortage',
      'shortage',
      'opens',
      'window',
      'scrubber-load',
      'nitrogen-load',
      'refrigeration-load',
      'packhouse-use',
      'in-store',
      'grower-out',
      'no-finding',
      'value',
    );
    const claims = fc.tuple(kinds, fc.dictionary(keys, scalars, { maxKeys: 4 }));
    fc.assert(
      fc.property(fc.array(claims, { maxLength: 3 }), (all) => {
        const lines = all.map(([kind, map], index) => {
          const inside = Object.entries(map)
            .map(([key, value]) => `${key}: ${value}`)
            .join(', ');
          return `  p${index}: { ${kind}: { ${inside} } }`;
        });
        const text = `lotwright: 1\nexpect:\n${lines.join('\n')}\n`;
        const plan = readPlan(
          [...season.plan.files.values()].map((file) => ({
            ...file,
            text: file.path === 'expect.lotplan.yaml' ? text : file.text,
          })),
        );
        const found = outcomes({ ...season, plan });
        for (const { claim, verdict } of found.values()) {
          expect(claim).not.toContain('undefined');
          expect(verdict.why.length).toBeGreaterThan(10);
        }
      }),
      { numRuns: 60 },
    );
  });
});
