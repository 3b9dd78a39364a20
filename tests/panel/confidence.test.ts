import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { BOTTOM, confidenceShapes, heightAt, KEY_CONFIDENCES } from '../../extension/panel/confidence-layout';
import { timelinePicture } from '../../extension/panel/picture';
import { TOLD_CONFIDENCES } from '../../src/keeping/by-confidence';
import type { TimelineRow } from '../../src/report/timeline-types';
import { type Bundle, bundlePanel, launch, type Page } from './browser';
import { OpenPanel } from './open-panel';
import type { themes } from './themes';
import { sampleView } from './views';

const view = sampleView('full-season');
const ROOM = 'E05';
const row = view.rows.find(({ room }) => room === ROOM) as TimelineRow;

/** The window of a plan at a confidence, with the latest week at it and at others. */
function windowAt(own: number, latest: Readonly<Record<number, number>>, earliest = 4): TimelineRow {
  const steps = Object.entries(latest)
    .map(([confidence, week]) => ({ confidence: Number(confidence), latest: week, text: '' }))
    .sort((a, b) => b.confidence - a.confidence);
  return {
    ...row,
    window: { earliest, bestBefore: latest[own] ?? 0, latest: latest[own] ?? 0 },
    byConfidence: steps.map((step) => (step.confidence === own ? { ...step, isPlans: true } : step)),
  };
}

describe('a window at other confidences than the plan’s', () => {
  test('ends within it at a higher one, and goes on behind it at lower ones, each box where the last ended', () => {
    expect(confidenceShapes(windowAt(90, { 95: 9, 90: 11, 80: 12, 50: 16 }), 45)).toEqual({
      within: [{ confidence: 95, at: 10 }],
      beyond: [
        { confidence: 80, from: 12, to: 13 },
        { confidence: 50, from: 13, to: 17 },
      ],
    });
    expect(confidenceShapes(windowAt(50, { 95: 9, 80: 11, 50: 12 }), 45)).toEqual({
      within: [
        { confidence: 95, at: 10 },
        { confidence: 80, at: 12 },
      ],
      beyond: [],
    });
  });

  test('is not drawn where it ends with the plan’s, and is cut off where the weeks end', () => {
    expect(confidenceShapes(windowAt(90, { 95: 9, 90: 9, 80: 9, 50: 9 }), 45)).toEqual({
      within: [],
      beyond: [],
    });
    expect(confidenceShapes(windowAt(90, { 95: 9, 90: 11, 80: 30, 50: 60 }), 20).beyond).toEqual([
      { confidence: 80, from: 12, to: 20 },
    ]);
  });

  test('begins where the room may first be opened where no week fits at the plan’s', () => {
    expect(confidenceShapes(windowAt(90, { 95: 2, 90: 3, 80: 6, 50: 9 }, 5), 45)).toEqual({
      within: [],
      beyond: [
        { confidence: 80, from: 5, to: 7 },
        { confidence: 50, from: 7, to: 10 },
      ],
    });
  });

  test('has boxes that follow one another, lower with the confidence', () => {
    const weeks = fc.array(fc.integer({ min: -5, max: 60 }), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(
        weeks,
        fc.integer({ min: 0, max: 50 }),
        fc.constantFrom(95, 90, 80, 50),
        (some, earliest, own) => {
          const [a = 0, b = 0, c = 0, d = 0] = [...some].sort((x, y) => x - y);
          const { beyond, within } = confidenceShapes(
            windowAt(own, { 95: a, 90: b, 80: c, 50: d }, earliest),
            45,
          );
          for (const [at, { from, to, confidence }] of beyond.entries()) {
            expect(from).toBeGreaterThanOrEqual(earliest);
            expect(to).toBeGreaterThan(from);
            expect(to).toBeLessThanOrEqual(45);
            const next = beyond[at + 1];
            if (!next) continue;
            expect(next.from).toBe(to);
            expect(heightAt(next.confidence)).toBeLessThan(heightAt(confidence));
          }
          for (const { at } of within) expect(at).toBeGreaterThan(earliest);
        },
      ),
    );
    expect(heightAt(100)).toBeLessThan(BOTTOM);
    expect(heightAt(1)).toBeGreaterThan(0);
  });

  test('is in the key at the confidences that the server tells', () => {
    expect(KEY_CONFIDENCES).toEqual(TOLD_CONFIDENCES);
  });

  test('is in the picture, with its key; a plan that knows none has neither', () => {
    const picture = timelinePicture(view);
    expect(picture).toContain('at 95, 80, 50 % confidence');
    expect(picture).toContain('url(#likely)');
    const without = { ...view, rows: view.rows.map(({ byConfidence: _, ...others }) => others) };
    expect(timelinePicture(without)).not.toContain('confidence');
  });
});

describe('in the page', () => {
  let browser: Page;
  let bundle: Bundle;
  let panel: OpenPanel | undefined;

  beforeAll(async () => {
    browser = await launch();
    bundle = await bundlePanel();
  }, 60_000);
  afterAll(() => browser?.close());

  async function shown(theme: keyof typeof themes = 'dark', width = 1400): Promise<OpenPanel> {
    await panel?.close();
    panel = await OpenPanel.open(browser, bundle, { theme, width, height: 900 });
    await panel.show(view);
    return panel;
  }

  const boxOf = (confidence: number) => `[id="row-${row.key}"] [data-confidence="${confidence}"]`;

  test('pointing at a box tells its confidence, what sets its week and how well that is known', async () => {
    const { page } = await shown();
    await page.locator(boxOf(80)).hover({ force: true });
    const step = row.byConfidence?.find(({ confidence }) => confidence === 80);
    expect(step?.text).toMatch(/^Room E05 at 80 % confidence: until 2027-W22, /);
    expect(await page.locator('.detail .told').textContent()).toBe(step?.text);
    await page.locator(`[id="row-${row.key}"] .name`).hover();
    expect(await page.locator('.detail .told').textContent()).toBe(row.description);
  });

  test('what is said to a screen reader has the weeks, and so has the table', async () => {
    const { page } = await shown();
    const said = await page.locator(`[id="row-${row.key}"] .unseen`).textContent();
    expect(said).toContain('With 95 % confidence until 2027-W18, with 80 % until 2027-W22');
    await page.keyboard.press('t');
    const heads = await page.locator('#rooms-table thead th').allTextContents();
    const cells = await page.locator(`#rooms-table tr[data-key="${row.key}"] td`).allTextContents();
    expect(cells[heads.indexOf('Latest at 80 %') - 1]).toBe('2027-W22');
  });

  test.each(['dark', 'light', 'contrast', 'contrast-light'] as const)(
    'a lower confidence is seen without colour, and nothing stands against its use, in %s',
    async (theme) => {
      const open = await shown(theme, theme === 'dark' ? 420 : 1400);
      const looks = await open.page.evaluate(`[80, 50].map((level) => {
        const box = document.querySelector('[id="row-${row.key}"] [data-confidence="' + level + '"]');
        const style = getComputedStyle(box);
        return [style.strokeDasharray, style.fill.includes('likely-dots'), box.getBBox().height];
      })`);
      expect(looks[0]).toEqual(['2px, 2px', true, heightAt(80)]);
      expect(looks[1]).toEqual(['2px, 2px', false, heightAt(50)]);
      expect(await open.breaches()).toEqual([]);
      expect(open.complaints).toEqual([]);
    },
  );
});
