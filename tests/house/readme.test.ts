import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { lotwright, root } from '../cli/in-process';

const readme = readFileSync(path.join(root, 'README.md'), 'utf8');

/** Command lines in code blocks and between backticks, up to what the shell takes over. */
function commandLines(text: string): string[] {
  const found = [...text.matchAll(/(?:^|[`$\s-])lotwright ((?:[a-z][a-z-]*)(?: [^\n`|>]*)?)/gm)];
  return found.map(([, words = '']) => words.trim());
}

const help = new Map<string, string>();
async function helpOf(command: string): Promise<string> {
  const known = help.get(command);
  if (known !== undefined) return known;
  const { code, out } = await lotwright([command, '--help']);
  expect(code, `lotwright ${command}`).toBe(0);
  help.set(command, out);
  return out;
}

describe('what the README shows', () => {
  it('are commands there are, with options they take', async () => {
    const commands = (await lotwright(['--help'])).out;
    const lines = commandLines(readme).filter((line) => /^[a-z-]+( |$)/.test(line));
    const real = lines.filter((line) => new RegExp(`^  ${line.split(' ')[0]}\\b`, 'm').test(commands));
    expect(real.length).toBeGreaterThan(20);
    for (const line of real) {
      const [command = ''] = line.split(' ');
      const text = await helpOf(command);
      for (const [option] of line.matchAll(/--[a-z-]+/g)) expect(text, line).toContain(option);
    }
    // Words behind the name that are no command: prose.
    const others = lines.filter((line) => !real.includes(line)).map((line) => line.split(' ')[0]);
    expect(others.filter((word) => word !== undefined && readme.includes(`\`lotwright ${word}`))).toEqual([]);
  });

  it('is YAML where it says so', () => {
    const blocks = [...readme.matchAll(/^```yaml\n([\s\S]*?)^```/gm)].map(([, text = '']) => text);
    expect(blocks.length).toBeGreaterThan(2);
    for (const block of blocks) expect(parseDocument(block).errors, block).toEqual([]);
  });
});
