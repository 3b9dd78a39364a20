import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { nodeFiles } from '../../src/cli/files';
import { readPlan } from '../../src/plan/read';
import { quickRelease } from '../../src/release/quick';
import { wholeByWeek } from '../../src/report/papers/whole-bins';
import { lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

let folder = '';
beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'plan-'));
  fs.cpSync(path.join(root, 'sample-plans/first-season'), folder, { recursive: true });
});
afterEach(() => fs.rmSync(folder, { recursive: true }));

const run = (words: readonly string[], more = {}) =>
  lotwright(['release', '.', ...words], { cwd: folder, ...more });
const texts = () =>
  fs
    .readdirSync(folder, { recursive: true, withFileTypes: true })
    .flatMap((entry) =>
      entry.isFile() && entry.name.endsWith('.yaml')
        ? [{ path: entry.name, text: fs.readFileSync(path.join(entry.parentPath, entry.name), 'utf8') }]
        : [],
    );

/** What the report and the papers tell alike of each room. */
interface Told {
  readonly rooms: readonly { fill: string; packing: { week: string; bins: number }[] }[];
}

describe('release --write', () => {
  test('does not ask for pins in weeks that it has just written, where they have passed', async () => {
    const { out } = await run(['--write', '--today', '2027-01-20']);
    const text = out.replace(/\s+/g, ' ');
    expect(text).toContain('R1-gala: open: 2026-W39');
    expect(text).toContain('here and written has passed for: R1 2026-W39');
    expect(text).toContain('write down what really happened');
    expect(text).not.toContain('pin its week');
  });

  test('pins the fills that have no week, and changes nothing else', async () => {
    const before = texts();
    const { code, out } = await run(['--write', '--format', 'json']);
    expect(code).toBe(0);
    const report = JSON.parse(out);
    expect(errorsAgainst('release-report', report)).toEqual([]);
    const after = texts();
    const plan = readPlan(after);
    for (const room of report.rooms) expect(plan.fills.get(room.fill)?.open, room.fill).toBeDefined();
    // R2 was pinned before, the other three are new.
    expect(report.written).toHaveLength(3);
    const added = after.flatMap(({ text }, index) => {
      const lines = new Set(before[index]?.text.split('\n'));
      return text.split('\n').filter((line) => !lines.has(line));
    });
    expect(added).toHaveLength(3);
    for (const { week } of report.written) expect(added.join('\n')).toContain(`open: ${week}`);
    const comments = (files: typeof before) => files.map(({ text }) => text.match(/#.*$/gm));
    expect(comments(after)).toEqual(comments(before));
  });

  test('finds nothing left to write the second time, and the same weeks', async () => {
    await run(['--write']);
    const once = texts();
    const { out } = await run(['--write']);
    expect(out).toContain('Nothing was to be written');
    expect(texts()).toEqual(once);
  });

  test('gives the packing of each room by week that the papers of the written plan give', async () => {
    const { out } = await run(['--write', '--format', 'json']);
    const report = JSON.parse(out);
    const papers = await lotwright(['papers', '.', '--for', 'packhouse', '--format', 'json'], {
      cwd: folder,
    });
    const told: Told = JSON.parse(papers.out);
    for (const { fill, packing } of (report as Told).rooms) {
      const onPaper = told.rooms.find((one) => one.fill === fill)?.packing ?? [];
      const weeks = wholeByWeek(packing.map(({ bins }) => bins));
      const whole = packing
        .map(({ week }, at) => ({ week, bins: weeks[at] }))
        .filter(({ bins }) => bins !== 0);
      expect(onPaper, fill).toEqual(whole);
      expect(whole.length, fill).toBeGreaterThan(0);
    }
  });

  test('writes nothing where a file has changed while it searched', async () => {
    const [file] = texts().filter(({ text }) => text.includes('fills:'));
    const there = path.join(folder, file?.path ?? '');
    const { code, err } = await run(['--write'], {
      solve: async (problem: Parameters<typeof quickRelease>[0]) => {
        fs.appendFileSync(there, '# a note made meanwhile\n');
        return quickRelease(problem, { seed: 1, moves: 500 });
      },
    });
    expect(code).toBe(2);
    expect(err).toContain('Nothing is written: 1 file has changed since the plan was read.');
    expect(fs.readFileSync(there, 'utf8')).toBe(`${file?.text}# a note made meanwhile\n`);
  });

  test('writes nothing where the search was stopped', async () => {
    const before = texts();
    const { err } = await run(['--write'], {
      onInterrupt: (stop: () => void) => {
        stop();
        return () => {};
      },
    });
    expect(err).toContain('Nothing is written: the search was stopped.');
    expect(texts()).toEqual(before);
  });

  test('leaves a file of the name it writes under alone', () => {
    const file = path.join(folder, 'x.lotplan.yaml');
    fs.writeFileSync(file, 'a');
    fs.writeFileSync(`${file}.new`, "somebody's");
    expect(nodeFiles.writeAll(new Map([[file, 'b']]))?.failure).toContain('.new');
    expect([fs.readFileSync(file, 'utf8'), fs.readFileSync(`${file}.new`, 'utf8')]).toEqual([
      'a',
      "somebody's",
    ]);
  });
});

describe('release --keep-weeks', () => {
  test('keeps to a report printed earlier, and says what is moved and what that counts', async () => {
    const { out } = await run(['--format', 'json']);
    const report = JSON.parse(out);
    for (const room of report.rooms) if (room.room === 'R3') room.opens = '2026-W48';
    fs.writeFileSync(path.join(folder, 'published.json'), JSON.stringify(report));
    const kept = await run(['--keep-weeks', 'published.json', '--format', 'json']);
    const again = JSON.parse(kept.out);
    expect(errorsAgainst('release-report', again)).toEqual([]);
    // Two weeks from W48 to W46 are worth far more than their 0.2 % of the room each.
    expect(again.changes).toMatchObject({
      kept: 3,
      moved: [{ room: 'R3', fill: 'R3-golden', from: '2026-W48', to: '2026-W46' }],
    });
    expect(again.changes.cost).toBeGreaterThan(0);
    expect(again.value).toBeCloseTo(report.value - again.changes.cost, 1);
    const { out: text } = await run(['--keep-weeks', 'published.json']);
    expect(text).toMatch(
      /3 rooms open in the week published. Moved, at EUR \d+ in all:\s+R3 2026-W48 to 2026-W46: the published week/,
    );
  });

  test('the price of a change can be set in the plan', async () => {
    const { out } = await run(['--format', 'json']);
    const report = JSON.parse(out);
    for (const room of report.rooms) if (room.room === 'R3') room.opens = '2026-W48';
    fs.writeFileSync(path.join(folder, 'published.json'), JSON.stringify(report));
    const [file] = texts().filter(({ text }) => /^policy:$/m.test(text));
    const priced = (file?.text ?? '').replace(/^policy:$/m, 'policy:\n  price-of-change: 100000');
    fs.writeFileSync(path.join(folder, file?.path ?? ''), priced);
    const { out: kept } = await run(['--keep-weeks', 'published.json', '--format', 'json']);
    expect(JSON.parse(kept).changes).toEqual({ kept: 4, cost: 0, moved: [] });
  });

  test('what is no release report is refused', async () => {
    fs.writeFileSync(path.join(folder, 'other.json'), '{"format": "lotwright-rooms-report", "rooms": []}');
    const { code, err } = await run(['--keep-weeks', 'other.json']);
    expect([code, err.includes('other.json is not a release report.')]).toEqual([2, true]);
    const missing = await run(['--keep-weeks', 'none.json']);
    expect(missing.err).toContain('none.json could not be read: there is no such file.');
  });
});
