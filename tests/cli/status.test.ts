import { describe, expect, test } from 'vitest';
import { lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const MARCH = 'sample-plans/in-march';

describe('status', () => {
  test('looks from the last day that has a record, or from the day asked for', async () => {
    const last = JSON.parse((await lotwright(['status', MARCH, '--format', 'json'])).out);
    expect(errorsAgainst('status-report', last)).toEqual([]);
    expect(last.asOf).toBe('2027-03-07');
    const { out } = await lotwright(['status', MARCH, '--as-of', '2026-11-30', '--format', 'json']);
    const then: typeof last = JSON.parse(out);
    expect(errorsAgainst('status-report', then)).toEqual([]);
    expect(then.asOf).toBe('2026-11-30');
    expect(then.rooms.map(({ room, state }: { room: string; state: string }) => `${room} ${state}`)).toEqual([
      'R1 emptied',
      'R2 holding',
      'R3 opened',
      'R4 holding',
    ]);
    expect(then.market.through).toBe('2026-W48');
  });

  test('of a plan without records looks from today', async () => {
    const { out } = await lotwright(['status', 'sample-plans/first-season', '--format', 'json']);
    // The day on which the tests run the command line.
    expect(JSON.parse(out)).toMatchObject({ asOf: '2027-03-01', progressRecorded: false });
  });

  test('is a page of Markdown too, with the caution', async () => {
    const { out } = await lotwright(['status', MARCH, '--format', 'markdown']);
    expect(out).toContain('# Orrowby Vale, harvest 2026 at the end of 2027-03-07');
    expect(out).toContain('| R4 | Braeburn | 281 | 141 | 140 | 42.0 | first 1,373, second 419 |');
    expect(out).toContain('with a calibrated instrument');
  });

  test('says what is wrong with a day it cannot read', async () => {
    const { code, err } = await lotwright(['status', MARCH, '--as-of', '30.11.2026']);
    expect(code).toBe(2);
    expect(err).toContain('Write a calendar date, as 2026-09-14.');
  });
});
