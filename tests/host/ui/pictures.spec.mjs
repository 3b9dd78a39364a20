import path from 'node:path';
import { expect, test } from './fixtures.mjs';

/** Where the README's pictures go: `PICTURES=extension/pictures` writes them anew, else they are made and thrown away. */
const to = path.resolve(import.meta.dirname, '../../..', process.env.PICTURES ?? 'out/pictures');

const THEMES = [
  ['dark', 'Default Dark Modern', 'vscode-dark'],
  ['light', 'Default Light Modern', 'vscode-light'],
  ['high-contrast', 'Default High Contrast', 'vscode-high-contrast'],
];

for (const [name, theme, kind] of THEMES) {
  test.describe(theme, () => {
    test.use({
      options: {
        folder: 'full-season',
        file: 'fills.lotplan.yaml',
        viewport: { width: 1440, height: 900 },
        settings: {
          'workbench.colorTheme': theme,
          'window.commandCenter': false,
          // biome-ignore lint/suspicious/noTemplateCurlyInString: VS Code fills these in
          'window.title': '${activeEditorShort} — ${rootName}',
        },
      },
    });
    test(`the timeline in ${theme} follows it and is accessible`, async ({ vscode }) => {
      const { page } = vscode;
      await vscode.command('Lotwright: Open Room Timeline');
      const rooms = vscode.webview().getByRole('listbox', { name: 'Rooms' }).getByRole('option');
      await expect(rooms).toHaveCount(48, { timeout: 60_000 });
      await widenSideBar(page, 860);
      await vscode.webview().getByRole('button', { name: 'Find release weeks' }).click();
      // The quick schedule's note goes when the solved one is there.
      await expect(vscode.webview().getByText(/^Quick schedule/)).toHaveCount(0, { timeout: 90_000 });
      await expect(page.locator('.notifications-toasts .notification-list-item')).toHaveCount(0);
      await vscode.webview().getByRole('button', { name: /fit/i }).click();
      const frame = await vscode.webviewFrame();
      expect(await frame.evaluate(() => document.body.dataset.vscodeThemeKind)).toBe(kind);
      await page.screenshot({
        path: path.join(to, `timeline-${name}.png`),
        animations: 'disabled',
        caret: 'hide',
      });
      expect((await vscode.axe(frame)).violations).toEqual([]);
      expect(vscode.policyViolations()).toEqual([]);
    });
  });
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
