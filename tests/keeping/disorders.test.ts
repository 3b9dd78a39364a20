import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { disorderTold, lotsOf, riskSentence, risksOf } from '../../src/findings/say-disorders';
import { fruitData } from '../../src/fruit/data';
import { roomKeeping } from '../../src/keeping/room-keeping';
import { weekOfDay } from '../../src/plan/dates';
import type { RegimeOverride, VarietyOverride } from '../../src/plan/model';
import { expectFormulasHold } from '../fruit/formulas';
import { ownRegime, ownVariety, planWith, present, written } from '../fruit/plans';
import { day, type LotValues, type RoomValues, roomOf } from './rooms';

interface Values extends RoomValues {
  /** A regime of the planner's own in place of the built-in one. */
  readonly own?: Partial<RegimeOverride>;
}

function keepingOf({ own, ...values }: Values) {
  const { plan, filled } = roomOf(values);
  const regime = own ? fruitData(planWith([], [ownRegime('own', own)])).regime('own') : filled.regime;
  return roomKeeping(plan, { ...filled, regime });
}

function risks(lot: LotValues, values: Values = {}) {
  const [first] = keepingOf({ ...values, lots: [lot] }).lots;
  return present(first).disorders;
}

function risk(id: string, lot: LotValues, values: Values = {}) {
  return risks(lot, values).find(({ disorder }) => disorder.id === id);
}

const metric = { system: 'metric', currency: 'EUR' } as const;
const show = ({ value, unit }: { value: number; unit: string }) => `${value} ${unit}`;

describe('scald', () => {
  test('of untreated Granny Smith begins three months after picking, and a treatment rules it out', () => {
    const found = present(risk('scald', { variety: 'Granny Smith' }, { regime: 'granny-smith-standard' }));
    expect(found.from).toBe(weekOfDay(day('2026-12-01')));
    expect(found.until).toBeUndefined();
    expect(found.because(show)).toBe('it has had no antioxidant or 1-MCP');
    expectFormulasHold(found.begins);
    for (const treatment of ['antioxidant', '1-mcp'] as const)
      expect(risk('scald', { variety: 'Granny Smith', treatments: [treatment] })).toBeUndefined();
  });

  test('in air, unprotected fruit is packed within 90 days, which may set the latest week', () => {
    // A life of 240 days in air (Kansas) would last until May.
    const values: Values = {
      regime: 'granny-smith-air',
      sealed: null,
      varieties: [ownVariety('Granny Smith', { storageLifeInAir: written(240, 'days') })],
    };
    const keeping = keepingOf({ ...values, lots: [{ variety: 'Granny Smith' }] });
    const [lot] = keeping.lots;
    expect(lot?.latestSetBy).toBe('disorder');
    expect(keeping.window?.latest.limit).toBe('disorder');
    // 90 days from 1 September is 30 November, a Monday: the last whole week is the one before.
    expect(lot?.latest).toBe(weekOfDay(day('2026-11-30')) - 1);
    expect(lot?.withinStandard(present(lot).latest)).toBeGreaterThan(0.9);
    expect(lot?.withinStandard(present(lot).latest + 1)).toBe(0);
    expectFormulasHold(present(keeping.window).latest.because);
    const treated = keepingOf({
      ...values,
      lots: [{ variety: 'Granny Smith', treatments: ['antioxidant'] }],
    });
    expect(treated.lots[0]?.latestSetBy).toBe('storage life');
    expect(present(treated.lots[0]).latest).toBeGreaterThan(present(lot).latest);
  });

  test('in a sealed room no source gives a number, so the window stays as it is', () => {
    const keeping = keepingOf({ regime: 'granny-smith-standard', lots: [{ variety: 'Granny Smith' }] });
    expect(keeping.window?.latest.limit).toBe('storage life');
  });
});

describe('carbon dioxide injury', () => {
  const fuji = { variety: 'Fuji' };
  const raised = { temperature: written(0.5, 'degC'), oxygen: written(1.5, '%') } as const;

  test('Fuji at 3 % is at risk from day 15 to the end of the fourth month', () => {
    const found = present(
      risk('carbon-dioxide-injury', fuji, { own: { ...raised, carbonDioxide: written(3, '%') } }),
    );
    expect(found.from).toBe(weekOfDay(day('2026-09-08') + 15));
    expect(found.until).toBe(weekOfDay(day('2026-09-08') + 122));
    expect(found.because(show)).toContain('3 % carbon dioxide is above the 1 %');
    expectFormulasHold(found.begins);
  });

  test('not at 0.5 %, and not in a room kept in air', () => {
    const low = { own: { ...raised, carbonDioxide: written(0.5, '%') } };
    expect(risk('carbon-dioxide-injury', fuji, low)).toBeUndefined();
    expect(risk('carbon-dioxide-injury', fuji, { ...low, sealed: null })).toBeUndefined();
  });

  test('a rise counts from the stage that brings it, and not after four months', () => {
    const stage = (from: number) => ({
      own: {
        ...raised,
        carbonDioxide: written(0.5, '%'),
        stages: [{ from: written(from, 'days'), carbonDioxide: written(3, '%') }],
      },
    });
    expect(risk('carbon-dioxide-injury', fuji, stage(60))?.from).toBe(weekOfDay(day('2026-09-08') + 60));
    expect(risk('carbon-dioxide-injury', fuji, stage(5))?.from).toBe(weekOfDay(day('2026-09-08') + 15));
    expect(risk('carbon-dioxide-injury', fuji, stage(130))).toBeUndefined();
  });

  test('less of it where CA came two weeks late in Fuji, three in Honeycrisp', () => {
    const own = { ...raised, carbonDioxide: written(3, '%') };
    const eased = (variety: string, sealed: string) =>
      risk('carbon-dioxide-injury', { variety }, { own, sealed })?.eased !== undefined;
    expect([eased('Fuji', '2026-09-14'), eased('Fuji', '2026-09-15')]).toEqual([false, true]);
    expect([eased('Honeycrisp', '2026-09-21'), eased('Honeycrisp', '2026-09-22')]).toEqual([false, true]);
  });

  test('Honeycrisp with an antioxidant bears 2 %, without only 1 %', () => {
    const own = { ...raised, carbonDioxide: written(2, '%') };
    expect(risk('carbon-dioxide-injury', { variety: 'Honeycrisp' }, { own })).toBeDefined();
    expect(
      risk('carbon-dioxide-injury', { variety: 'Honeycrisp', treatments: ['antioxidant'] }, { own }),
    ).toBeUndefined();
  });

  test('Braeburn is at risk in the first two weeks', () => {
    const own = { ...raised, carbonDioxide: written(2, '%') };
    const found = present(risk('carbon-dioxide-injury', { variety: 'Braeburn' }, { own }));
    expect(found.from).toBe(weekOfDay(day('2026-09-08')));
    expect(found.until).toBe(weekOfDay(day('2026-09-22')));
  });
});

describe('other disorders', () => {
  test('Gala browns after five months of CA, less where starch was below 4 on the one-to-eight scale', () => {
    const values = { regime: 'gala-low-oxygen' };
    const untested = present(risk('browning', {}, values));
    expect(untested.from).toBe(weekOfDay(day('2026-09-08') + 152));
    expect(untested.eased).toBeUndefined();
    expect(risk('browning', { starch: 4 }, values)?.eased).toBeUndefined();
    expect(risk('browning', { starch: 3.9 }, values)?.eased).toContain('below 4');
    // 4.5 of ten is 3.7 of eight.
    expect(risk('browning', { starch: 4.5, starchScale: 'one-to-ten' }, values)?.eased).toContain('below 4');
    expect(risk('browning', {}, { regime: 'gala-air', sealed: null })).toBeUndefined();
  });

  test('half a per cent of oxygen injures Spartan and Delicious; Golden Delicious negligibly', () => {
    const own = {
      temperature: written(0.5, 'degC'),
      oxygen: written(0.5, '%'),
      carbonDioxide: written(1, '%'),
    };
    const told = (variety: string) => risk('low-oxygen-injury', { variety }, { own })?.disorder.told ?? '';
    expect(told('Spartan')).toContain('badly');
    expect(told('Delicious')).toContain('slightly');
    expect(told('Golden Delicious')).toBe('');
    const one = { ...own, oxygen: written(1, '%') };
    expect(risk('low-oxygen-injury', { variety: 'Spartan' }, { own: one })).toBeUndefined();
  });

  test('Honeycrisp: bitter pit with conditioning, soft scald without', () => {
    const found = (regime: string) =>
      risks({ variety: 'Honeycrisp' }, { regime }).map(({ disorder }) => disorder.id);
    expect(found('honeycrisp-conditioned')).toEqual(['bitter-pit']);
    expect(found('honeycrisp-unconditioned')).toEqual(['soft-scald']);
    const pit = present(risk('bitter-pit', { variety: 'Honeycrisp' }, { regime: 'honeycrisp-conditioned' }));
    expect([pit.from, pit.until]).toEqual([weekOfDay(day('2026-09-01')), weekOfDay(day('2026-10-02'))]);
  });

  test('what chills: sensitive varieties below their least temperature, McIntosh only where it is sealed', () => {
    const at = (variety: string, degrees: number, sealed?: null) =>
      risk(
        'chilling-injury',
        { variety },
        {
          own: { temperature: written(degrees, 'degC'), oxygen: written(2, '%') },
          ...(sealed === null && { sealed }),
        },
      ) !== undefined;
    expect([at('Empire', 0), at('Empire', 2), at('Delicious', -0.9)]).toEqual([true, false, false]);
    expect([at('McIntosh', 1), at('McIntosh', 3), at('McIntosh', 1, null)]).toEqual([true, false, false]);
  });
});

describe("the planner's own word", () => {
  const granny = (disorders: VarietyOverride['disorders']): Values => ({
    regime: 'granny-smith-standard',
    varieties: [ownVariety('Granny Smith', { disorders: disorders ?? [], source: 'own trials' })],
  });
  const none = { watched: true, from: undefined, until: undefined, packedBy: undefined };
  const lot = { variety: 'Granny Smith' };

  test('switches a disorder off', () => {
    expect(risks(lot, granny([{ ...none, id: 'scald', watched: false }]))).toEqual([]);
  });

  test('gives other weeks, and a day by which fruit is packed sets the window', () => {
    const values = granny([
      { ...none, id: 'scald', from: written(150, 'days'), packedBy: written(180, 'days') },
    ]);
    expect(risk('scald', lot, values)?.from).toBe(weekOfDay(day('2026-09-01') + 150));
    const keeping = keepingOf({ ...values, lots: [lot] });
    expect(keeping.window?.latest.limit).toBe('disorder');
    // 180 days from 1 September is 28 February, a Sunday: that week is the last.
    expect(keeping.lots[0]?.latest).toBe(weekOfDay(day('2027-02-28')));
    expectFormulasHold(present(keeping.window).latest.because);
  });

  test('adds a disorder that no source has for the variety', () => {
    const values = granny([{ ...none, id: 'browning', from: written(100, 'days') }]);
    expect(risk('browning', lot, values)?.disorder.source.citation).toBe('own trials');
  });
});

test('a disorder with a day to be packed by never makes a window longer', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 60, max: 98 }), (days, confidence) => {
      const none = { watched: true, from: undefined, until: undefined };
      const own = ownVariety('Gala', {
        disorders: [{ ...none, id: 'browning', packedBy: written(days, 'days') }],
      });
      const values = { regime: 'gala-low-oxygen', confidence, lots: [{ firmnessLbf: 18, starch: 2 }] };
      const limited = present(keepingOf({ ...values, varieties: [own] }).window);
      const free = present(keepingOf(values).window);
      expect(limited.latest.week).toBeLessThanOrEqual(free.latest.week);
      expect(limited.bestBefore.week).toBeLessThanOrEqual(limited.latest.week);
    }),
    { numRuns: 60 },
  );
});

test('every reason and figure holds for every variety in every regime of its own', () => {
  const data = fruitData(planWith());
  for (const name of data.varietyNames) {
    for (const regime of present(data.variety(name)).regimes) {
      const sealed = data.regime(regime)?.oxygen ? '2026-09-10' : null;
      for (const found of risks({ variety: name }, { regime, sealed })) {
        expectFormulasHold(found.begins);
        expect(found.from).toBeGreaterThanOrEqual(weekOfDay(day('2026-09-01')));
        expect(found.until ?? found.from).toBeGreaterThanOrEqual(found.from);
        expect(found.disorder.source.citation).not.toBe('');
      }
    }
  }
});

test('a risk is said with its weeks, its reason and what lessens it; lots alike are told once', () => {
  const keeping = keepingOf({
    regime: 'gala-low-oxygen',
    lots: [
      { id: 'L1', starch: 3 },
      { id: 'L2', starch: 2 },
      { id: 'L3', starch: 5 },
    ],
  });
  const browning = risksOf(keeping, show).filter(({ risk }) => risk.disorder.id === 'browning');
  expect(browning.map(lotsOf)).toEqual(['L1 and L2', 'L3']);
  const [eased, other] = browning;
  expect(riskSentence(present(eased).risk, present(eased).because, metric)).toMatch(
    /^At risk of internal browning from 2027-W05 on\. Little .* Less so here: starch was below 4\.$/,
  );
  expect(riskSentence(present(other).risk, '', metric)).not.toContain('Less so');
  const scald = present(risk('scald', { variety: 'Rome' }, { regime: 'rome-standard' }));
  expect(riskSentence(scald, scald.because(show), metric)).toMatch(
    /^At risk of superficial scald from 2026-W49 on: it has had no antioxidant or 1-MCP\. Very susceptible/,
  );
});

test('other disorders leave a lot alone', () => {
  expect(risks({ variety: 'Mutsu', firmnessLbf: 18 }, { regime: 'mutsu-standard' })).toEqual([]);
});

// 3 °C x 1.8 + 32 = 37.4 °F.
test("what the source tells has the reader's temperatures, as printed where both are", () => {
  const us = { system: 'us', currency: 'USD' } as const;
  const soft = present(risk('soft-scald', { variety: 'Honeycrisp' }, { regime: 'honeycrisp-unconditioned' }));
  expect(riskSentence(soft, '', us)).toContain('Worst at 33 °F; conditioning at 50 °F for 5 to 7 days');
  expect(riskSentence(soft, '', metric)).toContain('Worst at 0.5 °C (33 °F); conditioning at 10 °C (50 °F)');
  const chilled = fruitData(planWith([]))
    .variety('McIntosh')
    ?.disorders.find(({ id }) => id === 'chilling-injury');
  expect(disorderTold(present(chilled), us)).toContain('few fruit at 37.4 °F');
  expect(disorderTold(present(chilled), us)).not.toContain('°C');
});
