import ICAL from 'ical.js';
import { afterEach, describe, expect, it } from 'vitest';
import { parseDay } from '../../src/plan/dates';
import { type PapersAnswer, type PapersParams, papersRequest } from '../../src/server/protocol-papers';
import { lotwright } from '../cli/in-process';
import { ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const first = samplePlan('first-season');
const uri = `${ROOT}/fruit.lotplan.yaml`;

describe('the schedule for people over the protocol', () => {
  let client: TestClient | undefined;
  afterEach(() => client?.stop());

  async function start(change: readonly [from: string, to: string] = ['', '']): Promise<TestClient> {
    const files = first.map(({ path, text }) => [`${ROOT}/${path}`, text.replace(...change)] as const);
    const started = new TestClient(new Map(files), { today: parseDay('2026-11-27') ?? 0 });
    client = started;
    await started.start();
    return started;
  }
  const ask = (of: TestClient, params: PapersParams) =>
    of.connection.sendRequest<PapersAnswer | null>(papersRequest, params);
  const text = (content: string) => Buffer.from(content, 'base64').toString('utf8');

  it('is the same text that the command line writes', async () => {
    const answer = await ask(await start(), { uri, reader: 'cold-store', form: 'markdown' });
    const { out } = await lotwright(['papers', 'sample-plans/first-season', '--for', 'cold-store']);
    expect(answer?.files.map(({ name }) => name)).toEqual(['cold-store.md']);
    expect(text(answer?.files[0]?.content ?? '')).toBe(out);
  });

  it('is a workbook for each grower', async () => {
    const answer = await ask(await start(), { uri, reader: 'growers', form: 'workbook' });
    expect(answer?.files.length).toBe(3);
    for (const { content } of answer?.files ?? [])
      expect(Buffer.from(content, 'base64').subarray(0, 2).toString()).toBe('PK');
  });

  it('goes on from the last issue of a calendar', async () => {
    const wanted = { uri, reader: 'cold-store', form: 'calendar' } as const;
    const before = text((await ask(await start(), wanted))?.files[0]?.content ?? '');
    client?.stop();
    const moved = await start(['open: 2027-W01', 'open: 2027-W02']);
    const answer = await ask(moved, { ...wanted, previous: { 'cold-store.ics': before } });
    const events = new ICAL.Component(ICAL.parse(text(answer?.files[0]?.content ?? '')))
      .getAllSubcomponents('vevent')
      .map((one) => new ICAL.Event(one));
    expect(events.find(({ uid: one }) => one.includes('R2-gala/open'))?.sequence).toBe(1);
    expect(events.find(({ uid: one }) => one.includes('R2-gala/seal'))?.sequence).toBe(0);
  });
});
