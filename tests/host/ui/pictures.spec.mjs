import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from './fixtures.mjs';
import { THEMES } from './themes.mjs';

const root = path.resolve(import.meta.dirname, '../../..');

/** Where the README's pictures go: `PICTURES=extension/pictures` writes them anew, else they lie with the others. */
const readme = path.resolve(root, process.env.PICTURES ?? 'out/pictures');

/** Every view in every theme, to be looked at. */
const all = path.join(root, 'out/pictures/views');

const FILE = 'fills.lotplan.yaml';

const SETTINGS = {
  'window.commandCenter': false,
  // biome-ignore lint/suspicious/noTemplateCurlyInString: VS Code fills these in
  'window.title': '${activeEditorShort} — ${rootName}',
};

/** What the page draws in. */
const COLOURS = [
  'text',
  'muted',
  'line',
  'focus',
  'link',
  'fruit',
  'gas',
  'keep',
  'late',
  'lack',
  'today',
].map((name) => `--${name}`);

const EDITOR = '--vscode-editor-background';

const shot = (page, file) => page.screenshot({ path: file, animations: 'disabled', caret: 'hide' });

/** The view that is open in every theme: a picture, and what axe says of it. */
async function inEveryTheme(vscode, view, { behind = '--vscode-sideBar-background', ...axe } = {}) {
  const { page } = vscode;
  for (const theme of THEMES) {
    await vscode.dress(theme);
    const frame = await vscode.webviewFrame();
    await frame.evaluate(() => new Promise((drawn) => requestAnimationFrame(drawn)));
    await shot(page, path.join(all, `${view}-${theme.look}.png`));
    // A theme may lack a colour of the editor's: nothing may be drawn in none.
    const lacking = await frame.evaluate((names) => {
      const style = getComputedStyle(document.documentElement);
      return names.filter((name) => style.getPropertyValue(name).trim() === '');
    }, COLOURS);
    expect(lacking, `colours in ${theme.label}`).toEqual([]);
    const { violations, passes } = await vscode.axe(frame, { behind, ...axe });
    expect(violations, `${view} in ${theme.label}`).toEqual([]);
    expect(passes).toBeGreaterThan(5);
    // The browser is started with reduced motion: nothing moves.
    expect(await frame.evaluate(() => document.getAnimations().length)).toBe(0);
  }
}

test.describe('every view', () => {
  test.use({
    options: {
      folder: 'full-season',
      file: FILE,
      viewport: { width: 1440, height: 900 },
      settings: SETTINGS,
    },
  });
  test('follows every theme and is accessible in it', async ({ vscode }) => {
    test.setTimeout(600_000);
    const { page, keys } = vscode;
    const view = vscode.webview();
    await vscode.command('Lotwright: Open Room Timeline');
    const rooms = view.getByRole('listbox', { name: 'Rooms' }).getByRole('option');
    await expect(rooms).toHaveCount(48, { timeout: 60_000 });

    await test.step('the timeline in a narrow side bar', async () => {
      await inEveryTheme(vscode, 'timeline-narrow');
      const over = await (await vscode.webviewFrame()).evaluate(
        () => document.documentElement.scrollWidth - window.innerWidth,
      );
      expect(over).toBe(0);
    });

    await test.step('the timeline with the schedule that was solved', async () => {
      await widenSideBar(page, 860);
      await view.getByRole('button', { name: 'Find release weeks' }).click();
      // The quick schedule's note goes when the solved one is there.
      await expect(view.getByText(/^Quick schedule/)).toHaveCount(0, { timeout: 90_000 });
      await expect(page.locator('.notifications-toasts .notification-list-item')).toHaveCount(0);
      await view.getByRole('button', { name: /fit/i }).click();
      await inEveryTheme(vscode, 'timeline');
      for (const theme of THEMES.slice(0, 3)) {
        await vscode.dress(theme);
        await shot(page, path.join(readme, `timeline-${theme.look}.png`));
      }
    });

    await test.step('its tables', async () => {
      await view.getByRole('button', { name: /table/i }).click();
      await inEveryTheme(vscode, 'tables');
      await view.getByRole('button', { name: /table/i }).click();
    });

    await test.step('the card of a room, as charts and as tables', async () => {
      await vscode.intoTimeline();
      await keys.press('Home');
      await keys.press('c');
      await expect(view.getByRole('heading', { level: 2, name: /^Room E01: / })).toBeVisible();
      await inEveryTheme(vscode, 'room-card');
      await view
        .getByRole('button', { name: /: tell how it came about$/ })
        .first()
        .click();
      await expect(view.locator('.derivation pre')).toBeVisible();
      await keys.press('t');
      await inEveryTheme(vscode, 'room-card-tables');
      await vscode.intoTimeline();
      await keys.press('t');
      await keys.press('Escape');
    });

    await test.step('the season card', async () => {
      await keys.press('s');
      await expect(view.locator('.gauge').first()).toBeVisible();
      await inEveryTheme(vscode, 'season-card');
      await vscode.intoTimeline();
      await keys.press('s');
    });
    expect(vscode.policyViolations()).toEqual([]);
  });

  test('follows every theme beside another state and in the editor area', async ({ vscode }) => {
    test.setTimeout(600_000);
    const { page, keys } = vscode;
    const view = vscode.webview();
    await vscode.command('Lotwright: Open Room Timeline');
    const rooms = view.getByRole('listbox', { name: 'Rooms' }).getByRole('option');
    await expect(rooms).toHaveCount(48, { timeout: 60_000 });

    await test.step('two states of the plan, beside each other', async () => {
      await widenSideBar(page, 860);
      await vscode.intoTimeline();
      // Moved along its row by keys and let go: the text has another pin than the last saved one.
      await keys.press('End');
      await keys.press('Home');
      await keys.press('Shift+ArrowRight');
      await keys.press('Enter');
      await expect(page.locator('.tab.active.dirty')).toHaveCount(1);
      await view.getByRole('button', { name: 'Compare…' }).click();
      await vscode.choose('The last saved text');
      await expect(view.getByText(/Against the last saved text: /)).toBeVisible({ timeout: 60_000 });
      await inEveryTheme(vscode, 'two-states');
    });

    await test.step('the whole season in the editor area', async () => {
      await vscode.command('View: Toggle Primary Side Bar Visibility');
      await vscode.command('Lotwright: Open Room Timeline in the Editor Area');
      await expect(rooms).toHaveCount(48, { timeout: 60_000 });
      await inEveryTheme(vscode, 'timeline-wide', { behind: EDITOR });
      await vscode.command('View: Close Editor');
    });
    expect(vscode.policyViolations()).toEqual([]);
  });
});

test.describe('a season with records', () => {
  test.use({
    options: {
      folder: 'in-march',
      file: 'records.lotplan.yaml',
      viewport: { width: 1600, height: 1100 },
      settings: SETTINGS,
    },
  });

  test('tells above its entries and on a card what came and what it teaches', async ({ vscode }) => {
    test.setTimeout(420_000);
    const { page } = vscode;
    const view = vscode.webview();
    const lens = (text) => page.locator('.codelens-decoration', { hasText: text }).first();
    const lensesInEveryTheme = async (name) => {
      for (const theme of THEMES) {
        await vscode.dress(theme);
        await shot(page, path.join(all, `${name}-${theme.look}.png`));
      }
    };
    await vscode.command('Lotwright: Open Room Timeline');
    await expect(view.getByRole('listbox', { name: 'Rooms' }).getByRole('option')).toHaveCount(4, {
      timeout: 60_000,
    });

    await test.step('above the records', async () => {
      await expect(lens('sealed 1 day later than planned')).toBeVisible({ timeout: 60_000 });
      await lensesInEveryTheme('records');
    });

    await test.step('above the entries of the plan', async () => {
      await vscode.open('fruit.lotplan.yaml');
      await vscode.goTo((await lineOf(vscode, '  R2-gala:')) + 6);
      await expect(lens('Readings say: respiration as a share')).toBeVisible({ timeout: 60_000 });
      await lensesInEveryTheme('lessons-in-text');
    });

    await test.step('on the card of the room', async () => {
      await widenSideBar(page, 900);
      await vscode.goTo(await lineOf(vscode, '  R2-gala:'), 4);
      await vscode.command('Lotwright: Show Room Card');
      await expect(view.getByRole('heading', { level: 2, name: /^Room R2: / })).toBeVisible();
      const lesson = view.locator('.lesson').first();
      await expect(lesson.locator('.lesson-picture').first()).toBeVisible({ timeout: 60_000 });
      await lesson.getByRole('button', { name: /^What it changes/ }).click();
      await expect(lesson.getByRole('status')).toContainText('changes', { timeout: 60_000 });
      await lesson.evaluate((part) => part.scrollIntoView());
      await inEveryTheme(vscode, 'lessons');
      await view
        .locator('.lesson')
        .last()
        .evaluate((part) => part.scrollIntoView({ block: 'end' }));
      await inEveryTheme(vscode, 'lessons-end');
    });

    await test.step('on the card of the room, as tables', async () => {
      await vscode.intoTimeline();
      await vscode.keys.press('t');
      const table = view.locator('.lesson table').first();
      await expect(table).toBeVisible();
      await table.evaluate((part) => part.closest('.lessons').scrollIntoView());
      await inEveryTheme(vscode, 'lessons-tables');
    });
    expect(vscode.errors()).toEqual([]);
    expect(vscode.policyViolations()).toEqual([]);
  });
});

test.describe('where there is no plan', () => {
  test.use({
    options: { folder: 'no-plan-here', viewport: { width: 1280, height: 800 }, settings: SETTINGS },
  });

  test('the timeline says why it is empty, and its first button leads to the sample', async ({ vscode }) => {
    test.setTimeout(300_000);
    const { page, keys } = vscode;
    const view = vscode.webview();
    await vscode.command('Lotwright: Open Room Timeline');
    await expect(view.locator('.why-empty')).toContainText('There is no plan here', { timeout: 60_000 });
    await inEveryTheme(vscode, 'no-plan');

    await test.step('the walkthrough, from the last of the buttons', async () => {
      await view.getByRole('button', { name: 'How to plan a season' }).click();
      await expect(page.locator('.gettingStartedContainer')).toContainText('Plan a season');
      await expect(page.locator('.gettingStartedContainer')).toContainText('Start from a sample');
      await walkthroughInEveryTheme(vscode);
      // Its own page would be the first of two.
      await vscode.command('View: Close Editor');
      await expect(page.locator('.gettingStartedContainer')).toHaveCount(0);
    });

    await test.step('by keys alone to the sample', async () => {
      await vscode.intoTimeline();
      await view.getByRole('button', { name: 'Copy the sample season' }).focus();
      await keys.press('Enter');
      await expect(page.locator('.tab.active', { hasText: 'fruit.lotplan.yaml' })).toBeVisible();
      await expect(view.getByRole('listbox', { name: 'Rooms' }).getByRole('option')).toHaveCount(4, {
        timeout: 60_000,
      });
    });
    expect(vscode.errors()).toEqual([]);
    expect(vscode.policyViolations()).toEqual([]);
  });
});

/** The walkthrough's page is the editor's own. Ours are the words of its steps and the page beside each of them. */
async function walkthroughInEveryTheme(vscode) {
  const { page } = vscode;
  // A narrow editor leaves the pages out.
  await page.setViewportSize({ width: 1700, height: 900 });
  const steps = page.locator('.gettingStartedContainer .getting-started-step');
  await expect(steps).toHaveCount(5);
  const frames = page.locator('.getting-started-media iframe.webview.ready');
  for (const theme of THEMES) {
    await vscode.dress(theme);
    for (let at = 0; at < 5; at += 1) {
      const step = steps.nth(at);
      await step.locator('.step-title').click();
      await expect(step).toHaveClass(/expanded/);
      await expect(frames).toHaveCount(1);
      const beside = frames.contentFrame().locator('iframe#active-frame');
      await expect(beside.contentFrame().locator('p, li, img').first()).toBeVisible();
      await shot(page, path.join(all, `walkthrough-${at + 1}-${theme.look}.png`));
      const frame = await (await beside.elementHandle()).contentFrame();
      // The page around our words is made by the editor, and so is what a page as a whole needs. It also colours an
      // example's code, in the colours of its theme.
      const ours = { runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'], behind: EDITOR };
      const rules = { 'document-title': { enabled: false }, 'html-has-lang': { enabled: false } };
      const inFrame = await vscode.axe(frame, { ...ours, rules, within: { exclude: ['pre'] } });
      expect(inFrame.violations, `page of step ${at + 1} in ${theme.label}`).toEqual([]);
      expect(inFrame.passes).toBeGreaterThan(0);
      const words = { include: ['.getting-started-step.expanded .step-description-container'] };
      const inPage = await vscode.axe(page.mainFrame(), { ...ours, within: words });
      expect(inPage.violations, `words of step ${at + 1} in ${theme.label}`).toEqual([]);
      expect(inPage.passes).toBeGreaterThan(0);
    }
  }
  await page.setViewportSize({ width: 1280, height: 800 });
}

/** The line of a text of the file that is open, counted from 1. */
async function lineOf({ folder, page }, text) {
  const name = await page.locator('.tab.active').getAttribute('data-resource-name');
  const lines = readFileSync(path.join(folder, name), 'utf8').split('\n');
  return lines.findIndex((line) => line.startsWith(text)) + 1;
}

/** Drags the edge of the side bar, as a person would to see more of the timeline. */
async function widenSideBar(page, width) {
  const side = await page.locator('.part.sidebar').boundingBox();
  const edge = side.x + side.width;
  await page.mouse.move(edge, 400);
  await page.mouse.down();
  await page.mouse.move(edge + 50, 400);
  await page.mouse.move(side.x + width, 400, { steps: 5 });
  await page.mouse.up();
}
