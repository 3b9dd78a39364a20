import { expect, test } from 'vitest';
import { lotwright } from './in-process';

async function helpOf(...command: readonly string[]): Promise<string> {
  return (await lotwright([...command, '--help'])).out;
}

/** Every command of the program, by its own help. */
async function commands(): Promise<string[]> {
  const [, list = ''] = (await helpOf()).split('Commands:');
  return [...(list.split('\n\n')[0]?.matchAll(/^ {2}([a-z][a-z-]+)/gm) ?? [])].map(([, name = '']) => name);
}

test('every schema that a help names is printed, and a report’s is found by its command too', async () => {
  const names = await commands();
  expect(names.length).toBeGreaterThan(18);
  const named = new Set<string>();
  for (const help of [await helpOf(), ...(await Promise.all(names.map((name) => helpOf(name))))])
    for (const [, schema = ''] of help.matchAll(/lotwright schema ([a-z][a-z-]*)/g)) named.add(schema);
  expect(named).toContain('check-report');
  for (const schema of [...named, 'check', 'windows', 'ca-record']) {
    const { code, out } = await lotwright(['schema', schema]);
    expect({ schema, code }).toEqual({ schema, code: 0 });
    expect(JSON.parse(out)).toHaveProperty('$schema');
  }
});

test('every example in a help names a command and options that there are', async () => {
  const names = await commands();
  let seen = 0;
  for (const name of names)
    for (const [line] of (await helpOf(name)).matchAll(/^ {2}lotwright .*$/gm)) {
      const [, command = '', ...words] = line.trim().split(/\s+/);
      expect(names).toContain(command);
      const { out } = await lotwright([command, '--help']);
      for (const word of words.filter((one) => one.startsWith('--'))) {
        expect(out, line).toMatch(new RegExp(`^ {2}(?:-\\w, )?${word.replace(/=.*/, '')}\\b`, 'm'));
        seen++;
      }
    }
  expect(seen).toBeGreaterThan(20);
});
