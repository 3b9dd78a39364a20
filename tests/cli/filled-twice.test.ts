import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { lotwright, root } from './in-process';

/** The first season, its R3 filled once more in late autumn with Braeburn that hung late. */
const AGAIN = `lotwright: 1
lots:
  B4: { variety: Braeburn, picked: 2026-11-23..2026-11-27, bins: 200, field-temperature: 13 °C }
fills:
  R3-again:
    room: R3
    regime: braeburn-own
    first-bin: 2026-11-25
    last-bin: 2026-11-29
    sealed: 2026-11-30
    lots: { B4: 200 }
`;

let folder = '';

beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright twice '));
  fs.cpSync(path.join(root, 'sample-plans/first-season'), folder, { recursive: true });
  fs.writeFileSync(path.join(folder, 'again.lotplan.yaml'), AGAIN);
});

afterAll(() => fs.rmSync(folder, { recursive: true }));

describe('a room that is filled again when it is empty', () => {
  test.each([
    ['rooms', '4 of 4 rooms filled, with 5 fills'],
    ['windows', 'opening windows of 5 fills in 4 rooms'],
    ['release', 'release schedule for 5 fills in 4 rooms'],
    ['gas', 'gas of 5 fills in 4 rooms'],
  ])('has rows of different names in %s, which says what it counts', async (command, counted) => {
    const { out } = await lotwright([command, folder]);
    expect(out.split('\n')[0]).toContain(counted);
    const rows = out.split('\n').filter((line) => /^R3\b/.test(line));
    expect(rows.filter((line) => line.startsWith('R3 (R3-golden)')).length).toBeGreaterThan(0);
    expect(rows.filter((line) => line.startsWith('R3 (R3-again)')).length).toBeGreaterThan(0);
    expect(rows.filter((line) => !/^R3 \(R3-(golden|again)\)/.test(line))).toEqual([]);
  });

  test('is told apart in the weeks and the reasons of the schedule', async () => {
    const { out } = await lotwright(['release', folder, '--reasons']);
    expect(out).toMatch(/^20\d\d-W\d\d +(R\d, )?R3 \(R3-golden\)/m);
    expect(out).toMatch(/^R3 \(R3-again\) {2}20\d\d-W\d\d {2}a week earlier/m);
  });

  test('leaves the names of rooms alone that are filled once', async () => {
    const { out } = await lotwright(['windows', 'sample-plans/first-season']);
    expect(out.split('\n')[0]).toContain('opening windows of 4 filled rooms');
    expect(out).toMatch(/^R3 {4}Golden/m);
  });
});
