import { describe, expect, test } from 'vitest';
import { lotwright } from './in-process';

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
