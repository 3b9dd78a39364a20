import { describe, expect, test } from 'vitest';
import { comparePlans } from '../../src/compare/compare';
import { toldOnce } from '../../src/compare/told-once';
import { readPlan } from '../../src/plan/read';
import { linkAddress } from '../../src/report/compare-links';
import { compareMarkdown, type MarkdownOptions, markerLine } from '../../src/report/compare-markdown';
import { caution, cautionInShort } from '../../src/room/caution';
import { sampleFiles } from '../samples/sample';
import { fortyEdits, type TextChange, withChanges } from './forty-edits';

const OPTIONS: MarkdownOptions = {
  units: { system: 'metric', currency: 'EUR' },
  linkBase: 'https://forge.example/us/plans/blob/4f2a1c/',
  marker: 'plans/2026',
  most: 60_000,
};

function comment(name: string, changes: readonly TextChange[], options: Partial<MarkdownOptions> = {}) {
  const files = sampleFiles(name);
  const old = { name: 'main:plans/2026', plan: readPlan(files) };
  const now = { name: 'plans/2026', plan: readPlan(withChanges(files, changes)) };
  const { comparison } = comparePlans(old.plan, now.plan, { seed: 1, courses: false });
  return { comparison, text: compareMarkdown(comparison, { old, now }, { ...OPTIONS, ...options }) };
}

/** Lines as a screen shows them, 110 letters in each; of a link only its words. */
function linesOnScreen(text: string): number {
  const shown = text.replaceAll(/\[([^\]]*)]\([^)]*\)/g, '$1').split('\n');
  return shown.reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / 110)), 0);
}

describe('forty edits', () => {
  const { comparison, text } = comment('full-season', fortyEdits);
  const beforeFold = text.slice(0, text.indexOf('<details>'));

  test('fit a screen before the fold, graves first', () => {
    expect(linesOnScreen(beforeFold)).toBeLessThanOrEqual(45);
    expect(text.split('\n')[1]).toMatch(/^### Worse: error /);
    const [first] = comparison.consequences;
    expect(first?.gravity).toBe('error');
  });

  test('have one table, and all the rest folded', () => {
    expect(beforeFold.match(/^\| --- /gm)).toHaveLength(1);
    expect(text.match(/^<details>/gm)).toHaveLength(2);
    expect(text.match(/^<\/details>/gm)).toHaveLength(2);
    for (const { things } of comparison.changes)
      expect(text.slice(beforeFold.length)).toContain(things[0].id);
  });

  test('a comment too long is cut in the middle and says so', () => {
    const { text: cut } = comment('full-season', fortyEdits, { most: 9_000 });
    expect(cut.length).toBeLessThanOrEqual(9_000);
    expect(cut.startsWith(beforeFold)).toBe(true);
    expect(cut).toMatch(/- \*\d+ left out here, for the comment would be too long/);
    expect(cut.match(/^<details>/gm)).toHaveLength(cut.match(/^<\/details>/gm)?.length ?? -1);
    expect(cut.trimEnd().split('\n').at(-1)).toBe(text.trimEnd().split('\n').at(-1));
  });
});

test('the first line is the same whatever has changed, and tells plans apart', () => {
  const lines = [
    ['lost-places: 4', 'lost-places: 9'],
    ['cartons: 110', 'cartons: 300'],
  ].map(([from = '', to = '']) => comment('first-season', [['orrowby', from, to]]).text.split('\n')[0]);
  expect(lines[0]).toBe('<!-- lotwright compare plans/2026 -->');
  expect(lines[1]).toBe(lines[0]);
  expect(markerLine('plans/2025')).not.toBe(lines[0]);
  expect(markerLine('a --> b <!--')).toMatch(/^<!-- [^>]* -->$/);
});

test('what stands before the fold is not told behind it again, and nothing is lost', () => {
  const { comparison, text } = comment('first-season', [
    ['fruit', 'G5: 81', 'G5: 60'],
    ['orrowby', 'cartons: 390', 'cartons: 420'],
  ]);
  const [before = '', behind = ''] = text.split('<details><summary>What else follows');
  const items = (part: string): string[] => part.split('</details>')[0]?.match(/^- .*/gm) ?? [];
  expect(items(before).length).toBeGreaterThan(0);
  expect(items(behind).filter((item) => items(before).includes(item))).toEqual([]);
  const told = toldOnce(comparison.consequences);
  // The headline tells one.
  expect(items(before).length + items(behind).length + 1).toBe(told.length);
});

test('sales that fall by what is short are told by the shortage, in each week carton for carton', () => {
  const { comparison } = comment('first-season', [['fruit', 'G5: 81', 'G5: 60']]);
  const { consequences } = comparison;
  const told = toldOnce(consequences);
  const kinds = (list: typeof consequences) =>
    list
      .filter(
        ({ about }) => about.of === 'product' && about.variety === 'Gala' && about.packClass === 'first',
      )
      .map(({ kind }) => kind);
  expect(kinds(consequences)).toEqual(expect.arrayContaining(['cartons-short', 'cartons-sold']));
  expect(kinds(told)).toContain('cartons-short');
  expect(kinds(told)).not.toContain('cartons-sold');
  // More is asked for too: what is sold and what is short then are two things.
  const raised = consequences.map((one) =>
    one.kind === 'cartons-short'
      ? { ...one, byWeek: one.byWeek?.map((week) => ({ ...week, after: week.after + 10 })) ?? [] }
      : one,
  );
  const amounts = raised.filter(({ kind }) => kind !== 'finding');
  expect(toldOnce(amounts)).toEqual(amounts);
});

test('a demand that is short is told by the shortage that names it, once, and still where no shortage does', () => {
  const { comparison, text } = comment('first-season', [['orrowby', 'cartons: 250', 'cartons: 900']]);
  const { consequences } = comparison;
  const isFinding = (one: (typeof consequences)[number]) => one.newFinding?.code === 'demand-short';
  expect(consequences.filter(isFinding).map(({ newFinding }) => newFinding?.shortOrder)).toContain(
    'gala-autumn',
  );
  expect(toldOnce(consequences).filter(isFinding)).toEqual([]);
  expect(text).toContain('of gala-autumn');
  expect(text).not.toContain('warning demand-short: gala-autumn');
  const alone = consequences.filter(({ kind }) => kind !== 'cartons-short');
  expect(toldOnce(alone).filter(isFinding)).toEqual(alone.filter(isFinding));
});

test('findings and causes are linked to their lines in the new text', () => {
  const { text } = comment('first-season', [['orrowby', 'lost-places: 4', 'lost-places: 40']]);
  expect(text).toContain(
    '([fruit.lotplan.yaml:76](https://forge.example/us/plans/blob/4f2a1c/fruit.lotplan.yaml#L76))',
  );
  expect(text).toContain(
    '([orrowby.lotplan.yaml:38](https://forge.example/us/plans/blob/4f2a1c/orrowby.lotplan.yaml#L38))',
  );
});

test('a link has no revision in its path, and there is none to a line that only the old revision has', () => {
  const place = { line: 7, column: 1, endLine: 7, endColumn: 2 };
  const files = new Set(['b653f276d5:plans/the (west)/a.lotplan.yaml', 'plans/a.lotplan.yaml']);
  const address = (file: string) => linkAddress({ file, ...place }, files, 'https://forge.example/x/');
  expect(address('b653f276d5:plans/the (west)/a.lotplan.yaml')).toBe(
    'https://forge.example/x/plans/the%20%28west%29/a.lotplan.yaml#L7',
  );
  expect(address('plans/a.lotplan.yaml')).toBe('https://forge.example/x/plans/a.lotplan.yaml#L7');
  expect(address('999c7f0ec8:plans/a.lotplan.yaml')).toBeUndefined();
});

test('words of the plan are no markup, no link and no mention', () => {
  const { text } = comment('first-season', [
    ['fruit', 'block: Stone Acre', "block: '@orchard-team <b>*Stone* | [x](y)</b>'"],
    [
      'fruit',
      'field-temperature: 18 °C, maturity: { tested: 2026-09-09',
      'field-temperature: 28 °C, maturity: { tested: 2026-09-09',
    ],
  ]);
  expect(text).toContain('&#64;orchard-team &lt;b&gt;\\*Stone\\* \\| \\[x\\](y)&lt;/b&gt;');
  expect(text).not.toContain('<b>');
});

test('where opening is told the caution goes with it, and nothing is called safe', () => {
  const { text } = comment('first-season', [['fruit', 'open: 2027-W01', 'open: 2027-W03']]);
  expect(text).toContain(cautionInShort);
  expect(text.replaceAll(cautionInShort, '').replaceAll(caution, '')).not.toMatch(/\bsafe\b/i);
});

test('what could not be read is named', () => {
  const { text } = comment('first-season', [['orrowby', '  R3:\n', '<<<<<<< ours\n  R3:\n']]);
  expect(text).toMatch(
    /\*\*Not computed:\*\* in the new plan orrowby\.lotplan\.yaml: a merge is not finished there/,
  );
});

test('with many edits rooms are not followed through their gas, and the comment says so', () => {
  const files = sampleFiles('full-season');
  const [old, now] = [readPlan(files), readPlan(withChanges(files, fortyEdits))];
  const { comparison, seasons } = comparePlans(old, now, { seed: 1, courses: 'unless-many' });
  expect(seasons?.now.courses).toBeUndefined();
  expect(comparison.notComputed).toContainEqual({
    side: 'both',
    what: "each room's course of gas and what would be found in it",
  });
});

test('without anything that follows the comment says so and names the change', () => {
  const { text } = comment('first-season', [['fruit', 'block: Stone Acre', 'block: Stone Field']]);
  const [, headline, cause] = text.split('\n');
  expect(headline).toBe('### Nothing follows for rooms, weeks or cartons');
  expect(cause).toContain('lot G5: block Stone Acre → Stone Field');
});
