import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { formatWeek } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { drawInputs } from '../../src/release/draw-inputs';
import { tallyDraws } from '../../src/release/draw-tally';
import { inputsFromWire, inputsToWire } from '../../src/release/draws-wire';
import { seasonAccount } from '../../src/report/papers/season-account';
import { releaseReport } from '../../src/report/release-report';
import { releaseText } from '../../src/report/release-text';
import { seasonCard } from '../../src/report/season-card';
import { timelineView } from '../../src/report/timeline';
import { demandOutcome, shortCartons } from '../../src/server/services/demand-outcome';
import { errorsAgainst } from '../cli/schemas';
import { sampleFiles } from '../samples/sample';

/** The sample with what had happened by March, without one kind of its records. */
const without = (section: RegExp) =>
  computeSeason(
    readPlan(
      sampleFiles('in-march').map(({ path, text }) => ({
        path,
        // Orders larger than what there is, so that something is short before and after.
        text: text.replace(section, '').replace(/^( {4}cartons: )\d+$/gm, '$1900'),
      })),
    ),
  );

describe.each([
  ['packing', /^packed:\n[\s\S]*/m, '2027-W08'],
  ['sale', /^sales:\n(?: .*\n?)*/m, '2027-W09'],
])('where no %s is recorded, what was wanted in weeks that are past', (missing, section, from) => {
  const season = without(section);
  const { release, plan } = season;
  if (!release) throw new Error('the sample has a release problem');
  const report = releaseReport(season, release, [], { violations: [], stoppedEarly: false });
  const shortLater = report.shortages.reduce((all, { cartonsShort }) => all + cartonsShort, 0);

  test('is told neither as sold nor as short by the schedule, and that is said', () => {
    expect(errorsAgainst('release-report', JSON.parse(JSON.stringify(report)))).toEqual([]);
    expect(report.standing?.notRecorded).toEqual({ missing, before: from });
    for (const { week, cartonsDemanded, cartonsSold, cartonsShort } of report.weeks)
      if (week < from) expect([week, cartonsDemanded, cartonsSold, cartonsShort]).toEqual([week, 0, 0, 0]);
    const weeks = report.shortages.flatMap((one) => one.weeks.map(({ week }) => week));
    expect(weeks.length).toBeGreaterThan(0);
    expect(weeks.filter((week) => week < from)).toEqual([]);
    expect(report.totals.cartonsShort).toBeCloseTo(shortLater, 0);
    const text = releaseText(report).replaceAll(/\s+/g, ' ');
    expect(text).toContain(
      `What was delivered before ${from} is not recorded, and told neither as sold nor as short.`,
    );
    expect(text).not.toMatch(/cartons wanted [\d,]+ were sold/);
    expect(text).toContain(`${missing === 'sale' ? 'No sale' : 'No packing'} is recorded`);
  });

  test('is short in none of the seasons drawn', () => {
    const { problem, result } = release;
    const inputs = drawInputs(plan, season.keeping, problem);
    const tally = tallyDraws(problem, result.schedule, inputs, { seed: 1, first: 0, count: 20 });
    const first = problem.firstWeek;
    const short = tally.all.weeks.flatMap(({ times }, week) => (times > 0 ? [formatWeek(first + week)] : []));
    expect(short.length).toBeGreaterThan(0);
    expect(short.filter((week) => week < from)).toEqual([]);
    // It crosses to the editor's worker whole.
    expect(inputsFromWire(inputsToWire(inputs))).toEqual(inputs);
  });

  test('is in no finding of demand', () => {
    const found = findingsOf(season).filter(({ code }) => code === 'demand-short');
    expect(found.length).toBeGreaterThan(0);
    for (const { message } of found) {
      expect((/from (\d{4}-W\d\d)/.exec(message)?.[1] ?? '') >= from, message).toBe(true);
      expect(message).toContain(
        `What was delivered before ${from} is not counted: no ${missing} is recorded.`,
      );
    }
  });

  test("is in none of the timeline's weeks, the card's, the paper's and the hover's that are short", () => {
    const view = timelineView(season, [], { revision: 1 });
    const [all] = view.supply;
    const labels = view.weeks;
    expect(all?.short.length).toBeGreaterThan(0);
    for (const week of all?.short ?? []) expect((labels[week] ?? '') >= from, labels[week]).toBe(true);
    const note = `What was delivered before ${from} is not recorded: it is told neither as sold nor as short.`;
    expect(view.scheduleNote).toContain(note);
    const card = seasonCard(season, [], 1);
    expect(card.scheduleNote).toContain(note);
    const covered = card.tables.find(({ title }) => title === 'Demand covered')?.lines ?? [];
    const number = (text = '') => Number(text.replaceAll(',', ''));
    const missed = covered.reduce((sum, { cells }) => sum + number(cells[2]) - number(cells[3]), 0);
    expect(Math.abs(missed - shortLater)).toBeLessThan(2 * covered.length);
    const account = seasonAccount(season);
    expect(account.market.filter(({ short }) => short > 0).length).toBeGreaterThan(0);
    const first = (release.problem.standing?.week ?? 0) + release.problem.firstWeek;
    expect(account.market.filter(({ week, short }) => week < first && short > 0)).toEqual([]);
    expect(account.schedule).toContain(`What was delivered before ${from} is not recorded`);
    for (const id of plan.demand.keys()) {
      const short = shortCartons(season, id);
      expect(short?.weeks.filter((week) => week < first)).toEqual([]);
      expect(demandOutcome(season, id)?.sentences).toContain(note);
    }
  });
});

test('a plan with both is told in full, and nothing is said to be missing', () => {
  const season = without(/^never$/m);
  const { release } = season;
  if (!release) throw new Error('the sample has a release problem');
  const report = releaseReport(season, release, [], { violations: [], stoppedEarly: false });
  expect(report.standing?.notRecorded).toBeUndefined();
  expect(releaseText(report)).not.toContain('not recorded');
  expect(seasonCard(season, [], 1).scheduleNote).not.toContain('not recorded');
});
