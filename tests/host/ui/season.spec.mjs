import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from './fixtures.mjs';

const FOLDER = 'full-season';
const FILE = 'fills.lotplan.yaml';
const rooms = (vscode) => vscode.webview().getByRole('listbox', { name: 'Rooms' }).getByRole('option');

/** Opens the timeline and waits until its rooms are drawn. */
async function openTimeline(vscode) {
  await vscode.command('Lotwright: Open Room Timeline');
  await expect(rooms(vscode)).toHaveCount(48, { timeout: 60_000 });
}

test.describe('the full-size season in a window', () => {
  test.use({ options: { folder: FOLDER, file: FILE } });

  test('the timeline has every room, and a click lands on its line', async ({ vscode }) => {
    const { page } = vscode;
    await openTimeline(vscode);
    const text = readFileSync(path.join(vscode.folder, FILE), 'utf8').split('\n');
    const line = text.findIndex((each) => each.trimStart().startsWith('N09-gala:')) + 1;
    await rooms(vscode).filter({ hasText: 'N09' }).first().click();
    await expect(page.locator('#status\\.editor\\.selection')).toContainText(`Ln ${line},`);

    await test.step('by keys alone', async () => {
      await vscode.command('Lotwright: Focus on Room Timeline View');
      await vscode.webviewFocused();
      // The focus comes back to the row it was on; Home goes to the first.
      await vscode.keys.press('Home');
      await expect(rooms(vscode).first()).toBeFocused();
      await vscode.keys.press('ArrowDown');
      await expect(rooms(vscode).nth(1)).toBeFocused();
      await vscode.keys.press('Enter');
      const key = await rooms(vscode).nth(1).getAttribute('data-key');
      const second = text.indexOf(`  ${key}:`) + 1;
      await expect(page.locator('#status\\.editor\\.selection')).toContainText(`Ln ${second},`);
    });

    await test.step('it is accessible, and nothing is complained of', async () => {
      const { violations, passes } = await vscode.axe(await vscode.webviewFrame());
      expect(violations).toEqual([]);
      expect(passes).toBeGreaterThan(10);
      expect(vscode.errors()).toEqual([]);
      expect(vscode.policyViolations()).toEqual([]);
    });
  });

  test('a mistake is marked as it is typed and the mark goes when it is mended', async ({ vscode }) => {
    const { page, keys } = vscode;
    const text = readFileSync(path.join(vscode.folder, FILE), 'utf8').split('\n');
    const line = text.findIndex((each) => each.includes('room: N09')) + 1;
    await expect(vscode.editor(FILE)).toBeVisible();
    await expect(page.locator('.squiggly-error')).toHaveCount(0);
    await vscode.goTo(line, (text[line - 1]?.indexOf('N09') ?? 0) + 4);
    await keys.type('9');
    await expect(page.locator('.squiggly-error')).toHaveCount(1);
    await keys.press('Backspace');
    await expect(page.locator('.squiggly-error')).toHaveCount(0);

    await test.step('the caret on a room name explains it and leads to its definition', async () => {
      await vscode.goTo(line, (text[line - 1]?.indexOf('N09') ?? 0) + 2);
      await keys.press('Control+k');
      await keys.press('Control+i');
      await expect(
        page.locator('.monaco-hover:not(.hidden)').filter({ hasText: 'N09' }).first(),
      ).toBeVisible();
      await keys.press('Escape');
      await keys.press('F12');
      await expect(page.locator('.tab.active', { hasText: 'rooms-north.lotplan.yaml' })).toBeVisible();
    });
    expect(vscode.errors()).toEqual([]);
  });

  test('the weeks found are pinned once that is confirmed, a single room by its key, and undone', async ({
    vscode,
  }) => {
    const { page, keys } = vscode;
    await openTimeline(vscode);
    const pins = () => vscode.webview().locator('.row .pin-head').count();
    const before = await pins();
    const free = rooms(vscode).and(vscode.webview().locator('[data-vscode-context*="canPin"]'));
    await free.first().click();
    const key = await free.first().getAttribute('data-key');
    await expect(vscode.webview().getByRole('button', { name: /^Pin \w+ to \d{4}-W\d\d$/ })).toBeVisible();

    await test.step('one room, with P', async () => {
      await vscode.command('Lotwright: Focus on Room Timeline View');
      await vscode.webviewFocused();
      await keys.press('p');
      await expect.poll(pins).toBe(before + 1);
      const row = vscode.webview().locator(`.row[data-key="${key}"]`);
      await expect(row.locator('.unseen')).toContainText(', pinned');
      // The detail beneath tells the new view, not the old one.
      await expect(vscode.webview().locator('.told')).toContainText(', pinned');
    });

    await test.step('all others', async () => {
      await vscode.command('Lotwright: Pin the Weeks Found');
      const dialog = page.locator('.monaco-dialog-box');
      await expect(dialog).toContainText(/Pin \d+ rooms of .+ to the weeks found\?/);
      await keys.press('Escape');
      await expect(dialog).toHaveCount(0);
      expect(await pins()).toBe(before + 1);
      await vscode.command('Lotwright: Pin the Weeks Found');
      await dialog.getByRole('button', { name: /^Pin \d+ rooms$/ }).click();
      await expect
        .poll(pins, { timeout: 20_000 })
        .toBe(await vscode.webview().locator('.row [data-mark="opens"]').count());
    });

    await test.step('undone in two steps', async () => {
      // A click may land on the figures above an entry, which show a page.
      await vscode.command('View: Focus First Editor Group');
      await keys.press('Control+z');
      await expect.poll(pins, { timeout: 20_000 }).toBe(before + 1);
      await keys.press('Control+z');
      await expect.poll(pins, { timeout: 20_000 }).toBe(before);
    });
    expect(vscode.errors()).toEqual([]);
  });

  test('what the timeline shows survives hiding it', async ({ vscode }) => {
    await openTimeline(vscode);
    await vscode.webview().getByRole('button', { name: /table/i }).click();
    await expect(vscode.webview().getByRole('table', { name: 'Rooms' })).toBeVisible();
    await vscode.command('View: Show Explorer');
    await vscode.command('Lotwright: Open Room Timeline');
    await expect(vscode.webview().getByRole('table', { name: 'Rooms' })).toBeVisible();
    await expect(vscode.webview().getByRole('table', { name: 'Rooms' }).getByRole('row')).toHaveCount(49);
  });
});
