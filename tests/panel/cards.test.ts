import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { FromPanel } from '../../src/report/timeline-types';
import { type Bundle, browserIsThere, bundlePanel, launch, type Page } from './browser';
import { cardViews } from './cards-views';
import { OpenPanel, type PanelOptions } from './open-panel';
import { themes } from './themes';

const { view, room, season } = cardViews('first-season');
const key = 'R2-gala';
const card = room(key);

describe.skipIf(!browserIsThere())('the cards in a browser', () => {
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

  async function open(options?: PanelOptions): Promise<OpenPanel> {
    panel = await OpenPanel.open(browser, bundle, options);
    await panel.show(view);
    return panel;
  }
  async function openRoom(options?: PanelOptions): Promise<void> {
    await open(options);
    await panel.say({ kind: 'showCard', card: { of: 'room', key } });
    await panel.say({ kind: 'roomCard', key, card });
  }
  const press = (name: string) => panel.page.keyboard.press(name);
  const at = (selector: string) => panel.page.locator(selector);
  const asked = async () => (await panel.sent()).filter(({ kind }: FromPanel) => kind === 'askCard');

  test('C opens the card of the chosen room, Escape goes back to its row', async () => {
    await open();
    await at(`.row[data-key="${key}"] .room`).click();
    await press('c');
    expect(await asked()).toEqual([{ kind: 'askCard', card: { of: 'room', key } }]);
    expect(await at('.chart').isVisible()).toBe(false);
    await panel.say({ kind: 'roomCard', key, card });
    expect(await at('.card h2').first().textContent()).toBe(card.title);
    expect(await panel.page.evaluate('document.activeElement.className')).toBe('card');
    await press('Escape');
    expect(await at('.chart').isVisible()).toBe(true);
    expect(await panel.page.evaluate('document.activeElement.dataset.key')).toBe(key);
  });

  test('a click on a room and the button beneath open it too, and brackets go from room to room', async () => {
    await open();
    await at('.row .room').first().click();
    await panel.page.locator('.detail button', { hasText: 'Card of' }).click();
    expect(await asked()).toHaveLength(1);
    await press(']');
    await press('[');
    await press('[');
    expect(
      (await asked()).map(
        (one: FromPanel) => one.kind === 'askCard' && one.card.of === 'room' && one.card.key,
      ),
    ).toEqual([0, 1, 0].map((index) => view.rows[index]?.key));
  });

  test('every chart is read off by keys, all of them on the same day', async () => {
    await openRoom();
    expect(await at('.day-chart').count()).toBe(card.charts.length);
    await at('#plot-gas').focus();
    await press('Home');
    const told = async (id: string) => at(`#plot-${id}`).getAttribute('aria-valuetext');
    expect(await told('gas')).toContain(card.days[0]);
    for (let step = 0; step < 3; step += 1) await press('PageUp');
    await press('ArrowLeft');
    const day = 20;
    const oxygen = card.charts[0]?.lines[0]?.values[day];
    expect(await told('gas')).toBe(
      await at('#plot-gas').evaluate(
        (plot: Page) => plot.closest('.day-chart').querySelector('.readout').textContent,
      ),
    );
    expect(await told('gas')).toContain(`${card.days[day]}: oxygen ${oxygen?.toFixed(2)} %`);
    for (const { id } of card.charts) expect(await told(id)).toContain(card.days[day]);
    await press('End');
    expect(await at('#plot-gas').getAttribute('aria-valuenow')).toBe(String(card.days.length - 1));
  });

  test('pointing at a chart reads off the day there, and lines lie where their values are', async () => {
    await openRoom();
    const plot = await at('#plot-gas').boundingBox();
    const day = 40;
    await panel.page.mouse.move(plot.x + 1 + ((plot.width - 2) * day) / (card.days.length - 1), plot.y + 20);
    expect(await at('#plot-gas').getAttribute('aria-valuenow')).toBe(String(day));
    const chart = card.charts[0];
    const line = await at('#plot-gas .line.carbon-dioxide').evaluate((path: Page) => {
      const end = path.getPointAtLength(path.getTotalLength());
      return { x: end.x, y: end.y };
    });
    const last = chart?.lines.find(({ look }) => look === 'carbon-dioxide')?.values.at(-1) ?? 0;
    expect(line.x).toBeCloseTo(100, 1);
    expect(line.y).toBeCloseTo((100 * ((chart?.top ?? 1) - last)) / (chart?.top ?? 1), 0);
  });

  test('the table has the values of every line of every chart, and T turns back', async () => {
    await openRoom();
    await press('t');
    const cells = await at('#days-table tbody tr').evaluateAll((lines: Page[]) =>
      lines.map((line) => [...line.children].map((cell: Page) => cell.textContent)),
    );
    expect(cells).toHaveLength(card.days.length);
    const lines = card.charts.flatMap((chart) =>
      chart.lines.map((line) => ({ ...line, decimals: chart.decimals })),
    );
    cells.forEach(([day, ...values]: string[], index: number) => {
      expect(day).toBe(card.days[index]);
      expect(values.map((text) => (text === '' ? null : Number(text)))).toEqual(
        lines.map(({ values: all }) => (all[index] === 0 ? 0 : all[index])),
      );
    });
    await press('t');
    expect(await at('#plot-gas').isVisible()).toBe(true);
  });

  test('a figure tells how it came about, and closing gives the focus back', async () => {
    await openRoom();
    const figure = 'R2.free-gas-volume';
    const button = panel.page.locator(`[id="fact-${figure}"]`);
    await button.click();
    expect(await panel.lastSent()).toEqual({ kind: 'askFigure', figure });
    await panel.say({ kind: 'explained', figure: 'other', title: 'x', text: 'not asked' });
    expect(await at('.derivation').textContent()).toBe('');
    await panel.say({
      kind: 'explained',
      figure,
      title: 'R2: free gas volume',
      text: 'free gas volume = 271 m³',
    });
    expect(await at('.derivation pre').textContent()).toBe('free gas volume = 271 m³');
    await at('.derivation button').click();
    expect(await panel.page.evaluate('document.activeElement.id')).toBe(`fact-${figure}`);
  });

  test('lots and findings lead to the text, and the caution stays', async () => {
    await openRoom({ height: 1500 });
    await at('.card tbody button').first().click();
    expect(await panel.lastSent()).toEqual({ kind: 'reveal', target: card.lots.lines[0]?.target });
    await at('#card-text').click();
    expect(await panel.lastSent()).toEqual({ kind: 'reveal', target: card.target });
    expect(await at('.caution').isVisible()).toBe(true);
    expect((await at('.caution').textContent()).replace(/\s+/g, ' ')).toContain('calibrated instrument');
  });

  test('a new view asks for the card anew; one that says the same leaves the page alone', async () => {
    await openRoom();
    await at('#plot-cooling').focus();
    await panel.show({ ...view, revision: 2 });
    expect(await asked()).toHaveLength(2);
    await panel.say({ kind: 'roomCard', key, card: { ...card, revision: 2 } });
    expect(await panel.page.evaluate('document.activeElement.id')).toBe('plot-cooling');
    await panel.say({ kind: 'roomCard', key, card: { ...card, revision: 3, description: 'Changed.' } });
    expect(await at('.card-about').first().textContent()).toBe('Changed.');
    expect(await panel.page.evaluate('document.activeElement.id')).toBe('plot-cooling');
    await panel.say({ kind: 'roomCard', key, card: null });
    expect(await at('.card .none').first().textContent()).toContain('no longer');
  });

  test('a card of an older text is marked, moves nothing, and is asked for again once the text has settled', async () => {
    await openRoom();
    const mark = at('.card:visible .older-mark');
    const placeOfChart = () => at('#plot-gas').boundingBox();
    const before = await placeOfChart();
    await panel.say({ kind: 'view', view: { ...view, revision: 2 }, older: true });
    await panel.say({ kind: 'roomCard', key, card, older: true });
    expect(await mark.isVisible()).toBe(true);
    expect(await mark.getAttribute('title')).toContain('those of the text before the last change');
    expect(await placeOfChart()).toEqual(before);
    expect(await asked()).toHaveLength(2);
    await panel.say({ kind: 'view', view: { ...view, revision: 2 }, older: false });
    expect(await asked()).toHaveLength(3);
    await panel.say({ kind: 'roomCard', key, card, older: false });
    expect(await mark.isVisible()).toBe(false);
    await panel.say({ kind: 'showCard', card: { of: 'season' } });
    await panel.say({ kind: 'seasonCard', card: season, older: true });
    expect(await mark.isVisible()).toBe(true);
    expect(await panel.breaches()).toEqual([]);
    await panel.say({ kind: 'seasonCard', card: season });
    expect(await mark.isVisible()).toBe(false);
  });

  test('the season at a glance: S opens it, its lines lead to the text, S goes back', async () => {
    await open();
    await at('.row').first().focus();
    await press('s');
    expect(await asked()).toEqual([{ kind: 'askCard', card: { of: 'season' } }]);
    await panel.say({ kind: 'seasonCard', card: season });
    expect(await at('.gauge').count()).toBe(season.gauges.length);
    const tables = await at('.card-tables tbody').evaluateAll((bodies: Page[]) =>
      bodies.map((body) =>
        [...body.rows].map((line: Page) => [...line.cells].map((cell: Page) => cell.textContent)),
      ),
    );
    expect(tables).toEqual(
      season.tables
        .filter(({ lines }) => lines.length > 0)
        .map(({ lines }) => lines.map(({ cells }) => cells)),
    );
    await at('.card-tables tbody button').first().click();
    expect(await panel.lastSent()).toEqual({ kind: 'reveal', target: season.tables[0]?.lines[0]?.target });
    await press('s');
    expect(await at('.chart').isVisible()).toBe(true);
  });

  test('a card that comes when the rooms are shown again is not told', async () => {
    await open();
    await at('.row').first().focus();
    await press('s');
    await press('Escape');
    await panel.say({ kind: 'seasonCard', card: season });
    expect(await at('[role="status"].unseen').textContent()).toBe('All rooms shown');
    expect(await at('.chart').isVisible()).toBe(true);
  });

  test('the open card comes back with the page', async () => {
    await openRoom();
    await panel.page.waitForTimeout(200);
    await panel.reload(view);
    expect(await asked()).toEqual([{ kind: 'askCard', card: { of: 'room', key } }]);
    await panel.say({ kind: 'roomCard', key, card });
    expect(await at('#plot-gas').isVisible()).toBe(true);
  });

  test.each([300, 380, 860])('nothing of a card is cut off at %d px', async (width) => {
    await openRoom({ width, height: 900 });
    const over = await at('.card')
      .first()
      .evaluate(({ scrollWidth, clientWidth }: Page) => scrollWidth - clientWidth);
    expect(over).toBeLessThanOrEqual(0);
    await panel.say({ kind: 'showCard', card: { of: 'season' } });
    await panel.say({ kind: 'seasonCard', card: season });
    const wide = await at('.card')
      .last()
      .evaluate(({ scrollWidth, clientWidth }: Page) => scrollWidth - clientWidth);
    expect(wide).toBeLessThanOrEqual(0);
  });

  test.each(Object.keys(themes) as (keyof typeof themes)[])(
    'breaks no accessibility rule: %s',
    async (theme) => {
      await openRoom({ theme });
      expect(await panel.breaches()).toEqual([]);
      await press('t');
      expect(await panel.breaches()).toEqual([]);
      await panel.page.setViewportSize({ width: 340, height: 700 });
      await panel.say({ kind: 'showCard', card: { of: 'season' } });
      await panel.say({ kind: 'seasonCard', card: season });
      expect(await panel.breaches()).toEqual([]);
    },
  );
});
