import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { type Bundle, browserIsThere, bundlePanel, launch, type Page } from './browser';
import { OpenPanel, type PanelOptions } from './open-panel';
import { themes } from './themes';
import { sampleView, withRows } from './views';

const view = sampleView('full-season');
const row = (at: number) => view.rows[at] as (typeof view.rows)[number];
const pinned = view.rows.findIndex(({ opens }) => opens?.target !== undefined);

// On a machine without the browser of the suites in VS Code there is nothing to run these in.
describe.skipIf(!browserIsThere())('the panel in a browser', () => {
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

  async function open(options?: PanelOptions, shown = view): Promise<OpenPanel> {
    panel = await OpenPanel.open(browser, bundle, options);
    await panel.show(shown);
    return panel;
  }
  const rows = () => panel.page.locator('.row');
  const chosen = () => panel.page.locator('.row[aria-selected="true"]').getAttribute('data-key');
  const chosenOf = (what: string) => panel.page.locator(what).first().getAttribute('data-key');
  const press = (key: string) => panel.page.keyboard.press(key);

  test('says that it is ready, and draws a row a room with its shapes', async () => {
    await open();
    expect((await panel.sent())[0]).toEqual({ kind: 'ready' });
    expect(await rows().count()).toBe(48);
    expect(await panel.page.getByRole('option', { name: row(0).description, exact: true }).count()).toBe(1);
    expect(await panel.page.locator('.row .keeping').count()).toBe(
      view.rows.filter(({ keeping }) => keeping).length,
    );
    expect(await panel.page.locator('.row [data-mark="opens"]').count()).toBe(
      view.rows.filter(({ opens }) => opens).length,
    );
    expect(await panel.page.locator('.pin-head').count()).toBe(
      // One more in the key.
      view.rows.filter(({ opens }) => opens?.pinned).length + 1,
    );
    expect(await panel.page.locator('.toolbar h1').textContent()).toBe(view.title);
  });

  test('draws a room where its weeks are', async () => {
    await open();
    const track = await rows().first().locator('.track').boundingBox();
    const bar = await rows().first().locator('.keeping').boundingBox();
    const { keeping } = row(0);
    const week = track.width / view.weeks.length;
    // Half a pixel of edge lies outside a shape.
    expect(Math.abs(bar.x - track.x - week * (keeping?.from ?? 0))).toBeLessThan(1);
    expect(Math.abs(bar.width - week * ((keeping?.to ?? 0) - (keeping?.from ?? 0)))).toBeLessThan(2);
  });

  test('a click leads to the fill in the text, one on the pin to the pinned week', async () => {
    await open();
    await rows().nth(3).locator('.room').click();
    expect(await panel.lastSent()).toEqual({ kind: 'reveal', target: row(3).target });
    expect(await chosen()).toBe(row(3).key);
    await rows().nth(pinned).locator('[data-mark="opens"] .pin-eye').click();
    expect(await panel.lastSent()).toEqual({ kind: 'reveal', target: row(pinned).opens?.target });
  });

  const movable = view.rows.findIndex(({ opens }) => opens !== undefined && !opens.pinned);

  test('an opening is moved by keys: asked about at each week, pinned with Enter, put back with Escape', async () => {
    await open();
    const { key, opens } = row(movable);
    const week = opens?.week ?? 0;
    await rows().nth(movable).focus();
    await press('Shift+ArrowRight');
    await press('Shift+ArrowRight');
    expect(await panel.page.locator('.moving').count()).toBe(1);
    await panel.page.waitForTimeout(120);
    expect(await panel.lastAsked()).toEqual({ kind: 'askWeek', fill: key, week: week + 2 });
    const text = 'Opening it then (2027-W11) costs 1,200 more.';
    await panel.say({ kind: 'otherWeek', fill: key, week: week + 2, text, breaks: false });
    expect(await panel.page.locator('.why').textContent()).toBe(text);
    expect(await panel.page.locator('[role="status"].unseen').textContent()).toBe(text);
    await press('Escape');
    expect(await panel.page.locator('.moving').count()).toBe(0);
    expect((await panel.sent()).filter(({ kind }) => kind === 'moveTo')).toEqual([]);
    await press('Shift+ArrowLeft');
    await press('Enter');
    expect((await panel.sent()).filter(({ kind }) => kind === 'moveTo')).toEqual([
      { kind: 'moveTo', fill: key, week: week - 1 },
    ]);
  });

  test('an opening is dragged to another week, and the drag is no click', async () => {
    await open();
    const { key, opens } = row(movable);
    const mark = await rows().nth(movable).locator('[data-mark="opens"] .diamond').boundingBox();
    const track = await rows().nth(movable).locator('.track').boundingBox();
    const weekWidth = track.width / view.weeks.length;
    const [x, y] = [mark.x + mark.width / 2, mark.y + mark.height / 2];
    await panel.page.mouse.move(x, y);
    await panel.page.mouse.down();
    await panel.page.mouse.move(x + 3 * weekWidth, y, { steps: 4 });
    expect(await panel.page.locator('.moving').count()).toBe(1);
    expect(await panel.page.locator('.told').textContent()).toContain('Escape puts it back');
    await panel.page.mouse.up();
    const sent = await panel.sent();
    expect(sent.filter(({ kind }) => kind === 'moveTo')).toEqual([
      { kind: 'moveTo', fill: key, week: (opens?.week ?? 0) + 3 },
    ]);
    expect(sent.filter(({ kind }) => kind === 'reveal')).toEqual([]);
    expect(await panel.page.locator('.moving').count()).toBe(0);
  });

  test('a pointer over an opening has its season valued once, before a drag asks week after week', async () => {
    await open();
    const asked = async () => (await panel.sent()).filter(({ kind }) => kind === 'askWeek');
    await rows().nth(movable).locator('.diamond').hover();
    await rows().nth(3).locator('.room').hover();
    await rows().nth(movable).locator('.diamond').hover();
    const { key } = row(movable);
    expect(await asked()).toEqual([{ kind: 'askWeek', fill: key }]);
    // The room is not the chosen one: what is answered is not told.
    await panel.say({ kind: 'otherWeek', fill: key, text: 'A week earlier costs 40.', breaks: false });
    expect(await panel.page.locator('.why').isVisible()).toBe(false);
    await panel.show({ ...view, revision: view.revision + 1 });
    await panel.page.mouse.move(0, 0);
    await rows().nth(movable).locator('.diamond').hover();
    expect(await asked()).toHaveLength(2);
  });

  test('what is told beneath the rooms moves none of them: it grows, and shrinks no more', async () => {
    await open();
    await rows().nth(movable).locator('.room').click();
    const { key } = row(movable);
    const text =
      'A week earlier costs 40; a week later costs 1,200, for the home market is short of it. '.repeat(4);
    await panel.say({ kind: 'otherWeek', fill: key, text, breaks: false });
    const heights = () =>
      panel.page.evaluate("['.chart', '.detail'].map((one) => document.querySelector(one).offsetHeight)");
    const before = await heights();
    await press('Shift+ArrowRight');
    expect(await panel.page.locator('.why').isVisible()).toBe(false);
    expect(await heights()).toEqual(before);
    await press('Escape');
  });

  test('says so where no room fits what is looked for, instead of showing nothing', async () => {
    await open();
    const words = () =>
      panel.page.evaluate("getComputedStyle(document.querySelector('.rows'), '::before').content");
    expect(await words()).toBe('none');
    await panel.page.locator('#find').fill('no such room');
    expect(await words()).toContain('No room fits. Clear the search');
    expect(await panel.page.locator('.count').textContent()).toMatch(/^0 of /);
    await panel.page.locator('#find').fill('');
  });

  test('while an opening is held over a week, no button offers to pin another', async () => {
    await open();
    await rows().nth(movable).locator('.room').click();
    const button = panel.page.locator('.pin-button');
    expect(await button.isVisible()).toBe(true);
    await press('Shift+ArrowRight');
    expect(await button.isVisible()).toBe(false);
    await press('Escape');
    expect(await button.isVisible()).toBe(true);
  });

  test('the chosen room is asked why it opens when it does, and the answer is shown', async () => {
    await open();
    await rows().nth(movable).locator('.room').click();
    await panel.page.waitForTimeout(120);
    const { key } = row(movable);
    expect(await panel.lastAsked()).toEqual({ kind: 'askWeek', fill: key });
    await panel.say({ kind: 'otherWeek', fill: key, text: 'A week earlier costs 40.', breaks: false });
    expect(await panel.page.locator('.why').textContent()).toBe('A week earlier costs 40.');
    // An answer to another question is not shown.
    await panel.say({ kind: 'otherWeek', fill: 'other', text: 'Not asked.', breaks: false });
    expect(await panel.page.locator('.why').textContent()).toBe('A week earlier costs 40.');
  });

  test('hands over a picture of the rooms as they are arranged, as text and as dots', async () => {
    await open();
    await panel.page.locator('#find').fill('gala');
    await panel.say({ kind: 'makePicture', format: 'svg' });
    const svg = await panel.lastSent();
    expect(svg).toMatchObject({ kind: 'picture', format: 'svg' });
    const shown = view.rows.filter(({ varieties, key }) =>
      `${varieties} ${key}`.toLowerCase().includes('gala'),
    );
    if (svg?.kind !== 'picture' || svg.data === null) throw new Error('no picture');
    expect(
      await panel.page.evaluate(`new DOMParser().parseFromString(${JSON.stringify(svg.data)}, 'image/svg+xml')
      .querySelector('parsererror') === null`),
    ).toBe(true);
    expect(svg.data).toContain(`>${shown[0]?.room}</text>`);
    await panel.say({ kind: 'makePicture', format: 'png' });
    await panel.page.waitForFunction(
      "sent.some(({ kind, format }) => kind === 'picture' && format === 'png')",
    );
    const png = await panel.lastSent();
    if (png?.kind !== 'picture' || png.data === null) throw new Error('no dots');
    expect(Buffer.from(png.data, 'base64').subarray(1, 4).toString()).toBe('PNG');
  });

  test('rooms are found by words and ordered as the planner likes, and both are kept', async () => {
    await open();
    const keys = async () =>
      panel.page.locator('.row').evaluateAll((all: Page) => all.map((one: Page) => one.dataset.key));
    const all = await keys();
    await rows().first().focus();
    await press('/');
    await panel.page.keyboard.type('gala north');
    expect(await keys()).toEqual(
      view.rows
        .filter(({ key, room, varieties, regime }) => {
          const text = `${key} ${room} ${varieties} ${regime}`.toLowerCase();
          return text.includes('gala') && text.includes('north');
        })
        .map(({ key }) => key),
    );
    await press('Escape');
    expect(await keys()).toEqual(all);
    await panel.page.locator('#order').selectOption('week');
    const weeks = (await keys()).map((key: string) => view.rows.find((one) => one.key === key)?.opens?.week);
    const known = weeks.filter((week: number | undefined) => week !== undefined);
    expect(known).toEqual([...known].sort((a: number, b: number) => a - b));
    expect(weeks.slice(known.length).every((week: number | undefined) => week === undefined)).toBe(true);
    const ordered = await keys();
    await panel.frame();
    await panel.page.waitForTimeout(200);
    await panel.reload(view);
    expect(await keys()).toEqual(ordered);
  });

  test('rows are reached by keyboard: one tab stop, arrows, Home, End, Enter', async () => {
    await open();
    expect(await panel.page.locator('.row[tabindex="0"]').count()).toBe(1);
    await rows().first().focus();
    await press('ArrowDown');
    await press('ArrowDown');
    expect(await chosen()).toBe(row(2).key);
    await press('Enter');
    expect(await panel.lastSent()).toEqual({ kind: 'reveal', target: row(2).target });
    expect(await panel.page.locator('.told').textContent()).toBe(row(2).description);
    await press('End');
    expect(await chosen()).toBe(view.rows.at(-1)?.key);
    // The last row is not behind the scrubbers.
    const last = await rows().last().boundingBox();
    const dock = await panel.page.locator('.dock').boundingBox();
    expect(last.y + last.height).toBeLessThanOrEqual(dock.y + 1);
    await press('ArrowDown');
    expect(await chosen()).toBe(view.rows.at(-1)?.key);
    await press('Home');
    expect(await chosen()).toBe(row(0).key);
    expect(await panel.page.locator('.row[tabindex="0"]').count()).toBe(1);
  });

  test('what is told of a week or a room is told anew from a new view', async () => {
    await open();
    await rows().nth(2).hover();
    const told = () => panel.page.locator('.told').textContent();
    expect(await told()).toBe(row(2).description);
    const changed = view.rows.map((one, at) => (at === 2 ? { ...one, description: 'Opens later.' } : one));
    await panel.show({ ...view, revision: 2, rows: changed });
    expect(await told()).toBe('Opens later.');
    const track = await panel.page.locator('.band.supply .track').boundingBox();
    await panel.page.mouse.move(track.x + (track.width * 10.5) / view.weeks.length, track.y + 20);
    const before = await told();
    const supply = view.supply.map((one) => ({ ...one, supply: one.supply.map((cartons) => cartons + 1) }));
    await panel.show({ ...view, revision: 3, supply });
    expect(await told()).not.toBe(before);
    // The chosen room, too, once nothing is pointed at.
    await rows().nth(2).click();
    await panel.page.mouse.move(5, 5);
    await panel.show({ ...view, revision: 4 });
    expect(await told()).toBe(row(2).description);
  });

  test("a room's week is pinned with P, by the button, and from the table; never twice", async () => {
    await open();
    const free = view.rows.findIndex(({ pin }) => pin !== undefined);
    const button = panel.page.locator('.detail .pin-button');
    expect(await button.isVisible()).toBe(false);
    await rows().nth(free).click();
    expect(await button.textContent()).toBe(`Pin ${row(free).room} to ${row(free).pin}`);
    const pin = { kind: 'pin', fill: row(free).key };
    await press('p');
    expect(await panel.lastSent()).toEqual(pin);
    await rows().nth(pinned).click();
    expect(await button.isVisible()).toBe(false);
    await press('p');
    expect(await panel.lastSent()).toMatchObject({ kind: 'reveal' });
    expect(await panel.page.locator('[role="status"].unseen').textContent()).toBe(
      `${row(pinned).room} is pinned already`,
    );
    await rows().nth(free).click();
    await button.click();
    expect(await panel.lastSent()).toEqual(pin);
    await button.focus();
    const { pin: gone, ...now } = row(free);
    await panel.show({ ...view, revision: 2, rows: view.rows.map((one, at) => (at === free ? now : one)) });
    // The focus is not lost with the button.
    expect(gone).toBeDefined();
    expect(await panel.page.evaluate('document.activeElement.dataset.key')).toBe(row(free).key);
    await panel.show({ ...view, revision: 3 });
    await press('t');
    await panel.page.locator('#rooms-table tbody button').nth(free).focus();
    await press('p');
    expect(await panel.lastSent()).toEqual(pin);
  });

  test("the editor's menu over a row knows the fill and whether it can be pinned", async () => {
    await open();
    const contexts = await rows().evaluateAll((elements: Page[]) =>
      elements.map((element) => JSON.parse(element.dataset.vscodeContext)),
    );
    expect(contexts.map(({ fill }: Page) => fill)).toEqual(view.rows.map(({ key }) => key));
    expect(contexts.map(({ webviewSection }: Page) => webviewSection === 'canPin')).toEqual(
      view.rows.map(({ pin }) => pin !== undefined),
    );
  });

  test.each([300, 380, 480, 860])('nothing runs into the chart at %d px', async (width) => {
    await open({ width });
    const cut = await panel.page
      .locator('.band.scrubber .name')
      .evaluateAll(
        (names: Page[]) => names.filter(({ scrollWidth, clientWidth }) => scrollWidth > clientWidth).length,
      );
    expect(cut).toBe(0);
    // What is short can be read before anything else.
    expect(await panel.page.locator('.summary').first().textContent()).toMatch(/^Short by [\d,]+ in/);
    await press('t');
    const shown = await panel.page.locator('#rooms-table').boundingBox();
    const opens = await panel.page.locator('#rooms-table thead th').nth(2).boundingBox();
    expect(await panel.page.locator('#rooms-table thead th').nth(2).textContent()).toBe('Opens');
    expect(opens.x + opens.width).toBeLessThanOrEqual(shown.x + shown.width);
  });

  test('the table has the same figures, and turns back with T', async () => {
    await open();
    await rows().first().focus();
    await press('t');
    expect(await panel.page.locator('.chart').isVisible()).toBe(false);
    const cells = await panel.page
      .locator('#rooms-table tbody tr')
      .evaluateAll((lines: Page[]) =>
        lines.map((line) => [...line.children].map((cell: Page) => cell.textContent)),
      );
    expect(cells).toEqual(view.rows.map((one) => one.cells));
    const weeks = await panel.page.locator('#weeks-table tbody tr').count();
    expect(weeks).toBe(view.weeks.length);
    await panel.page.locator('#rooms-table tbody button').nth(5).click();
    expect(await panel.lastSent()).toEqual({ kind: 'reveal', target: row(5).target });
    await press('t');
    expect(await panel.page.locator('.chart').isVisible()).toBe(true);
  });

  test('demand and supply can be shown for one variety', async () => {
    await open();
    const one = view.supply[2];
    await panel.page.locator('#series').selectOption(one?.name);
    expect(await panel.page.locator('.band.supply .track').getAttribute('aria-label')).toBe(one?.description);
    expect(await panel.page.locator('[data-mark="short"]').count()).toBe(one?.short.length);
  });

  test('pointing at a week tells its figures', async () => {
    await open();
    const track = await panel.page.locator('.band.supply .track').boundingBox();
    await panel.page.mouse.move(track.x + (track.width * 10.5) / view.weeks.length, track.y + 20);
    expect(await panel.page.locator('.told').textContent()).toMatch(
      new RegExp(`^${view.weeks[10]}, All varieties`),
    );
  });

  test('zooms about the middle, and fits again', async () => {
    await open({ width: 380 });
    const width = () => panel.page.locator('.canvas').evaluate(({ clientWidth }: Page) => clientWidth);
    const fitting = await width();
    await rows().first().focus();
    for (let step = 0; step < 4; step += 1) await press('Control+=');
    expect(await width()).toBeGreaterThan(1.8 * fitting);
    // Names stay in view however far the chart is scrolled.
    const scrolled = await panel.page.locator('.chart').evaluate(({ scrollLeft }: Page) => scrollLeft);
    expect(scrolled).toBeGreaterThan(0);
    expect((await rows().first().locator('.name').boundingBox()).x).toBe(0);
    await press('0');
    expect(await width()).toBe(fitting);
  });

  test('a row that is pointed at stays under the pointer, whatever is told of it', async () => {
    await open({ width: 380 });
    await rows().first().focus();
    const chart = panel.page.locator('.chart');
    const top = () => chart.evaluate(({ scrollTop }: Page) => scrollTop);
    await panel.page.waitForTimeout(200);
    await chart.evaluate((element: Page) => {
      element.scrollTop = 150;
    });
    const before = await top();
    expect(before).toBeGreaterThan(100);
    const told = () => panel.page.locator('.told').textContent();
    const box = await rows().nth(14).boundingBox();
    await panel.page.mouse.move(box.x + 40, box.y + box.height / 2);
    await expect.poll(told).toContain(`Room ${row(14).room}`);
    await panel.page.waitForTimeout(200);
    expect(await top()).toBe(before);
  });

  test('comes back as it was left', async () => {
    await open({ width: 380 });
    await rows().nth(14).click();
    for (let step = 0; step < 5; step += 1) await press('+');
    await press('ArrowRight');
    await panel.page.locator('#series').selectOption(view.supply[1]?.name);
    await panel.page.locator('#fold-scrubbers').click();
    const place = () =>
      panel.page.locator('.chart').evaluate(({ scrollLeft, scrollTop }: Page) => ({
        left: Math.round(scrollLeft),
        top: Math.round(scrollTop),
      }));
    // Scrolling is told of a frame or two later, more on a busy machine.
    await expect.poll(async () => (await place()).left).toBeGreaterThan(0);
    await panel.page.waitForTimeout(200);
    const before = await place();
    expect(before.top).toBeGreaterThan(100);
    await panel.reload(view);
    expect(await chosen()).toBe(row(14).key);
    expect(await panel.page.locator('#series').inputValue()).toBe(view.supply[1]?.name);
    expect(await panel.page.locator('.band.scrubber').count()).toBe(0);
    const after = await place();
    expect(Math.abs(after.left - before.left)).toBeLessThanOrEqual(2);
    // The text beneath tells a week before and a room after: where that takes another line, the chosen room is kept in view.
    expect(Math.abs(after.top - before.top)).toBeLessThanOrEqual(20);
    const box = await rows().nth(14).boundingBox();
    expect(box.y + box.height).toBeLessThanOrEqual((await panel.page.locator('.told').boundingBox()).y);
    await rows().nth(14).focus();
    await press('t');
    await panel.reload(view);
    expect(await panel.page.locator('#rooms-table').isVisible()).toBe(true);
  });

  test('rooms stand in groups by what they are ordered by, each with a head and its number of rooms', async () => {
    await open();
    const lines = (): Promise<string[]> =>
      panel.page
        .locator('.rows > *')
        .evaluateAll((all: Page[]) => all.map((one) => one.dataset.key ?? `head ${one.textContent}`));
    const heads = async () => (await lines()).filter((one) => one.startsWith('head '));
    expect(await heads()).toEqual([]);
    for (const order of ['variety', 'week', 'slack'] as const) {
      await panel.page.locator('#order').selectOption(order);
      const all = await lines();
      const found = await heads();
      expect(new Set(found).size).toBe(found.length);
      expect(all[0]).toBe(found[0]);
      const numbers = all
        .join('\n')
        .split(/^head .*$/m)
        .slice(1)
        .map((group) => group.trim().split('\n').length);
      expect(found.map((head) => Number(/: (\d+)$/.exec(head)?.[1]))).toEqual(numbers);
      expect(numbers.reduce((sum, one) => sum + one, 0)).toBe(view.rows.length);
      expect(await panel.breaches()).toEqual([]);
    }
    await panel.page.locator('#order').selectOption('variety');
    const gala = view.rows.filter(({ varieties }) => varieties === 'Gala').length;
    expect(await heads()).toContain(`head Gala: ${gala}`);
    // From one group to the next by a key, past the head.
    const keys = (await lines()).filter((one) => !one.startsWith('head '));
    await panel.page.locator('.row').first().focus();
    for (let step = 0; step < gala + 12; step += 1) await press('ArrowDown');
    expect(await chosen()).toBe(keys[gala + 12]);
    await panel.page.locator('#find').fill('gala');
    expect((await heads()).every((head) => head.includes('Gala'))).toBe(true);
  });

  test('rooms are picked for one reason, together with the words looked for, and the pick is kept', async () => {
    await open();
    const keys = (): Promise<string[]> =>
      panel.page.locator('.row').evaluateAll((all: Page[]) => all.map((one) => one.dataset.key));
    const wanted = (holds: (one: (typeof view.rows)[number]) => boolean) =>
      view.rows.filter(holds).map(({ key }) => key);
    const picks = {
      findings: wanted(({ findings: { errors, warnings, notices } }) => errors + warnings + notices > 0),
      unpinned: wanted(({ opens }) => opens?.pinned === false),
      tight: wanted(({ opens, window }) => !!opens && !!window && window.latest - opens.week <= 4),
    };
    for (const [pick, expected] of Object.entries(picks)) {
      expect(expected.length, pick).toBeGreaterThan(0);
      expect(expected.length, pick).toBeLessThan(view.rows.length);
      await panel.page.locator('#pick').selectOption(pick);
      expect(await keys()).toEqual(expected);
      expect(await panel.page.locator('.count').textContent()).toBe(
        `${expected.length} of ${view.rows.length} rooms`,
      );
    }
    await panel.page.locator('#find').fill('gala');
    const both = picks.tight.filter((key) => view.rows.find((one) => one.key === key)?.varieties === 'Gala');
    expect(await keys()).toEqual(both);
    await panel.frame();
    await panel.page.waitForTimeout(200);
    await panel.reload(view);
    expect(await keys()).toEqual(both);
    // With nothing to differ from there is no such pick.
    expect(
      await panel.page.locator('#pick option[value="differs"]').evaluate((one: Page) => one.hidden),
    ).toBe(true);
  });

  test('beside another state the rooms that differ from it can be picked', async () => {
    const rows = view.rows.map((one, at) => ({
      ...one,
      other: { difference: at === 3 ? 'It opens two weeks later.' : '' },
    }));
    await open({}, { ...view, rows, against: { label: 'the saved text', note: 'One room differs.' } });
    await panel.page.locator('#pick').selectOption('differs');
    expect(await panel.page.locator('.row').count()).toBe(1);
    expect(await chosenOf('.row')).toBe(row(3).key);
    await panel.show({ ...view, revision: 2 });
    expect(await panel.page.locator('.row').count()).toBe(view.rows.length);
  });

  test.each([
    [300, 800],
    [480, 700],
    [860, 800],
    [1200, 860],
    [2400, 1200],
  ])('shows rooms and demand together at %d by %d, whatever else has room', async (width, height) => {
    await open({ width, height });
    const [chart, demand, axis] = await Promise.all(
      ['.chart', '.demand-part', '.axis'].map((part) => panel.page.locator(part).boundingBox()),
    );
    expect(demand.y + demand.height).toBeLessThanOrEqual(chart.y + chart.height + 1);
    // At least five rooms stand between them.
    expect(demand.y - (axis.y + axis.height)).toBeGreaterThan(5 * 22);
    // A room reached by keys is never behind it.
    await rows().first().focus();
    await press('End');
    await panel.frame();
    await panel.frame();
    const last = await rows().last().boundingBox();
    const top = (await panel.page.locator('.demand-part').boundingBox()).y;
    expect(last.y + last.height).toBeLessThanOrEqual(top + 1);
    expect(await panel.page.evaluate('document.documentElement.scrollWidth - innerWidth')).toBe(0);
  });

  test('marks the row in whose text the caret stands, and brings it into view from outside the page', async () => {
    await open({ height: 600 });
    const at = () =>
      panel.page
        .locator('.row[aria-current="true"]')
        .evaluateAll((all: Page[]) => all.map((one) => one.dataset.key));
    const last = row(view.rows.length - 1).key;
    const top = () => panel.page.locator('.chart').evaluate((one: Page) => one.scrollTop);
    // The page has the focus here: the person looks at it, and nothing may move under their eyes.
    await panel.say({ kind: 'caret', row: last });
    expect(await at()).toEqual([last]);
    expect(await top()).toBe(0);
    await panel.page.evaluate('document.hasFocus = () => false');
    await panel.say({ kind: 'caret', row: row(0).key });
    await panel.say({ kind: 'caret', row: last });
    expect(await top()).toBeGreaterThan(0);
    await panel.show({ ...view, revision: 9, rows: view.rows.map((one) => ({ ...one, bins: '1 bin' })) });
    expect(await at()).toEqual([last]);
    await panel.say({ kind: 'caret', row: null });
    expect(await at()).toEqual([]);
  });

  test('marks that row in the table too, drawn anew or not, and brings it into view', async () => {
    await open({ height: 600 });
    const at = () =>
      panel.page
        .locator('#rooms-table tr[aria-current="true"]')
        .evaluateAll((all: Page[]) => all.map((one) => one.dataset.key));
    const last = row(view.rows.length - 1).key;
    await panel.say({ kind: 'caret', row: row(3).key });
    await rows().first().focus();
    await press('t');
    expect(await at()).toEqual([row(3).key]);
    expect(await panel.breaches()).toEqual([]);
    const top = () => panel.page.locator('#rooms-table').evaluate((one: Page) => one.scrollTop);
    const before = await top();
    await panel.say({ kind: 'caret', row: last });
    expect(await at()).toEqual([last]);
    expect(await top()).toBe(before);
    await panel.page.evaluate('document.hasFocus = () => false');
    await panel.say({ kind: 'caret', row: row(0).key });
    await panel.say({ kind: 'caret', row: last });
    expect(await top()).toBeGreaterThan(before);
    await panel.show({ ...view, revision: 9, rows: view.rows.map((one) => ({ ...one, bins: '1 bin' })) });
    expect(await at()).toEqual([last]);
    await panel.say({ kind: 'caret', row: null });
    expect(await at()).toEqual([]);
  });

  test.each(Object.keys(themes) as (keyof typeof themes)[])(
    'draws nothing in no colour: %s',
    async (theme) => {
      await open({ theme });
      const strokes: string[] = await panel.page.evaluate(`[...new Set(
      [...document.querySelectorAll('.late-hatch, .short-hatch, .over-hatch, .gas-hatch, .row .life')]
        .map((one) => one.getAttribute('class') + ' ' + getComputedStyle(one).stroke))]`);
      expect(strokes.some((one) => one.startsWith('late-hatch'))).toBe(true);
      for (const one of strokes) expect(one).not.toMatch(/none|rgba\(.*, 0\)$/);
    },
  );

  test('drops a model older than the one it shows, unless it is of another plan', async () => {
    await open({}, { ...view, plan: 'one', revision: 5 });
    await panel.show({ ...view, plan: 'one', revision: 4, title: 'Old' });
    expect(await panel.page.locator('.toolbar h1').textContent()).toBe(view.title);
    await panel.show({ ...view, plan: 'one', revision: 6, title: 'New' });
    expect(await panel.page.locator('.toolbar h1').textContent()).toBe('New');
    await panel.show({ ...view, plan: 'two', revision: 1, title: 'Other' });
    expect(await panel.page.locator('.toolbar h1').textContent()).toBe('Other');
  });

  test('a new model leaves focus and unchanged rows alone', async () => {
    await open();
    await rows().nth(4).click();
    await rows().evaluateAll((elements: Page[]) => {
      for (const element of elements) element.marked = true;
    });
    const changed = view.rows.map((one, at) =>
      at === 4 || at === 7 ? { ...one, description: 'Changed.' } : one,
    );
    await panel.show({ ...view, revision: 2, rows: changed });
    const marked = await rows().evaluateAll(
      (elements: Page[]) => elements.filter(({ marked }) => marked).length,
    );
    expect(marked).toBe(46);
    expect(
      await rows()
        .nth(4)
        .evaluate((element: Page) => element.ownerDocument.activeElement === element),
    ).toBe(true);
    expect(await rows().nth(7).locator('.unseen').textContent()).toBe('Changed.');
  });

  test('asks for release weeks, tells how far they are, and cancels', async () => {
    await open();
    const find = panel.page.getByRole('button', { name: 'Find release weeks' });
    const cancel = panel.page.getByRole('button', { name: 'Cancel' });
    await find.click();
    expect(await panel.lastSent()).toEqual({ kind: 'computeRelease' });
    expect(await cancel.isVisible()).toBe(false);
    await panel.say({ kind: 'progress', text: 'Searching', share: 0.4 });
    expect(await panel.page.getByRole('progressbar').getAttribute('aria-valuenow')).toBe('40');
    expect(await panel.page.locator('.progress-text').textContent()).toBe('Searching');
    expect(await find.isDisabled()).toBe(true);
    await cancel.click();
    expect(await panel.lastSent()).toEqual({ kind: 'cancelRelease' });
    await panel.say({ kind: 'progress', text: 'Proving', share: null });
    expect(await panel.page.getByRole('progressbar').getAttribute('aria-valuenow')).toBeNull();
    await panel.say({ kind: 'idle' });
    expect(await cancel.isVisible()).toBe(false);
    expect(await find.isDisabled()).toBe(false);
  });

  test('says why there is nothing to draw, and draws once there is', async () => {
    await open(
      {},
      { ...view, rows: [], weeks: [], months: [], supply: [], scrubbers: [], empty: 'No rooms yet.' },
    );
    expect(await panel.page.locator('.why-empty').textContent()).toBe('No rooms yet.');
    expect(await panel.page.locator('.chart').isVisible()).toBe(false);
    await panel.show({ ...view, revision: 2 });
    expect(await panel.page.locator('.empty').isVisible()).toBe(false);
    expect(await rows().count()).toBe(48);
  });

  test('names are text, whatever they hold', async () => {
    const name = '<img src=x onerror=alert(1)>';
    const rowsNamed = view.rows.map((one) => ({
      ...one,
      room: name,
      varieties: name,
      description: name,
      cells: [name],
    }));
    await open({}, { ...view, title: name, scheduleNote: name, rows: rowsNamed });
    expect(await panel.page.locator('img').count()).toBe(0);
    expect(await rows().first().locator('.room').textContent()).toBe(name);
  });

  test('draws 500 rooms, and only what is in view costs', async () => {
    await open({}, withRows(view, 500));
    expect(await rows().count()).toBe(500);
    await rows().first().focus();
    await press('End');
    expect(await chosen()).toBe(`${row(499 % 48).key}-499`);
    const skipped = await rows()
      .nth(100)
      .locator('.room')
      .evaluate((element: Page) => element.checkVisibility({ contentVisibilityAuto: true }));
    expect(skipped).toBe(false);
  });

  test('keeps the caution in view, with both readings', async () => {
    await open({ width: 380 });
    const caution = panel.page.locator('.caution');
    expect(await caution.isVisible()).toBe(true);
    expect((await caution.textContent()).replace(/\s+/g, ' ')).toContain('oxygen and carbon dioxide');
  });

  test.each(Object.keys(themes) as (keyof typeof themes)[])(
    'breaks no accessibility rule: %s',
    async (theme) => {
      await open({ theme });
      await rows().nth(4).click();
      expect(await panel.breaches()).toEqual([]);
      await panel.page.setViewportSize({ width: 380, height: 700 });
      await panel.say({ kind: 'progress', text: 'Searching', share: null });
      expect(await panel.breaches()).toEqual([]);
      await press('t');
      expect(await panel.breaches()).toEqual([]);
    },
  );
});

describe.skipIf(!browserIsThere())('a timeline without a plan', () => {
  test.each(Object.keys(themes) as (keyof typeof themes)[])(
    'says why and how to begin: %s',
    async (theme) => {
      const browser = await launch();
      const panel = await OpenPanel.open(browser, await bundlePanel(), { theme, width: 300, height: 600 });
      const why = panel.page.locator('.why-empty');
      const ways = panel.page.locator('.ways button');
      expect(await why.textContent()).toBe('The plan is being read…');
      expect(await panel.page.locator('button:visible').count()).toBe(0);
      await panel.say({ kind: 'noPlan', hasFolder: true });
      expect(await why.textContent()).toContain('no file in this folder or below it ends in .lotplan.yaml');
      expect(await ways.count()).toBe(3);
      expect(await panel.breaches()).toEqual([]);
      await panel.page.keyboard.press('Tab');
      await panel.page.keyboard.press('Enter');
      expect(await panel.lastSent()).toEqual({ kind: 'begin', with: 'sample' });
      await panel.say({ kind: 'noPlan', hasFolder: false });
      expect(await ways.allTextContents()).toContain('Open a folder');
      await ways.last().click();
      expect(await panel.lastSent()).toEqual({ kind: 'begin', with: 'walkthrough' });
      // A plan that comes into the folder takes its place.
      await panel.show(sampleView('first-season'));
      expect(await why.isVisible()).toBe(false);
      expect(await panel.page.locator('.row').count()).toBe(4);
      await panel.say({ kind: 'noPlan', hasFolder: true });
      expect(await panel.page.locator('.chart').isVisible()).toBe(false);
      expect(panel.complaints).toEqual([]);
      await browser.close();
    },
  );
});

describe.skipIf(!browserIsThere())('a schedule of an older text', () => {
  test('is said to be one until it is told again', async () => {
    const browser = await launch();
    const panel = await OpenPanel.open(browser, await bundlePanel());
    const view = sampleView('first-season');
    await panel.say({ kind: 'view', view });
    const mark = panel.page.locator('.toolbar .older-mark');
    const placeOfChart = () => panel.page.locator('.chart').boundingBox();
    const before = await placeOfChart();
    expect(await mark.isVisible()).toBe(false);
    await panel.say({ kind: 'view', view, older: true });
    expect(await mark.isVisible()).toBe(true);
    expect(await mark.textContent()).toContain('those of the text before the last change');
    // What comes and goes with every key must not move what is looked at.
    expect(await placeOfChart()).toEqual(before);
    await panel.say({ kind: 'view', view, older: false });
    expect(await mark.isVisible()).toBe(false);
    await browser.close();
  });
});

describe.skipIf(!browserIsThere())('the channel', () => {
  test('keeps what comes before anyone listens, and passes by what is not for it', async () => {
    const browser = await launch();
    const bundle = await bundlePanel(`
      import { fakeChannel } from './fake-channel';
      const channel = fakeChannel(window);
      window.heard = [];
      window.listenNow = () => channel.listen((message) => window.heard.push(message.kind));`);
    const panel = await OpenPanel.open(browser, bundle);
    await panel.say({ kind: 'idle' });
    await panel.page.evaluate(
      "postMessage({ kind: 'view' }, '*'); postMessage('progress', '*'); postMessage(null, '*')",
    );
    await panel.frame();
    await panel.page.evaluate('listenNow()');
    await panel.say({ kind: 'progress', text: 'Searching', share: null });
    expect(await panel.page.evaluate('heard')).toEqual(['idle', 'progress']);
    await browser.close();
  });
});
