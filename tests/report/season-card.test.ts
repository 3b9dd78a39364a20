import { expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { releaseReport } from '../../src/report/release-report';
import { roomsReport } from '../../src/report/rooms-report';
import { seasonCard } from '../../src/report/season-card';
import { sampleFiles } from '../samples/sample';

const season = computeSeason(readPlan(sampleFiles('full-season')));
const findings = findingsOf(season);
const card = seasonCard(season, findings, 3);
const number = (text: string | undefined) => Number((text ?? '').replace(/[^\d.-]/g, ''));
const linesOf = (title: string, of = card) => of.tables.find((table) => table.title === title)?.lines ?? [];

test('the season card has the figures of the rooms report', () => {
  const { totals, varieties } = roomsReport(season, findings);
  const gauge = (label: string) => card.gauges.find((one) => one.label === label);
  expect(gauge('Rooms filled')?.text).toBe(`${totals.filledRooms} of ${totals.rooms}`);
  expect(gauge('Places filled')?.share).toBeCloseTo(
    (totals.bins?.value ?? 0) / (totals.places?.value ?? 1),
    6,
  );
  const lines = linesOf('Fruit by variety');
  expect(lines.map(({ cells }) => cells[0])).toEqual(varieties.map(({ variety }) => variety).sort());
  for (const { cells } of lines)
    expect(number(cells[2])).toBe(varieties.find(({ variety }) => variety === cells[0])?.bins?.value);
});

test('demand by variety and class adds up to the release report, and its weeks short are the same', () => {
  // Reasons of every room are worked out for the report: a small plan does.
  const more = sampleFiles('first-season').map(({ path, text }) => ({
    path,
    text: text.replace('cartons: 320', 'cartons: 5200'),
  }));
  const small = computeSeason(readPlan(more));
  if (!small.release) throw new Error('no schedule');
  const report = releaseReport(small, small.release, [], { violations: [], stoppedEarly: false });
  const lines = linesOf('Demand covered', seasonCard(small, [], 1));
  expect(report.shortages.length).toBeGreaterThan(0);
  const wanted = lines.reduce((sum, { cells }) => sum + number(cells[2]), 0);
  const demanded = report.weeks.reduce((sum, week) => sum + week.cartonsDemanded, 0);
  expect(Math.abs(wanted - demanded)).toBeLessThan(lines.length);
  for (const { cells } of lines) {
    const [variety, packClass] = cells;
    const weeks = new Set(
      report.shortages
        .filter((one) => one.variety === variety && one.packClass === packClass)
        .flatMap((one) => one.weeks.map(({ week }) => week)),
    );
    expect(cells[5] === '' ? 0 : number(cells[5]?.split(':')[0]), `${variety} ${packClass}`).toBe(weeks.size);
  }
});

test('the tightest rooms come first, and the heaviest week of each piece of equipment is its peak', () => {
  const slack = linesOf('Tightest rooms').map(({ cells }) => number(cells[3]));
  expect(slack).toEqual([...slack].sort((a, b) => a - b));
  expect(slack.length).toBeGreaterThan(3);
  const heaviest = linesOf('Heaviest weeks');
  for (const { scrubber, peak } of season.plant?.scrubbers ?? []) {
    const line = heaviest.find(({ cells }) => cells[0] === `Scrubber ${scrubber.id}`);
    expect(number(line?.cells[2])).toBe(Math.round(peak?.share?.value ?? -1));
  }
  expect(heaviest.map(({ cells }) => cells[0])).toContain('Packhouse');
});

test('findings are all counted and lead to their text, the gravest first', () => {
  const { errors, warnings, notices } = card.counts;
  expect(errors + warnings + notices).toBe(findings.length);
  expect(card.findings.length + card.more).toBe(findings.length);
  const order = card.findings.map(({ severity }) => ['error', 'warning', 'notice'].indexOf(severity));
  expect(order).toEqual([...order].sort());
});

test('an empty plan has a card that says what is missing', () => {
  const empty = computeSeason(readPlan([{ path: 'a.lotplan.yaml', text: 'lotwright: 1\n' }]));
  const bare = seasonCard(empty, [], 1);
  expect(bare.tables.every(({ lines, none }) => lines.length === 0 && none !== '')).toBe(true);
});

test('the season card tells where a season with records stands, as the status does, and nothing of one without', () => {
  expect(card.tables.some(({ title }) => title.startsWith('Where it stands'))).toBe(false);
  const march = computeSeason(readPlan(sampleFiles('in-march')), { courses: true });
  const lines = linesOf('Where it stands on 2027-03-07', seasonCard(march, [], 1));
  // 390 Gala, 290 Golden Delicious and 290 Braeburn were estimated; 389, 276 and 281 came in; of R4's 281 bins 141 are packed.
  expect(lines.slice(0, 4).map(({ cells }) => cells)).toEqual([
    ['Bins received', '946', '946'],
    ['Rooms whose last bin is in', '4', '4'],
    ['Rooms with something overdue', '0', '4'],
    ['Bins still in filled rooms', '140', '946'],
  ]);
  expect(lines.map(({ cells }) => cells[0]).slice(4)).toEqual([
    'Cartons packed and not sold',
    'Cartons sold, of those wanted so far',
  ]);
});
