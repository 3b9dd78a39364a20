import { afterEach, describe, expect, it } from 'vitest';
import type { CodeLens } from 'vscode-languageserver';
import {
  type CompareAnswer,
  type FigureAnswer,
  type RoomCardAnswer,
  requests,
  type SeasonCardAnswer,
  type TimelineAnswer,
} from '../../src/server/protocol';
import { ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const first = samplePlan('first-season');
const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
const fruit = first.find(({ path }) => path === 'fruit.lotplan.yaml')?.text ?? '';

describe('cards over the protocol', () => {
  let client: TestClient | undefined;
  afterEach(() => client?.stop());

  async function start(): Promise<TestClient> {
    const started = new TestClient(new Map(first.map(({ path, text }) => [`${ROOT}/${path}`, text])));
    client = started;
    await started.start();
    return started;
  }
  const ask = async <T>(of: TestClient, request: string, params: unknown): Promise<T> =>
    of.connection.sendRequest<T>(request, params);
  const placeOf = (text: string) => {
    const before = fruit.slice(0, fruit.indexOf(text)).split('\n');
    return { line: before.length - 1, character: (before.at(-1)?.length ?? 0) + 3 };
  };

  it('a room has its card by key and by the place of its fill or of one of its lots', async () => {
    const of = await start();
    const byKey = await ask<RoomCardAnswer>(of, requests.roomCard, { uri: FRUIT, key: 'R2-gala' });
    expect(byKey.card.charts.map(({ id }) => id)).toEqual(['gas', 'temperature', 'cooling', 'weight']);
    expect(byKey.root).toBe(ROOT);
    for (const text of ['  R2-gala:', '  G4:']) {
      const answer = await ask<RoomCardAnswer>(of, requests.roomCard, {
        uri: FRUIT,
        position: placeOf(text),
      });
      expect(answer.card.key, text).toBe('R2-gala');
    }
    expect(await ask(of, requests.roomCard, { uri: FRUIT, key: 'none' })).toBeNull();
  });

  it('a place in the text has its row, and one in no room none', async () => {
    const of = await start();
    await of.settled();
    const rowAt = (position: object) => ask<string | null>(of, requests.rowAt, { uri: FRUIT, position });
    for (const text of ['  R2-gala:', '  G4:']) expect(await rowAt(placeOf(text)), text).toBe('R2-gala');
    expect(await rowAt(placeOf('regimes:'))).toBeNull();
  });

  it('each figure of a card tells how it came about; what is no figure tells nothing', async () => {
    const of = await start();
    const { card } = await ask<RoomCardAnswer>(of, requests.roomCard, { uri: FRUIT, key: 'R2-gala' });
    for (const { label, figure } of card.facts.flatMap(({ facts }) => facts)) {
      const answer = await ask<FigureAnswer>(of, requests.explainFigure, { uri: FRUIT, figure });
      expect(answer.title).toBe(`R2: ${label}`);
      expect(answer.text).toContain(label);
    }
    expect(await ask(of, requests.explainFigure, { uri: FRUIT, figure: 'R2.none' })).toBeNull();
  });

  it('the season has its card', async () => {
    const of = await start();
    const { card } = await ask<SeasonCardAnswer>(of, requests.seasonCard, { uri: FRUIT });
    expect(card.gauges[0]).toMatchObject({ label: 'Rooms filled', text: '4 of 4' });
  });

  it('cards and figures above entries are marked as older from an edit till schedule and courses fit it', async () => {
    const of = await start();
    of.open(FRUIT, fruit);
    await of.settled();
    const room = () => ask<RoomCardAnswer>(of, requests.roomCard, { uri: FRUIT, key: 'R2-gala' });
    const whole = () => ask<SeasonCardAnswer>(of, requests.seasonCard, { uri: FRUIT });
    const lens = async () =>
      (await of.request<CodeLens[]>('textDocument/codeLens', { textDocument: { uri: FRUIT } })).find(
        ({ command }) => command?.title.includes('release 2027-W01'),
      )?.command?.title;
    const [settledRoom, settledSeason] = [await room(), await whole()];
    expect([settledRoom.isSettled, settledSeason.isSettled]).toEqual([true, true]);
    expect(await lens()).toMatch(/release 2027-W01, pinned$/);
    of.change(FRUIT, fruit.replace('G1: 54', 'G1: 53'));
    const [card, season, title] = await Promise.all([room(), whole(), lens()]);
    expect([card.isSettled, season.isSettled]).toEqual([false, false]);
    // The last good answer stands.
    expect(card.card.charts).toEqual(settledRoom.card.charts);
    expect(title).toMatch(/release 2027-W01, pinned · before the last change$/);
    await of.settled();
    expect([(await room()).isSettled, (await whole()).isSettled]).toEqual([true, true]);
    expect(await lens()).toMatch(/release 2027-W01, pinned$/);
  });

  it('the timeline is held against another state until there is none', async () => {
    const of = await start();
    const files = first.map(({ path, text }) => ({
      path,
      text: text.replace('open: 2027-W01', 'open: 2027-W03'),
    }));
    const against = { label: 'the last saved text', files };
    const { note } = await ask<CompareAnswer>(of, requests.compare, { uri: FRUIT, against });
    expect(note).toMatch(/^Against the last saved text: \d room/);
    const { view } = await ask<TimelineAnswer>(of, requests.timeline, { uri: FRUIT });
    expect(view.against?.note).toBe(note);
    const row = view.rows.find(({ key }) => key === 'R2-gala');
    expect(view.weeks[row?.other?.opens ?? -1]).toBe('2027-W03');
    expect(view.weeks[row?.opens?.week ?? -1]).toBe('2027-W01');
    expect(row?.description).toContain('In the other state it opens 2027-W03');
    expect(row?.cells).toHaveLength(view.columns.length);
    expect(row?.cells.at(-2)).toBe('2027-W03');
    await ask(of, requests.compare, { uri: FRUIT });
    const alone = await ask<TimelineAnswer>(of, requests.timeline, { uri: FRUIT });
    expect(alone.view.against).toBeUndefined();
    expect(alone.view.rows.every(({ other }) => other === undefined)).toBe(true);
  });

  it('a scenario of the plan stands beside it in the timeline', async () => {
    const scenarios =
      '\nscenarios:\n  hail: { says: hail takes half of the Gala, crop-of: { Gala: 50 % } }\n';
    const files = new Map(first.map(({ path, text }) => [`${ROOT}/${path}`, text]));
    files.set(FRUIT, fruit + scenarios);
    client = new TestClient(files);
    await client.start();
    const against = { scenario: 'hail' };
    const { note } = await ask<CompareAnswer>(client, requests.compare, { uri: FRUIT, against });
    expect(note).toMatch(/^Against scenario hail: /);
    const { view } = await ask<TimelineAnswer>(client, requests.timeline, { uri: FRUIT });
    expect(view.against?.label).toBe('scenario hail');
    const unknown = { uri: FRUIT, against: { scenario: 'frost' } };
    expect(await ask(client, requests.compare, unknown)).toBeNull();
  });
});
