import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { CompiledFiles } from '../../src/server/compiled-files';

const MARKS = ['a'.repeat(64), 'b'.repeat(64)] as const;

describe('what the engine made of the files of a program', () => {
  let scratch: string;
  const inScratch = (name: string) => path.join(scratch, name);
  const write = (name: string, text: string, mark?: string) =>
    fs.writeFileSync(inScratch(name), mark ? `${text}\n// ${mark}\n` : `${text}\n`);
  const files = (kept: string | undefined = inScratch('kept')) =>
    new CompiledFiles(scratch, kept, (work) => work());
  const keptFiles = () => fs.readdirSync(inScratch('kept')).map((name) => name.replace(/\.[0-9a-f]+$/, ''));
  const keptPlace = (name: string) =>
    path.join(
      inScratch('kept'),
      fs.readdirSync(inScratch('kept')).find((one) => one.startsWith(`${name}.`)) ?? '',
    );

  beforeEach(() => {
    scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'compiled-'));
    write(
      'first.cjs',
      'const { twice } = require("./second.cjs"); module.exports = { six: () => twice(3) };',
      MARKS[0],
    );
    write(
      'second.cjs',
      'exports.twice = (bins) => bins * 2; exports.sep = require("node:path").sep;',
      MARKS[0],
    );
  });
  afterEach(() => fs.rmSync(scratch, { recursive: true }));

  const six = (of: CompiledFiles) => (of.load('first.cjs') as { six(): number }).six();

  it('is kept, and the files do the same with it as without', async () => {
    const before = files();
    expect(six(before)).toBe(6);
    await before.keep();
    expect(keptFiles()).toEqual(['first.cjs', 'second.cjs']);
    expect(six(files())).toBe(6);
  });

  it('is written again only where there is more of it', async () => {
    const before = files();
    six(before);
    await before.keep();
    const made = fs.statSync(keptPlace('first.cjs'));
    await before.keep();
    expect(fs.statSync(keptPlace('first.cjs')).ino).toBe(made.ino);
    const after = files();
    six(after);
    await after.keep();
    expect(fs.statSync(keptPlace('first.cjs')).ino).toBe(made.ino);

    const many = Array.from(
      { length: 60 },
      (_, at) => `exports.of${at} = (bins) => [bins, ${at}, bins * ${at}];`,
    );
    write('many.cjs', many.join('\n'), MARKS[0]);
    const few = files();
    few.load('many.cjs');
    await few.keep();
    const size = fs.statSync(keptPlace('many.cjs')).size;
    const all = files();
    for (const made of Object.values(all.load('many.cjs') as Record<string, (bins: number) => unknown>))
      made(1);
    await all.keep();
    expect(fs.statSync(keptPlace('many.cjs')).size).toBeGreaterThan(size);
  });

  it('is cleared away two months after an engine last kept any of it', async () => {
    fs.mkdirSync(inScratch('kept'));
    const months = (count: number) => new Date(Date.now() - count * 30.5 * 24 * 3600 * 1000);
    for (const [name, age] of [
      ['first.cjs.1', 3],
      ['second.cjs.2', 1],
    ] as const) {
      fs.writeFileSync(path.join(inScratch('kept'), name), 'of another engine');
      fs.utimesSync(path.join(inScratch('kept'), name), months(age), months(age));
    }
    const one = files();
    six(one);
    await one.keep();
    const left = fs.readdirSync(inScratch('kept'));
    expect(left).toHaveLength(3);
    expect(left).not.toContain('first.cjs.1');
  });

  it('is of no use to another text of the same length', async () => {
    const before = files();
    six(before);
    await before.keep();
    write(
      'second.cjs',
      'exports.twice = (bins) => bins * 3; exports.sep = require("node:path").sep;',
      MARKS[1],
    );
    const after = files();
    expect(six(after)).toBe(9);
    await after.keep();
    expect(six(files())).toBe(9);
  });

  it('is made anew where it has been damaged', async () => {
    const before = files();
    six(before);
    await before.keep();
    for (const name of ['first.cjs', 'second.cjs'])
      fs.writeFileSync(keptPlace(name), `${MARKS[0]}no code of any kind`);
    const after = files();
    expect(six(after)).toBe(6);
    await after.keep();
    expect(fs.statSync(keptPlace('first.cjs')).size).toBeGreaterThan(200);
  });

  it('is not kept of a file without a mark, nor where there is no folder for it or none can be made', async () => {
    write('second.cjs', 'exports.twice = (bins) => bins * 2;');
    const one = files();
    six(one);
    await one.keep();
    expect(keptFiles()).toEqual(['first.cjs']);

    const none = new CompiledFiles(scratch, undefined, (work) => work());
    expect(six(none)).toBe(6);
    await none.keep();
    const impossible = files(path.join(inScratch('first.cjs'), 'kept'));
    expect(six(impossible)).toBe(6);
    await expect(impossible.keep()).resolves.toBeUndefined();
  });

  it('tells of an error at its place in the file', () => {
    write('fails.cjs', 'exports.opened = 1;\n  throw new Error("no such room");', MARKS[0]);
    const thrown = (() => {
      try {
        return files().load('fails.cjs');
      } catch (error) {
        return error;
      }
    })();
    expect(String((thrown as Error).stack)).toContain('fails.cjs:2:9');
    write('fails.cjs', '  throw new Error("no such room");', MARKS[0]);
    expect(() => files().load('fails.cjs')).toThrow('no such room');
    expect(() => files().load('missing.cjs')).toThrow('missing.cjs');
  });
});
