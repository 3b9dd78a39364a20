import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { nodeDisk } from '../../src/server/disk/node-disk';
import { type Folders, type Listed, leftOutBy, walkedFiles } from '../../src/server/disk/walked-files';

const [FILE, FOLDER, LINK] = [1, 2, 64];

function folders(tree: Readonly<Record<string, readonly Listed[]>>): Folders<string> {
  return {
    list: async (folder) => {
      const entries = tree[folder];
      if (!entries) throw new Error('no such folder');
      return entries;
    },
    below: (folder, name) => `${folder}/${name}`,
  };
}

const walked = (tree: Readonly<Record<string, readonly Listed[]>>, leftOut: readonly string[] = []) =>
  walkedFiles('plans', '.lotplan.yaml', (name) => leftOut.includes(name), folders(tree));

describe('files below a folder', () => {
  it('are those whose name ends so, at any depth, but in folders that are left out', async () => {
    const tree = {
      plans: [
        ['fruit.lotplan.yaml', FILE],
        ['readme.md', FILE],
        ['north', FOLDER],
        ['node_modules', FOLDER],
        ['.git', FOLDER],
        ['gone', FOLDER],
      ],
      'plans/north': [
        ['rooms.lotplan.yaml', FILE | LINK],
        ['old.lotplan.yaml', FOLDER],
      ],
      'plans/north/old.lotplan.yaml': [['.lotplan.yaml', FILE]],
      'plans/node_modules': [['a.lotplan.yaml', FILE]],
      'plans/.git': [['b.lotplan.yaml', FILE]],
    } as const;
    expect(await walked(tree, ['.git'])).toEqual([
      'plans/fruit.lotplan.yaml',
      'plans/north/rooms.lotplan.yaml',
      'plans/north/old.lotplan.yaml/.lotplan.yaml',
    ]);
  });

  it('are left to the editor where a folder leads elsewhere, or there are many', async () => {
    expect(await walked({ plans: [['elsewhere', FOLDER | LINK]] })).toBeUndefined();
    const many = Array.from({ length: 600 }, (_, index) => [`${index}`, FOLDER] as const);
    const empty = Object.fromEntries(many.map(([name]) => [`plans/${name}`, []]));
    expect(await walked({ ...empty, plans: many })).toBeUndefined();
    expect(await walked({ ...empty, plans: many.slice(0, 400) })).toEqual([]);
  });
});

describe('what the editor leaves out', () => {
  it('is taken by name or ending, and not at all where it says more than names', () => {
    const isLeftOut = leftOutBy({ '**/.git': true, '**/*.bak': true, '**/drafts': false });
    const names = ['.git', 'old.bak', 'drafts', 'git', 'fruit.lotplan.yaml'];
    expect(names.filter((name) => isLeftOut?.(name))).toEqual(['.git', 'old.bak']);
    expect(leftOutBy({ '**/.git': true, 'old/**': true })).toBeUndefined();
    expect(leftOutBy({ '**/*.{bak,old}': true })).toBeUndefined();
    expect(leftOutBy({ '**/lots.yaml': { when: '$(basename).txt' } })).toBeUndefined();
  });
});

describe('the disk', () => {
  it('tells files, folders and what leads to them as the editor does', async () => {
    const folder = mkdtempSync(path.join(os.tmpdir(), 'lotwright-disk-'));
    try {
      writeFileSync(path.join(folder, 'a.lotplan.yaml'), 'lotwright: 1');
      mkdirSync(path.join(folder, 'north'));
      symlinkSync(path.join(folder, 'a.lotplan.yaml'), path.join(folder, 'b.lotplan.yaml'));
      symlinkSync(path.join(folder, 'north'), path.join(folder, 'south'));
      symlinkSync(path.join(folder, 'nowhere'), path.join(folder, 'west'));
      expect([...(await nodeDisk.list(folder))].sort(([a], [b]) => (a < b ? -1 : 1))).toEqual([
        ['a.lotplan.yaml', FILE],
        ['b.lotplan.yaml', FILE | LINK],
        ['north', FOLDER],
        ['south', FOLDER | LINK],
        ['west', LINK],
      ]);
      const bytes = await nodeDisk.read(path.join(folder, 'b.lotplan.yaml'));
      expect(new TextDecoder().decode(bytes)).toBe('lotwright: 1');
      await expect(nodeDisk.list(path.join(folder, 'nowhere'))).rejects.toThrow();
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
