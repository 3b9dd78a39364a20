import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { nodeFiles } from '../../src/cli/files';
import type { Io } from '../../src/cli/io';
import { findPlanFiles } from '../../src/cli/plan-files';
import { inMemory, lotwright } from './in-process';

const SEASON = 'season:\n  name: Test\n  starts: 2026-08-31\n  ends: 2027-04-25\n  carton: 18 kg\n';

describe('which files are the plan', () => {
  let folder = '';
  beforeAll(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-'));
    const put = (name: string) => {
      fs.mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
      fs.writeFileSync(path.join(folder, name), SEASON);
    };
    for (const name of ['b.lotplan.yaml', 'a.lotplan.yaml', 'rooms/north/r1.lotplan.yaml', 'notes.yaml'])
      put(name);
    for (const name of ['node_modules/x/c.lotplan.yaml', '.git/d.lotplan.yaml', 'rooms/.old/e.lotplan.yaml'])
      put(name);
    fs.symlinkSync(folder, path.join(folder, 'rooms/circle'));
    fs.symlinkSync(path.join(folder, 'nowhere'), path.join(folder, 'broken.lotplan.yaml'));
  });
  afterAll(() => fs.rmSync(folder, { recursive: true }));

  test('all below the folder, in the order of their paths; dot-folders, node_modules and circles are left out', () => {
    const io = { files: nodeFiles, cwd: folder } as Io;
    const { found, failures } = findPlanFiles(io, folder);
    expect(found.map((file) => path.relative(folder, file))).toEqual([
      'a.lotplan.yaml',
      'b.lotplan.yaml',
      'rooms/north/r1.lotplan.yaml',
    ]);
    expect(failures).toEqual([]);
  });
});

describe('a plan that cannot be read ends with exit code 2', () => {
  test('an empty folder: no plan is not a plan without findings', async () => {
    const { code, out, err } = await lotwright(['check', '/plan'], {
      files: inMemory({ '/plan/notes.txt': '' }),
      cwd: '/',
    });
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain('There is no plan in plan: no file in it or below it ends in .lotplan.yaml');
  });

  test('a folder that is not there', async () => {
    const ran = await lotwright(['rooms', 'gone'], { files: inMemory({}), cwd: '/' });
    expect(ran).toMatchObject({ code: 2, err: 'lotwright: There is no folder gone.\n' });
  });

  test('a file where its folder is meant', async () => {
    const files = inMemory({ '/plan/a.lotplan.yaml': SEASON });
    const ran = await lotwright(['check', 'plan/a.lotplan.yaml'], { files, cwd: '/' });
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('A plan is a folder');
  });

  test('a file without permission: a plan with a part missing is not computed', async () => {
    const files = inMemory({ '/plan/a.lotplan.yaml': SEASON, '/plan/b.lotplan.yaml': null });
    const { code, out, err } = await lotwright(['check', 'plan'], { files, cwd: '/' });
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(
      '1 file or folder could not be read:\n  plan/b.lotplan.yaml: no permission to read it',
    );
  });
});

test('a byte order mark counts for nothing: columns are those an editor shows', async () => {
  const mark = '\uFEFF';
  const at = async (text: string) => {
    const files = inMemory({ '/plan/a.lotplan.yaml': text });
    const { out } = await lotwright(['check', 'plan', '--format', 'json'], { files, cwd: '/' });
    return JSON.parse(out).findings;
  };
  expect(await at(`${mark}seasn:\n  name: Test\n`)).toEqual(await at('seasn:\n  name: Test\n'));
});
