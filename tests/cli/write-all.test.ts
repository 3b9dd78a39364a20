import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { nodeFiles } from '../../src/cli/files';
import { type Disk, JOURNAL, restore, WriteFailed, writeAll } from '../../src/cli/write-all';
import { lotwright } from './in-process';

const BEFORE = { '/plan/a': 'a before', '/plan/b': 'b before', '/plan/c': 'c before' };
const AFTER = new Map(Object.keys(BEFORE).map((file) => [file, `${file} after`]));
const JOURNAL_AT = `/plan/${JOURNAL}`;

/** A disk in memory whose operation of a number fails; `dies` as well every one after it. */
function failingAt(step: number, dies: boolean) {
  const files = new Map<string, string>(Object.entries(BEFORE));
  let steps = 0;
  const takeStep = () => {
    steps += 1;
    if (steps === step || (dies && steps > step)) throw new Error('the disk failed');
  };
  const disk: Disk = {
    read: (file) => {
      takeStep();
      const text = files.get(file);
      if (text === undefined) throw new Error(`no file ${file}`);
      return text;
    },
    create: (file, text) => {
      takeStep();
      if (files.has(file)) throw new Error(`${file} is there`);
      files.set(file, text);
    },
    rename: (from, to) => {
      takeStep();
      const text = files.get(from);
      if (text === undefined) throw new Error(`no file ${from}`);
      files.delete(from);
      files.set(to, text);
    },
    remove: (file) => {
      takeStep();
      files.delete(file);
    },
  };
  return { disk, files, steps: () => steps };
}

function planOf(files: ReadonlyMap<string, string>): Record<string, string | undefined> {
  return Object.fromEntries(Object.keys(BEFORE).map((file) => [file, files.get(file)]));
}

/** The operations of a write that goes well. */
const STEPS = (() => {
  const { disk, steps } = failingAt(Number.POSITIVE_INFINITY, false);
  writeAll(disk, AFTER, JOURNAL_AT);
  return steps();
})();
const each = Array.from({ length: STEPS }, (_, index) => index + 1);

describe('several files are written', () => {
  it('all of them, and nothing else is left', () => {
    const { disk, files } = failingAt(Number.POSITIVE_INFINITY, false);
    writeAll(disk, AFTER, JOURNAL_AT);
    expect(files).toEqual(AFTER);
    // Three read, three beside, a journal in three, three renamed and the journal removed.
    expect(STEPS).toBe(13);
  });

  it.each(each)('or none of them, where operation %i fails', (step) => {
    const { disk, files } = failingAt(step, false);
    let failed = false;
    try {
      writeAll(disk, AFTER, JOURNAL_AT);
    } catch (error) {
      expect(error).toBeInstanceOf(WriteFailed);
      expect((error as WriteFailed).left).toEqual([]);
      failed = true;
    }
    expect(planOf(files)).toEqual(failed ? BEFORE : Object.fromEntries(AFTER));
    // The last operation only removes the journal: all is written then.
    expect(failed).toBe(step < STEPS);
  });

  it.each(each)(
    'or none of them, where the program dies at operation %i and another reads the plan',
    (step) => {
      const files = died(step);
      if (files.has(JOURNAL_AT)) expect(restore(mended(files), JOURNAL_AT).changedSince).toEqual([]);
      expect(planOf(files)).toEqual(BEFORE);
      expect(files.has(JOURNAL_AT)).toBe(false);
    },
  );

  it('and nothing is undone where somebody has changed a file since', () => {
    const files = died(12);
    files.set('/plan/a', 'a by hand');
    expect(restore(mended(files), JOURNAL_AT)).toEqual({ putBack: [], changedSince: ['/plan/a'] });
    expect(files.get('/plan/a')).toBe('a by hand');
    expect(files.has(JOURNAL_AT)).toBe(true);
  });
});

describe('a command that finds a write broken off', () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'written-'));
  const plan = 'lotwright: 1\nseason: { name: Before }\n';
  const [one, other] = ['a', 'b'].map((name) => path.join(folder, `${name}.lotplan.yaml`)) as [
    string,
    string,
  ];
  const breakOff = () => {
    fs.writeFileSync(one, plan.replace('Before', 'After'));
    fs.writeFileSync(other, 'lotwright: 1\n');
    fs.writeFileSync(`${other}.new`, 'lotwright: 1 # after\n');
    const files = [
      { file: one, before: plan, after: plan.replace('Before', 'After') },
      { file: other, before: 'lotwright: 1\n', after: 'lotwright: 1 # after\n' },
    ];
    fs.writeFileSync(path.join(folder, JOURNAL), JSON.stringify({ files }));
  };

  it('puts the plan back as it was, says so, and goes on', async () => {
    breakOff();
    const { out, err } = await lotwright(['rooms', folder, '--format', 'json']);
    expect(err).toContain('A write of this plan had ended half way. It is as it was before');
    expect(JSON.parse(out).plan.season).toBe('Before');
    expect(fs.readdirSync(folder).sort()).toEqual(['a.lotplan.yaml', 'b.lotplan.yaml']);
  });

  it('touches nothing that was changed since', async () => {
    breakOff();
    fs.writeFileSync(one, 'lotwright: 1 # by hand\n');
    const { code, err } = await lotwright(['rooms', folder]);
    expect(code).toBe(2);
    expect(err).toContain('was changed since');
    expect(fs.readFileSync(one, 'utf8')).toBe('lotwright: 1 # by hand\n');
  });

  it('and writing leaves nothing behind', () => {
    for (const name of fs.readdirSync(folder)) fs.rmSync(path.join(folder, name));
    fs.writeFileSync(one, 'a');
    fs.writeFileSync(other, 'b');
    expect(
      nodeFiles.writeAll(
        new Map([
          [one, 'A'],
          [other, 'B'],
        ]),
      ),
    ).toBeUndefined();
    expect([fs.readFileSync(one, 'utf8'), fs.readFileSync(other, 'utf8')]).toEqual(['A', 'B']);
    expect(fs.readdirSync(folder).length).toBe(2);
    // A folder in the place of the second: neither is written.
    fs.rmSync(other);
    fs.mkdirSync(other);
    expect(
      nodeFiles.writeAll(
        new Map([
          [one, 'x'],
          [other, 'y'],
        ]),
      ),
    ).toMatchObject({ left: [] });
    expect(fs.readFileSync(one, 'utf8')).toBe('A');
    fs.rmSync(folder, { recursive: true });
  });
});

function died(step: number): Map<string, string> {
  const { disk, files } = failingAt(step, true);
  try {
    writeAll(disk, AFTER, JOURNAL_AT);
  } catch (error) {
    expect(error).toBeInstanceOf(WriteFailed);
  }
  return files;
}

/** The same files on a disk that works. */
function mended(files: Map<string, string>): Disk {
  return {
    read: (file) => files.get(file) ?? '',
    create: (file, text) => files.set(file, text),
    rename: (from, to) => {
      files.set(to, files.get(from) ?? '');
      files.delete(from);
    },
    remove: (file) => files.delete(file),
  };
}
