import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { FromPanel } from '../../src/report/timeline-types';
import { type Bundle, browserIsThere, bundlePanel, launch, type Page } from './browser';
import { cardViews } from './cards-views';
import { OpenPanel } from './open-panel';

const alone = cardViews('first-season');
const beside = cardViews('first-season', (text) => text.replace('open: 2027-W01', 'open: 2027-W03'));
const key = 'R2-gala';

/** Each view, and how to come to it. */
const VIEWS: Readonly<Record<string, (panel: OpenPanel) => Promise<void>>> = {
  'no plan': (panel) => panel.say({ kind: 'noPlan', hasFolder: false }),
  timeline: (panel) => panel.show(alone.view),
  'the list of keys': async (panel) => {
    await panel.show(alone.view);
    for (const part of ['.legend', '.keyboard'])
      await panel.page.locator(part).evaluate((one: Page) => {
        one.open = true;
      });
  },
  'two states': (panel) => panel.show(beside.view),
  'a search under way': async (panel) => {
    await panel.show(alone.view);
    await panel.say({ kind: 'progress', text: 'Searching', share: 0.4 });
  },
  tables: async (panel) => {
    await panel.show(alone.view);
    await panel.page.getByRole('button', { name: 'Table' }).click();
  },
  'room card': (panel) => openRoom(panel),
  'room card as tables': async (panel) => {
    await openRoom(panel);
    await panel.page.keyboard.press('t');
  },
  'room card with a derivation': async (panel) => {
    await openRoom(panel);
    const figure = 'R2.free-gas-volume';
    await panel.page.locator(`[id="fact-${figure}"]`).click();
    await panel.say({ kind: 'explained', figure, title: 'free gas volume', text: 'free gas volume = 271' });
  },
  'season card': async (panel) => {
    await panel.show(alone.view);
    await panel.say({ kind: 'showCard', card: { of: 'season' } });
    await panel.say({ kind: 'seasonCard', card: alone.season });
  },
};

async function openRoom(panel: OpenPanel): Promise<void> {
  await panel.show(alone.view);
  await panel.say({ kind: 'showCard', card: { of: 'room', key } });
  await panel.say({ kind: 'roomCard', key, card: alone.room(key) });
}

/** What can be tabbed to and seen, in the order of the page; a list of rooms has one stop. */
const STOPS = `[...document.querySelectorAll('button, select, input, summary, [tabindex="0"]')]
  .filter((one) => one.checkVisibility({ visibilityProperty: true }) && !one.disabled)`;

const MOST_STOPS = 200;

describe.skipIf(!browserIsThere())('by keys alone', () => {
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

  /** The stops by number that a key goes to, one after the other, until the focus leaves the page. */
  async function walk(press: string): Promise<number[]> {
    const stops: number[] = [];
    for (let step = 0; step < MOST_STOPS; step += 1) {
      await panel.page.keyboard.press(press);
      const at: { readonly stop: number; readonly isSeen: boolean } | null =
        await panel.page.evaluate(`(() => {
        const at = document.activeElement;
        if (!at || at === document.body) return null;
        const isSeen = [null, '::after'].some((part) => getComputedStyle(at, part).outlineStyle !== 'none');
        return { stop: ${STOPS}.indexOf(at), isSeen };
      })()`);
      if (at === null) return stops;
      expect(at.isSeen, `stop ${at.stop} shows that it has the focus`).toBe(true);
      stops.push(at.stop);
    }
    throw new Error(`the focus does not leave the page by ${press}`);
  }

  test.each(Object.keys(VIEWS).flatMap((name) => [[name, 320] as const, [name, 1400] as const]))(
    'every part of %s at %d px is come to in order, and left again both ways',
    async (name, width) => {
      panel = await OpenPanel.open(browser, bundle, { width, height: 900 });
      await VIEWS[name]?.(panel);
      const unnamed: string[] = await panel.page.evaluate(`${STOPS}
        .filter((one) => !(one.ariaLabel ?? one.textContent ?? '').trim() && !one.labels?.length)
        .map((one) => one.outerHTML)`);
      expect(unnamed).toEqual([]);
      expect(
        await panel.page.evaluate(
          `document.querySelectorAll('[tabindex]:not([tabindex="0"], [tabindex="-1"])').length`,
        ),
      ).toBe(0);
      const count: number = await panel.page.evaluate(`${STOPS}.length`);
      expect(count).toBeGreaterThan(1);
      const all = Array.from({ length: count }, (_, index) => index);
      await leave();
      expect(await walk('Tab')).toEqual(all);
      // A browser without a window goes round once more before it leaves.
      expect((await walk('Shift+Tab')).slice(0, count)).toEqual([...all].reverse());
      expect(await panel.breaches()).toEqual([]);
    },
  );

  /** To the beginning of the page, with nothing focused. */
  async function leave(): Promise<void> {
    await panel.page.evaluate(
      `document.body.tabIndex = -1; document.body.focus(); document.body.removeAttribute('tabindex')`,
    );
  }

  test('every action of the pointer has its key', async () => {
    panel = await OpenPanel.open(browser, bundle);
    await panel.show(alone.view);
    const press = (name: string) => panel.page.keyboard.press(name);
    const kinds = async () => (await panel.sent()).map(({ kind }: FromPanel) => kind);
    await panel.page.locator('.row').first().focus();
    await press('ArrowDown');
    await press('Enter');
    expect(await panel.lastSent()).toMatchObject({ kind: 'reveal' });
    await press('Shift+ArrowRight');
    await press('Enter');
    expect(await panel.lastSent()).toMatchObject({ kind: 'moveTo', fill: key });
    await press('ArrowDown');
    await press('p');
    expect(await panel.lastSent()).toMatchObject({ kind: 'pin', fill: 'R3-golden' });
    await press('/');
    expect(await panel.page.evaluate('document.activeElement.id')).toBe('find');
    await panel.page.keyboard.type('R4');
    expect(await panel.page.locator('.row').count()).toBe(1);
    await press('Escape');
    expect(await panel.page.locator('.row').count()).toBe(4);
    await panel.page.locator('.row').first().focus();
    for (const [name, expected] of [
      ['c', 'askCard'],
      ['Escape', 'askCard'],
      ['s', 'askCard'],
    ] as const) {
      await press(name);
      expect(await kinds()).toContain(expected);
    }
  });

  test('what happens is told to a screen reader', async () => {
    panel = await OpenPanel.open(browser, bundle);
    await panel.show(alone.view);
    const press = (name: string) => panel.page.keyboard.press(name);
    const told = () => panel.page.locator('p.unseen[role="status"]').textContent();
    await panel.page.locator('.row').first().focus();
    await press('t');
    expect(await told()).toBe('Table shown');
    await press('t');
    expect(await told()).toBe('Timeline shown');
    await press('ArrowDown');
    await press('c');
    await panel.say({ kind: 'roomCard', key, card: alone.room(key) });
    expect(await told()).toBe('Card: Room R2: Gala');
    expect(await panel.page.evaluate('document.activeElement.ariaLabel')).toBe('Card: Room R2: Gala');
    await press(']');
    await panel.say({ kind: 'roomCard', key: 'R3-golden', card: alone.room('R3-golden') });
    expect(await told()).toBe('Card: Room R3: Golden Delicious');
    // The same card once more, after an edit, is not told again.
    await panel.page.evaluate("document.querySelector('p.unseen[role=status]').textContent = ''");
    await panel.show({ ...alone.view, revision: 2 });
    await panel.say({ kind: 'roomCard', key: 'R3-golden', card: alone.room('R3-golden') });
    expect(await told()).toBe('');
    await press('Escape');
    expect(await told()).toBe('All rooms shown');
    await press('Shift+ArrowRight');
    expect(await told()).toMatch(/^R3: \d{4}-W\d\d$/);
    await panel.say({ kind: 'progress', text: 'Searching: 40 %', share: 0.4 });
    expect(await panel.page.locator('.progress-text[role="status"]').textContent()).toBe('Searching: 40 %');
    expect(await panel.page.getByRole('progressbar').getAttribute('aria-valuenow')).toBe('40');
  });
});
