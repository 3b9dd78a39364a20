import { afterEach, describe, expect, it } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver/node';
import { proposeFill } from '../../src/fill/propose';
import { parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import {
  type AcceptFillsAnswer,
  clientCommands,
  type FillPageAnswer,
  type FillProblemAnswer,
  type FillResultAnswer,
  requests,
} from '../../src/server/protocol';
import { ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const files = samplePlan('first-season');
const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
const ROOMS = `${ROOT}/orrowby.lotplan.yaml`;
const textOf = (path: string) => files.find((file) => file.path === path)?.text ?? '';
const whole = textOf('fruit.lotplan.yaml');
/** Golden Delicious and Braeburn still wait for a room. */
const fruit = whole.slice(0, whole.search(/^ {2}R3-golden:/m));

describe('fills proposed in the editor', () => {
  let client: TestClient;
  afterEach(() => client.stop(), 30_000);

  async function started(text = fruit, today?: string) {
    const day = today === undefined ? undefined : parseDay(today);
    const all = new Map(files.map((file) => [`${ROOT}/${file.path}`, file.text]));
    client = new TestClient(all.set(FRUIT, text), day === undefined ? {} : { today: day });
    await client.start();
    client.open(FRUIT, text);
    await client.settled();
  }

  async function proposed(topUp = false) {
    const params = { uri: FRUIT, topUp };
    const { root, problem } = await client.request<FillProblemAnswer>(requests.fillProblem, params);
    const result = await proposeFill(problem, { seed: 1, moves: 100 });
    return { root, topUp, problem, result };
  }

  const handOver = async (topUp = false) =>
    client.request<FillResultAnswer>(requests.fillResult, await proposed(topUp));

  const accept = (asked: object = {}) =>
    client.request<AcceptFillsAnswer | null>(requests.acceptFills, { uri: FRUIT, ...asked });

  /** As an editor applies the edits: last first, so that earlier places stay right. */
  function edited(answer: AcceptFillsAnswer | null, text: string): string {
    const lines = text.split('\n');
    const edits = [...(answer?.edits[FRUIT] ?? [])];
    for (const { range, newText } of edits.sort((a, b) => b.range.start.line - a.range.start.line)) {
      expect(range.start.line).toBe(range.end.line);
      const line = lines[range.start.line] ?? '';
      lines[range.start.line] =
        line.slice(0, range.start.character) + newText + line.slice(range.end.character);
    }
    return lines.join('\n');
  }

  it('a proposal that passes its check comes back as a page with its reasons', async () => {
    await started();
    const answer = await handOver();
    expect(answer).toMatchObject({ accepted: true, rooms: ['R3', 'R4'] });
    expect(answer.message).toBe('577 of 577 bins go into 2 rooms.');
    expect(answer.page?.markdown).toContain('## R4: R4-braeburn');
    expect(answer.page?.markdown).toContain('Without it ');
    expect(answer.page?.markdown).toContain('Nothing is written yet.');
  });

  it('the page is drawn anew with what is left once a room is accepted', async () => {
    await started();
    await handOver();
    const page = () => client.request<FillPageAnswer | null>(requests.fillPage, { root: ROOT });
    expect((await page())?.markdown).toContain('Nothing is written yet.');
    client.change(FRUIT, edited(await accept({ room: 'R3' }), fruit));
    await client.settled();
    const left = (await page())?.markdown ?? '';
    expect(left).toContain('In the plan already, or no longer possible: R3. The others are left:');
    expect(left).toContain('## R4: ');
    expect(left).not.toContain('## R3: ');
    expect(await client.request(requests.fillPage, { root: 'file:///elsewhere' })).toBeNull();
  });

  it('all fills are one edit of the text, and every line there was stays as it was', async () => {
    await started();
    await handOver();
    const all = await accept();
    expect(all?.rooms).toEqual(['R3', 'R4']);
    expect(all?.versions).toEqual({ [FRUIT]: 1 });
    const after = edited(all, fruit);
    expect(after.startsWith(fruit.trimEnd())).toBe(true);
    const plan = readPlan([{ path: 'a', text: after }]);
    expect([...plan.fills.keys()]).toEqual(['R1-gala', 'R2-gala', 'R3-golden-delicious', 'R4-braeburn']);
  });

  it('room by room: what is left stays on offer until the plan has changed under it', async () => {
    await started();
    await handOver();
    const line = fruit.split('\n').findIndex((text) => text.startsWith('  B1:'));
    const one = await accept({ position: { line, character: 3 } });
    expect(one?.rooms).toEqual(['R4']);
    const after = edited(one, fruit);
    client.change(FRUIT, after);
    await client.settled();
    const rest = await accept();
    expect(rest?.open.map(({ room }) => room)).toEqual(['R3']);
    expect(rest?.open[0]?.what).toBe('D1 97, D2 95, D3 95, in golden-delicious-standard');
    expect((await accept({ room: 'R4' }))?.rooms).toEqual([]);
    client.change(FRUIT, after.replace('bins: 100, received: 97', 'bins: 100, received: 90'));
    await client.settled();
    expect((await accept())?.open).toEqual([]);
  });

  it('a proposal for another text, or a wrong one, is not taken', async () => {
    await started();
    const found = await proposed();
    const [first, ...others] = found.result.proposal.rooms;
    const twice = { ...found.result.proposal, rooms: [...(first ? [first, first] : []), ...others] };
    const wrong = { ...found, result: { ...found.result, proposal: twice } };
    const refused = await client.request<FillResultAnswer>(requests.fillResult, wrong);
    expect(refused).toMatchObject({ accepted: false, rooms: [] });
    expect(refused.message).toContain('did not pass its check');
    expect(await accept()).toBeNull();
    client.change(FRUIT, fruit.replace('bins: 100, received: 97', 'bins: 100, received: 90'));
    await client.settled();
    const late = await client.request<FillResultAnswer>(requests.fillResult, found);
    expect(late.accepted).toBe(false);
    expect(late.message).toContain('The plan was changed');
  });

  it('is taken of a plan that holds records too', async () => {
    await started(`${fruit}\nprogress:\n  R2-gala: { first-bin: 2026-09-08, last-bin: 2026-09-16 }\n`);
    const { accepted, rooms } = await handOver();
    expect([accepted, rooms]).toEqual([true, ['R3', 'R4']]);
  });

  it('is dropped while it is judged where the planner cancels it, and can be handed over again', async () => {
    await started();
    const found = await proposed();
    const source = new CancellationTokenSource();
    const asked = client.connection.sendRequest<FillResultAnswer>(requests.fillResult, found, source.token);
    source.cancel();
    const answer = await asked.catch((error: { code: number }) => error.code);
    // The protocol's own answer to a request that was cancelled before it was begun, or ours.
    if (typeof answer === 'number') expect(answer).toBe(-32800);
    else expect(answer).toMatchObject({ accepted: false, message: 'The fill proposal was cancelled.' });
    expect(await accept()).toBeNull();
    const again = await client.request<FillResultAnswer>(requests.fillResult, found);
    expect(again.accepted).toBe(true);
  });

  it.each([
    ['a room', ROOMS, '  R3:'],
    ['a lot', FRUIT, '  D2:'],
  ])('over %s its fill is offered as an action', async (_, uri, start) => {
    await started();
    await handOver();
    const text = uri === FRUIT ? fruit : textOf('orrowby.lotplan.yaml');
    if (uri !== FRUIT) client.open(uri, text);
    await client.settled();
    const at = { line: text.split('\n').findIndex((one) => one.startsWith(start)), character: 3 };
    const actions = await client.request<{ title: string; command?: unknown }[]>('textDocument/codeAction', {
      textDocument: { uri },
      range: { start: at, end: at },
      context: { diagnostics: [] },
    });
    const action = actions.find(({ title }) => title.startsWith('Put these lots'));
    expect(action?.title).toBe('Put these lots into R3: D1 97, D2 95, D3 95, in golden-delicious-standard');
    expect(action?.command).toMatchObject({ command: clientCommands.acceptFill, arguments: ['R3'] });
  });

  it('a fill that stands is topped up where that is asked for', async () => {
    const more = whole.replace('bins: 100, received: 97', 'bins: 100, received: 103');
    await started(more, '2026-09-20');
    expect((await proposed()).problem.rooms).toEqual([]);
    expect(await handOver(true)).toMatchObject({ accepted: true, rooms: ['R3'] });
    const answer = await accept();
    expect(edited(answer, more)).toBe(more.replace('D1: 97, D2', 'D1: 103, D2'));
  });
});
