import { createHash } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import ICAL from 'ical.js';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { parseDay } from '../../src/plan/dates';
import { FORMS } from '../../src/report/papers/forms';
import { READERS } from '../../src/report/papers/paper';
import { type PapersAnswer, type PapersParams, papersRequest } from '../../src/server/protocol-papers';
import { lotwright } from '../cli/in-process';
import { ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const first = samplePlan('first-season');
/** Of bytes: two files that differ are not printed letter by letter. */
const hashOf = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
const uri = `${ROOT}/fruit.lotplan.yaml`;

describe('the schedule for people over the protocol', () => {
  let client: TestClient | undefined;
  let folder = '';
  beforeAll(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-papers-'));
  });
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));
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

  it.each(READERS)('is for %s byte for byte what the command line writes', async (reader) => {
    const of = await start();
    // Every form once; all readers in the form that is read.
    for (const form of reader === 'everyone' ? FORMS : (['markdown'] as const)) {
      const answer = await ask(of, { uri, reader, form });
      const out = path.join(folder, `${reader}-${form}`);
      await lotwright(
        ['papers', 'sample-plans/first-season', '--for', reader, '--as', form, '--out', `${out}/`].concat(
          // A calendar needs a day of issue, and tells none where none is given.
          form === 'calendar' ? ['--issued', '2026-11-27'] : [],
        ),
      );
      const written = Object.fromEntries(
        fs.readdirSync(out).map((name) => [name, hashOf(fs.readFileSync(path.join(out, name)))]),
      );
      const made = Object.fromEntries(
        (answer?.files ?? []).map(({ name, content }) => [name, hashOf(Buffer.from(content, 'base64'))]),
      );
      expect(Object.keys(made).length).toBeGreaterThan(0);
      expect(made).toEqual(written);
    }
  });

  it('names the schedule that opening weeks are of', async () => {
    const answer = await ask(await start(), { uri, reader: 'growers', form: 'markdown' });
    for (const { content } of answer?.files ?? [])
      expect(text(content)).toMatch(/^Opening weeks are those pinned in the plan\b/m);
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
