import fc from 'fast-check';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { lessonLayout } from '../../extension/panel/lesson-layout';
import { computeSeason } from '../../src/findings/compute';
import { learnAll } from '../../src/learning/learn';
import { readPlan } from '../../src/plan/read';
import type { LessonPicturePoint } from '../../src/report/card-types';
import { cardLessons } from '../../src/report/lesson-card';
import { sampleReadings } from '../samples/readings';
import { sampleFiles } from '../samples/sample';
import { type Bundle, browserIsThere, bundlePanel, launch, type Page } from './browser';
import { cardViews } from './cards-views';
import { OpenPanel, type PanelOptions } from './open-panel';
import { themes } from './themes';

const key = 'R2-gala';

function inMarch() {
  const plan = readPlan(sampleFiles('in-march'));
  const season = computeSeason(plan);
  const { lessons } = learnAll(season.plan, season.filled, sampleReadings('in-march', plan));
  return cardLessons(plan, lessons, key);
}

const point = (at: number, seen: number | null, fitted: number, half: number): LessonPicturePoint => ({
  label: String(at),
  at,
  seen,
  fitted,
  low: fitted - half,
  high: fitted + half,
  texts: ['', '', ''],
});

/** The places of a path, one pair of numbers after the other. */
const placesIn = (path: string) =>
  [...path.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);

describe('the picture of a lesson', () => {
  test('has its points by time, its curve between its limits, and higher values higher up', () => {
    const { curve, band, dots, ends } = lessonLayout({
      title: 'firmness',
      unit: 'N',
      points: [point(10, 80, 81, 2), point(40, 76, 76, 2), point(70, null, 72, 3)],
    });
    const [first, second, third] = placesIn(curve);
    expect([first?.[0], third?.[0]]).toEqual([3, 97]);
    expect(second?.[0]).toBe(50);
    expect(first?.[1] ?? 0).toBeLessThan(second?.[1] ?? 0);
    expect(placesIn(dots)).toHaveLength(2);
    expect(placesIn(band)).toHaveLength(6);
    expect(ends).toEqual(['10', '70']);
  });

  test('has all it shows inside, whatever is seen, and a band also about a single point', () => {
    const any = fc.record({
      at: fc.integer({ min: 0, max: 400 }),
      seen: fc.option(fc.double({ min: -50, max: 150, noNaN: true })),
      fitted: fc.double({ min: -50, max: 150, noNaN: true }),
      half: fc.double({ min: 0, max: 20, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(any, { minLength: 1, maxLength: 12 }), (all) => {
        const points = all.map(({ at, seen, fitted, half }) => point(at, seen, fitted, half));
        const { curve, band, dots } = lessonLayout({ title: '', unit: '', points });
        for (const [x, y] of [...placesIn(curve), ...placesIn(band), ...placesIn(dots)]) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(100);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(100);
        }
        const wide = placesIn(curve).map(([x]) => x);
        expect(Math.max(...wide) - Math.min(...wide)).toBeGreaterThan(10);
      }),
    );
    expect(lessonLayout({ title: '', unit: '', points: [] }).curve).toBe('');
  });
});

describe.skipIf(!browserIsThere())("what records teach, on a room's card", () => {
  const views = cardViews('in-march');
  const lessons = inMarch();
  let browser: Page;
  let bundle: Bundle;
  let panel: OpenPanel;

  beforeAll(async () => {
    [browser, bundle] = [await launch(), await bundlePanel()];
  });
  afterAll(() => browser?.close());
  afterEach(async () => {
    expect(panel.complaints).toEqual([]);
    await panel.close();
  });

  async function open(options?: PanelOptions): Promise<void> {
    panel = await OpenPanel.open(browser, bundle, options);
    await panel.show(views.view);
    await panel.say({ kind: 'showCard', card: { of: 'room', key } });
    await panel.say({ kind: 'roomCard', key, card: views.room(key) });
    await panel.say({ kind: 'roomLessons', key, lessons });
  }
  const at = (selector: string) => panel.page.locator(selector);

  test('is there with its line, its pictures with what was seen, and the same as a table', async () => {
    await open();
    expect(await at('.lesson').count()).toBe(lessons.length);
    const first = at('.lesson').first();
    expect(await first.locator('.lesson-line').textContent()).toMatch(
      /^Readings say: respiration .* \(95 %: /,
    );
    const picture = first.locator('.lesson-picture').first();
    expect(await picture.locator('[role="img"]').getAttribute('aria-label')).toContain(
      'Climb of carbon dioxide',
    );
    expect(placesIn((await picture.locator('.lesson-seen').first().getAttribute('d')) ?? '')).toHaveLength(
      lessons[0]?.pictures[0]?.points.length ?? 0,
    );
    await picture.locator('summary').click();
    expect(await picture.locator('tbody tr').count()).toBe(lessons[0]?.pictures[0]?.points.length);
    // Told as tables, the whole card has no picture.
    await panel.page.keyboard.press('t');
    expect(await at('.lesson-picture').count()).toBe(0);
    expect(await at('.lesson caption').count()).toBeGreaterThan(0);
  });

  test('says what it changes when it is asked, takes it in, and offers what stands in the plan no more', async () => {
    await open();
    const id = 'respiration/R2-gala';
    await at(`[id="effects-of-${id}"]`).click();
    expect((await panel.sent()).at(-1)).toEqual({ kind: 'askEffects', lesson: id });
    await panel.say({ kind: 'lessonEffects', lesson: id, lines: ['scrubber S1: load 73 % → 77 %'] });
    expect(await at(`[id="lesson-effects-${id}"] li`).allTextContents()).toEqual([
      'scrubber S1: load 73 % → 77 %',
    ]);
    await panel.say({ kind: 'lessonEffects', lesson: id, lines: [] });
    expect(await at(`[id="lesson-effects-${id}"]`).textContent()).toContain('changes no window');
    await at(`[id="take-${id}"]`).click();
    expect((await panel.sent()).at(-1)).toEqual({ kind: 'takeLesson', lesson: id });
    const taken = lessons.map((lesson) => ({ ...lesson, written: lesson.id === id }));
    await panel.say({ kind: 'roomLessons', key, lessons: taken });
    expect(await at(`[id="take-${id}"]`).count()).toBe(0);
    expect(await at('.lesson').first().locator('.lesson-state').textContent()).toBe('in the plan');
    // Those of another room's card are not for this one, and none are no section.
    await panel.say({ kind: 'roomLessons', key: 'R4-braeburn', lessons: [] });
    expect(await at('.lesson').count()).toBe(lessons.length);
    await panel.say({ kind: 'roomLessons', key, lessons: [] });
    expect(await at('.lessons').isVisible()).toBe(false);
  });

  test.each(Object.keys(themes) as (keyof typeof themes)[])(
    'breaks no accessibility rule, wide and narrow: %s',
    async (theme) => {
      await open({ theme });
      expect(await panel.breaches()).toEqual([]);
      await panel.page.setViewportSize({ width: 340, height: 700 });
      expect(await panel.breaches()).toEqual([]);
      const over = await at('.card')
        .first()
        .evaluate(({ scrollWidth, clientWidth }: Page) => scrollWidth - clientWidth);
      expect(over).toBeLessThanOrEqual(0);
      await panel.page.keyboard.press('t');
      expect(await at('.lesson table').count()).toBeGreaterThan(2);
      expect(await panel.breaches()).toEqual([]);
    },
  );
});
