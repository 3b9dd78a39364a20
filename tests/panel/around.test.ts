import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { type Bundle, browserIsThere, bundlePanel, launch, type Page } from './browser';
import { OpenPanel, type PanelOptions } from './open-panel';
import { themes } from './themes';
import { sampleView } from './views';

const view = sampleView('first-season');
const at = view.rows.findIndex(({ opens }) => opens !== undefined);
const { key, opens } = view.rows[at] ?? { key: '' };
const week = (opens?.week ?? 0) + 1;
const text = '2 rooms moved along would win back EUR 1,200: N04 to 2027-W02, N05 to 2027-W03.';

describe.skipIf(!browserIsThere())('others moved along, in the timeline', () => {
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

  async function held(options: PanelOptions = {}): Promise<void> {
    panel = await OpenPanel.open(browser, bundle, options);
    await panel.show(view);
    await panel.page.locator('.row').nth(at).focus();
    await panel.page.keyboard.press('Shift+ArrowRight');
  }
  const offered = () => panel.say({ kind: 'around', fill: key, week, text, rooms: 2 });
  const offer = () => panel.page.locator('.around');
  const pins = async () => (await panel.sent()).filter(({ kind }) => kind === 'pinAround');

  test('an offer for the week that is held is told, and A takes it in place of letting go', async () => {
    await held();
    expect(await offer().isVisible()).toBe(false);
    await offered();
    expect(await offer().textContent()).toContain(text);
    expect(await panel.page.locator('[role="status"].unseen').textContent()).toBe(text);
    await panel.page.keyboard.press('a');
    expect(await pins()).toEqual([{ kind: 'pinAround', fill: key, week }]);
    expect(await panel.page.locator('.moving').count()).toBe(0);
    expect((await panel.sent()).filter(({ kind }) => kind === 'moveTo')).toEqual([]);
    expect(await offer().isVisible()).toBe(false);
  });

  test('after the opening is let go the offer stands, and its button takes it', async () => {
    await held();
    await panel.page.keyboard.press('Enter');
    await offered();
    expect(await offer().isVisible()).toBe(true);
    await offer().locator('button').click();
    expect(await pins()).toHaveLength(1);
  });

  test('it goes when the opening is put back, moved on, or another room is chosen', async () => {
    await held();
    await offered();
    await panel.page.keyboard.press('Shift+ArrowRight');
    expect(await offer().isVisible()).toBe(false);
    // An offer for the week before comes too late.
    await offered();
    expect(await offer().isVisible()).toBe(false);
    await panel.page.keyboard.press('Shift+ArrowLeft');
    await offered();
    await panel.page.keyboard.press('Escape');
    expect(await offer().isVisible()).toBe(false);
    await panel.page.keyboard.press('a');
    expect(await pins()).toEqual([]);
  });

  test.each(Object.keys(themes) as (keyof typeof themes)[])(
    'is accessible in the theme %s',
    async (theme) => {
      await held({ theme });
      await offered();
      expect(await panel.breaches()).toEqual([]);
    },
  );
});
