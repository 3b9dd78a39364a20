import { describe, expect, it } from 'vitest';
import { computeSeason, withCourses } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { thingsOf } from '../../src/report/things';

/** A room kept in controlled atmosphere on lime, one on carbon with a warm hold, and one of pears kept in air. */
const plan = (own: Own = {}) => `
lotwright: 1
season: { name: Test, starts: 2026-08-31, ends: 2027-06-25, carton: 18 kg${own.season ?? ''} }
bins:
  plastic: { outside: { length: 1.2 m, width: 1.0 m, height: 0.78 m }, net-fruit: 300 kg, tare: 38 kg, material: plastic${own.plastic ?? ''} }
  wood: { outside: { length: 1.2 m, width: 1.2 m, height: 0.8 m }, net-fruit: 320 kg, tare: 60 kg, material: wood${own.wood ?? ''} }
plant:
  scrubbers:
    L: { kind: lime, removal: 20 kg/day, at-level: 2 %, charge: 900 kg${own.lime ?? ''} }
    S: { kind: carbon, removal: 30 kg/day, at-level: 3 %, beds: { number: 2, carbon: 90 kg, adsorb: 8 min, regenerate: 8 min, void-volume: 0.3 m3${own.beds ?? ''} } }
  nitrogen:
    N: { kind: membrane, flows: [{ purity: 97 %, flow: 60 m3/h }, { purity: 99 %, flow: 30 m3/h }] }
  refrigeration:
    G: { capacity: 120 kW }
rooms:
  A: { inside: { length: 13 m, width: 6 m, height: 6 m }, bin-type: plastic, refrigeration: { capacity: 40 kW, group: G, coil-difference: 6 K }, tightness: { from: 250 Pa, to: 125 Pa, after: 22 min }, scrubber: L, nitrogen: N }
  B: { inside: { length: 13 m, width: 6 m, height: 6 m }, bin-type: plastic, refrigeration: { capacity: 40 kW, group: G }, tightness: { from: 250 Pa, to: 125 Pa, after: 22 min }, breather-bag: 1 m3, scrubber: S, nitrogen: N }
  C: { inside: { length: 13 m, width: 6 m, height: 6 m }, bin-type: wood, refrigeration: { capacity: 60 kW, group: G } }
varieties:
  Braeburn: { like: Braeburn${own.apple ?? ''} }
  Golden Delicious: { like: Golden Delicious${own.golden ?? ''} }
  Bartlett: { like: Bartlett${own.pear ?? ''} }
regimes:
  warm: { varieties: [Braeburn], temperature: 1 °C, oxygen: 1.8 %, carbon-dioxide: 1.2 %, conditioning: { temperature: 8 °C, lasts: 5 days }, storage-life: 7 months }
  cold: { varieties: [Golden Delicious, Braeburn], temperature: 1 °C, oxygen: 1.5 %, carbon-dioxide: 2 %, storage-life: 7 months }
  air: { varieties: [Bartlett], temperature: -1 °C, storage-life: 3 months }
lots:
  L1: { variety: Golden Delicious, picked: 2026-09-14..2026-09-17, bins: 200, field-temperature: 18 °C }
  L2: { variety: Braeburn, picked: 2026-09-16..2026-09-19, bins: 150, field-temperature: 16 °C }
  L3: { variety: Braeburn, picked: 2026-09-20..2026-09-22, bins: 300, field-temperature: 17 °C }
  L4: { variety: Bartlett, picked: 2026-09-02..2026-09-04, bins: 250, field-temperature: 22 °C }
fills:
  FA: { room: A, regime: cold, first-bin: 2026-09-14, last-bin: 2026-09-19, sealed: 2026-09-23, lots: { L1: 200, L2: 150 }, open: 2027-W09 }
  FB: { room: B, regime: warm, first-bin: 2026-09-20, last-bin: 2026-09-22, sealed: 2026-10-08, lots: { L3: 300 }, open: 2027-W11 }
  FC: { room: C, regime: air, first-bin: 2026-09-02, last-bin: 2026-09-04, lots: { L4: 250 }, open: 2026-W45 }
${own.policy ?? ''}
`;

interface Own {
  readonly season?: string;
  readonly plastic?: string;
  readonly wood?: string;
  readonly lime?: string;
  readonly beds?: string;
  readonly apple?: string;
  readonly golden?: string;
  readonly pear?: string;
  readonly policy?: string;
}

const assumed = (text: string) => `policy: { assumptions: { ${text} } }`;

/** Every figure of every thing of the plan, by `thing.figure`. */
function figures(own: Own): ReadonlyMap<string, number> {
  const read = readPlan([{ path: 'a.lotplan.yaml', text: plan(own) }]);
  expect(read.problems).toEqual([]);
  return new Map(
    thingsOf(withCourses(computeSeason(read))).flatMap(({ kind, id, figures: all }) =>
      all.map(({ slug, figure }) => [`${kind} ${id}.${slug}`, figure.value] as const),
    ),
  );
}

const usual = figures({});

describe('an engineer’s own values', () => {
  it('changes nothing where it states what holds without it', () => {
    const stated = figures({
      season: ', outside-humidity: 60 %',
      plastic: ', specific-heat: 1.9 kJ/kgK',
      wood: ', specific-heat: 2.093 kJ/kgK',
      lime: ', utilisation: 60 %',
      beds: ', loading: [{ at: 1 %, grams: 4 }, { at: 3 %, grams: 11.5 }, { at: 5 %, grams: 17 }, { at: 15 %, grams: 42.5 }, { at: 100 %, grams: 97.5 }], used: 60 %',
      apple: ', specific-heat: 3.81 kJ/kgK, density: 840 kg/m3',
      pear: ', specific-heat: 3.59996 kJ/kgK, density: 840 kg/m3',
      policy: assumed(
        'heat-of-respiration: 10.7 J/mg, lime-utilisation: 60 %, service-pressure: 10 Pa, barometer-rise: 500 Pa, air-changes-loading: 6, air-changes-holding: 1.8, humidity-at-fruit: 100 %, step-down-a-day: 1 K, days-to-cold: 5 days, source: as the handbooks have it',
      ),
    });
    // What is written in the plan is a figure of its own there besides.
    for (const [name, value] of usual) expect(stated.get(name), name).toBe(value);
    expect(usual.size).toBeGreaterThan(300);
  });

  const own = (
    name: string,
    values: Own,
    changes: Readonly<Record<string, number>>,
    same: readonly string[],
  ) =>
    it(name, () => {
      const after = figures(values);
      for (const [figure, times] of Object.entries(changes)) {
        const [before, now] = [usual.get(figure), after.get(figure)];
        if (before === undefined || now === undefined) throw new Error(`no figure ${figure}`);
        expect(before, figure).toBeGreaterThan(0);
        expect(now / before, figure).toBeCloseTo(times, 9);
      }
      for (const figure of same) expect(after.get(figure), figure).toBe(usual.get(figure));
    });

  own(
    'heats each variety and each bin by its own specific heat',
    {
      apple: ', specific-heat: 3.6 kJ/kgK',
      plastic: ', specific-heat: 0.45 kcal/kgK',
      wood: ', specific-heat: 2.5 kJ/kgK',
    },
    {
      'fill FB.field-heat-a-day': 3.6 / 3.81,
      // 200 bins of Golden Delicious at 3.81 and 150 of Braeburn at 3.6.
      'fill FA.field-heat-a-day': (200 * 3.81 + 150 * 3.6) / (350 * 3.81),
      'fill FA.bin-heat-a-day': (0.45 * 4.1868) / 1.9,
      'fill FC.bin-heat-a-day': 2.5 / 2.093,
    },
    ['fill FC.field-heat-a-day', 'fill FA.free-gas-volume', 'fill FA.carbon-dioxide-in-store'],
  );

  it('leaves the gas that its own density of the fruit leaves', () => {
    const after = figures({ apple: ', density: 800 kg/m3', golden: ', density: 800 kg/m3' });
    const fruit = 350 * 300;
    const less = (usual.get('fill FA.free-gas-volume') ?? 0) - (after.get('fill FA.free-gas-volume') ?? 0);
    expect(less).toBeCloseTo(fruit / 800 - fruit / 840, 9);
  });

  own(
    'gives heat by its own heat of respiration, in air, in store and along the course',
    { policy: assumed('heat-of-respiration: 10.64 J/mg') },
    {
      'fill FA.respiration-heat-in-store': 10.64 / 10.7,
      'fill FC.respiration-heat-in-air': 10.64 / 10.7,
    },
    ['fill FA.carbon-dioxide-in-store', 'fill FA.nitrogen-hours', 'fill FA.field-heat-a-day'],
  );

  own(
    'uses lime as the scrubber says, in its rooms and for its charge',
    { lime: ', utilisation: 50 %' },
    {
      'fill FA.lime-for-stay': 60 / 50,
      'scrubber L.charge-takes-up': 50 / 60,
      'scrubber L.lime-of-season': 60 / 50,
    },
    ['fill FB.lime-for-stay'],
  );

  own(
    'uses lime as the plan says where the scrubber does not',
    { policy: assumed('lime-utilisation: 75 %') },
    {
      'fill FA.lime-for-stay': 60 / 75,
      'fill FB.lime-for-stay': 60 / 75,
      'scrubber L.charge-takes-up': 75 / 60,
    },
    ['fill FA.lime-by-bushel-rule'],
  );

  own(
    'loads carbon by its maker’s points',
    { beds: ', loading: [{ at: 3 %, grams: 9 }, { at: 1 %, grams: 3 }], used: 50 %' },
    // 9 g/kg at 3 % and 3 at 1 %: 3.6 at the 1.2 % its room holds; common carbons have 4 * 1.2^(ln(11.5/4)/ln 3).
    { 'scrubber S.uptake-of-bed': (3.6 * 50) / (4 * 1.2 ** (Math.log(11.5 / 4) / Math.log(3)) * 60) },
    ['fill FB.steady-carbon-dioxide'],
  );

  own(
    'leaks and breathes by its own pressures',
    { policy: assumed('service-pressure: 15 Pa, barometer-rise: 0.8 kPa') },
    {
      'fill FA.leak-in-service': 1.5,
      'fill FB.leak-in-service': 1.5,
      'fill FA.weather-air': 1.6,
    },
    ['room A.leak-flow', 'fill FA.air-let-in-by-1-kpa'],
  );

  own(
    'changes air by its own numbers',
    { policy: assumed('air-changes-loading: 9') },
    { 'fill FA.air-change-heat': 1.5, 'fill FC.air-change-heat': 1.5 },
    ['fill FA.transmission-heat'],
  );

  own(
    'loses water to its own humidity at the fruit',
    { policy: assumed('humidity-at-fruit: 98 %') },
    { 'fill FA.water-loss-in-30-days': 5 / 7, 'fill FA.vapour-pressure-deficit': 5 / 7 },
    ['fill FA.dry-matter-loss-in-30-days', 'fill FA.carbon-dioxide-in-store'],
  );

  it('holds with the outside air’s own humidity, and steps down by its own step', () => {
    const humid = figures({ season: ', outside-humidity: 85 %' });
    const dry = figures({ season: ', outside-humidity: 30 %' });
    const heat = 'fill FC.air-change-heat';
    expect(humid.get(heat)).toBeGreaterThan(usual.get(heat) ?? Number.NaN);
    expect(dry.get(heat)).toBeLessThan(usual.get(heat) ?? Number.NaN);
    const slow = figures({ policy: assumed('step-down-a-day: 0.5 K') });
    const quick = figures({ policy: assumed('step-down-a-day: 2 K') });
    const peak = 'fill FB.peak-cooling';
    expect(quick.get(peak)).toBeGreaterThanOrEqual(usual.get(peak) ?? Number.NaN);
    expect(slow.get(peak)).toBeLessThanOrEqual(usual.get(peak) ?? Number.NaN);
    expect(slow.get('fill FB.hours-to-set-point')).not.toBe(usual.get('fill FB.hours-to-set-point'));
  });

  it('keeps its own promise of cold fruit', () => {
    const patient = figures({ policy: assumed('days-to-cold: 8 days') });
    const smallest = 'fill FA.smallest-intake';
    expect(patient.get(smallest)).toBeLessThan(usual.get(smallest) ?? Number.POSITIVE_INFINITY);
  });

  it('stands in the derivation with its line, its text and where the planner has it from', () => {
    const text = plan({ policy: assumed('service-pressure: 15 Pa, source: own logger') });
    const season = computeSeason(readPlan([{ path: 'a.lotplan.yaml', text }]));
    const { servicePressure } = season.filled.get('FA')?.assumptions ?? {};
    expect(servicePressure?.origin).toMatchObject({ kind: 'plan', text: '15 Pa', source: 'own logger' });
  });
});
