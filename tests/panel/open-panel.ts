import type { FromPanel, TimelineView, ToPanel } from '../../src/report/timeline-types';
import { axeSource, type Bundle, type Page, servePanel } from './browser';
import { type Theme, themes } from './themes';

export interface PanelOptions {
  readonly width?: number;
  readonly height?: number;
  readonly theme?: keyof typeof themes;
  readonly language?: string;
  readonly words?: Readonly<Record<string, string>>;
}

/** A panel in a plain page: what the extension says to it, and what it says back. */
export class OpenPanel {
  /** Errors and warnings of the page's console; breaches of its policy are among them. */
  readonly complaints: string[] = [];

  private constructor(
    readonly page: Page,
    private readonly context: Page,
    private readonly theme: Theme,
  ) {}

  static async open(browser: Page, bundle: Bundle, options: PanelOptions = {}): Promise<OpenPanel> {
    const { width = 1200, height = 860, theme = 'dark' } = options;
    const context = await browser.newContext({ viewport: { width, height }, reducedMotion: 'reduce' });
    const page = await context.newPage();
    const panel = new OpenPanel(page, context, themes[theme]);
    page.on('console', (message: Page) => {
      if (['error', 'warning'].includes(message.type())) panel.complaints.push(message.text());
    });
    page.on('pageerror', (error: unknown) => panel.complaints.push(String(error)));
    await page.addInitScript(
      "globalThis.sent = []; addEventListener('panel-message', ({ detail }) => sent.push(detail));",
    );
    await servePanel(page, bundle, options);
    await panel.dress();
    return panel;
  }

  /** As the editor does it: colours as properties of the root, the kind of theme as a class of the body. */
  private async dress(): Promise<void> {
    await this.page.evaluate(`{
      const { kind, colours } = ${JSON.stringify(this.theme)};
      document.body.className = kind;
      for (const [name, value] of Object.entries(colours))
        document.documentElement.style.setProperty('--vscode-' + name, value);
    }`);
  }

  async say(message: ToPanel): Promise<void> {
    await this.page.evaluate(`postMessage(${JSON.stringify(message)}, '*')`);
    // The message is a task of its own; a frame later it has been drawn.
    await this.frame();
  }

  async show(view: TimelineView): Promise<void> {
    await this.say({ kind: 'view', view });
  }

  async frame(): Promise<void> {
    await this.page.evaluate('new Promise((drawn) => setTimeout(() => requestAnimationFrame(drawn), 0))');
  }

  /** What the page has said so far. */
  async sent(): Promise<FromPanel[]> {
    return this.page.evaluate('sent');
  }

  /** What it asked for or told last; questions about weeks, which come by themselves a moment later, left out. */
  async lastSent(): Promise<FromPanel | undefined> {
    return (await this.sent()).findLast(({ kind }) => kind !== 'askWeek');
  }

  async lastAsked(): Promise<FromPanel | undefined> {
    return (await this.sent()).findLast(({ kind }) => kind === 'askWeek');
  }

  /** The page goes and comes back, as when the view is hidden and shown. */
  async reload(view: TimelineView): Promise<void> {
    await this.page.reload();
    await this.dress();
    await this.show(view);
  }

  /** Breaches of the accessibility rules, as `rule: where`. */
  async breaches(): Promise<string[]> {
    await this.page.evaluate(axeSource());
    return this.page.evaluate(`axe.run(document).then(({ violations }) =>
      violations.flatMap(({ id, nodes }) => nodes.map((one) => id + ': ' + one.target + ' ' + one.failureSummary)),
    )`);
  }

  close(): Promise<void> {
    return this.context.close();
  }
}
