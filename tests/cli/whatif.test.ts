import { describe, expect, it } from 'vitest';
import { visibleWidth } from '../../src/report/table';
import { lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const [FIRST, FULL] = ['sample-plans/first-season', 'sample-plans/full-season'];

describe('lotwright whatif', () => {
  it.each([
    ['hail', FULL, 0],
    ['less-crop', FIRST, 0],
    ['scrubber-out', FIRST, 0],
    ['nitrogen-out', FIRST, 0],
    ['refrigeration-part', FIRST, 0],
    ['demand-earlier', FIRST, 0],
    ['demand-later', FIRST, 0],
    ['keeps-shorter', FIRST, 0],
  ])('%s keeps to the page and to its schema', async (scenario, folder, expected) => {
    const { out, code } = await lotwright(['whatif', scenario, folder]);
    expect(code).toBe(expected);
    expect(Math.max(...out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
    expect(out).toContain('Sealed rooms kill');
    const json = await lotwright(['whatif', scenario, folder, '--format', 'json']);
    expect(errorsAgainst('whatif-report', JSON.parse(json.out))).toEqual([]);
  });

  it('tells of hail what it takes: a fifth of two varieties', async () => {
    const { out } = await lotwright(['whatif', 'hail', FULL, '--format', 'json']);
    const { base, over, products, expectations, builtIn } = JSON.parse(out);
    expect(builtIn).toBe(false);
    expect(over.binsStored).toBeLessThan(base.binsStored);
    expect(over.cartonsShort).toBeGreaterThan(base.cartonsShort);
    const varieties = new Set(products.map(({ variety }: { variety: string }) => variety));
    expect(varieties).toContain('Gala');
    expect(expectations.broken.map(({ id }: { id: string }) => id)).toContain('gala-nearly-all');
  });

  it('takes its measures from the command line', async () => {
    const json = async (...words: string[]) => {
      const { out } = await lotwright(['whatif', ...words, FIRST, '--format', 'json']);
      return JSON.parse(out);
    };
    const [little, much] = [
      await json('less-crop', '--crop', '5%'),
      await json('less-crop', '--crop', '40%'),
    ];
    expect(little.over.binsStored).toBeGreaterThan(much.over.binsStored);
    expect((await json('scrubber-out', '--of', 'S1', '--days', '5')).says).toContain(
      'S1 out of use for 5 days',
    );
    expect((await json('demand-later', '--weeks', '1')).says).toBe('all orders a week later');
    expect((await json('keeps-shorter', '--of', 'Gala', '--weeks', '4')).scenario).toBe('keeps-shorter Gala');
    expect((await json('refrigeration-part', '--left', '70%')).says).toContain('70 %');
  });

  it('says what it cannot do', async () => {
    const unknown = await lotwright(['whatif', 'les-crop', FIRST]);
    expect(unknown).toMatchObject({ code: 2 });
    expect(unknown.err).toContain('Nearest: less-crop');
    expect((await lotwright(['whatif', 'scrubber-out', FIRST, '--of', 'S9'])).err).toContain('S1');
    expect((await lotwright(['whatif', 'less-crop', FIRST, '--crop', '200%'])).code).toBe(2);
    expect((await lotwright(['whatif'], { cwd: `${process.cwd()}/${FIRST}` })).err).toContain(
      'Which scenario?',
    );
  });

  it('lists the scenarios of the plan and the stress tests', async () => {
    const { out } = await lotwright(['whatif', '--list', FULL]);
    expect(out).toMatch(/^hail +hail takes a fifth/m);
    expect(out).toMatch(/^less-crop .*built in/m);
    const json = await lotwright(['whatif', '--list', FULL, '--format', 'json']);
    expect(errorsAgainst('whatif-list-report', JSON.parse(json.out))).toEqual([]);
  });

  it('tells all of them in a line each, the worst first', async () => {
    const { out } = await lotwright(['whatif', '--all', FIRST]);
    expect(Math.max(...out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
    const lines = out
      .split('\n')
      .filter((line) => /^(more|less|demand|refrigeration|scrubber|nitrogen|keeps)-/.test(line));
    expect(lines).toHaveLength(11);
    const json = await lotwright(['whatif', '--all', FIRST, '--format', 'json']);
    const report = JSON.parse(json.out);
    expect(errorsAgainst('whatif-list-report', report)).toEqual([]);
    const short = report.scenarios.find(({ scenario }: { scenario: string }) => scenario === 'less-crop');
    expect(short.cartonsShort).toBeGreaterThan(0);
  });

  it('prints Markdown with the tables folded', async () => {
    const { out } = await lotwright(['whatif', 'less-crop', FIRST, '--format', 'markdown']);
    expect(out).toContain('| Cartons short |');
    expect(out).toContain('<details><summary>');
    expect(out.split('</details>').length).toBe(out.split('<details>').length);
  });
});
