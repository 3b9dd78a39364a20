import { describe, expect, test } from 'vitest';
import { takeInMarkdown } from '../../src/report/take-in-markdown';
import { caution } from '../../src/room/caution';
import { inMemory, lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const PLAN = `lotwright: 1
tables:
  weighbridge:
    holds: receipts
    columns: { lot: Lot, day: Day, bins: Bins }
lots:
  L1: { variety: Gala, picked: 2026-09-03, bins: 140 } # by the river
`;

function files(more: Record<string, string> = {}) {
  return inMemory({
    '/plans/a.lotplan.yaml': PLAN,
    '/in.csv': 'Lot,Day,Bins\nL1,2026-09-03,60\nL7,2026-09-03,10\n',
    ...more,
  });
}

describe('take-in', () => {
  test('shows what would change and which row is not taken, and touches nothing', async () => {
    const given = { files: files(), cwd: '/' };
    const { code, out } = await lotwright(['take-in', 'weighbridge', 'in.csv', 'plans'], given);
    expect(code).toBe(1);
    expect(out).toMatch(/^lot L1 +received-by-day\/2026-09-03 +- +60 +2$/m);
    expect(out).toContain('in.csv:3 The plan has no lot `L7`. Is `L1` meant?');
    expect(out).toContain(
      '2 rows read, 1 change, 1 row or entry not taken. Nothing is written yet: add --write.',
    );
    expect(given.files.read('/plans/a.lotplan.yaml')).toBe(PLAN);
  });

  test('counts no rows of a file whose heading does not fit, however many columns it lacks', async () => {
    const given = { files: files({ '/in.csv': 'Block,Date\nL1,2026-09-03\nL7,2026-09-03\n' }), cwd: '/' };
    const { code, out } = await lotwright(['take-in', 'weighbridge', 'in.csv', 'plans'], given);
    expect(code).toBe(1);
    expect(out).toContain('No row could be read, so that nothing is taken. There is nothing to write.');
    const json = await lotwright(['take-in', 'weighbridge', 'in.csv', 'plans', '--format', 'json'], given);
    expect(JSON.parse(json.out)).toMatchObject({ rows: 0, alreadyThere: 0 });
    expect(JSON.parse(json.out).faults.length).toBeGreaterThan(1);
  });

  test('writes when asked, once: the second time there is nothing to write', async () => {
    const given = { files: files(), cwd: '/' };
    const words = ['take-in', 'weighbridge', 'in.csv', 'plans', '--write'];
    expect((await lotwright(words, given)).out).toContain('The changes are in the plan.');
    const written = given.files.read('/plans/a.lotplan.yaml');
    expect(written).toBe(PLAN.replace('bins: 140 }', 'bins: 140, received-by-day: { 2026-09-03: 60 } }'));
    const again = await lotwright(words, given);
    expect(again.out).toContain('1 value there already');
    expect(given.files.read('/plans/a.lotplan.yaml')).toBe(written);
  });

  test('prints JSON that fits its published schema', async () => {
    const { out } = await lotwright(['take-in', 'weighbridge', 'in.csv', 'plans', '--format', 'json'], {
      files: files(),
      cwd: '/',
    });
    expect(errorsAgainst('take-in-report', JSON.parse(out))).toEqual([]);
  });

  test('has the caution with what tells of opening, as text, as JSON and on the page, and not without it', async () => {
    const plan = `lotwright: 1
tables:
  log: { holds: progress, columns: { fill: Room, step: What, day: Date } }
rooms:
  R1: { inside: { length: 13 m, width: 5 m, height: 6 m } }
fills:
  F1: { room: R1, regime: gala-standard, sealed: 2026-09-19 }
`;
    const run = async (rows: string, ...more: string[]) => {
      const given = inMemory({ '/plans/a.lotplan.yaml': plan, '/in.csv': `Room,What,Date\n${rows}\n` });
      return (await lotwright(['take-in', 'log', 'in.csv', 'plans', ...more], { files: given, cwd: '/' }))
        .out;
    };
    for (const rows of ['R1,opened,2027-01-04', 'R1,opened,2026-09-10', 'R1,emptied,2027-01-04']) {
      expect((await run(rows)).replace(/\s+/g, ' ')).toContain(caution);
      const report = JSON.parse(await run(rows, '--format', 'json'));
      expect(errorsAgainst('take-in-report', report)).toEqual([]);
      expect(report.caution).toBe(caution);
      expect(takeInMarkdown(report)).toContain(caution);
    }
    expect(await run('R1,sealed,2026-09-19')).not.toContain('Sealed rooms kill');
  });

  test.each([
    [['take-in', 'weighbrige', 'in.csv', 'plans'], 'Is weighbridge meant?'],
    [['take-in', 'weighbridge', 'none.csv', 'plans'], 'none.csv could not be read'],
    [['take-in', 'weighbridge', 'latin.csv', 'plans'], 'latin.csv is not UTF-8'],
  ])('%j ends with exit code 2', async (words, message) => {
    const given = { files: files({ '/latin.csv': 'Lot,Day,Bins\nL\uFFFD,2026-09-03,60\n' }), cwd: '/' };
    const { code, err } = await lotwright(words, given);
    expect(code).toBe(2);
    expect(err).toContain(message);
  });

  test('says so where its files cannot be written', async () => {
    const other = `lotwright: 1\nlots:\n  L2: { variety: Gala, picked: 2026-09-03, bins: 90 }\n`;
    const memory = files({
      '/plans/b.lotplan.yaml': other,
      '/in.csv': 'Lot,Day,Bins\nL1,2026-09-03,60\nL2,2026-09-03,30\n',
    });
    const stuck = {
      ...memory,
      writeAll: () => ({ failure: 'the disk is full', file: '/plans/b.lotplan.yaml', left: [] }),
    };
    const { code, err } = await lotwright(['take-in', 'weighbridge', 'in.csv', 'plans', '--write'], {
      files: stuck,
      cwd: '/',
    });
    expect(code).toBe(2);
    expect(err).toContain('Nothing is written: plans/b.lotplan.yaml: the disk is full.');
    expect(memory.read('/plans/a.lotplan.yaml')).toBe(PLAN);
  });
});
