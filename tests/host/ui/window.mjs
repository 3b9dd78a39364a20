// What a person does in a VS Code window, by keys and by what can be seen.
import { expect } from '@playwright/test';
import axeSource from 'axe-core';

export class Window {
  constructor(page, server, folder) {
    this.page = page;
    this.server = server;
    this.folder = folder;
  }
  get keys() {
    return this.page.keyboard;
  }

  /** Drawn, editors restored, and every extension's contributions known: VS Code's own marks say so. */
  async ready() {
    await this.page.waitForFunction(
      () =>
        ['code/didStartWorkbench', 'code/didLoadExtensions', 'code/LifecyclePhase/Restored'].every(
          (m) => performance.getEntriesByName(m).length > 0,
        ),
      null,
      { timeout: 60_000, polling: 100 },
    );
  }
  editor(name) {
    return this.page
      .locator(`.editor-instance .monaco-editor[data-uri$="${name}"], .monaco-editor[data-uri$="${name}"]`)
      .first();
  }
  line(text) {
    return this.page.locator('.monaco-editor .view-line', { hasText: text }).first();
  }

  /**
   * Opens the quick input with these keys, types, and takes the row with this text. Something that takes the focus
   * meanwhile closes the list, and a list shows only what was known when it opened: so it is opened anew until it has it.
   * `asks`: what is taken opens a list of its own in the same place.
   */
  async pick(key, text, rowText, asks = false) {
    const widget = this.page.locator('.quick-input-widget');
    let again = false;
    await expect(async () => {
      // Not before it is needed: a page that has the focus would close its card.
      if (again) await this.keys.press('Escape');
      again = true;
      await this.keys.press(key);
      const input = widget.locator('input[type="text"]');
      await input.waitFor({ timeout: 3000 });
      await input.fill(text, { timeout: 2000 });
      const row = widget.locator('.monaco-list-row', { hasText: rowText }).first();
      await this.downTo(row);
      await this.keys.press('Enter');
      if (asks) await expect(input).not.toHaveValue(/^>/, { timeout: 4000 });
      else await expect(widget).toBeHidden({ timeout: 4000 });
    }).toPass({ timeout: 40_000 });
  }
  /** A longer name that has the same words may stand above the one that is meant. */
  async downTo(row) {
    for (let step = 0; step < 4; step += 1) {
      const there = await expect(row)
        .toHaveClass(/focused/, { timeout: 1500 })
        .then(
          () => true,
          () => false,
        );
      if (there) return;
      await this.keys.press('ArrowDown');
    }
    throw new Error('the row is not among the first of the list');
  }
  /** Runs a command by its name in the command palette. */
  command(title) {
    return this.pick('F1', `>${title}`, title);
  }
  /** The same of a command that asks something by a list. */
  commandThatAsks(title) {
    return this.pick('F1', `>${title}`, title, true);
  }
  /** Takes the row with this text from the list that a command has opened. */
  async choose(text) {
    const widget = this.page.locator('.quick-input-widget');
    await expect(widget).toBeVisible();
    await widget.locator('input[type="text"]').fill(text);
    await expect(widget.locator('.monaco-list-row', { hasText: text }).first()).toHaveClass(/focused/);
    await this.keys.press('Enter');
    await expect(widget).toBeHidden();
  }
  /** Changes the theme of the open window, as a person would, and waits until the page of the webview follows. */
  async dress({ label, kind }) {
    const shown = async () =>
      (await this.webviewFrame()).evaluate(() => document.body.dataset.vscodeThemeKind);
    await expect(async () => {
      if ((await shown()) === kind) return;
      await this.commandThatAsks('Preferences: Color Theme');
      await this.choose(label);
      await expect.poll(shown, { timeout: 8000 }).toBe(kind);
    }).toPass({ timeout: 80_000 });
  }
  /** Opens a file of the folder by its path. */
  async open(file) {
    const name = file.split('/').at(-1);
    await this.pick('Control+p', file, name);
    await expect(this.page.locator('.tab.active', { hasText: name })).toBeVisible();
    await expect(this.editor(name)).toBeVisible();
  }
  /** Puts the caret at a line and column (from 1), by keys. */
  async goTo(line, column = 1) {
    await this.keys.press('Control+g');
    const input = this.page.locator('.quick-input-widget input[type="text"]:visible').first();
    await expect(input).toBeVisible();
    await input.fill(`:${line}:${column}`);
    await this.keys.press('Enter');
    await expect(this.page.locator('.quick-input-widget')).toBeHidden();
    await expect(this.page.locator('#status\\.editor\\.selection')).toContainText(
      `Ln ${line}, Col ${column}`,
    );
  }
  async problems() {
    await this.command('Problems: Focus on Problems View');
    return this.page.locator('.markers-panel .monaco-list-row');
  }
  notification(text) {
    return this.page.locator('.notifications-toasts .notification-list-item', { hasText: text });
  }

  /** The page inside a webview: a frame within a frame. Give the index where several are open. */
  webview(index = 0) {
    return this.page
      .locator('iframe.webview.ready')
      .nth(index)
      .contentFrame()
      .locator('iframe#active-frame')
      .contentFrame();
  }
  /** The same as a Frame, for evaluate(): axe-core goes in that way, past the page's own content security policy. */
  async webviewFrame(index = 0) {
    await this.webview(index).locator('body').waitFor();
    const inner = await this.page
      .locator('iframe.webview.ready')
      .nth(index)
      .contentFrame()
      .locator('iframe#active-frame')
      .elementHandle();
    return inner.contentFrame();
  }
  /**
   * Keys go into the timeline, to what had the focus there last. The palette gives the focus back to where it was when
   * it closes, on a busy machine after the command has moved it: then the command is given again, as a person would.
   */
  async intoTimeline() {
    await expect(async () => {
      await this.command('Lotwright: Focus on Room Timeline View');
      await this.webviewFocused({ timeout: 6000 });
    }).toPass({ timeout: 60_000 });
  }
  /** Waits until keys go into the webview. */
  async webviewFocused({ index = 0, timeout = 20_000 } = {}) {
    await expect
      .poll(async () => (await this.webviewFrame(index)).evaluate(() => document.hasFocus()), { timeout })
      .toBe(true);
  }
  /**
   * axe-core in a webview's frame. Its page is transparent and axe does not look behind the frame: it would take
   * white for the background. So the colour of the part that the webview lies in is put there for the time. `within`
   * tells the parts of the page that are looked at and those that are not, as axe has them; all of it by default.
   */
  async axe(frame, { behind = '--vscode-sideBar-background', within, ...options } = {}) {
    await frame.evaluate(axeSource.source);
    const r = await frame.evaluate(
      async ({ behind, within, options }) => {
        const root = document.documentElement;
        const was = root.style.backgroundColor;
        root.style.backgroundColor = `var(${behind})`;
        try {
          return await axe.run(within ?? document, {
            runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'],
            ...options,
          });
        } finally {
          root.style.backgroundColor = was;
        }
      },
      { behind, within, options },
    );
    return {
      violations: r.violations.map((v) => ({
        id: v.id,
        impact: v.impact,
        nodes: v.nodes.map((n) => n.html),
      })),
      passes: r.passes.length,
    };
  }
}
