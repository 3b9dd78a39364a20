import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from './fixtures.mjs';

const MOST_STOPS = 60;

test.describe('without a mouse', () => {
  test.use({ options: { folder: 'first-season', file: 'fruit.lotplan.yaml' } });

  test('the timeline is come to, walked through and left, and its actions reach the editor', async ({
    vscode,
  }) => {
    test.setTimeout(240_000);
    const { page, keys } = vscode;
    const view = vscode.webview();
    const lines = readFileSync(path.join(vscode.folder, 'fruit.lotplan.yaml'), 'utf8').split('\n');
    const lineOf = (text) => lines.findIndex((each) => each.startsWith(text)) + 1;
    const rooms = view.getByRole('listbox', { name: 'Rooms' }).getByRole('option');
    await vscode.command('Lotwright: Open Room Timeline');
    await expect(rooms).toHaveCount(4, { timeout: 60_000 });

    /** The names of what the focus comes to, until it leaves the view. */
    const walk = async (press) => {
      const names = [];
      for (let step = 0; step < MOST_STOPS; step += 1) {
        await keys.press(press);
        const at = await (await vscode.webviewFrame()).evaluate(() => {
          const { activeElement: one } = document;
          return document.hasFocus() && one !== document.body
            ? (one.ariaLabel ?? one.textContent).trim().split(':')[0]
            : null;
        });
        if (at === null) return names;
        names.push(at);
      }
      throw new Error(`the focus does not leave the view by ${press}: ${names.join(', ')}`);
    };

    await test.step('in order, and out again both ways', async () => {
      await vscode.intoTimeline();
      await view.getByRole('button', { name: 'Find release weeks' }).focus();
      const forth = await walk('Tab');
      expect(forth.slice(0, 10)).toEqual([
        'Season',
        'Table',
        'Compare…',
        'Zoom out',
        'Zoom in',
        'Fit',
        'Order of rooms',
        'Which rooms',
        'Find rooms by name, variety, regime or fill',
        'Room R1',
      ]);
      await vscode.intoTimeline();
      await view.locator('.caution summary').focus();
      const back = await walk('Shift+Tab');
      expect(back.at(-1)).toBe('Find release weeks');
      expect(back.slice(0, -1).reverse().slice(0, 10)).toEqual(forth.slice(0, 10));
    });

    await test.step('roles, names and states as a screen reader has them', async () => {
      await expect(view.locator('body')).toMatchAriaSnapshot(`
        - heading "Orrowby Vale, harvest 2026" [level=1]
        - button "Find release weeks"
        - group "Zoom"
        - combobox "Order of rooms"
        - combobox "Which rooms"
        - searchbox "Find rooms by name, variety, regime or fill"
        - listbox "Rooms":
          - option /Room R1.* Gala, 154 bins/
          - option /Room R2.* Gala, 235 bins/
          - option /Room R3.*/
          - option /Room R4.*/
        - combobox "Variety for demand and supply"
        - status
      `);
    });

    await test.step('to the text, by Enter, and back', async () => {
      await vscode.intoTimeline();
      await keys.press('Home');
      await keys.press('ArrowDown');
      await keys.press('Enter');
      await expect(page.locator('.monaco-editor.focused')).toHaveCount(1);
      await expect(view.locator('.row[aria-current="true"]')).toHaveAttribute('data-key', 'R2-gala');
      // The caret in another room's text shows there too.
      await vscode.goTo(lineOf('  R4-braeburn:'));
      await expect(view.locator('.row[aria-current="true"]')).toHaveAttribute('data-key', 'R4-braeburn');
    });

    await test.step('an opening moved by keys is pinned in the text and undone', async () => {
      await vscode.intoTimeline();
      await keys.press('Home');
      await keys.press('ArrowDown');
      await keys.press('ArrowDown');
      await keys.press('Shift+ArrowRight');
      // Its week first, then what it would do.
      await expect(view.locator('p.unseen[role="status"]')).toHaveText(/^(R3: |Opened \()\d{4}-W\d\d/);
      await keys.press('Enter');
      await expect(page.locator('.tab.active.dirty')).toHaveCount(1);
      await vscode.command('View: Focus First Editor Group');
      await keys.press('Control+z');
      await expect(page.locator('.tab.active.dirty')).toHaveCount(0);
    });

    await test.step('the list of states to compare with, by its button, and away by Escape', async () => {
      await vscode.intoTimeline();
      await view.getByRole('button', { name: 'Compare…' }).focus();
      await keys.press('Enter');
      await expect(page.locator('.quick-input-widget')).toContainText('The last saved text');
      await keys.press('Escape');
      await expect(page.locator('.quick-input-widget')).toBeHidden();
    });

    await test.step('a card, its derivation, and back to the rooms', async () => {
      await vscode.intoTimeline();
      await keys.press('Home');
      await keys.press('ArrowDown');
      await keys.press('c');
      await expect(view.getByRole('article', { name: 'Card: Room R2: Gala' })).toBeFocused();
      await expect(view.locator('p.unseen[role="status"]')).toHaveText('Card: Room R2: Gala');
      await view.getByRole('button', { name: /^free gas volume, / }).focus();
      await keys.press('Enter');
      await expect(view.locator('.derivation pre')).toBeFocused();
      await keys.press('Escape');
      await expect(rooms.nth(1)).toBeFocused();
      await keys.press('s');
      await expect(view.getByRole('article', { name: 'Season card' })).toBeFocused();
      await keys.press('Escape');
      await expect(view.locator('p.unseen[role="status"]')).toHaveText('All rooms shown');
    });
    expect(vscode.errors()).toEqual([]);
  });
});
