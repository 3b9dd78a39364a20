import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { baseSeason, seasonOver, sideBySide, toldSeason } from '../../src/report/scenario-season';
import { applyScenario } from '../../src/scenario/apply';
import { askedShare, withCrop } from '../../src/scenario/factors';
import { allStresses } from '../../src/scenario/stress';
import { edited, files, laid, planWith, said } from './plans';

const base = readPlan(files);

describe('a scenario says what the plan edited by hand says', () => {
  it.each([
    ['nothing', '    says: nothing', []],
    [
      'a key',
      '    change: { rooms: { R2: { lost-places: 9 } } }',
      [['lost-places: 4 # under the cooler', 'lost-places: 9']],
    ],
    [
      'a key deep in a map',
      '    change: { rooms: { R1: { inside: { height: 5.4 m } } } }',
      [
        [
          '{ length: 10.6 m, width: 4.8 m, height: 5.0 m }',
          '{ length: 10.6 m, width: 4.8 m, height: 5.4 m }',
        ],
      ],
    ],
    [
      'a new key',
      '    change: { fills: { R3-golden: { open: 2027-W03 } } }',
      [['lots: { D1: 97, D2: 95, D3: 95 }', 'lots: { D1: 97, D2: 95, D3: 95 }\n    open: 2027-W03']],
    ],
    [
      'bins of one lot of a fill',
      '    change: { fills: { R3-golden: { lots: { D2: 60 } } } }',
      [['lots: { D1: 97, D2: 95, D3: 95 }', 'lots: { D1: 97, D2: 60, D3: 95 }']],
    ],
    [
      'a section that stands once',
      '    change: { season: { outside-temperature: 25 °C } }',
      [['outside-temperature: 17 °C', 'outside-temperature: 25 °C']],
    ],
    [
      'a pin taken out',
      '    take-out: { pins: [R2-gala] }',
      [
        [
          '    open: 2027-W01 # a pin: promised for the first week of January. Leave it out, and Lotwright chooses the week.\n',
          '',
        ],
      ],
    ],
    [
      'a machine out of use',
      '    change: { plant: { nitrogen: { N1: { out-of-use: [2026-09-21..2026-09-22] } } } }',
      [['  nitrogen:\n    N1:\n', '  nitrogen:\n    N1:\n      out-of-use: [2026-09-21..2026-09-22]\n']],
    ],
  ] as const)('%s', (_, scenario, changes) => {
    const { plan, problems } = laid(scenario);
    expect(problems).toEqual([]);
    expect(said(plan)).toBe(said(edited(changes)));
    const own = (one: typeof plan) =>
      findingsOf(computeSeason(one))
        .map(({ fingerprint }) => fingerprint)
        .sort();
    expect(own(plan)).toEqual(own(edited(changes)));
  });

  it('an entry added', () => {
    const lot = '{ variety: Gala, picked: 2026-09-12..2026-09-14, bins: 30, packed-at-harvest: 14 days }';
    const { plan } = laid(`    add: { lots: { G9: ${lot} } }`);
    expect(said(plan)).toBe(
      said(edited([['\n# Which lots go to which room', `\n  G9: ${lot}\n\n# Which lots go to which room`]])),
    );
  });
});

describe('whatever a scenario says', () => {
  const share = fc.integer({ min: 50, max: 150 });
  const bodies = fc.record(
    {
      crop: share.map((value) => `    crop: ${value} %`),
      demand: share.map((value) => `    demand: ${value} %`),
      later: fc.integer({ min: 0, max: 6 }).map((weeks) => `    demand-later: ${weeks} weeks`),
      change: fc
        .record({ places: fc.integer({ min: 0, max: 20 }), bins: fc.integer({ min: 1, max: 90 }) })
        .map(
          ({ places, bins }) =>
            `    change: { rooms: { R2: { lost-places: ${places} } }, fills: { R3-golden: { lots: { D2: ${bins} } } } }`,
        ),
      out: fc.subarray(['R1', 'R3', 'R4']).map((rooms) => `    take-out: { rooms: [${rooms.join(', ')}] }`),
    },
    { requiredKeys: [] },
  );

  it('the plan itself stays as it was', () => {
    fc.assert(
      fc.property(bodies, (parts) => {
        const lines = Object.values(parts).filter((line) => line !== undefined);
        const plan = planWith(`  one:\n    says: x\n${lines.join('\n')}`);
        const before = said(plan);
        const scenario = plan.scenarios.get('one');
        if (scenario) applyScenario(plan, scenario);
        expect(said(plan)).toBe(before);
        expect(before).toBe(said(base));
      }),
      { numRuns: 40 },
    );
  });

  it('others beside it, and their order, change nothing of it', () => {
    fc.assert(
      fc.property(bodies, bodies, (one, other) => {
        const text = (name: string, parts: object) =>
          [`  ${name}:`, '    says: x', ...Object.values(parts).filter((line) => line !== undefined)].join(
            '\n',
          );
        const results = [
          [text('a', one), text('b', other)],
          [text('b', other), text('a', one)],
          [text('a', one)],
        ].map((texts) => {
          const plan = planWith(texts.join('\n'));
          const scenario = plan.scenarios.get('a');
          return scenario && said(applyScenario(plan, scenario).plan);
        });
        expect(new Set(results).size).toBe(1);
      }),
      { numRuns: 30 },
    );
  });

  it('bins of a lot in all fills are no more than the share of them all', () => {
    fc.assert(
      fc.property(share, (percent) => {
        const plan = withCrop(base, () => askedShare(percent, 'crop'));
        for (const lot of base.lots.values()) {
          const placed = (of: typeof base) =>
            [...of.fills.values()]
              .flatMap(({ lots }) => lots)
              .reduce((all, one) => (one.lot.value === lot.id ? all + one.bins.value : all), 0);
          expect(placed(plan)).toBe(Math.round((placed(base) * percent) / 100));
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('what does not fit the plan is told at its place', () => {
  const problemsOf = (body: string) => {
    const plan = planWith(`  one:\n${body}`);
    const scenario = plan.scenarios.get('one');
    const text = plan.files.get('scenarios.lotplan.yaml')?.text ?? '';
    return (scenario ? applyScenario(plan, scenario).problems : []).map(({ message, at }) => ({
      message,
      text: text.slice(at.start, at.end),
    }));
  };

  it.each([
    ['    change: { rooms: { R99: { lost-places: 3 } } }', 'R99', 'no room R99'],
    ['    add: { rooms: { R1: { bin-type: plastic-1200 } } }', 'R1', 'already'],
    ['    take-out: { lots: [G99] }', 'G99', 'G99'],
    ['    take-out: { pins: [R3-golden] }', 'R3-golden', 'no pinned week'],
    ['    take-out: { demand: [nobody] }', 'nobody', 'nobody'],
  ])('%s', (body, place, told) => {
    const [problem] = problemsOf(body);
    expect(problem?.text).toBe(place);
    expect(problem?.message).toContain(told);
  });

  it('mistakes in what it lays over are those the plan would have, at their place', () => {
    const plan = planWith(
      '  one: { change: { rooms: { R1: { inside: { height: 5 furlongs }, doors: 2 } } }, add: { lots: { X1: { bins: 3 } } } }',
    );
    const text = plan.files.get('scenarios.lotplan.yaml')?.text ?? '';
    expect(plan.problems.map(({ code, at }) => [code, text.slice(at.start, at.end)])).toEqual([
      ['unknown-unit', '5 furlongs'],
      ['unknown-key', 'doors'],
      ['missing-key', 'X1'],
    ]);
  });

  it('a room taken out takes its fills, a machine its name in its rooms, a lot its bins', () => {
    const { plan } = laid('    take-out: { rooms: [R4], scrubbers: [S1], lots: [G1] }');
    expect([...plan.fills.keys()]).toEqual(['R1-gala', 'R2-gala', 'R3-golden']);
    expect([...plan.rooms.values()].map(({ scrubber }) => scrubber?.value)).not.toContain('S1');
    expect(plan.fills.get('R1-gala')?.lots.map(({ lot }) => lot.value)).toEqual(['G2', 'G3']);
    const unknown = findingsOf(computeSeason(plan)).filter(({ code }) => code === 'unknown-reference');
    expect(unknown).toEqual([]);
  });
});

describe('side by side', () => {
  const told = toldSeason(baseSeason(base, 1));
  const sold = (plan: typeof base) => {
    const { season } = seasonOver(told, plan, 1);
    return toldSeason(season).totals.schedule?.cartonsSold ?? 0;
  };

  it('a scenario in which nothing differs differs in nothing', () => {
    const { plan } = laid('    says: nothing');
    const over = seasonOver(told, plan, 1);
    const side = sideBySide(told, toldSeason(over.season));
    expect(over.weeks).toBe('of the base');
    expect(side.consequences).toEqual([]);
    expect([...side.newFindings, ...side.goneFindings, ...side.broken, ...side.mended]).toEqual([]);
    expect(over.season.release?.result.schedule).toEqual(told.season.release?.result.schedule);
  });

  it('less crop never sells more, more demand never sells less', () => {
    let last = sold(base);
    for (const percent of [90, 75, 60, 40]) {
      const now = sold(withCrop(base, () => askedShare(percent, 'crop')));
      expect(now).toBeLessThanOrEqual(last + 1e-6);
      last = now;
    }
  });

  it('every stress test presses: a machine out is pressed harder, nothing keeps longer', () => {
    const plant = told.season.plant;
    for (const { id, apply } of allStresses({ plan: base, plant, varieties: ['Gala'] })) {
      const over = toldSeason(seasonOver(told, apply(base), 1).season);
      const peak = (of: typeof told, name: string) =>
        Math.max(
          0,
          ...(of.season.plant?.scrubbers.find(({ scrubber }) => scrubber.id === name)?.weeks ?? []).map(
            ({ share }) => share?.value ?? 0,
          ),
        );
      if (id.startsWith('scrubber-out '))
        expect(peak(over, id.slice(13))).toBeGreaterThan(peak(told, id.slice(13)));
      if (id === 'keeps-shorter Gala')
        for (const [fill, { window }] of told.season.keeping)
          expect(over.season.keeping.get(fill)?.window?.latest.week ?? 0).toBeLessThanOrEqual(
            window?.latest.week ?? 0,
          );
      if (id === 'less-crop') expect(over.totals.binsStored).toBeCloseTo(0.8 * told.totals.binsStored, -1);
    }
  });
});
