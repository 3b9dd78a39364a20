import { describe, expect, test } from 'vitest';
import { visibleWidth } from '../../src/report/table';
import { cautionInShort } from '../../src/room/caution';
import { inMemory, lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const FIRST = 'sample-plans/first-season';

describe('lists of what is built in', () => {
  test.each(['varieties', 'regimes', 'findings'])('%s, without a plan and on the page', async (list) => {
    const { code, out } = await lotwright(['explain', list], { files: inMemory({}), cwd: '/' });
    expect(code).toBe(0);
    expect(out.split('\n').length).toBeGreaterThan(40);
    expect(out.split('\n').filter((line) => visibleWidth(line) > 100)).toEqual([]);
  });

  test.each(['varieties', 'regimes', 'findings'])('%s as JSON fit the schema', async (list) => {
    for (const units of ['metric', 'us']) {
      const { out } = await lotwright(['explain', list, FIRST, '--format', 'json', '--units', units]);
      expect(errorsAgainst('explain-report', JSON.parse(out))).toEqual([]);
    }
  });

  test('of findings, some of which speak of opening rooms, ends with the caution', async () => {
    const { out } = await lotwright(['explain', 'findings'], { files: inMemory({}), cwd: '/' });
    expect(out.replace(/\s+/g, ' ').trim().endsWith(cautionInShort)).toBe(true);
  });

  test("regimes hold the plan's own", async () => {
    expect((await lotwright(['explain', 'regimes', FIRST])).out).toMatch(
      /^gala-own +Gala +0\.8 +1\.5 +1\.8 +plan/m,
    );
  });

  test('a folder that is not there is still told', async () => {
    expect((await lotwright(['explain', 'regimes', 'nowhere'])).code).toBe(2);
  });
});

describe('what is not there', () => {
  test("a figure that a room has not: the room's figures", async () => {
    const { code, err } = await lotwright(['explain', 'R2.foo', FIRST]);
    expect(code).toBe(2);
    expect(err).toContain('R2 has: length, width');
    expect(err).toContain('free-gas-volume');
  });

  test('a regime: the nearest, and those built in for its variety', async () => {
    const { code, err } = await lotwright(['explain', 'idared-standrad', FIRST]);
    expect(code).toBe(2);
    expect(err).toContain('Nearest:\n  idared-standard');
    expect(err).toContain('Built in for Idared: idared-standard, idared-air');
  });
});

test('an edge of the window is told with its week and what its days count from', async () => {
  const { out } = await lotwright(['explain', 'R2.earliest', FIRST]);
  // Sealed on Friday 2026-09-18 and at its gas three days later: 2026-W39 begins on Monday 2026-09-21.
  expect(out).toContain('Comes to week 2026-W39; its days count from 2026-09-18 (sealed).');
  expect((await lotwright(['explain', 'R2', FIRST])).out).toContain('2026-W39, from 2026-09-18 (sealed): =');
});
