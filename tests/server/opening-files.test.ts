import { describe, expect, it } from 'vitest';
import { type Disk, KIND, type Listed } from '../../src/server/disk/walked-files';
import type { FileSource } from '../../src/server/file-source';
import { openingFiles } from '../../src/server/opening-files';

const FARM = 'file:///c%3A/farm';

/** A disk that holds these files, by path, and in each folder what is below it. */
function disk(files: Readonly<Record<string, string>>, links: readonly string[] = []) {
  const list = async (folder: string): Promise<Listed[]> => {
    const below = Object.keys(files).filter((file) => file.startsWith(`${folder}/`));
    const parts = below.map((file) => file.slice(folder.length + 1).split('/'));
    const entries = parts.map(([name = '', ...rest]): Listed => {
      const kind = rest.length > 0 ? KIND.folder : KIND.file;
      return [name, links.includes(name) ? kind | KIND.link : kind];
    });
    return [...new Map(entries.map((entry) => [entry[0], entry])).values()];
  };
  const read: Disk['read'] = async (file) => {
    const text = files[file];
    if (text === undefined) throw new Error('no such file');
    return new TextEncoder().encode(text);
  };
  return { list, read, pathOf: (uri: string) => decodeURIComponent(uri.slice('file:///'.length)) };
}

/** A client that tells of one file of its own, and of what it has been asked. */
function client() {
  const asked: string[] = [];
  const files: FileSource = {
    find: async (folder) => {
      asked.push(folder);
      return [`${folder}/fromClient.lotplan.yaml`];
    },
    read: async (uris) => {
      asked.push(...uris);
      return uris.map(() => '# the client has it\n');
    },
    grown: async () => null,
  };
  return { asked, files };
}

describe('plan files when a window opens', () => {
  it('are found and read on the disk, at the addresses that the editor gives them', async () => {
    const { asked, files } = client();
    const seen = disk({
      'c:/farm/rooms.lotplan.yaml': '\uFEFF# rooms\n',
      "c:/farm/north (old) & new/Äpfel's.lotplan.yaml": '# fruit\n',
      'c:/farm/.git/left-out.lotplan.yaml': '',
      'c:/farm/notes.md': '',
    });
    const exclude = { '**/.git': true, '**/*.bak': false };
    const opening = openingFiles(files, seen, [{ folder: FARM, exclude }]);
    const uris = [
      `${FARM}/rooms.lotplan.yaml`,
      `${FARM}/north%20%28old%29%20%26%20new/%C3%84pfel%27s.lotplan.yaml`,
    ];
    expect(await opening?.find(FARM)).toEqual(uris);
    expect(await opening?.read(uris)).toEqual(['# rooms\n', '# fruit\n']);
    expect(asked).toEqual([]);
  });

  it('are asked of the client where more than names is left out, a folder leads elsewhere, or it lies on no disk', async () => {
    const { asked, files } = client();
    const seen = disk({ 'c:/farm/elsewhere/a.lotplan.yaml': '', 'c:/barn/b.lotplan.yaml': '# b\n' }, [
      'elsewhere',
    ]);
    const opening = openingFiles(files, seen, [
      { folder: FARM, exclude: {} },
      { folder: 'file:///c%3A/yard', exclude: { 'old/**': true } },
      { folder: 'file:///c%3A/barn', exclude: {} },
    ]);
    const folders = [FARM, 'file:///c%3A/yard', 'memory:///shed'];
    for (const folder of folders)
      expect(await opening?.find(folder)).toEqual([`${folder}/fromClient.lotplan.yaml`]);
    const [barn = ''] = (await opening?.find('file:///c%3A/barn')) ?? [];
    const others = folders.map((folder) => `${folder}/fromClient.lotplan.yaml`);
    expect(await opening?.read([...others, barn])).toEqual([
      ...others.map(() => '# the client has it\n'),
      '# b\n',
    ]);
    expect(asked).toEqual([...folders, ...others]);
  });

  it('are left to the client wholly where the server sees no disk, or nothing is said of one', () => {
    const { files } = client();
    expect(openingFiles(files, undefined, [{ folder: FARM, exclude: {} }])).toBeUndefined();
    expect(openingFiles(files, disk({}), undefined)).toBeUndefined();
  });

  it('have no text where they have gone since they were found', async () => {
    const { files } = client();
    const there: Record<string, string> = { 'c:/farm/rooms.lotplan.yaml': '# rooms\n' };
    const opening = openingFiles(files, disk(there), [{ folder: FARM, exclude: {} }]);
    const found = (await opening?.find(FARM)) ?? [];
    delete there['c:/farm/rooms.lotplan.yaml'];
    expect(await opening?.read(found)).toEqual([null]);
  });
});
