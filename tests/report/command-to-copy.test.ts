import { describe, expect, it } from 'vitest';
import { withFolderTyped } from '../../src/report/command-to-copy';
import { statusReport } from '../../src/report/status-report';
import { statusMarkdown, statusText } from '../../src/report/status-text';
import { on, seasonOf } from './papers/seasons';

describe('commands that a text names', () => {
  it.each([
    ['`lotwright check` tells where.', '`lotwright check plans/2026` tells where.'],
    ['`lotwright gas --room R2` tells more', '`lotwright gas plans/2026 --room R2` tells more'],
    ['`lotwright explain R2.latest --steps`', '`lotwright explain R2.latest plans/2026 --steps`'],
    [
      '`lotwright readings` and `lotwright check`',
      '`lotwright readings plans/2026` and `lotwright check plans/2026`',
    ],
    ['lotwright check, and `days-to-empty: 5`', 'lotwright check, and `days-to-empty: 5`'],
  ])('have the folder that was typed: %s', (text, told) => {
    expect(withFolderTyped(text, 'plans/2026')).toBe(told);
    expect(withFolderTyped(text, undefined)).toBe(text);
  });

  it('quote a folder that a shell would take apart', () => {
    expect(withFolderTyped('`lotwright gas --room R2`', 'my plans')).toBe(
      '`lotwright gas "my plans" --room R2`',
    );
  });

  it('have it where a season is told whose records contradict each other or whose course cannot be computed', () => {
    const report = statusReport(seasonOf('first-season'), on('2026-10-05'));
    const [room, ...others] = report.rooms;
    if (!room) throw new Error('no room');
    const why = 'its course cannot be computed: `lotwright gas --room R1` tells what is missing';
    const told = { ...report, rooms: [{ ...room, gasNotTold: why }, ...others] };
    expect(statusText(told, undefined, 'plans/2026').replace(/\s+/g, ' ')).toContain(
      '`lotwright gas plans/2026 --room R1` tells what is missing',
    );
    expect(statusText(told).replace(/\s+/g, ' ')).toContain(
      '`lotwright gas --room R1` tells what is missing',
    );
    expect(statusMarkdown(told, 'plans/2026')).toContain('lotwright gas plans/2026 --room R1');
  });
});
