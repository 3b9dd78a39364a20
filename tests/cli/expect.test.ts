import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseStringPromise } from 'xml2js';
import type { FileAccess } from '../../src/cli/io';
import { visibleWidth } from '../../src/report/table';
import { sampleFiles } from '../samples/sample';
import { inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

const FULL = 'sample-plans/full-season';

/** A plan folder of one file. */
function folder(text: string): FileAccess {
  return {
    kindOf: (path) => (path.endsWith('.yaml') ? 'file' : 'folder'),
    list: () => [{ name: 'a.lotplan.yaml', kind: 'file' }],
    read: () => text,
    writeAll: () => ({ failure: 'not here', file: '', left: [] }),
    restore: () => ({ failure: 'not here' }),
    save: () => ({ failure: 'not here' }),
    realPath: (path) => path,
  };
}

const HOSTILE = `lotwright: 1
season: { name: 'a & b <c> "d"', starts: 2026-08-31, ends: 2027-04-25, carton: 18 kg }
expect:
  'x/y': { opens: { room: R1, before: 2026-W40 }, because: '<b> & ]]> "quoted" \\n' }
  p2: { no-finding: { code: unknown-reference }, because: 'ünïcode 🍎 & <tags>' }
  p3: { value: { at-least: 5 } }
`;

describe('lotwright expect', () => {
  it('tells that the full season keeps its promises, on the page, with the caution', async () => {
    const { out, code } = await lotwright(['expect', FULL]);
    expect(code).toBe(0);
    expect(out).toContain('10 of 10 promises kept');
    expect(out).toContain('Sealed rooms kill');
    expect(Math.max(...out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
  });

  it.each([
    ['kept', 'at-most: 95 %', 'at-most: 95 %', 0],
    ['broken', 'scrubber: S1, at-most: 95 %', 'scrubber: S1, at-most: 80 %', 1],
  ])('reads as it did: %s', async (name, from, to, expected) => {
    const given = sampleFiles('full-season').map(({ path: at, text }) => [
      `/plan/${at}`,
      text.replace(from, to),
    ]);
    const { out, code } = await lotwright(['expect'], {
      files: inMemory(Object.fromEntries(given)),
      cwd: '/plan',
    });
    expect(code).toBe(expected);
    await expect(out).toMatchFileSnapshot(path.join(root, `tests/cli/golden/expect-${name}.txt`));
  });

  it('prints JSON by its schema', async () => {
    const { out } = await lotwright(['expect', FULL, '--format', 'json']);
    const report = JSON.parse(out);
    expect(errorsAgainst('expect-report', report)).toEqual([]);
    expect(report.counts).toEqual({ kept: 10, broken: 0, notJudged: 0 });
    expect(report.expectations[0].place).toMatchObject({ line: 7 });
  });

  it('prints JUnit that an XML reader takes, whatever the plan says, the same each time', async () => {
    const words = ['expect', 'plan', '--format', 'junit'];
    const { out, code } = await lotwright(words, { files: folder(HOSTILE) });
    expect(code).toBe(1);
    expect((await lotwright(words, { files: folder(HOSTILE) })).out).toBe(out);
    const { testsuites } = await parseStringPromise(out);
    const [suite] = testsuites.testsuite;
    expect(testsuites.$).toMatchObject({ tests: '3', failures: '1', skipped: '2', errors: '0' });
    expect(suite.testcase.map((one: { $: { name: string } }) => one.$.name)).toEqual(['x/y', 'p2', 'p3']);
    const [failure] = suite.testcase[1].failure;
    expect(failure._).toContain('because: ünïcode 🍎 & <tags>');
    expect(failure.$.type).toBe('no-finding');
    expect(suite.testcase[0].skipped[0].$.message.length).toBeGreaterThan(10);
  });

  it('prints Markdown in which nothing of the plan is markup', async () => {
    const { out } = await lotwright(['expect', 'plan', '--format', 'markdown'], { files: folder(HOSTILE) });
    expect(out).toContain('\\<tags\\>');
    expect(out).not.toMatch(/(?<!\\)<tags/);
    expect(out.split('\n')[0]).toMatch(/^\*\*.*\*\*$/);
  });

  it('ends with 1 where one is broken, and with --strict where one cannot be judged', async () => {
    const unjudged = folder('lotwright: 1\nexpect:\n  a: { value: { at-least: 5 } }\n');
    expect((await lotwright(['expect', 'plan'], { files: unjudged })).code).toBe(0);
    expect((await lotwright(['expect', 'plan', '--strict'], { files: unjudged })).code).toBe(1);
    const none = await lotwright(['expect', 'plan'], { files: folder('lotwright: 1\n') });
    expect(none.code).toBe(0);
    expect(none.out).toContain('promises nothing');
  });

  it('teaches in its help every key that the language has', async () => {
    const { out } = await lotwright(['expect', '--help']);
    const schema = await import('../../schemas/lot-plan.schema.json');
    const keys = Object.keys(schema.properties.expect.additionalProperties.properties);
    for (const key of keys) expect(out, key).toContain(key);
  });
});
