import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { sampleFiles } from '../samples/sample';
import { lotwright } from './in-process';

const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'not-utf-8-'));
afterAll(() => fs.rmSync(folder, { recursive: true }));

/** The first season, one of its files saved by a program that knows no UTF-8. */
function saved(name: string, encoding: 'latin1' | 'utf16le', from: (text: string) => string) {
  const at = path.join(folder, name);
  fs.mkdirSync(at);
  for (const { path: file, text } of sampleFiles('first-season')) {
    const isIt = file.startsWith('orrowby');
    fs.writeFileSync(path.join(at, file), isIt ? Buffer.from(from(text), encoding) : text);
  }
  return at;
}

describe('a plan with a file that is not UTF-8', () => {
  it('says which letter cannot be read and what to do, and reads all the rest', async () => {
    const at = saved('latin', 'latin1', (text) => `# Kühlhaus am Hügel\n${text.replace(/[^\0-\x7f]/g, ' ')}`);
    const { out, code } = await lotwright(['check', at, '--format', 'json', '--no-readings']);
    const { findings } = JSON.parse(out);
    const [letter] = findings.filter((finding: { code: string }) => finding.code === 'not-text');
    expect(letter.message).toContain('A letter here cannot be read (2 places in this file)');
    expect(letter.message).toContain('Save it as UTF-8');
    expect(letter.place).toMatchObject({ line: 1, column: 4 });
    expect(code).toBe(1);
    const { out: rooms } = await lotwright(['rooms', at]);
    expect(rooms).toContain('4 of 4 rooms filled');
  });

  it('is never written to: what the letters were would be lost', async () => {
    const at = path.join(folder, 'latin');
    const before = fs.readFileSync(path.join(at, 'orrowby.lotplan.yaml'));
    const fruit = path.join(at, 'fruit.lotplan.yaml');
    fs.writeFileSync(fruit, Buffer.from(`# für März\n${fs.readFileSync(fruit, 'utf8')}`, 'latin1'));
    const written = fs.readFileSync(fruit);
    const { code, err } = await lotwright(['release', at, '--write']);
    expect(code).toBe(2);
    expect(err).toMatch(/Nothing is written: letters would be lost/);
    expect(fs.readFileSync(fruit)).toEqual(written);
    expect(fs.readFileSync(path.join(at, 'orrowby.lotplan.yaml'))).toEqual(before);
  });

  it('that cannot be read at all does not say that everything else is computed', async () => {
    const at = saved('wide', 'utf16le', (text) => text);
    const { out } = await lotwright(['check', at, '--format', 'json', '--no-readings']);
    const messages: string[] = JSON.parse(out).findings.map(({ message }: { message: string }) => message);
    expect(messages.filter((message) => message.includes('Save it as UTF-8'))).toHaveLength(1);
    expect(
      messages.some((message) => message.includes('Look first at the file that could not be read.')),
    ).toBe(true);
    expect(messages.join(' ')).not.toContain('Everything else is computed');
  });
});
