import { describe, expect, test } from 'vitest';
import { SeasonAgain } from '../../src/findings/again/season-again';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { finish } from '../../src/plan/steps';
import {
  confidenceText,
  latestText,
  spreadsText,
  ToldWindows,
  toldWindow,
} from '../../src/report/by-confidence';
import { roomCard } from '../../src/report/room-card';
import { timelineView } from '../../src/report/timeline';
import { sampleFiles } from '../samples/sample';

const season = computeSeason(readPlan(sampleFiles('first-season')));
const view = timelineView(season, [], { revision: 1 });
const row = (key: string, of = view) => of.rows.find((one) => one.key === key);
const cell = (key: string, column: string) => row(key)?.cells[view.columns.indexOf(column)];

describe('a row of the timeline', () => {
  test('has its latest week by confidence, on the axis, with what sets it and how well the chance is known', () => {
    const steps = row('R2-gala')?.byConfidence ?? [];
    expect(steps.map(({ confidence, isPlans, latest }) => [confidence, isPlans, view.weeks[latest]])).toEqual(
      [
        [95, undefined, '2027-W07'],
        [90, true, '2027-W08'],
        [80, undefined, '2027-W10'],
        [50, undefined, '2027-W13'],
      ],
    );
    expect(steps[2]?.text).toBe(
      'Room R2 at 80 % confidence: until 2027-W10, storage life of lot G4 sets it; spreads of storage life and firmness are common practice.',
    );
    expect(steps[1]?.latest).toBe(row('R2-gala')?.window?.latest);
  });

  test('says it in its sentences and in the table', () => {
    expect(row('R2-gala')?.description).toContain(
      'With 95 % confidence until 2027-W07, with 80 % until 2027-W10, with 50 % until 2027-W13; spreads of storage life and firmness are common practice.',
    );
    expect(cell('R2-gala', 'Latest at 95 %')).toBe('2027-W07');
    expect(cell('R2-gala', 'Latest at 80 %')).toBe('2027-W10');
    expect(cell('R2-gala', 'Latest at 50 %')).toBe('2027-W13');
  });

  test('whose season ends first says that all are the same, and nothing of spreads', () => {
    const golden = [...season.keeping.values()].find(({ filled }) => filled.room.id === 'R3');
    const told = golden && toldWindow(season.plan, golden);
    expect(told && confidenceText(told)).toBe('The same at 95 % as at 50 % confidence');
    expect(told && latestText('R3', told, told.latest[0] ?? fail())).toMatch(
      /^Room R3 at 95 % .* season sets it\.$/,
    );
  });

  test('without a week at a confidence says so', () => {
    const { plan, keeping } = computeSeason(readPlan(sampleFiles('with-mistakes')));
    const told = [...keeping.values()].flatMap((one) => {
      const found = one.filled.room.id === 'R2' && toldWindow(plan, one);
      return found ? [confidenceText(found)] : [];
    });
    expect(told[0]).toMatch(/^With 95 % confidence in no week, with 80 % until 2026-W40/);
  });

  test('tells spreads by how well each is known', () => {
    expect(
      spreadsText([
        { of: 'storage life', known: 'published' },
        { of: 'firmness', known: 'samples' },
      ]),
    ).toEqual(['spread of storage life is published', 'spread of firmness is fitted to samples']);
    expect(spreadsText([{ of: 'storage life', known: 'from memory' }])).toEqual([
      'spread of storage life is from memory',
    ]);
    expect(spreadsText([])).toEqual([]);
  });
});

test('a room’s card tells the latest week at each confidence as a figure that can be explained', () => {
  const card = roomCard(season, findingsOf(season), 'R2-gala', 1);
  const facts = card?.facts.find(({ title }) => title === 'Opening')?.facts ?? [];
  expect(facts.map(({ figure }) => figure).slice(3)).toEqual([
    'R2.latest-at-95',
    'R2.latest-at-80',
    'R2.latest-at-50',
  ]);
  expect(facts.at(-1)?.label).toMatch(/, at 50 % confidence$/);
  expect(facts.at(-1)?.value).toMatch(/, 2027-W13$/);
  expect(card?.description).toContain('With 95 % confidence until 2027-W07');
});

describe('windows worked out ahead', () => {
  test('are those that are worked out when they are asked for, and are kept while their room is', () => {
    const windows = new ToldWindows();
    finish(windows.ahead(season.plan, season.keeping.values()));
    for (const keeping of season.keeping.values()) {
      const ahead = windows.of(season.plan, keeping);
      expect(ahead).toEqual(toldWindow(season.plan, keeping));
      expect(windows.of(season.plan, keeping)).toBe(ahead);
    }
    expect(timelineView(season, [], { revision: 1, windows })).toEqual(view);
  });

  test('stay those of a plan read from scratch while its text is edited', () => {
    const windows = new ToldWindows();
    const again = new SeasonAgain({ byField: true });
    const files = sampleFiles('first-season');
    const nothing = { release: undefined, courses: undefined };
    const edits: readonly (readonly [RegExp, string])[] = [
      [/firmness: 83 N/, 'firmness: 71 N'],
      [/days-to-empty: \d+/, 'days-to-empty: 14'],
      [/starch: 2\.8/, 'starch: 5.5'],
      [/sealed: 2026-09-18/, 'sealed: 2026-09-29'],
      [/field-temperature: 18/, 'field-temperature: 29'],
    ];
    let now = files;
    for (const [from, to] of [[/$^/, ''] as const, ...edits]) {
      now = now.map((file) => ({ ...file, text: file.text.replace(from, to) }));
      const plan = readPlan(now);
      const edited = again.compute(plan, nothing);
      const fresh = computeSeason(readPlan(now));
      for (const [fill, keeping] of edited.keeping) {
        const other = fresh.keeping.get(fill);
        expect(windows.of(edited.plan, keeping)).toEqual(other && toldWindow(fresh.plan, other));
      }
    }
    expect(now).not.toEqual(files);
  });
});

function fail(): never {
  throw new Error('it has no week');
}
