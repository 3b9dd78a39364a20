import { describe, expect, test } from 'vitest';
import { comparePlans } from '../../src/compare/compare';
import { marketMeasures } from '../../src/compare/market-measures';
import { computeSeason } from '../../src/findings/compute';
import { formatWeek, parseDay } from '../../src/plan/dates';
import { asOf } from '../../src/plan/known';
import { readPlan } from '../../src/plan/read';
import { checkSchedule } from '../../src/release/checker';
import { headlineOf } from '../../src/report/compare-headline';
import { compareMarkdown } from '../../src/report/compare-markdown';
import { compareReport } from '../../src/report/compare-report';
import { compareText } from '../../src/report/compare-text';
import { allRecords, tellsOfOpening } from '../../src/report/compare-words';
import { caution, cautionInShort } from '../../src/room/caution';
import { sampleFiles } from '../samples/sample';

/** One file path must not stand for two texts. */
function sample(name: string) {
  return readPlan(sampleFiles(name).map(({ path, text }) => ({ path: `${name}/${path}`, text })));
}

const [midHarvest, inMarch] = [sample('mid-harvest'), sample('in-march')];

describe.each([
  ['forwards', midHarvest, inMarch],
  ['backwards', inMarch, midHarvest],
])('a plan held against itself half a year on, %s', (_, old, now) => {
  const { comparison, seasons } = comparePlans(old, now, { seed: 1, courses: false });
  const { consequences, changes } = comparison;

  test('rooms that were opened in fact, and packed out, are not told as left closed', () => {
    const packedOut = inMarch.fills.size - (seasonOf(inMarch)?.release?.problem.rooms.length ?? 0);
    expect(packedOut).toBeGreaterThan(0);
    expect(consequences.filter(({ gravity }) => gravity === 'closed')).toEqual([]);
    for (const { kind, before, after } of consequences)
      if (kind === 'opens') expect([before, after]).not.toContain(undefined);
  });

  test('a room open in fact opens in the week that is recorded', () => {
    const problem = seasonOf(inMarch)?.release?.problem;
    const opened = new Map(problem?.standing?.opened.map(({ fill, week }) => [fill, week]));
    const recorded = [...inMarch.progress.values()].filter(({ opened: day }) => day !== undefined);
    expect(recorded.length).toBeGreaterThan(0);
    for (const { id } of recorded) expect(opened.has(id), id).toBe(true);
    for (const { kind, about, before, after } of consequences) {
      const week = kind === 'opens' && about.of === 'fill' ? opened.get(about.fill) : undefined;
      if (week === undefined) continue;
      const told = old === inMarch ? before : after;
      expect(formatWeek(told ?? 0)).toBe(formatWeek((problem?.firstWeek ?? 0) + week));
    }
  });

  test('both schedules hold', () => {
    for (const season of [seasons?.old, seasons?.now]) {
      const { problem, result } = season?.release ?? {};
      expect(problem).toBeDefined();
      if (problem && result) expect(checkSchedule(problem, result.schedule, result.unmet ?? [])).toEqual([]);
    }
  });

  test('parts of a consequence add up to it', () => {
    let checked = 0;
    for (const { before, after, causes, kind } of consequences) {
      if (kind === 'finding' || before === undefined || after === undefined) continue;
      const sum = causes.parts.reduce((all, { part }) => all + (part ?? 0), causes.together ?? 0);
      expect(Math.abs(sum - (after - before))).toBeLessThan(1e-5 * Math.max(1, Math.abs(after - before)));
      checked++;
    }
    expect(checked).toBeGreaterThan(5);
  });

  test('receipts are told by their day, and their sum is no change of its own', () => {
    const keys = changes.flatMap(({ things: [thing], key }) =>
      thing.kind === 'lots' && key !== undefined ? [key] : [],
    );
    expect(keys).toContain('received-by-day.2026-09-21');
    const sums = changes.filter(
      ({ things: [thing], kind }) => thing.kind === 'lots' && kind === 'bins-changed',
    );
    expect(sums).toEqual([]);
  });

  function seasonOf(plan: typeof old) {
    return plan === old ? seasons?.old : seasons?.now;
  }
});

test('bins that a lot is said to have received are still a change where no day gives them', () => {
  const files = sampleFiles('first-season');
  const at = files.findIndex(({ text }) => /received: \d+/.test(text));
  const edited = files.map((file, index) =>
    index === at ? { path: file.path, text: file.text.replace(/received: \d+/, 'received: 61') } : file,
  );
  const { comparison } = comparePlans(readPlan(files), readPlan(edited), { seed: 1, courses: false });
  expect(comparison.changes.map(({ kind }) => kind)).toContain('bins-changed');
});

describe('what was delivered in weeks that are past', () => {
  const files = sampleFiles('in-march');
  const without = (section: RegExp) =>
    readPlan(files.map(({ path, text }) => ({ path, text: text.replace(section, '') })));
  const measures = (plan: ReturnType<typeof readPlan>) =>
    new Map(marketMeasures(computeSeason(plan)).map((one) => [one.key, one]));

  test('that was packed and is left over goes to processing in the week in which the season stands', () => {
    // Gala of first class: 3892 packed, 3666 sold, no order takes the rest while it may wait.
    const surplus = measures(readPlan(files)).get('cartons-surplus/Gala/first');
    expect(surplus?.value).toBeCloseTo(226, 6);
    expect(surplus?.byWeek && [...surplus.byWeek.keys()].map((week) => formatWeek(week))).toEqual([
      '2027-W10',
    ]);
  });

  test.each([
    ['packing', /^packed:\n[\s\S]*/m, '2027-W08'],
    ['sale', /^sales:\n(?: .*\n?)*/m, '2027-W09'],
  ])('is neither sold nor short where no %s is recorded, and that is said', (what, section, from) => {
    const plan = without(section);
    const before = measures(plan);
    for (const kind of ['cartons-short', 'cartons-sold'])
      for (const variety of ['Gala', 'Golden Delicious', 'Braeburn'])
        for (const week of before.get(`${kind}/${variety}/first`)?.byWeek?.keys() ?? [])
          expect(formatWeek(week) >= from, `${kind} ${variety} ${formatWeek(week)}`).toBe(true);
    expect(before.get('cartons-short/Gala/first')?.value).toBe(0);
    const { comparison } = comparePlans(readPlan(files), plan, { seed: 1, courses: false });
    expect(comparison.notComputed).toContainEqual({
      side: 'new',
      what: `what was delivered before ${from}: no ${what} is recorded`,
    });
  });
});

describe('what was recorded since a day', () => {
  const since = parseDay('2027-01-05') ?? 0;
  const plans = {
    old: { name: 'then', plan: asOf(inMarch, since) },
    now: { name: 'now', plan: inMarch },
  };
  const units = { system: 'metric', currency: 'EUR' } as const;
  const compared = (day?: number) =>
    comparePlans(plans.old.plan, plans.now.plan, { seed: 1, courses: false, since: day }).comparison;
  const comparison = compared(since);

  test('is named together, with how many there are and since when', () => {
    const count = comparison.changes.length;
    expect(count).toBeGreaterThan(2);
    expect(headlineOf(comparison, units).cause).toBe(`the ${count} records since 2027-01-05`);
    expect(headlineOf(compared(), units).cause).toBe(`the ${count} records that differ`);
    const { edits } = comparison;
    expect(allRecords({ edits: edits.slice(0, 2), since })).toBeUndefined();
    expect(allRecords(comparePlans(midHarvest, inMarch, { seed: 1, courses: false }).comparison)).toBe(
      undefined,
    );
  });

  test('tells a room opened with the caution, whether anything follows or not', () => {
    const alone = { ...comparison, consequences: [], heldBack: [], weeksOf: undefined };
    expect(compareText(comparison, plans, units)).toContain('opened set to 2027-02-22');
    for (const each of [comparison, alone]) {
      expect(compareText(each, plans, units).replaceAll(/\s+/g, ' ')).toContain(caution);
      const markdown = compareMarkdown(each, plans, { units, linkBase: '', marker: 'm', most: 60_000 });
      expect(markdown).toContain(cautionInShort);
    }
    expect(compareReport(comparison, plans, { units, failOn: 'never' }).caution).toBe(caution);
    const sold = alone.changes.filter(({ things }) => things[0].kind === 'sales');
    expect(tellsOfOpening({ ...alone, changes: sold })).toBe(false);
    expect(tellsOfOpening({ ...alone, changes: sold, weeksOf: 'old' })).toBe(true);
  });
});
