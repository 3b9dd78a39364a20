import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { filesOfJournal, fromJournal, undoingOf } from '../../src/plan/broken-write';

const kept = (file: string) => ({ file, before: `${file} before`, after: `${file} after` });

describe('the journal of a write that ended half way', () => {
  it('is read, and anything else is none', () => {
    const files = [kept('/plan/a'), kept('/plan/b')];
    expect(filesOfJournal(JSON.stringify({ files }))).toEqual(files);
    for (const text of ['', '{', 'null', '[]', '{"files":3}', '{"files":[{"file":"a"}]}', '"files"'])
      expect(filesOfJournal(text), text).toBeUndefined();
    fc.assert(fc.property(fc.string(), (text) => filesOfJournal(text) === undefined));
  });

  it('says which files it had reached, and touches none where one was changed since or is gone', () => {
    const files = [kept('a'), kept('b'), kept('c')];
    const now = new Map<string, string | undefined>([
      ['a', 'a after'],
      ['b', 'b before'],
      ['c', 'c before'],
    ]);
    expect(undoingOf(files, now)).toEqual({ written: [files[0]], changedSince: [] });
    expect(undoingOf(files, new Map([...now, ['b', 'mine']]))).toEqual({ written: [], changedSince: ['b'] });
    expect(undoingOf(files, new Map([...now, ['c', undefined]]))).toEqual({
      written: [],
      changedSince: ['c'],
    });
  });

  it('names its files from its own folder, on any system', () => {
    const files = [kept('/farm/2026/lots/a.lotplan.yaml'), kept('/farm/2026/b.lotplan.yaml')];
    expect(files.map(({ file }) => fromJournal(files, file))).toEqual([
      'a.lotplan.yaml',
      '../b.lotplan.yaml',
    ]);
    const windows = [kept('C:\\farm\\a.lotplan.yaml'), kept('C:\\farm\\lots\\b.lotplan.yaml')];
    expect(windows.map(({ file }) => fromJournal(windows, file))).toEqual([
      'a.lotplan.yaml',
      'lots/b.lotplan.yaml',
    ]);
  });
});
