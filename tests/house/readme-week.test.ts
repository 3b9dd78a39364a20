import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lotwright, root } from '../cli/in-process';

/** The week of work that the README shows, done on a copy of the sample: every line it quotes is a line that is printed. */
describe("the README's week of the season", () => {
  const readme = fs.readFileSync(path.join(root, 'README.md'), 'utf8');
  const section = /## A week of the season\n([\s\S]*?)\n## /.exec(readme)?.[1] ?? '';
  const fences = [...section.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)];
  const blocks = fences.filter(([, language]) => language === '').map(([, , text = '']) => text);
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'week-'));
  const outputs = new Map<string, string>();

  beforeAll(async () => {
    const sample = path.join(root, 'sample-plans/mid-harvest');
    for (const name of ['plans/2026', 'before'])
      fs.cpSync(sample, path.join(folder, name), { recursive: true });
    const { out } = await lotwright(['release', 'plans/2026', '--format', 'json'], { cwd: folder });
    fs.writeFileSync(path.join(folder, 'published.json'), out);
  });
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

  it('prints what is shown, command after command', async () => {
    expect(blocks.length).toBe(3);
    let told = 0;
    for (const part of blocks.flatMap((block) => block.split(/^\$ lotwright /m).slice(1))) {
      const [command = '', ...lines] = part.trimEnd().split('\n');
      const { out, err, code } = await lotwright(command.split(' '), { cwd: folder });
      expect([code, err], command).toEqual([0, '']);
      outputs.set(command, out);
      for (const line of lines.filter((one) => one !== '...')) {
        expect(out.split('\n'), `${command}: ${line}`).toContain(line);
        told += 1;
      }
    }
    expect(told).toBeGreaterThan(12);
    expect([...outputs.keys()].filter((command) => command.includes('--write')).length).toBe(4);
  });

  it('has the caution in what speaks of opening', () => {
    for (const [command, out] of outputs)
      if (command.startsWith('status') || command.startsWith('release'))
        expect(out.replace(/\s+/g, ' '), command).toContain('with a calibrated instrument');
  });
});
