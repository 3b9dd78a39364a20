import { describe, expect, test } from 'vitest';
import { limitedProblem } from '../../../src/fill/limits';
import { newFills } from '../../../src/fill/new-fills';
import { fillProblem } from '../../../src/fill/problem';
import { computeSeason } from '../../../src/findings/compute';
import { heavierOverloads, heavierText } from '../../../src/findings/fills/heavier';
import { KnownFindings } from '../../../src/findings/fills/known';
import { withOtherRegimes } from '../../../src/findings/fills/other-regimes';
import { fillProblemOf } from '../../../src/findings/fills/problem';
import { wayInText } from '../../../src/findings/fills/put-back';
import { findingsOf } from '../../../src/findings/find';
import type { Finding } from '../../../src/findings/types';
import { regimeSuits } from '../../../src/fruit/data';
import { parseDay } from '../../../src/plan/dates';
import { asOf } from '../../../src/plan/known';
import { readPlan } from '../../../src/plan/read';
import { fillReport } from '../../../src/report/fill-report';
import { errorsAgainst } from '../../cli/schemas';
import { generateSeason } from '../../generate/season';
import { sampleFiles } from '../../samples/sample';
import { accepted, propose, seasonOf, withoutFills } from './accepted';

function changed(ids: readonly string[], ...changes: readonly (readonly [string | RegExp, string])[]) {
  const files = withoutFills(sampleFiles('first-season'), ids).map(({ path, text }) => ({
    path,
    text: changes.reduce((left, [from, to]) => left.replace(from, to), text),
  }));
  return readPlan(files);
}

function reportOf({ plan, problem, judged }: Awaited<ReturnType<typeof propose>>) {
  const fills = newFills(plan, problem, judged.result.proposal.rooms);
  const season = computeSeason(plan, { release: 'quick', seed: 1 });
  const report = fillReport(season, { problem, result: judged.result, fills }, [], {
    violations: [],
    judged,
  });
  expect(errorsAgainst('fill-report', JSON.parse(JSON.stringify(report)))).toEqual([]);
  return report;
}

describe('what would let a lot in that findings keep out', () => {
  const leaky = changed(
    ['R3-golden'],
    ['after: 31 min, tested: 2026-08-13', 'after: 9 min, tested: 2026-08-13'],
  );

  test('the findings to be let pass and what the schedule is worth then, as it comes out with them', async () => {
    const strict = await propose(leaky, { strict: true });
    const report = reportOf(strict);
    const told = report.unplaced.filter(({ lot }) => lot.startsWith('D'));
    expect(told.length).toBeGreaterThan(0);
    for (const { lot, reason, waysIn } of told) {
      expect(waysIn[0], lot).toMatchObject({ kind: 'let-pass', room: 'R3' });
      expect(waysIn[0]?.worth).toBeGreaterThan(0);
      expect(reason).toContain(waysIn[0]?.text ?? '?');
    }
    const way = told[0]?.waysIn[0];
    const despite = way?.codes ?? [];
    expect(despite.length).toBeGreaterThan(0);
    // Let pass, they go in, and nothing else stands against them.
    const passed = await propose(leaky, { strict: true, despite });
    const placed = passed.judged.result.proposal.rooms.flatMap(({ entries }) =>
      entries.map((one) => one.lot),
    );
    expect(placed).toEqual(expect.arrayContaining(told.map(({ lot }) => lot)));
    const gained = (passed.judged.value?.after ?? 0) - (strict.judged.value?.after ?? 0);
    expect(gained).toBeCloseTo(way?.worth ?? 0, 0);
  });

  test('the sentence tells what to let pass and the price', () => {
    const way = { room: 'R3', beside: [], codes: ['room-too-leaky'] };
    expect(wayInText({ ...way, worth: 1234.4 }, 'EUR')).toBe(
      'With --despite room-too-leaky, what was taken out of R3 goes in, and the quick schedule is worth EUR 1,234 more.',
    );
    expect(wayInText({ ...way, codes: [], worth: -50 }, '')).toBe(
      'Put in all the same, what was taken out of R3 goes in, and the quick schedule is worth 50 less.',
    );
  });

  test('an order as large as is told makes the lot worth a room, and one of seven tenths does not', () => {
    const other = [/variety: Golden Delicious\n {4}class/g, 'variety: Braeburn\n    class'] as const;
    const problemWith = (order: string) => {
      const plan = changed(['R3-golden'], other, ['demand:\n', `demand:\n${order}`]);
      return fillProblemOf(computeSeason(plan, { release: 'quick', seed: 1 }));
    };
    const left = problemWith('').leftOut.find(({ what }) => what === 'D1');
    expect(left?.waysIn?.[0]?.kind).toBe('order');
    const text = left?.waysIn?.[0]?.text ?? '';
    const [, cartons = '', packClass, from, to] =
      /for ([\d,]+) cartons more of Golden Delicious, class (\w+), from (\S+) to (\S+), would/.exec(text) ??
      [];
    const weeks = weeksBetween(from ?? '', to ?? '');
    const order = (share: number) =>
      `  new-order: { market: home, variety: Golden Delicious, class: ${packClass}, weeks: ${from}..${to}, cartons: ${(share * Number(cartons.replaceAll(',', ''))) / weeks}, price: 20 }\n`;
    const offered = (share: number) => problemWith(order(share)).lots.find(({ id }) => id === 'D1')?.bins;
    expect(left?.bins).toBe(97);
    expect(offered(1)).toBe(97);
    expect(offered(0.7) ?? 0).toBeLessThan(97);
  });

  test('an order is asked for weeks still to come alone, and of fruit that is good in none of them none is', () => {
    const other = [/variety: Golden Delicious\n {4}class/g, 'variety: Braeburn\n    class'] as const;
    const plan = changed(['R3-golden'], other);
    const leftOn = (day: string) => {
      const season = computeSeason(asOf(plan, parseDay(day) ?? 0), { release: 'quick', seed: 1 });
      return fillProblemOf(season).leftOut.find(({ what }) => what === 'D1');
    };
    const weeksOn = (day: string) =>
      /from (\S+) to (\S+), would make/.exec(leftOn(day)?.waysIn?.[0]?.text ?? '')?.slice(1);
    const [first, last] = weeksOn('2026-09-30') ?? [];
    expect(first).toBe('2026-W40');
    // A week that ends with the day is past, one that the day is in is not.
    expect(weeksOn('2026-11-21')).toEqual(['2026-W47', last]);
    expect(weeksOn('2026-11-22')).toEqual(['2026-W48', last]);
    const late = leftOn('2027-06-27');
    expect(late?.reason).toContain('the weeks in which it is good are past by 2027-W26');
    expect(late?.waysIn ?? []).toEqual([]);
  });
});

test('a lot that is barred from every regime offered is told another in which nothing stands against it', () => {
  const season = computeSeason(changed(['R3-golden']), { release: 'quick', seed: 1 });
  const before = fillProblem(season.plan, season.fruit);
  const bars = before.regimes.map(({ name }) => ({
    regime: name,
    code: 'window-empty',
    reason: 'Too ripe.',
  }));
  const limits = { rooms: new Map(), lots: new Map([['D1', bars]]), mostBins: new Map() };
  const limited = withOtherRegimes(season, before, limitedProblem(before, limits), {});
  const left = limited.leftOut.find(({ what }) => what === 'D1');
  const [, name = ''] =
    /In the regime (\S+) nothing stands against it/.exec(left?.waysIn?.[0]?.text ?? '') ?? [];
  expect(before.regimes.map((one) => one.name)).not.toContain(name);
  const [regime, variety] = [season.fruit.regime(name), season.fruit.variety('Golden Delicious')];
  expect(regime && variety && regimeSuits(regime, variety)).toBe(true);
  // Fruit of which the firmness leaves no regime is told that.
  const soft = { ...season.plan, lots: new Map(season.plan.lots) };
  const d1 = soft.lots.get('D1');
  if (d1?.maturity?.firmness) {
    const firmness = { ...d1.maturity.firmness, value: 45 };
    soft.lots.set('D1', { ...d1, maturity: { ...d1.maturity, firmness } });
  }
  const softLeft = withOtherRegimes(
    { ...season, plan: soft },
    before,
    limitedProblem(before, limits),
    {},
  ).leftOut;
  expect(softLeft.find(({ what }) => what === 'D1')?.reason).toContain('No other regime was found');
});

function weeksBetween(from: string, to: string): number {
  const plan = readPlan([
    { path: 'a.lotplan.yaml', text: `lotwright: 1\ndemand:\n  a: { weeks: ${from}..${to} }\n` },
  ]);
  const weeks = plan.demand.get('a')?.weeks?.value;
  return weeks ? weeks.last - weeks.first + 1 : 0;
}

describe('promises and orders do not stand against fruit', () => {
  test('a plan without fills gets a proposal for all its rooms, whatever orders it has for fruit it does not grow', async () => {
    const files = [
      ...sampleFiles('first-season'),
      {
        path: 'more.lotplan.yaml',
        text: 'lotwright: 1\ndemand:\n  elstar: { market: home, variety: Elstar, class: first, weeks: 2027-W01..2027-W03, cartons: 50, price: 20 }\nexpect:\n  all-met: { no-shortage: {} }\n',
      },
    ];
    const ids = [...readPlan(files).fills.keys()];
    const plan = readPlan(withoutFills(files, ids));
    expect(plan.fills.size).toBe(0);
    const proposed = await propose(plan);
    expect(findingsOf(seasonOf(accepted(proposed))).map(({ code }) => code)).toContain(
      'demand-without-supply',
    );
    expect(proposed.judged.takenOut.map(({ code }) => code)).not.toContain('demand-without-supply');
    expect(proposed.judged.takenOut.map(({ code }) => code)).not.toContain('expectation-broken');
    expect(proposed.judged.result.proposal.rooms.length).toBeGreaterThanOrEqual(3);
  });
});

describe('an overload that is there already', () => {
  test('is told with what the proposal adds to it, as the season comes out with it', async () => {
    const files = generateSeason({ rooms: 6, seed: 3 });
    const plan = readPlan(withoutFills(files, ['N02-gala']));
    const proposed = await propose(plan);
    const [before, after] = [seasonOf(plan), seasonOf(accepted(proposed))];
    const share = (season: typeof before) =>
      Math.max(...(season.plant?.refrigeration[0]?.weeks.map(({ share: one }) => one?.value ?? 0) ?? []));
    expect(share(before)).toBeGreaterThan(100);
    expect(share(after)).toBeGreaterThan(share(before));
    const [heavier] = proposed.judged.heavier;
    expect(heavier?.code).toBe('refrigeration-group-overloaded');
    expect(heavier?.before).toBeCloseTo(share(before), 6);
    expect(heavier?.after).toBeCloseTo(share(after), 6);
    expect(reportOf(proposed).heavier[0]).toMatchObject({ about: heavier?.about });
    expect(heavier && heavierText(heavier)).toContain(
      `instead of ${Math.round(share(before))} %, ${Math.round(share(after)) - Math.round(share(before))} point`,
    );
    // The season against itself is no heavier.
    expect(heavierOverloads(before, before, findingsOf(before))).toEqual([]);
  });

  const finding = (about: string, severity: Finding['severity'] = 'warning'): Finding => ({
    code: 'scrubber-overloaded',
    family: 'gas',
    severity,
    message: '',
    at: { file: '', start: 0, end: 0 },
    related: [],
    fixes: [],
    fingerprint: `scrubber-overloaded:${about}`,
  });

  test('is new where one could live with it and now cannot', () => {
    const known = new KnownFindings();
    known.add([finding('S1'), finding('S2')], ({ fingerprint }) => fingerprint.endsWith('S2'));
    const now = [finding('S1'), finding('S2'), finding('S3'), finding('S4', 'notice')];
    const names = (against: string) =>
      known
        .newAmong(now, ({ fingerprint }) => against.includes(fingerprint.slice(-2)))
        .map((one) => one.fingerprint.slice(-2));
    expect(names('')).toEqual(['S3']);
    expect(names('S2')).toEqual(['S3']);
    expect(names('S1 S2')).toEqual(['S1', 'S3']);
    expect(
      known.newAmong(
        [finding('S1'), { ...finding('S1'), fingerprint: 'scrubber-overloaded:S1#2' }],
        () => false,
      ),
    ).toHaveLength(1);
  });
});
