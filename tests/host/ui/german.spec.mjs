import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from './fixtures.mjs';

/** Pictures to look at. */
const pictures = path.resolve(import.meta.dirname, '../../../out/pictures/views');

test.describe('a window in German', () => {
  test.use({
    options: {
      language: 'de',
      folder: 'first-season',
      file: 'fruit.lotplan.yaml',
      viewport: { width: 1280, height: 800 },
    },
  });

  test('has its views, commands and texts in German, with nothing cut off', async ({ vscode }) => {
    test.setTimeout(300_000);
    const { page, keys } = vscode;
    const view = vscode.webview();
    const rooms = view.getByRole('listbox', { name: 'Kühlzellen' }).getByRole('option');
    const shot = (name) =>
      page.screenshot({
        path: path.join(pictures, `german-${name}.png`),
        animations: 'disabled',
        caret: 'hide',
      });
    /** Buttons, headings and lists of the page whose text is wider than they are; the page itself, too. */
    const cutOff = async () =>
      (await vscode.webviewFrame()).evaluate(() =>
        [...document.querySelectorAll('html, button, summary, h1, h2, h3, select, .gauge')]
          .filter((one) => one.checkVisibility() && one.scrollWidth > one.clientWidth + 1)
          .map((one) => one.textContent.slice(0, 80)),
      );

    await test.step('the timeline', async () => {
      await vscode.command('Lotwright: Zeitleiste der Kühlzellen öffnen');
      await expect(rooms).toHaveCount(4, { timeout: 60_000 });
      await expect(rooms.nth(1)).toContainText('Auslagerung KW 01/2027, festgelegt');
      await expect(view.getByRole('button', { name: 'Auslagerungswochen suchen' })).toBeVisible();
      expect(await cutOff()).toEqual([]);
      await expect(view.locator('.caution')).toContainText('Verschlossene Kühlzellen töten');
      await shot('timeline');
    });

    await test.step('commands', async () => {
      await keys.press('F1');
      await page.locator('.quick-input-widget input[type="text"]').fill('>Lotwright: ');
      await expect(
        page.locator('.quick-input-widget .monaco-list-row', { hasText: 'Auslagerungswochen suchen' }),
      ).toBeVisible();
      await shot('commands');
      await keys.press('Escape');
    });

    await test.step('figures above entries and hints in the text', async () => {
      const lines = readFileSync(path.join(vscode.folder, 'fruit.lotplan.yaml'), 'utf8').split('\n');
      await vscode.goTo(lines.findIndex((line) => line.startsWith('  R2-gala:')) + 1);
      await expect(page.locator('.codelens-decoration a', { hasText: 'Großkisten' }).first()).toBeVisible();
      await expect(
        page.locator('.codelens-decoration a', { hasText: 'Auslagerung KW' }).first(),
      ).toBeVisible();
    });

    await test.step('hovers', async () => {
      const lines = readFileSync(path.join(vscode.folder, 'fruit.lotplan.yaml'), 'utf8').split('\n');
      const fill = lines.findIndex((line) => line.startsWith('  R2-gala:'));
      await vscode.goTo(fill + 1, 4);
      await vscode.command('Show or Focus Hover');
      const hover = page.locator('.monaco-hover:visible');
      await expect(hover).toContainText('Verschlossene Kühlzellen töten');
      await expect(hover).toContainText('Auslagerungsfenster KW');
      await expect(hover).toContainText('freies Gasvolumen');
      await shot('hover');
      await keys.press('Escape');
    });

    await test.step('the findings', async () => {
      await vscode.command('Problems: Focus on Problems View');
      const problems = page.locator('.markers-panel');
      await expect(problems).toContainText('weitere verschlossene Kühlzellen werden geöffnet werden');
      await expect(problems).toContainText('mit einem kalibrierten Messgerät zu messen');
      await shot('findings');
      await vscode.command('View: Hide Panel');
    });

    await test.step('the cards', async () => {
      await rooms.nth(1).click();
      await view.getByRole('button', { name: 'Karte von R2' }).click();
      await expect(view.getByRole('heading', { name: /^Kühlzelle R2/ })).toBeVisible();
      expect(await cutOff()).toEqual([]);
      await shot('room-card');
      await vscode.command('Lotwright: Karte der Saison zeigen');
      await expect(view.locator('.gauge').first()).toContainText('Kühlzellen');
      expect(await cutOff()).toEqual([]);
      await shot('season-card');
    });

    await test.step('the list of what to compare with', async () => {
      await vscode.commandThatAsks('Lotwright: Vergleichen mit …');
      await expect(page.locator('.quick-input-widget')).toContainText('Der zuletzt gespeicherte Text');
      await shot('compare');
      await keys.press('Escape');
    });

    await test.step('the walkthrough', async () => {
      await vscode.commandThatAsks('Welcome: Open Walkthrough');
      await vscode.choose('Eine Saison planen');
      await expect(page.locator('.gettingStartedContainer')).toContainText('Mit einem Beispiel beginnen');
      await shot('walkthrough');
    });

    await test.step('the settings', async () => {
      await vscode.command('Preferences: Open Settings (UI)');
      await page.locator('.settings-editor .monaco-editor').first().click();
      await keys.type('@ext:lotwright.lotwright');
      await expect(page.locator('.settings-editor')).toContainText('Auslagerungswochen suchen');
      await shot('settings');
    });
    expect(vscode.errors()).toEqual([]);
  });
});
