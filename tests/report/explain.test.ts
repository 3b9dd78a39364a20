import { evaluate } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  closedForm,
  compute,
  countedFigure,
  planFigure,
  referenceFigure,
  withBeside,
} from '../../src/plan/figure';
import { derivationOf } from '../../src/report/derivation';
import { explainDerivation, explainFigure, explainTogether, withNumbers } from '../../src/report/explain';
import { visibleWidth } from '../../src/report/table';
import { planOf } from './hand-made';

const METRIC = { system: 'metric', currency: 'EUR' } as const;

// A room as a planner writes it, and its free gas volume made by hand.
const text = 'rooms:\n  R1:\n    inside: { length: 18.6 m, width: 9.0 m, height: 7.6 m }\n';
const plan = planOf({ 'rooms.lotplan.yaml': text });

function written(name: string, value: number, as: string) {
  const start = text.indexOf(as);
  return planFigure(name, 'm', value, { file: 'rooms.lotplan.yaml', start, end: start + as.length }, as);
}

const length = written('inside length', 18.6, '18.6 m');
const width = written('inside width', 9, '9.0 m');
const height = written('inside height', 7.6, '7.6 m');
const volume = compute(
  'room volume',
  'm3',
  'length * width * height',
  { length, width, height },
  (v) => v.length * v.width * v.height,
);
const fruit = countedFigure('fruit in the room', 'kg', 240_000, 'bins of 2 lots times net fruit');
const density = referenceFigure('density of apples', 'kg/m3', 840, {
  citation: 'ASHRAE Handbook, Refrigeration',
  known: 'from memory',
});
const freeGas = compute(
  'free gas volume',
  'm3',
  'volume - fruit / density',
  { volume, fruit, density },
  (v) => v.volume - v.fruit / v.density,
);

const bare = countedFigure('time', 'min', 26, 'for a test');

describe('the derivation as text', () => {
  const lines = explainFigure(freeGas, plan, 'metric').split('\n');

  test('gives the formula, the same with numbers, and the result', () => {
    expect(lines.slice(0, 3)).toEqual([
      'free gas volume = volume - fruit / density',
      '  = 1272.24 - 240000 / 840',
      '  = 986.526 m³',
    ]);
  });

  test('gives each input with its file and line, or its source and how well it is known', () => {
    expect(lines).toContain('    length: inside length = 18.6 m   from rooms.lotplan.yaml:3 "18.6 m"');
    expect(lines).toContain('  density: density of apples = 840 kg/m³   reference value, from memory [1]');
    expect(lines).toContain(
      '  fruit: fruit in the room = 240000 kg   counted: bins of 2 lots times net fruit',
    );
  });

  test('lists the sources by number at the end', () => {
    expect(lines.slice(-2)).toEqual(['', '[1] ASHRAE Handbook, Refrigeration']);
  });

  test('keeps to the page', () => {
    expect(Math.max(...lines.map(visibleWidth))).toBeLessThanOrEqual(100);
  });

  test('can be followed with a calculator: each line with numbers gives the result below it', () => {
    lines.forEach((line, at) => {
      const numbers = /^\s*= ([-+*/^() 0-9.e]+)$/.exec(line)?.[1];
      const result = /^\s*= (-?[0-9.]+)/.exec(lines[at + 1] ?? '')?.[1];
      if (numbers === undefined || result === undefined) return;
      expect(evaluate(numbers)).toBeCloseTo(Number(result), 2);
    });
    expect(evaluate('18.6 * 9 * 7.6')).toBeCloseTo(1272.24, 6);
  });
});

test('in US units the metric value stays beside the US one, since formulas hold in metric units', () => {
  const lines = explainFigure(freeGas, plan, 'us').split('\n');
  expect(lines[2]).toBe('  = 986.526 m³ (34838.8 ft³)');
  expect(lines).toContain(
    '    length: inside length = 18.6 m (61.0236 ft)   from rooms.lotplan.yaml:3 "18.6 m"',
  );
});

test('an input that two formulas share is explained once', () => {
  const twice = compute(
    'twice the gas',
    'm3',
    'gas + volume',
    { gas: freeGas, volume },
    (v) => v.gas + v.volume,
  );
  const lines = explainFigure(twice, plan, 'metric').split('\n');
  expect(lines.filter((line) => line.includes('length * width * height'))).toHaveLength(1);
  expect(lines).toContain('  volume: room volume = 1272.24 m³ (above)');
});

test('of several figures told together, each input is told with the first that rests on it', () => {
  const { texts, sources } = explainTogether([freeGas, volume], plan, 'metric');
  expect(texts[0]).toContain('  volume: room volume = length * width * height');
  // What is asked for is told in full; its inputs stand above.
  expect(texts[1]?.split('\n').slice(0, 4)).toEqual([
    'room volume = length * width * height',
    '  = 18.6 * 9 * 7.6',
    '  = 1272.24 m³',
    '  length: inside length = 18.6 m (above)',
  ]);
  expect(texts.join('')).not.toContain('ASHRAE');
  expect(sources).toBe('[1] ASHRAE Handbook, Refrigeration');
});

describe('a figure that is integrated', () => {
  const closed = compute('time by formula', 'min', 'time * 2', { time: bare }, (v) => v.time * 2);
  const integrated = (value: number) =>
    withBeside(
      countedFigure('time', 'min', value, 'integrated hour by hour'),
      closedForm(closed, 'The formula leaves out the rest.'),
    );

  test('stands beside its closed form, with the difference and where it comes from', () => {
    const lines = explainFigure(integrated(53.3), plan, 'metric').split('\n');
    expect(lines).toEqual([
      'time = 53.3 min   integrated hour by hour',
      '  52 min by the closed form, 53.3 min integrated: 2.5 % more. The formula leaves out the rest.',
      '  closed form: time by formula = time * 2',
      '    = 26 * 2',
      '    = 52 min',
      '    time = 26 min   counted: for a test',
    ]);
  });

  test.each([
    [52, 'the same.'],
    [52.001, 'the same to a thousandth.'],
    [26, '50.0 % less.'],
  ])('of %s min against 52 is %s', (value, words) => {
    expect(explainFigure(integrated(value), plan, 'metric')).toContain(` integrated: ${words}`);
  });

  test('carries the same in its derivation', () => {
    const { result, steps } = derivationOf(integrated(53.3), plan, METRIC);
    const step = steps.find(({ id }) => id === result);
    const beside = step?.beside?.[0];
    expect(beside).toMatchObject({ kind: 'closed form', because: 'The formula leaves out the rest.' });
    expect(steps.find(({ id }) => id === beside?.step)).toMatchObject({ value: 52, formula: 'time * 2' });
  });

  test('has none where the formula comes to no number', () => {
    const nothing = compute('none', 'min', 'time / 0', { time: bare }, () => Number.POSITIVE_INFINITY);
    expect(withBeside(bare, closedForm(nothing, 'never shown'))).toBe(bare);
  });
});

test('equal figures made twice count as one', () => {
  const again = compute(
    'room volume',
    'm3',
    'length * width * height',
    { length, width, height: written('inside height', 7.6, '7.6 m') },
    (v) => v.length * v.width * v.height,
  );
  const both = compute('both', 'm3', 'a + b', { a: volume, b: again }, (v) => v.a + v.b);
  expect(derivationOf(both, plan, METRIC).steps).toHaveLength(5);
});

test('a depth cuts the inputs below it and says how many', () => {
  const shallow = explainDerivation(derivationOf(freeGas, plan, METRIC), METRIC, { depth: 1 });
  expect(shallow).toContain('from 3 inputs not shown here');
  expect(shallow).not.toContain('inside length');
});

test('a natural logarithm is written as people write it; the evaluable formula stays', () => {
  const halfTime = compute('half-life', 'min', 'time * log(2)', { time: bare }, (v) => v.time * Math.log(2));
  const lines = explainFigure(halfTime, plan, 'metric').split('\n');
  expect(lines.slice(0, 2)).toEqual(['half-life = time * ln(2)', '  = 26 * ln(2)']);
  expect(explainFigure(halfTime, plan, 'metric', { format: 'markdown' })).toContain('`time * ln(2)`');
  expect(derivationOf(halfTime, plan, METRIC).steps.at(-1)).toMatchObject({ formula: 'time * log(2)' });
});

test('negative numbers stand in brackets, functions stay', () => {
  const steps = new Map([
    ['s1', { value: -1.5 }],
    ['s2', { value: 4 }],
  ]);
  expect(withNumbers('max(low, high) - low', { low: 's1', high: 's2' }, steps)).toBe(
    'max((-1.5), 4) - (-1.5)',
  );
});

describe('the derivation as Markdown', () => {
  const markdown = explainFigure(freeGas, plan, 'metric', {
    format: 'markdown',
    link: (place) => `plan:${place.file}#${place.line}`,
  });

  test('is a list in which formulas are code and places are links', () => {
    expect(markdown.split('\n')[0]).toBe('- **free gas volume** = `volume - fruit / density`  ');
    expect(markdown).toContain('  = `1272.24 - 240000 / 840`');
    expect(markdown).toContain('[rooms.lotplan.yaml:3](plan:rooms.lotplan.yaml#3)');
  });

  test('does not let names act as markup', () => {
    const odd = countedFigure('bins of *A_1*', 'bins', 3, 'lots');
    expect(explainFigure(odd, plan, 'metric', { format: 'markdown' })).toContain('bins of \\*A\\_1\\*');
  });
});
