import { afterEach, describe, expect, it } from 'vitest';
import { scheduleAcrossDraws } from '../../src/release/across-draws';
import { tallyDraws } from '../../src/release/draw-tally';
import { drawsHere } from '../../src/release/draws-pool';
import { inputsFromWire } from '../../src/release/draws-wire';
import { uncertainty } from '../../src/report/schema/uncertainty';
import { requests, type TimelineAnswer } from '../../src/server/protocol';
import type {
  DrawnSeasonsAnswer,
  DrawsJobAnswer,
  DrawsResultAnswer,
  DrawsResultParams,
} from '../../src/server/protocol-draws';
import { ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const files = samplePlan('first-season');
const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
const fruit = files.find(({ path }) => path === 'fruit.lotplan.yaml')?.text ?? '';
const span = { seed: 1, first: 0, count: 30 };

describe('seasons drawn in the editor', () => {
  let client: TestClient;
  afterEach(() => client.stop(), 30_000);

  async function started() {
    client = new TestClient(new Map(files.map(({ path, text }) => [`${ROOT}/${path}`, text])));
    await client.start();
    client.open(FRUIT, fruit);
    await client.settled();
  }

  const job = () => client.request<DrawsJobAnswer>(requests.drawsJob, { uri: FRUIT });
  const timeline = async () => (await client.request<TimelineAnswer>(requests.timeline, { uri: FRUIT })).view;
  const seasons = () => client.request<DrawnSeasonsAnswer | null>(requests.drawnSeasons, { uri: FRUIT });
  const handOver = (params: DrawsResultParams) =>
    client.request<DrawsResultAnswer>(requests.drawsResult, params);

  async function drawn(): Promise<DrawsResultParams> {
    const { root, job: number, problem, inputs, schedule } = await job();
    return {
      root,
      job: number,
      span,
      tally: tallyDraws(problem, schedule, inputsFromWire(inputs), span),
    };
  }

  it('show the chance of being short by week, and the rooms the schedule hangs on', async () => {
    await started();
    expect((await timeline()).drawn).toBeUndefined();
    expect(await seasons()).toBeNull();
    const params = await drawn();
    const answer = await handOver(params);
    expect(answer.accepted).toBe(true);
    expect(answer.page?.markdown).toContain('30 seasons drawn (seed 1)');
    const view = await timeline();
    expect(view.drawn?.older).toBe(false);
    expect(view.drawn?.note).toContain('30 seasons drawn: worth ');
    const [all] = view.supply;
    const weeks = params.tally.all.weeks.map(({ times }) => times / 30);
    expect(all?.chance?.filter((one) => one > 0)).toEqual(weeks.filter((one) => one > 0));
    const first = view.rows.find(({ hangs }) => hangs?.rank === 1);
    expect(first?.description).toContain('The schedule hangs on it most');
    expect(view.columns.at(-1)).toBe('Costs if it alone does badly');
    for (const row of view.rows) expect(row.cells).toHaveLength(view.columns.length);
    const told = await seasons();
    expect(uncertainty.parse(told?.uncertainty).all.chance).toBeCloseTo(params.tally.all.times / 30, 4);
    expect(told?.uncertainty.rooms[0]?.fill).toBe(first?.key);
  });

  it('are older once the plan has changed, and new again when the change is taken back', async () => {
    await started();
    await handOver(await drawn());
    client.change(FRUIT, fruit.replace('D1: 97', 'D1: 40'));
    await client.settled();
    expect((await seasons())?.older).toBe(true);
    const view = await timeline();
    expect(view.drawn?.note).toContain('The plan has changed since');
    expect(view.rows.find(({ hangs }) => hangs)?.hangs?.text).toContain('before the last change');
    client.change(FRUIT, fruit);
    await client.settled();
    expect((await seasons())?.older).toBe(false);
  });

  it('are not taken for a plan that has changed meanwhile, nor with numbers that do not fit', async () => {
    await started();
    const params = await drawn();
    const short = { ...params, tally: { ...params.tally, values: params.tally.values.slice(1) } };
    expect((await handOver(short)).message).toContain('do not fit');
    expect((await handOver({ ...params, job: params.job + 1 })).accepted).toBe(false);
    client.change(FRUIT, fruit.replace('D1: 97', 'D1: 40'));
    await client.settled();
    expect((await handOver(params)).message).toContain('was changed while seasons were drawn');
    expect(await seasons()).toBeNull();
  });

  it('a schedule good across seasons counts once it has passed its check, with its seasons', async () => {
    await started();
    const { root, job: number, problem, inputs, schedule, unmet } = await job();
    const own = inputsFromWire(inputs);
    const pool = drawsHere({ problem, inputs: own });
    const found = await scheduleAcrossDraws(problem, schedule, pool, { seed: 1, draws: 8, unmet });
    const held = { seed: 1, first: 8, count: 20 };
    const params: DrawsResultParams = {
      root,
      job: number,
      span: held,
      tally: tallyDraws(problem, found.schedule, own, held),
      across: { draws: 8, found, expected: tallyDraws(problem, schedule, own, held) },
    };
    const worse = { ...found, schedule: { ...found.schedule, value: found.schedule.value + 1000 } };
    const refused = await handOver({ ...params, across: { draws: 8, expected: params.tally, found: worse } });
    expect(refused.message).toContain('did not pass its check');
    const answer = await handOver(params);
    expect(answer).toMatchObject({ accepted: true });
    expect(answer.page?.markdown).toContain('Good across seasons');
    expect((await job()).schedule.opens).toEqual(found.schedule.opens);
    const told = await seasons();
    expect(told?.older).toBe(false);
    expect(told?.goodAcross?.draws).toBe(8);
    expect((await timeline()).drawn?.note).toContain('Sought to be good across seasons');
  }, 60_000);
});
