import { describe, expect, test } from 'vitest';
import { formatDay, isoWeekday, weekOfDay } from '../../../src/plan/dates';
import type { RoomAccount } from '../../../src/report/papers/account';
import { samplesOf, samplingFigures } from '../../../src/report/papers/sampling';
import { accountOf, on, SAMPLES } from './seasons';

const room: RoomAccount = {
  room: 'R9',
  fill: 'R9-fill',
  varieties: ['Gala'],
  lots: [
    { lot: 'A', variety: 'Gala', grower: 'Hill', block: 'North', bins: 100 },
    { lot: 'B', variety: 'Gala', grower: 'Hill', block: 'North', bins: 100 },
    { lot: 'C', variety: 'Gala', bins: 50 },
  ],
  growers: ['Hill'],
  bins: 250,
  firstBin: on('2026-09-20'),
  lastBin: on('2026-10-01'),
  sealed: on('2026-10-01'),
  opens: weekOfDay(on('2027-06-07')),
  pinned: false,
  packing: [],
  binsLeft: 250,
};

describe('samples', () => {
  const samples = samplesOf(room);
  const of = (which: string) => samples.find((sample) => sample.which === which);

  test('test a room of October that opens in June in February and in April, as the source does', () => {
    expect(formatDay(of('test-1')?.first ?? 0).slice(0, 7)).toBe('2027-02');
    expect(formatDay(of('test-2')?.first ?? 0).slice(0, 7)).toBe('2027-04');
    expect(of('test-1')).toMatchObject({ of: ['A', 'B', 'C'], fruitEach: 40 });
    expect(of('set-aside')).toMatchObject({ fruitEach: 80 });
  });

  test('are taken each month after October, of each orchard', () => {
    const months = samples.filter(({ which }) => which.startsWith('month-'));
    expect(months.map(({ which }) => which)).toEqual(
      ['2026-11', '2026-12', '2027-01', '2027-02', '2027-03', '2027-04', '2027-05'].map(
        (one) => `month-${one}`,
      ),
    );
    for (const { first, of: orchards, fruitEach } of months) {
      expect(isoWeekday(first)).toBe(1);
      expect(orchards).toEqual(['Hill, North', 'C']);
      expect(fruitEach).toBe(20);
    }
    expect(of('set-aside')?.what).toContain('140 of each orchard under the hatch');
  });

  test('of an early room begin in November too, of a late one in the month after it', () => {
    const early = { ...room, sealed: on('2026-08-20'), lastBin: on('2026-08-20') };
    expect(samplesOf(early).some(({ which }) => which === 'month-2026-10')).toBe(false);
    const southern = { ...room, sealed: on('2027-03-20'), opens: weekOfDay(on('2027-06-07')) };
    expect(samplesOf(southern).filter(({ which }) => which.startsWith('month-'))[0]?.which).toBe(
      'month-2027-04',
    );
  });

  test('on opening are 100 fruit of each orchard', () => {
    expect(of('grade')).toMatchObject({ first: on('2027-06-07'), fruitEach: 100 });
  });

  test('of a room that is not opened end with its latest week; of one without days there are none', () => {
    const { opens: _, ...shut } = room;
    expect(samplesOf({ ...shut, latest: weekOfDay(on('2027-02-01')) }).map(({ which }) => which)).toContain(
      'test-2',
    );
    expect(samplesOf(shut).map(({ which }) => which)).toEqual(['set-aside']);
    const { sealed: __, lastBin: ___, ...unknown } = room;
    expect(samplesOf(unknown)).toEqual([]);
  });

  test('rest on what was read in publications', () => {
    for (const { origin } of samplingFigures)
      expect(origin.kind === 'reference' && origin.source.known).toBe('published');
  });
});

test.each(SAMPLES)('samples of %s lie on working days before the opening', (name) => {
  const account = accountOf(name);
  for (const sample of account.samples) {
    const opens = account.rooms.find(({ fill }) => fill === sample.fill)?.opens;
    if (!/^(?:test|month)/.test(sample.which)) continue;
    expect(isoWeekday(sample.first)).toBeLessThanOrEqual(5);
    if (opens !== undefined) expect(weekOfDay(sample.first)).toBeLessThan(opens);
  }
});
