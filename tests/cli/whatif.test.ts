import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { visibleWidth } from '../../src/report/table';
import { sampleFiles } from '../samples/sample';
import { type Given, inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

/** The first season with one more file beside its own. */
function firstSeasonWith(name: string, text: string): Given {
  const files = [...sampleFiles('first-season'), { path: name, text }];
  return {
    files: inMemory(Object.fromEntries(files.map((file) => [`/plan/${file.path}`, file.text]))),
    cwd: '/plan',
  };
}

const [FIRST, FULL] = ['sample-plans/first-season', 'sample-plans/full-season'];

describe('lotwright whatif', () => {
  it.each([
    ['hail', FULL, 0],
    ['less-crop', FIRST, 0],
    ['more-crop', FIRST, 0],
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

  it.each([
    ['old-compressor', ['old-compressor', FULL]],
    ['scrubber-out', ['scrubber-out', '--of', 'S1', '--days', '5', FIRST]],
    ['keeps-shorter', ['keeps-shorter', '--of', 'Gala', FIRST]],
    ['list', ['--list', FULL]],
    ['all', ['--all', FIRST]],
  ])('reads as it did: %s', async (name, words) => {
    const { out } = await lotwright(['whatif', ...words]);
    await expect(out).toMatchFileSnapshot(path.join(root, `tests/cli/golden/whatif-${name}.txt`));
  });

  it('tells a folder that is given without a scenario what goes before it, and which there are', async () => {
    const { code, err } = await lotwright(['whatif', FULL]);
    expect(code).toBe(2);
    expect(err).toContain(
      `${FULL} is a folder, and the scenario stands before it: lotwright whatif <scenario> ${FULL}`,
    );
    expect(err).toContain('Scenarios of the plan: hail');
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

  it.each(['mid-harvest', 'in-march'])('says of one what it says of all, with records: %s', async (name) => {
    const folder = `sample-plans/${name}`;
    const json = async (...words: string[]) =>
      JSON.parse((await lotwright(['whatif', ...words, folder, '--format', 'json'])).out);
    const { scenarios } = await json('--all');
    for (const scenario of ['less-crop', 'demand-later']) {
      const row = scenarios.find((one: { scenario: string }) => one.scenario === scenario);
      const { base, over } = await json(scenario);
      expect(row.cartonsShort).toBeCloseTo(over.cartonsShort - base.cartonsShort, 6);
      expect(row.value.value).toBeCloseTo(over.value.value - base.value.value, 6);
      expect(row.newWarnings).toBe(over.warnings - base.warnings);
    }
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

  it('each line of all says what its scenario says alone', async () => {
    const { out } = await lotwright(['whatif', '--all', FIRST, '--format', 'json']);
    const { scenarios } = JSON.parse(out);
    expect(scenarios.length).toBeGreaterThan(8);
    for (const line of scenarios) {
      const [kind, ...of] = line.scenario.split(' ');
      const words = of.length > 0 ? ['--of', of.join(' ')] : [];
      const alone = await lotwright(['whatif', kind, ...words, FIRST, '--format', 'json']);
      const { scenario, says, base, over, consequences, expectations } = JSON.parse(alone.out);
      expect({ scenario, says }).toEqual({ scenario: line.scenario, says: line.says });
      expect(line.newErrors).toBe(over.errors - base.errors);
      expect(line.newWarnings).toBe(over.warnings - base.warnings);
      expect(line.morePromisesBroken).toBe(over.promisesBroken - base.promisesBroken);
      expect(line.promisesBroken).toEqual(expectations.broken.map(({ id }: { id: string }) => id));
      expect(line.cartonsShort).toBeCloseTo(over.cartonsShort - base.cartonsShort, 6);
      expect(line.value.value).toBeCloseTo(over.value.value - base.value.value, 6);
      const worse = ({ direction }: { direction: string }) => direction === 'worse';
      expect(line.gravest).toEqual(consequences.find(worse));
    }
  });

  it('takes nitrogen out when a room is to be flushed, and tells of its oxygen', async () => {
    const { out } = await lotwright(['whatif', 'nitrogen-out', '--of', 'N1', '--days', '7', FIRST]);
    expect(out).toContain('for 7 days from 2026-10-16');
    const [, told = ''] = out.split('What it does, the worst first:');
    const [does = ''] = told.split('\n\n');
    expect(does).toContain('1 warning nitrogen-queue');
    expect(does).toMatch(/R4-braeburn: reaches its 1.8 % oxygen on 2026-10-24, 6\.\d days later/);
    const one = await lotwright(['whatif', 'nitrogen-out', '--of', 'N1', '--days', '1', FIRST]);
    expect(one.out).toMatch(/R2-gala: reaches its .* later than in the base/);
  });

  it('tells errors first, and no gain of fruit that has no room', async () => {
    const overfull = `lotwright: 1
scenarios:
  overfull:
    change: { rooms: { R3: { lost-places: 60 } } }
    crop-of: { Gala: 104 % }
`;
    const given = firstSeasonWith('scenarios.lotplan.yaml', overfull);
    const text = await lotwright(['whatif', 'overfull'], given);
    expect(text.out).toMatch(/^Value.*not comparable: 1 room overfilled$/m);
    expect(text.out).toMatch(/worst first:\n {2}1 error room-overfilled/);
    expect(Math.max(...text.out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
    const json = await lotwright(['whatif', 'overfull', '--format', 'json'], given);
    const report = JSON.parse(json.out);
    expect(report.roomsOverfilled).toBe(1);
    expect(report.consequences.map(({ kind }: { kind: string }) => kind)).not.toContain('value');
    expect(report.consequences[0].gravity).toBe('error');
    const all = await lotwright(['whatif', '--all'], given);
    expect(all.out).toMatch(/^overfull .* overfilled .*an error$/m);
    expect(all.out).toContain('Value of overfull not comparable: 1 room overfilled.');
  });

  it('stores no more crop than rooms hold', async () => {
    const { out } = await lotwright(['whatif', 'more-crop', FIRST, '--format', 'json']);
    const { base, over, roomsOverfilled, consequences, findings } = JSON.parse(out);
    expect(roomsOverfilled).toBe(0);
    expect(over.errors).toBe(base.errors);
    expect(over.binsStored + over.binsInNoRoom).toBeCloseTo(1.2 * base.binsStored, -1);
    const left = consequences.find(({ kind }: { kind: string }) => kind === 'bins-in-no-room');
    expect(left.text).toContain(`${over.binsInNoRoom} bins left over`);
    expect(findings.new.map(({ code }: { code: string }) => code)).toContain('lot-not-placed');
  });

  it('prints Markdown with the tables folded', async () => {
    const { out } = await lotwright(['whatif', 'less-crop', FIRST, '--format', 'markdown']);
    expect(out).toContain('| Cartons short |');
    expect(out).toContain('<details><summary>');
    expect(out.split('</details>').length).toBe(out.split('<details>').length);
  });
});
