import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from './fixtures.mjs';

/** The row of a room in the timeline. */
const rows = (view) => view.getByRole('row');

test.describe('the full-size season', () => {
  test.use({ options: { folder: 'full-season', file: 'fills.lotplan.yaml' } });

  test('timeline shows every room, a click lands on its line, and nothing is complained of', async ({ vscode }) => {
    const { page } = vscode;
    await test.step('the timeline is behind the symbol in the activity bar', async () => {
      await vscode.command('Lotwright: Open Room Timeline');
      await expect(vscode.webview().locator('body')).toContainText('N01', { timeout: 40_000 });
      await page.screenshot({ path: '/tmp/lw/t1.png' });
    });
  });
});
