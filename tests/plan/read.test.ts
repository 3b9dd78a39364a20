import { describe, expect, it } from 'vitest';
import { formatDay, formatWeek } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { placeAt } from '../../src/plan/span';
import { examplePlan } from '../../src/tools/example-plan';

const file = (path: string, text: string) => ({ path: `${path}.lotplan.yaml`, text });

const plan = readPlan([file('example', examplePlan)]);
const text = (at: { file: string; start: number; end: number } | undefined, of = plan) =>
  at && of.files.get(at.file)?.text.slice(at.start, at.end);

describe('a plan', () => {
  it('has every entry of its files under its identifier, in the order of the text', () => {
    expect(plan.problems).toEqual([]);
    expect([...plan.rooms.keys()]).toEqual(['R1']);
    expect([...plan.scrubbers.keys()]).toEqual(['S1']);
    expect([...plan.nitrogenSources.keys()]).toEqual(['N1']);
    expect([...plan.lots.keys()]).toEqual(['L1', 'L2']);
    expect(plan.season?.name?.value).toBe('Harvest 2026');
    expect(plan.packing?.packout.get('Gala')?.shares.get('first')?.value).toBe(62);
    expect(plan.nitrogenSources.get('N1')?.flows.map(({ purity }) => purity.value)).toEqual([97, 99]);
  });

  it('keeps the text and the place of each value', () => {
    const room = plan.rooms.get('R1');
    expect(text(room?.at)).toBe('R1');
    expect(room?.length).toMatchObject({ name: 'inside length', value: 13.1, unit: 'm' });
    const origin = room?.length?.origin;
    expect(origin?.kind === 'plan' && [origin.text, text(origin.at)]).toEqual(['13.1 m', '13.1 m']);
    expect(text(room && placeAt(room.places, ['refrigeration', 'capacity']).span)).toBe('42 kW');
    expect(text(room && placeAt(room.places, ['refrigeration', 'capacity']).key)).toBe('capacity');
    const fill = plan.fills.get('R1-gala');
    expect(fill?.sealed && formatDay(fill.sealed.value)).toBe('2026-09-10');
    expect(fill?.lots.map(({ lot, bins }) => [lot.value, text(lot.at), bins.value])).toEqual([
      ['L1', 'L1', 136],
      ['L2', 'L2', 60],
    ]);
    const picked = (id: string) => plan.lots.get(id)?.picked?.value;
    const days = (span: ReturnType<typeof picked>) => span && [formatDay(span.first), formatDay(span.last)];
    expect(days(picked('L1'))).toEqual(['2026-09-03', '2026-09-05']);
    expect(days(picked('L2'))).toEqual(['2026-09-07', '2026-09-07']);
    const weeks = plan.demand.get('gala-home')?.weeks?.value;
    expect(weeks && [formatWeek(weeks.first), formatWeek(weeks.last)]).toEqual(['2027-W01', '2027-W04']);
  });

  it('computes in metric units whatever it is written in', () => {
    const us = readPlan([
      file(
        'us',
        'season: { units: us, carton: 40 lb, outside-temperature: 74 °F }\nrooms:\n  B1: { inside: { length: 43 ft, width: 324 in, height: 20 ft }, refrigeration: { capacity: 22 TR } }\nregimes:\n  r: { temperature: 33 °F }\n',
      ),
    ]);
    expect(us.season?.units).toBe('us');
    expect(us.season?.outsideTemperature.value).toBeCloseTo(23.3333, 4);
    expect(us.rooms.get('B1')?.length?.value).toBeCloseTo(13.1064, 9);
    expect(us.rooms.get('B1')?.width?.value).toBeCloseTo(8.2296, 9);
    expect(us.rooms.get('B1')?.coolerCapacity?.value).toBeCloseTo(77.3707, 3);
    expect(us.season?.cartonMass?.value).toBeCloseTo(18.1436948, 6);
    expect(us.regimes.get('r')?.temperature?.value).toBeCloseTo(0.5556, 4);
  });

  it('says of each default that it is one, and why', () => {
    const { wallClearance, binGap } = plan.rooms.get('R1') ?? {};
    expect(wallClearance?.origin).toMatchObject({ kind: 'reference', source: { known: 'common practice' } });
    expect(binGap?.origin).toMatchObject({ kind: 'reference', source: { known: 'published' } });
    const empty = readPlan([]);
    expect(empty.policy.confidence.value).toBe(90);
    expect(empty.policy.at).toBeUndefined();
  });

  it('takes half the price for the cost of a shortage, as a computed figure', () => {
    const cost = plan.demand.get('gala-home')?.priceOfShortage;
    expect(cost?.value).toBe(11.25);
    expect(cost?.origin).toMatchObject({ kind: 'computed', formula: 'price / 2' });
  });

  it('lists every place where an entry is named', () => {
    const named = (section: string, id: string) =>
      plan.references.filter((reference) => reference.section === section && reference.id === id);
    expect(named('lots', 'L1').map(({ at }) => text(at))).toEqual(['L1']);
    expect(named('rooms', 'R1')).toHaveLength(1);
    expect(named('bins', 'plastic-1200')).toHaveLength(1);
    // The regime, two lots, the demand and the packout.
    expect(named('varieties', 'Gala')).toHaveLength(5);
    for (const { at, id } of plan.references) expect(text(at)).toBe(id);
  });
});

describe('files of a plan', () => {
  const ROOM = '{ inside: { length: 9 m, width: 8 m, height: 7 m }, bin-type: b }';

  it('may define an entry once: of two, the first counts and both are shown', () => {
    const files = [
      file('b', `lotwright: 1\nrooms:\n  R1: ${ROOM}\n`),
      file('a', `rooms:\n  R1: ${ROOM.replace('9 m', '5 m')}\n  R2: ${ROOM}\n`),
    ];
    const merged = readPlan(files);
    expect(merged.rooms.get('R1')?.length?.value).toBe(5);
    expect(merged.rooms.size).toBe(2);
    expect(merged.problems).toHaveLength(1);
    const [problem] = merged.problems;
    expect([problem?.code, problem?.at.file, text(problem?.at, merged)]).toEqual([
      'duplicate-identifier',
      'b.lotplan.yaml',
      'R1',
    ]);
    expect(problem?.related?.map(({ at }) => [at.file, text(at, merged)])).toEqual([
      ['a.lotplan.yaml', 'R1'],
    ]);
  });

  it('may have season, packing and policy once', () => {
    const merged = readPlan([
      file('a', 'lotwright: 1\npolicy:\n  confidence: 80 %\n'),
      file('b', 'policy:\n  confidence: 70 %\n'),
    ]);
    expect(merged.policy.confidence.value).toBe(80);
    expect(merged.problems.map(({ code, at }) => [code, at.file])).toEqual([
      ['duplicate-identifier', 'b.lotplan.yaml'],
    ]);
  });

  it('say the version of the language in one of them at least', () => {
    const without = readPlan([file('a', '\ufeffrooms:\r\n'), file('b', '')]);
    const missing = without.problems.find(({ code }) => code === 'language-version-missing');
    expect(missing?.fixes?.[0]?.edits).toEqual([
      { at: { file: 'a.lotplan.yaml', start: 1, end: 1 }, newText: 'lotwright: 1\r\n' },
    ]);
    expect(readPlan([file('a', ''), file('b', 'lotwright: 1\n')]).problems).toEqual([]);
    expect(readPlan([file('a', 'lotwright: 2\n')]).problems.map(({ code }) => code)).toEqual([
      'language-version',
    ]);
    expect(readPlan([]).problems).toEqual([]);
  });

  it('with a value that is wrong still give all the others', () => {
    const { rooms, problems } = readPlan([
      file(
        'a',
        'lotwright: 1\nrooms:\n  R1:\n    inside: { length: 9 kg, width: 8 m }\n    bin-type: b\n    stack: 2.5\n    lost-places: -4\n    ready: soon\n    law: oregon\n',
      ),
    ]);
    const room = rooms.get('R1');
    expect(problems.map(({ code }) => code)).toEqual([
      'missing-key',
      'wrong-dimension',
      'wrong-type',
      'out-of-range',
      'not-a-date',
      'not-allowed-value',
    ]);
    expect(room?.width?.value).toBe(8);
    expect([room?.length, room?.height, room?.stack, room?.ready]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
    // A wrong value counts as not given: its default holds.
    expect([room?.lostPlaces.value, room?.law]).toEqual([0, 'none']);
  });
});
