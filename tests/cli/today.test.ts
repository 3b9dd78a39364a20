import { describe, expect, test } from 'vitest';
import { lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const FIRST = 'sample-plans/first-season';

interface Row {
  readonly room: string;
  readonly weekPassed?: true;
  readonly status?: string;
}

async function passed(command: string, today: string): Promise<string[]> {
  const { out } = await lotwright([command, FIRST, '--today', today, '--format', 'json']);
  const report = JSON.parse(out);
  expect(errorsAgainst(`${command}-report`, report)).toEqual([]);
  expect(report.today).toBe(today);
  return report.rooms.filter(({ weekPassed }: Row) => weekPassed).map(({ room }: Row) => room);
}

describe.each(['release', 'windows'])('%s looks from a day', (command) => {
  test('rooms without a pin whose chosen week has passed are told, a pinned one is not', async () => {
    // R1 opens in 2026-W39, R3 in W46, R2 is pinned to 2027-W01, R4 opens later.
    expect(await passed(command, '2026-09-20')).toEqual([]);
    expect(await passed(command, '2026-10-05')).toEqual(['R1']);
    expect((await passed(command, '2027-01-20')).sort()).toEqual(['R1', 'R3']);
  });

  test('outside the season nothing is under way, and nothing has passed', async () => {
    expect(await passed(command, '2029-01-01')).toEqual([]);
  });

  test('the text marks them, and says once what to do', async () => {
    const { out } = await lotwright([command, FIRST, '--today', '2027-01-20']);
    const text = out.replace(/\s+/g, ' ');
    expect(text).toContain('has passed for: R1 2026-W39, R3 2026-W46.');
    expect(text.split('write down what really happened')).toHaveLength(2);
    const before = await lotwright([command, FIRST, '--today', '2026-09-20']);
    expect(before.out).not.toContain('passed for');
  });
});

test('a pinned week that is over is said to be, whatever the window', async () => {
  const { out } = await lotwright(['windows', FIRST, '--today', '2027-01-20', '--format', 'json']);
  const rows: Row[] = JSON.parse(out).rooms;
  expect(rows.find(({ room }) => room === 'R2')?.status).toBe('pinned week past');
});
