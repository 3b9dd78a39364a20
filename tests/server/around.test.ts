import { afterEach, describe, expect, it } from 'vitest';
import { formatWeek } from '../../src/plan/dates';
import { offerAround } from '../../src/release/around';
import {
  type AroundAnswer,
  type PinsAnswer,
  type ReleaseProblemAnswer,
  requests,
} from '../../src/server/protocol';
import type { DrawsJobAnswer } from '../../src/server/protocol-draws';
import { ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const files = samplePlan('full-season');

describe('a better plan around an opening that is moved, in the editor', () => {
  let client: TestClient;
  afterEach(() => client.stop(), 30_000);

  /** A week of a fill for which others have something to offer. */
  async function started() {
    client = new TestClient(new Map(files.map(({ path, text }) => [`${ROOT}/${path}`, text])));
    await client.start();
    for (const { path, text } of files) client.open(`${ROOT}/${path}`, text);
    await client.settled();
    const uri = `${ROOT}/${files[0]?.path}`;
    const { problem, schedule, unmet } = await client.request<DrawsJobAnswer>(requests.drawsJob, { uri });
    for (const [room, one] of problem.rooms.entries()) {
      if (one.pinned !== null || one.fromField) continue;
      for (const week of [one.earliest, one.latest]) {
        const offer =
          schedule.opens[room] === week ? undefined : offerAround(problem, schedule, room, week, unmet);
        if (offer) return { uri, fill: one.fill, week: formatWeek(problem.firstWeek + week), offer, problem };
      }
    }
    throw new Error('the sample has nothing to offer');
  }

  const asked = (params: object) => client.request<AroundAnswer | null>(requests.aroundWeek, params);
  const pinned = (params: object) => client.request<PinsAnswer | null>(requests.pinAround, params);

  it('is told, and pinned together with the opening in one edit, checked', async () => {
    const { uri, fill, week, offer, problem } = await started();
    const answer = await asked({ uri, fill, week });
    expect(answer?.rooms).toBe(offer.moved.length);
    expect(answer?.text).toMatch(/^\d+ rooms? moved along would /);
    const pins = await pinned({ uri, fill, week });
    expect(pins?.pins.map((one) => [one.fill, one.week])).toEqual([
      [fill, week],
      ...offer.moved.map(({ room, to }) => [problem.rooms[room]?.fill, formatWeek(problem.firstWeek + to)]),
    ]);
    expect(Object.keys(pins?.versions ?? {}).length).toBeGreaterThan(0);
    // Written, the plan's problem has all of these pins, and a schedule that keeps them.
    const texts = new Map(files.map(({ path, text }) => [`${ROOT}/${path}`, text.split('\n')]));
    for (const one of [...(pins?.pins ?? [])].reverse())
      for (const { range, newText } of [...one.edits].reverse()) {
        const lines = texts.get(one.uri) ?? [];
        const line = lines[range.start.line] ?? '';
        expect(range.start.line).toBe(range.end.line);
        lines[range.start.line] =
          line.slice(0, range.start.character) + newText + line.slice(range.end.character);
      }
    for (const target of new Set(pins?.pins.map((one) => one.uri)))
      client.change(target, (texts.get(target) ?? []).join('\n'));
    await client.settled();
    const after = await client.request<ReleaseProblemAnswer>(requests.releaseProblem, { uri });
    for (const one of pins?.pins ?? []) {
      const room = after.problem.rooms.find((each) => each.fill === one.fill);
      expect(formatWeek(after.problem.firstWeek + (room?.pinned ?? -1))).toBe(one.week);
    }
  }, 60_000);

  it('is pinned no more once the plan is another, nor for a week that was not asked about', async () => {
    const { uri, fill, week } = await started();
    expect(await pinned({ uri, fill, week })).toBeNull();
    await asked({ uri, fill, week });
    expect(await pinned({ uri, fill, week: '2027-W01' })).toBeNull();
    const changed = files.find(({ text }) => /bins: \d+/.test(text) && /demand/.test(text)) ?? files[0];
    const market = files.find(({ text }) => /price: \d/.test(text)) ?? changed;
    const text = market?.text.replace(/price: (\d+)/, 'price: 9$1') ?? '';
    client.change(`${ROOT}/${market?.path}`, text);
    await client.settled();
    expect(await pinned({ uri, fill, week })).toBeNull();
  }, 60_000);

  it('is none for the week it opens in, or for a fill that is not there', async () => {
    const { uri } = await started();
    expect(await asked({ uri, fill: 'nothing', week: '2027-W10' })).toBeNull();
    expect(await asked({ uri, fill: 'nothing' })).toBeNull();
  }, 60_000);
});
