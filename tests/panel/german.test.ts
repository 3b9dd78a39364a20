import { mkdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { findingTranslator } from '../../extension/finding-translator';
import { english } from '../../extension/panel/words-english';
import { translator } from '../../extension/translator';
import { roomCardIn, seasonCardIn, viewIn } from '../../extension/view-texts';
import { type Bundle, browserIsThere, bundlePanel, launch, type Page } from './browser';
import { cardViews } from './cards-views';
import { OpenPanel, type PanelOptions } from './open-panel';
import { themes } from './themes';

const root = path.resolve(import.meta.dirname, '../..');
const german: Record<string, string> = JSON.parse(
  readFileSync(path.join(root, 'extension/l10n/bundle.l10n.de.json'), 'utf8'),
);
const words = Object.fromEntries(Object.entries(english).map(([key, text]) => [key, german[text] ?? '']));
const say = translator(german, 'de');
const finding = findingTranslator(german, 'de');
const views = cardViews('full-season');
const view = viewIn(views.view, say, finding);
const [first] = view.rows;

/** Pictures to look at. */
const pictures = path.join(root, 'out/pictures');

describe.skipIf(!browserIsThere())('the panel in German', () => {
  let browser: Page;
  let bundle: Bundle;
  let panel: OpenPanel;

  beforeAll(async () => {
    [browser, bundle] = [await launch(), await bundlePanel()];
    mkdirSync(pictures, { recursive: true });
  });
  afterAll(() => browser?.close());
  afterEach(async () => {
    expect(panel.complaints).toEqual([]);
    await panel.close();
  });

  async function open(options: PanelOptions): Promise<void> {
    panel = await OpenPanel.open(browser, bundle, { ...options, language: 'de', words });
    await panel.show(view);
  }
  const look = (name: string) => panel.page.screenshot({ path: path.join(pictures, `german-${name}.png`) });
  /** What goes over the page's width, and buttons, lists and heads over theirs; by how many pixels. */
  const over = (): Promise<string[]> =>
    panel.page.evaluate(`[
      ...(document.documentElement.scrollWidth > innerWidth ? ['page ' + document.documentElement.scrollWidth] : []),
      ...[...document.querySelectorAll('button, summary, h1, h2, h3, .gauge')]
        .filter((one) => one.offsetParent && one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).textOverflow !== 'ellipsis')
        .map((one) => one.textContent + ' ' + (one.scrollWidth - one.clientWidth)),
    ]`);

  test.each([
    [320, 700, 'dark'],
    [420, 900, 'light'],
    [1200, 860, 'dark'],
    [1800, 1150, 'contrast'],
  ] as const)('is laid out without anything cut off at %d px', async (width, height, theme) => {
    await open({ width, height, theme });
    expect(await panel.page.evaluate('document.documentElement.lang')).toBe('de');
    expect(await over()).toEqual([]);
    await look(`timeline-${width}`);
    await panel.page.locator('.row').first().focus();
    await panel.page.keyboard.press('ArrowDown');
    const lines: number[] = await panel.page.evaluate(
      "[...document.querySelectorAll('.told .whole')].map((one) => one.getClientRects().length)",
    );
    expect(new Set(lines)).toEqual(new Set([1]));
    expect(await over()).toEqual([]);
    await panel.page.keyboard.press('t');
    expect(await over()).toEqual([]);
    await look(`table-${width}`);
    await panel.say({ kind: 'showCard', card: { of: 'season' } });
    await panel.say({ kind: 'seasonCard', card: seasonCardIn(views.season, say, finding) });
    expect(await over()).toEqual([]);
    await look(`season-${width}`);
    const key = first?.key ?? '';
    await panel.say({ kind: 'showCard', card: { of: 'room', key } });
    await panel.say({ kind: 'roomCard', key, card: roomCardIn(views.room(key), say, finding) });
    await panel.page.keyboard.press('t');
    expect(await over()).toEqual([]);
    await look(`room-${width}`);
  });

  test('says all in German, numbers and weeks too, with the whole caution', async () => {
    await open({ width: 1200, height: 860 });
    const text: string = await panel.page.locator('#panel').textContent();
    for (const one of ['Auslagerungswochen suchen', 'Nachfrage', 'Adsorber', 'heute'])
      expect(text).toContain(one);
    const left = Object.values(english).filter(
      (one) => one.length > 12 && !/\{/.test(one) && text.includes(one),
    );
    expect(left).toEqual([]);
    const told: string = await panel.page.locator('.caution').evaluate((one: Page) => one.textContent);
    expect(told).toContain('Verschlossene Kühlzellen töten');
    expect(told).toContain('Sauerstoff und Kohlendioxid, beide, mit einem kalibrierten Messgerät');
    expect(told).toContain('befugtes Personal');
  });

  test.each(Object.keys(themes) as (keyof typeof themes)[])(
    'breaks no accessibility rule: %s',
    async (theme) => {
      await open({ theme });
      expect(await panel.breaches()).toEqual([]);
    },
  );
});
