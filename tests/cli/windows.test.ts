import { describe, expect, test } from 'vitest';
import { lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const FIRST = 'sample-plans/first-season';

interface Report {
  readonly confidence: { readonly value: number; readonly unit: string };
  readonly rooms: readonly { readonly room: string; readonly latest?: { readonly week: string } }[];
}

async function windows(...words: string[]): Promise<Report> {
  const { out } = await lotwright(['windows', FIRST, '--format', 'json', ...words]);
  return JSON.parse(out);
}

describe('windows --confidence', () => {
  test('overrides the plan: the surer, the earlier each room must open', async () => {
    const [bold, usual, sure] = await Promise.all([
      windows('--confidence', '60%'),
      windows(),
      windows('--confidence', '0.99'),
    ]);
    expect([bold?.confidence, usual?.confidence.value, sure?.confidence.value]).toEqual([
      { value: 60, unit: '%' },
      90,
      99,
    ]);
    const latest = ({ rooms }: Report, room: string) =>
      rooms.find((one) => one.room === room)?.latest?.week ?? '';
    for (const { room } of usual.rooms) {
      expect(latest(sure, room) <= latest(usual, room)).toBe(true);
      expect(latest(usual, room) <= latest(bold, room)).toBe(true);
    }
    expect(usual.rooms.some(({ room }) => latest(sure, room) < latest(usual, room))).toBe(true);
  });

  test('the same share may be written either way', async () => {
    expect(await windows('--confidence', '95 %')).toEqual(await windows('--confidence', '0.95'));
  });

  test.each(['0', '100%', '95', 'sure', ''])('%j is refused with what to write', async (text) => {
    const { code, err } = await lotwright(['windows', FIRST, '--confidence', text]);
    expect(code).toBe(2);
    expect(err).toContain('as 95%');
  });
});

describe('windows --room', () => {
  test('tells one room in full, with what moves it and the sources of its risks', async () => {
    const { out } = await lotwright(['windows', FIRST, '--room', 'R2', '--format', 'json']);
    const { rooms } = JSON.parse(out);
    expect(rooms).toHaveLength(1);
    expect(rooms[0].moves.length).toBeGreaterThan(2);
    for (const { latestLaterBy, earliestSoonerBy, bestBefore } of rooms[0].moves)
      expect(latestLaterBy !== 0 || earliestSoonerBy !== 0 || bestBefore !== rooms[0].bestBefore.week).toBe(
        true,
      );
    expect(rooms[0].risks[0].source.known).toBe('published');
  });

  test('among all rooms only risks that begin before the room is packed, and that nothing lessens', async () => {
    const { out } = await lotwright(['windows', 'sample-plans/full-season', '--format', 'json']);
    const { rooms } = JSON.parse(out);
    const risks = rooms.flatMap((room: { risks: unknown[] }) => room.risks);
    const shown = risks.filter(
      (one: { inWindow: boolean; susceptible: string; eased?: string }) =>
        one.inWindow && one.susceptible === 'highly' && one.eased === undefined,
    );
    expect(shown.length).toBeGreaterThan(0);
    expect(shown.length).toBeLessThan(risks.length);
    const { out: text } = await lotwright(['windows', 'sample-plans/full-season']);
    const told = text
      .split('\n')
      .filter((line) => /of its variety|it has had no|it is (not )?conditioned/.test(line));
    expect(told).toHaveLength(shown.length);
  });

  test('a room that is not there is answered with the nearest', async () => {
    const { code, err } = await lotwright(['windows', FIRST, '--room', 'R22']);
    expect(code).toBe(2);
    expect(err).toContain('There is no room R22 in the plan. Nearest: R2');
  });
});

describe('windows of rooms that were opened', () => {
  const MARCH = 'sample-plans/in-march';

  test('stand apart: with the day of opening and of emptying, and with nothing to decide', async () => {
    const { out } = await lotwright(['windows', MARCH]);
    const [rooms = ''] = out.split('Latest is the last week');
    expect(rooms).toContain('R1 was opened on 2026-09-21 and was empty on 2026-10-16.');
    expect(rooms).toContain('R4 was opened on 2027-02-22 and is being packed out.');
    expect(rooms).toContain('no room is left to be opened');
    expect(rooms).not.toMatch(/1-MCP|Pinned|within window|without lot/i);
    expect(out.replace(/\s+/g, ' ')).toContain('with a calibrated instrument');
  });

  test('come after those still to be opened, and one asked for alone has its window', async () => {
    const asOf = ['--as-of', '2026-11-30'];
    const { out } = await lotwright(['windows', MARCH, ...asOf, '--format', 'json']);
    const report = JSON.parse(out);
    expect(errorsAgainst('windows-report', report)).toEqual([]);
    expect(report.rooms.map((row: { room: string; opened?: string }) => [row.room, row.opened])).toEqual([
      ['R2', undefined],
      ['R4', undefined],
      ['R1', '2026-09-21'],
      ['R3', '2026-11-09'],
    ]);
    expect(report.rooms[2]).toMatchObject({ moves: [], risks: [] });
    expect(report.rooms[2]).not.toHaveProperty('status');
    expect(report.rooms[2]).not.toHaveProperty('pinned');
    const one = await lotwright(['windows', MARCH, ...asOf, '--room', 'R3']);
    expect(one.out).toContain('R3 was opened on 2026-11-09 and is being packed out.');
    expect(one.out).toContain('best before');
    expect(one.out).not.toContain('No single change');
  });
});
