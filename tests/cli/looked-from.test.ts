import { describe, expect, it } from 'vitest';
import { lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const MARCH = 'sample-plans/in-march';

describe('check says from which day it looks', () => {
  it.each([
    [[], 'Looked at from the end of 2027-03-07, the last day recorded.', 'records', '2027-03-07'],
    [['--as-of', '2027-01-15'], 'Looked at from the end of 2027-01-15, as asked.', 'as-of', '2027-01-15'],
  ])('with %j, in text and in JSON', async (options, line, by, day) => {
    const text = (await lotwright(['check', MARCH, '--no-readings', ...options])).out;
    expect(text.trimEnd().split('\n').at(-2)).toBe(line);
    const { out } = await lotwright(['check', MARCH, '--no-readings', '--format', 'json', ...options]);
    const report = JSON.parse(out);
    expect(report.lookedFrom).toEqual({ day, by });
    expect(errorsAgainst('check-report', report)).toEqual([]);
  });

  it('and nothing of a plan of which nothing is recorded', async () => {
    const { out } = await lotwright(['check', 'sample-plans/before-harvest']);
    expect(out).not.toContain('Looked at');
  });
});

it('on the Friday, before the sales of its week are recorded, status still has what its week is to sell', async () => {
  const { out } = await lotwright(['status', MARCH, '--as-of', '2027-03-05']);
  const sales = out.slice(out.indexOf('Sales, 2027-03-05'));
  expect(sales.split('\n').slice(3, 5)).toEqual([
    expect.stringMatching(/^2027-03-01 {2}2027-03-05 {2}\d+ cartons to sell of 490 wanted$/),
    expect.stringMatching(/^2027-03-08 {2}2027-03-12 {2}\d+ cartons to sell of 490 wanted$/),
  ]);
});
