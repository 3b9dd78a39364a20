import { all, create } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import type { ComputedSeason } from '../../src/findings/types';
import { parseDay } from '../../src/plan/dates';
import type { Figure } from '../../src/plan/figure';
import { readPlan } from '../../src/plan/read';
import { cartonsABin } from '../../src/release/cartons-a-bin';
import { sampleFiles } from '../samples/sample';

/** Values that records taught, written into the sample season: each moves what it should, and by how much it says. */
function seasonWith(...changes: readonly (readonly [find: string, put: string])[]): ComputedSeason {
  const files = sampleFiles('first-season').map(({ path, text }) => ({
    path,
    text: changes.reduce((now, [find, put]) => now.replace(find, put), text),
  }));
  const plan = readPlan(files);
  expect(plan.problems).toEqual([]);
  return computeSeason(plan, { release: 'none', courses: true });
}

const usual = seasonWith();
const OF_FILL = [
  '  R2-gala:\n    room: R2\n',
  '  R2-gala:\n    room: R2\n    respiration: { share: 0.8, source: fitted }\n',
] as const;
const OF_ROOM = [
  '  R2:\n    inside',
  '  R2:\n    leakage: { in-service: 0.3 m3/h, source: fitted }\n    inside',
] as const;
const OF_LOT = (keys: string) =>
  ['treatments: [1-mcp] }\n  G5:', `treatments: [1-mcp], ${keys} }\n  G5:`] as const;
const FIRMNESS =
  'firmness: { at-harvest: 81 N, softening: 2.5, known-best: 2026-12-14, spread: 1.1 N, softening-spread: 10 %, source: samples }';

const math = create(all ?? {});

function figuresAgree(figure: Figure | undefined): number {
  if (figure?.origin.kind !== 'computed') return 0;
  const scope = Object.fromEntries(
    Object.entries(figure.origin.inputs).map(([key, { value }]) => [key, value]),
  );
  expect(Number(math.evaluate(figure.origin.formula, scope)), figure.name).toBeCloseTo(figure.value, 9);
  return Object.values(figure.origin.inputs).reduce((sum, input) => sum + figuresAgree(input), 1);
}

describe("a filling's own respiration", () => {
  const season = seasonWith(OF_FILL);

  test('gives off so much of the carbon dioxide, and uses so much of the oxygen', () => {
    const [before, after] = [usual.filled.get('R2-gala'), season.filled.get('R2-gala')];
    expect(after?.carbonDioxideInStore?.value).toBeCloseTo(
      0.8 * (before?.carbonDioxideInStore?.value ?? 0),
      6,
    );
    expect(after?.oxygenUse?.value).toBeCloseTo(0.8 * (before?.oxygenUse?.value ?? 0), 9);
    expect(after?.carbonDioxideInStoreHigh?.value).toBeCloseTo(
      0.8 * (before?.carbonDioxideInStoreHigh?.value ?? 0),
      6,
    );
    expect(figuresAgree(after?.carbonDioxideInStore)).toBeGreaterThan(3);
  });

  test('is in the course of the room, and in no other room', () => {
    const made = (of: ComputedSeason, fill: string) =>
      of.courses?.courses.get(fill)?.carbonDioxideMade.value ?? 0;
    expect(made(season, 'R2-gala')).toBeLessThan(0.86 * made(usual, 'R2-gala'));
    expect(made(season, 'R2-gala')).toBeGreaterThan(0.79 * made(usual, 'R2-gala'));
    expect(made(season, 'R4-braeburn')).toBe(made(usual, 'R4-braeburn'));
  });
});

describe("a room's leak measured in service", () => {
  const season = seasonWith(OF_ROOM);

  test('stands in place of the pressure test and the weather', () => {
    const filled = season.filled.get('R2-gala');
    expect(filled?.oxygenLeak?.value).toBeCloseTo((0.3 * (20.9 - 1.5)) / 100, 9);
    expect(figuresAgree(filled?.oxygenLeak)).toBe(1);
    expect(season.courses?.courses.get('R2-gala')?.room).toMatchObject({ leakM3h: 0.3, weatherM3h: 0 });
    expect(filled?.capacity.pressureHalfLife?.value).toBe(
      usual.filled.get('R2-gala')?.capacity.pressureHalfLife?.value,
    );
  });
});

describe("a lot's own course of firmness", () => {
  const season = seasonWith(OF_LOT(FIRMNESS));
  const lotOf = (of: ComputedSeason) => of.keeping.get('R2-gala')?.lots.find(({ lot }) => lot.id === 'G4');

  test('starts where it says and loses so much of what the variety loses', () => {
    const day = parseDay('2027-02-01') ?? 0;
    const [before, after] = [lotOf(usual)?.firmnessOn(day) ?? 0, lotOf(season)?.firmnessOn(day) ?? 0];
    expect(81 - after).toBeCloseTo(2.5 * (83 - before), 6);
  });

  test('moves the week by which the lot must leave, by a formula that gives its value', () => {
    const [before, after] = [lotOf(usual), lotOf(season)];
    expect(after?.latest).toBeLessThan(before?.latest ?? 0);
    expect(after?.latestSetBy).toBe('firmness');
    expect(figuresAgree(season.keeping.get('R2-gala')?.window?.latest.because)).toBeGreaterThan(5);
  });

  test('lasts to the day on which its chance is the confidence', () => {
    const { latest = 0, withinStandard = () => 0 } = lotOf(season) ?? {};
    expect(withinStandard(latest)).toBeGreaterThanOrEqual(0.9);
    expect(withinStandard(latest + 1)).toBeLessThan(0.9);
  });
});

test("a lot's own packout counts for its bins and no others", () => {
  const { plan } = seasonWith(OF_LOT('packout: { shares: { first: 31 % }, source: packed }'));
  const packing = plan.packing;
  if (!packing) throw new Error('the sample has packing');
  const cartons = (id: string) => {
    const lot = plan.lots.get(id);
    if (!lot) throw new Error(`no lot ${id}`);
    const first = { variety: 'Gala', packClass: 'first' };
    const products = [first] as unknown as Parameters<typeof cartonsABin>[3];
    const productOf = (_lot: string, packClass: string) => (packClass === 'first' ? 0 : undefined);
    return (
      cartonsABin([{ lot, fruit: { value: 300 } }], 1, packing, products, productOf, 18, {
        firstWeek: 2958,
        weeks: 1,
      })[0]?.[0] ?? 0
    );
  };
  expect(cartons('G4') / cartons('G5')).toBeCloseTo(0.5, 1);
});

test('the estimate of a lot is worth its share, in whole bins, until the lot is received', () => {
  const { plan } = seasonWith([
    'bins: 95,\n        field-temperature: 16 °C }\n  # Braeburn',
    'bins: 95, crop: { share: 0.9, source: receipts },\n        field-temperature: 16 °C }\n  # Braeburn',
  ]);
  const lot = plan.lots.get('D3');
  expect(lot?.expectedBins?.value).toBe(86);
  expect(figuresAgree(lot?.expectedBins)).toBe(1);
});
