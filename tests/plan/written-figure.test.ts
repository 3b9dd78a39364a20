import { describe, expect, test } from 'vitest';
import { WrittenFigure } from '../../src/plan/build/written-figure';
import { figureWith } from '../../src/plan/figure';
import { emptyPlanCache, readPlan } from '../../src/plan/read';

const PATH = 'vale.lotplan.yaml';
const TEXT = `lotwright: 1

lots:
  G1: { variety: Gala, picked: 2026-09-03, bins: 140 }
  G2: { variety: Gala, picked: 2026-09-04, bins: 120, field-temperature: 66 °F }
`;

function written(text: string, at: { start: number; end: number }): string {
  return text.slice(at.start, at.end);
}

describe('a figure that the planner wrote', () => {
  const read = (text: string, cache = emptyPlanCache()) =>
    readPlan([{ path: PATH, text }], cache).lots.get('G2')?.fieldTemperature;

  test('tells its number, its unit, how it was written and where', () => {
    const figure = read(TEXT);
    expect(figure).toBeInstanceOf(WrittenFigure);
    expect(figure?.value).toBeCloseTo(18.9, 1);
    const origin = figure?.origin;
    expect(origin).toMatchObject({ kind: 'plan', text: '66 °F' });
    expect(origin?.kind === 'plan' && written(TEXT, origin.at)).toBe('66 °F');
  });

  test('says as JSON all that it says', () => {
    const start = TEXT.indexOf('66 °F');
    expect(JSON.parse(JSON.stringify(read(TEXT)))).toMatchObject({
      unit: 'degC',
      origin: { kind: 'plan', text: '66 °F', at: { file: PATH, start, end: start + '66 °F'.length } },
    });
  });

  test('moves with the text above it, and so does a place that was told of before', () => {
    const cache = emptyPlanCache();
    const origin = read(TEXT, cache)?.origin;
    const longer = TEXT.replace('140', '1400');
    const figure = read(longer, cache);
    expect(figure?.origin.kind === 'plan' && written(longer, figure.origin.at)).toBe('66 °F');
    expect(origin?.kind === 'plan' && written(longer, origin.at)).toBe('66 °F');
  });

  test('is the very same where its lot is read again for another key, at the place where it stands then', () => {
    const cache = emptyPlanCache();
    const figure = read(TEXT, cache);
    const origin = figure?.origin;
    const other = TEXT.replace('bins: 120', 'bins: 12000');
    expect(read(other, cache)).toBe(figure);
    expect(origin?.kind === 'plan' && written(other, origin.at)).toBe('66 °F');
  });

  test('keeps where it comes from under another name and with another value', () => {
    const figure = read(TEXT);
    const other = figure && figureWith(figure, { name: 'what would be', value: 5 });
    expect(other).toMatchObject({ name: 'what would be', value: 5, unit: 'degC' });
    expect(other?.origin).toEqual(figure?.origin);
  });
});
