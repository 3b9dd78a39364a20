import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { diskFiles } from '../../src/server/disk-files';

let folder = '';
const uri = (...parts: string[]) => pathToFileURL(path.join(folder, ...parts)).href;

beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-files-'));
  for (const name of ['north rooms', 'node_modules', '.hidden']) fs.mkdirSync(path.join(folder, name));
  for (const name of ['a', 'north rooms/b', 'node_modules/c', '.hidden/d'])
    fs.writeFileSync(path.join(folder, `${name}.lotplan.yaml`), `\uFEFF# ${name}\n`);
  fs.writeFileSync(path.join(folder, 'other.yaml'), '');
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

describe('plan files on a disk', () => {
  it('are found in the folder and below, hidden folders and packages left out', async () => {
    const found = await diskFiles.find(uri());
    expect(found.sort()).toEqual([uri('a.lotplan.yaml'), uri('north rooms', 'b.lotplan.yaml')].sort());
  });

  it('are read without their byte order mark, as editors show them', async () => {
    expect(await diskFiles.read([uri('a.lotplan.yaml'), uri('gone.lotplan.yaml')])).toEqual(['# a\n', null]);
  });

  it('are none in a folder that does not exist, or is on no disk', async () => {
    expect(await diskFiles.find(uri('nowhere'))).toEqual([]);
    expect(await diskFiles.find('memory:///x')).toEqual([]);
  });
});
