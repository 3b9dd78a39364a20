import { describe, expect, test } from 'vitest';
import { sampleFiles } from '../samples/sample';
import { inMemory, lotwright } from './in-process';

/** The season in March; the file of readings that it names was not fetched. */
const files = inMemory(
  Object.fromEntries(sampleFiles('in-march').map(({ path, text }) => [`/march/${path}`, text])),
);
const given = { files, cwd: '/' };
const counts = async (...words: string[]) =>
  JSON.parse((await lotwright([...words, 'march', '--format', 'json'], given)).out).counts;

describe('findings are counted alike', () => {
  test('by every command that reports on the plan, those of its readings too', async () => {
    const checked = await counts('check');
    for (const command of ['rooms', 'gas', 'windows'])
      expect([command, await counts(command)]).toEqual([command, checked]);
  });

  test('so that a file of readings that is missing is told with papers and windows too', async () => {
    for (const command of [['windows'], ['papers', '--for', 'sales']]) {
      const { code, err } = await lotwright([...command, 'march', '--fail-on', 'warning'], given);
      expect([command, code]).toEqual([command, 1]);
      const checked = await counts('check');
      expect(err).toContain(`The plan has ${checked.warnings} warning`);
    }
  });

  test('or the line says what it leaves out', async () => {
    const { err } = await lotwright(['whatif', '--all', 'march', '--fail-on', 'notice'], given);
    expect(err).toContain('Apart from its readings, the plan has');
  });
});
