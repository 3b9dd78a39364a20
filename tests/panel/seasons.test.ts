import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { drawInputs } from '../../src/release/draw-inputs';
import { releaseUncertainty } from '../../src/release/uncertainty';
import { timelineView } from '../../src/report/timeline';
import type { TimelineView } from '../../src/report/timeline-types';
import { sampleFiles } from '../samples/sample';
import { type Bundle, browserIsThere, bundlePanel, launch, type Page } from './browser';
import { OpenPanel, type PanelOptions } from './open-panel';
import { themes } from './themes';

/** The first season with seasons drawn for its schedule, now or before the last change. */
function drawnView(older: boolean): TimelineView {
  const season = computeSeason(readPlan(sampleFiles('first-season')));
  const { release } = season;
  if (!release) throw new Error('the sample has a schedule');
  const { problem, result } = release;
  const inputs = drawInputs(season.plan, season.keeping, problem);
  const drawn = releaseUncertainty(problem, result.schedule, inputs, { draws: 40, seed: 1 });
  const seasons = { problem, schedule: result.schedule, ranges: inputs.ranges, drawn };
  return timelineView(season, findingsOf(season), { revision: 1, drawn: { seasons, older } });
}

const [view, older] = [drawnView(false), drawnView(true)];

describe.skipIf(!browserIsThere())('seasons drawn in the timeline', () => {
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

  async function open(shown = view, options: PanelOptions = {}): Promise<void> {
    panel = await OpenPanel.open(browser, bundle, options);
    await panel.show(shown);
  }
  const at = (selector: string) => panel.page.locator(selector);

  test('each week that may be short has a bar that hangs beneath the demand, told in words too', async () => {
    await open();
    const weeks = view.supply[0]?.chance?.filter((one) => one >= 0.005).length;
    expect(weeks).toBeGreaterThan(0);
    expect(await at('.chances rect.chance').count()).toBe(weeks);
    expect(await at('.chances .track').getAttribute('aria-label')).toContain('chance of being short by week');
    expect(await at('.toolbar .note').textContent()).toContain('40 seasons drawn: worth ');
    const week = view.supply[0]?.chance?.findIndex((one) => one >= 0.005) ?? 0;
    const box = await at('.chances .track').boundingBox();
    await panel.page.mouse.move(
      box.x + ((week + 0.5) / view.weeks.length) * box.width,
      box.y + box.height / 2,
    );
    expect(await at('.told').textContent()).toContain('of the seasons drawn');
  });

  test('a weight hangs from the rooms that the schedule hangs on, and their rows say so', async () => {
    await open();
    const hung = view.rows.filter(({ hangs }) => hangs);
    expect(hung.length).toBeGreaterThan(0);
    expect(await at('.row [data-mark="hangs"]').count()).toBe(hung.length);
    for (const { key } of hung)
      expect(await at(`.row[data-key="${key}"] .unseen`).textContent()).toContain('The schedule hangs on it');
  });

  test('the table has the chance of each week and what each room costs', async () => {
    await open();
    await panel.page.keyboard.press('t');
    expect(await at('#rooms-table th').allTextContents()).toContain('Costs if it alone does badly');
    expect(await at('#weeks-table th').allTextContents()).toContain('Chance short (%)');
  });

  test('older seasons are open bars, and are said to be older', async () => {
    await open(older);
    expect(await at('.chances rect.chance.older').count()).toBeGreaterThan(0);
    expect(await at('.chances .name').textContent()).toContain('older');
    expect(await at('.toolbar .note').textContent()).toContain('draw seasons again');
  });

  test.each(Object.keys(themes) as (keyof typeof themes)[])(
    'is accessible in the theme %s',
    async (theme) => {
      await open(view, { theme });
      expect(await panel.breaches()).toEqual([]);
      await panel.page.keyboard.press('t');
      expect(await panel.breaches()).toEqual([]);
    },
  );
});
