import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { CancellationTokenSource, type CodeAction, type CodeLens } from 'vscode-languageserver/node';
import {
  type LearnAnswer,
  type LearnShare,
  learnRequest,
  learnShare,
  type TakeLessonsAnswer,
  takeLessonsRequest,
} from '../../src/server/protocol-learn';
import { inMemory, lotwright, root } from '../cli/in-process';
import { sampleFiles } from '../samples/sample';
import { ROOT, TestClient } from './client';

const files = sampleFiles('in-march');
const csv = (name: string) => readFileSync(path.join(root, 'sample-plans/in-march', name), 'utf8');
const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
const ORROWBY = `${ROOT}/orrowby.lotplan.yaml`;
const textOf = (name: string) => files.find((file) => file.path === `${name}.lotplan.yaml`)?.text ?? '';

type Edits = readonly {
  readonly range: { readonly start: Place; readonly end: Place };
  readonly newText: string;
}[];
interface Place {
  readonly line: number;
  readonly character: number;
}

/** The text with the edits made, as an editor makes them. */
function edited(text: string, edits: Edits): string {
  const lines = text.split('\n');
  const offset = ({ line, character }: Place) =>
    lines.slice(0, line).reduce((sum, one) => sum + one.length + 1, 0) + character;
  return [...edits]
    .map((edit, index) => ({ ...edit, index, start: offset(edit.range.start), end: offset(edit.range.end) }))
    .sort((a, b) => b.start - a.start || b.index - a.index)
    .reduce((now, { start, end, newText }) => now.slice(0, start) + newText + now.slice(end), text);
}

/** What the command line makes of the sample's files with these lessons. */
async function writtenByCommandLine(...lessons: string[]): Promise<Map<string, string>> {
  const given = inMemory({
    ...Object.fromEntries(files.map(({ path: name, text }) => [`/plan/${name}`, text])),
    '/plan/readings.csv': csv('readings.csv'),
    '/plan/logger.csv': csv('logger.csv'),
  });
  const { code } = await lotwright(['learn', 'plan', '--write', ...lessons], { files: given, cwd: '/' });
  expect(code).toBe(0);
  return new Map(files.map(({ path: name }) => [name, String(given.read(`/plan/${name}`))]));
}

describe('what records teach, in the editor', () => {
  let client: TestClient | undefined;
  afterEach(() => client?.stop());

  async function start(withReadings = true): Promise<TestClient> {
    const all = new Map(files.map(({ path: name, text }) => [`${ROOT}/${name}`, text]));
    if (withReadings)
      for (const name of ['readings.csv', 'logger.csv']) all.set(`${ROOT}/${name}`, csv(name));
    const started = new TestClient(all);
    client = started;
    await started.start();
    started.open(FRUIT, textOf('fruit'));
    await started.settled();
    return started;
  }
  const learn = (of: TestClient, more: object = {}) =>
    of.request<LearnAnswer | null>(learnRequest, { uri: FRUIT, ask: 1, ...more });
  const lineOf = (text: string, start: string) =>
    text.split('\n').findIndex((line) => line.trim().startsWith(start));

  it('is told with intervals, with what the command line says it changes, and its share while it is reckoned', async () => {
    const of = await start();
    const shares: LearnShare[] = [];
    of.connection.onNotification(learnShare, (share: LearnShare) => {
      shares.push(share);
    });
    const answer = await learn(of);
    const respiration = answer?.lessons.find(({ id }) => id === 'respiration/R2-gala');
    expect(respiration).toMatchObject({ differs: true, written: false });
    expect(respiration?.line).toMatch(
      /^Readings say: respiration as a share of what the varieties give 1\.\d\d \(95 %: 1\.\d\d to 1\.\d\d\), plan 1\.00$/,
    );
    const { out } = await lotwright([
      'learn',
      'sample-plans/in-march',
      '--of',
      'respiration/R2-gala',
      '--format',
      'json',
    ]);
    const [told] = JSON.parse(out).lessons;
    expect(respiration?.value).toBe(told.writes.value);
    expect(respiration?.effects).toEqual(told.effects.map(({ text }: { text: string }) => text));
    expect(answer?.together?.lessons.length).toBeGreaterThan(1);
    expect(answer?.lessons.find(({ id }) => id === 'packout/G1')).toMatchObject({ differs: false });
    expect(answer?.notLearned.map(({ entry }) => entry)).toEqual(['R3-golden']);
    expect(shares.length).toBeGreaterThan(3);
    for (const { ask, share } of shares) expect([ask, share >= 0 && share <= 1]).toEqual([1, true]);
  });

  it('is taken in by the edits that the command line makes, of all that were chosen', async () => {
    const of = await start();
    const chosen = ['respiration/R2-gala', 'leakage/R2', 'firmness/G4', 'packout/G4', 'packout/G5'];
    const answer = await learn(of);
    const lessons = chosen.map((id) => {
      const value = answer?.lessons.find((lesson) => lesson.id === id)?.value ?? '';
      return { id, value };
    });
    const taken = await of.request<TakeLessonsAnswer | null>(takeLessonsRequest, { uri: FRUIT, lessons });
    const written = await writtenByCommandLine(...chosen);
    for (const name of ['fruit', 'orrowby'])
      expect(edited(textOf(name), taken?.edits[`${ROOT}/${name}.lotplan.yaml`] ?? []), name).toBe(
        written.get(`${name}.lotplan.yaml`),
      );
    expect(Object.keys(taken?.edits ?? {}).sort()).toEqual([FRUIT, ORROWBY]);
    expect(taken?.versions).toEqual({ [FRUIT]: 1 });
    // What is no longer as it was shown is not written.
    const other = lessons.map((lesson) => ({ ...lesson, value: `${lesson.value} ` }));
    expect(await of.request(takeLessonsRequest, { uri: FRUIT, lessons: other })).toBeNull();
  });

  it('stands above the entries it differs from, and is offered there as actions', async () => {
    const of = await start();
    await learn(of);
    const lenses = await of.request<CodeLens[]>('textDocument/codeLens', { textDocument: { uri: FRUIT } });
    const mine = lenses.filter(({ command }) => command?.command === 'lotwright.takeLessons');
    const line = lineOf(textOf('fruit'), 'R2-gala:');
    const lens = mine.find(({ range }) => range.start.line === line);
    expect(lens?.command?.title).toMatch(/^Readings say: respiration/);
    expect(lens?.command?.arguments).toEqual([{ uri: FRUIT, of: ['respiration/R2-gala'] }]);
    const at = { line, character: 4 };
    const actionsAt = async (place: Place) => {
      const params = {
        textDocument: { uri: FRUIT },
        range: { start: place, end: place },
        context: { diagnostics: [] },
      };
      const actions = await of.request<CodeAction[]>('textDocument/codeAction', params);
      return actions.filter(({ title }) => title.startsWith('Take it in · '));
    };
    const actions = await actionsAt(at);
    // The leak of its room is offered beside its own respiration.
    expect(actions.map(({ title }) => title.replace(/.*say: (\w+).*/, '$1'))).toEqual(['respiration', 'air']);
    const written = await writtenByCommandLine('respiration/R2-gala');
    const after = edited(textOf('fruit'), actions[0]?.edit?.changes?.[FRUIT] ?? []);
    expect(after).toBe(written.get('fruit.lotplan.yaml'));
    // Once it stands in the plan, it is offered no more.
    of.change(FRUIT, after);
    await of.settled();
    const again = await learn(of);
    const lesson = again?.lessons.find(({ id }) => id === 'respiration/R2-gala');
    expect(lesson?.differs).toBe(false);
    const later = await of.request<CodeLens[]>('textDocument/codeLens', { textDocument: { uri: FRUIT } });
    expect(
      later.filter(({ command }) => JSON.stringify(command?.arguments ?? []).includes('respiration/R2-gala')),
    ).toEqual([]);
  });

  it('says that there are records, and ends when it is cancelled', async () => {
    const of = await start();
    expect(of.computed.at(-1)?.hasRecords).toBe(true);
    const source = new CancellationTokenSource();
    const asked = of.connection.sendRequest(learnRequest, { uri: FRUIT, ask: 2 }, source.token);
    source.cancel();
    const answer = await asked.catch((error: { code: number }) => error.code);
    // Null, or the protocol's own answer to a request that was cancelled before it was begun.
    expect([null, -32800]).toContain(answer);
    expect(await learn(of)).not.toBeNull();
  });

  it('is of what there is where the readings cannot be read', async () => {
    const of = await start(false);
    const answer = await learn(of);
    const kinds = new Set(answer?.lessons.map(({ id }) => id.split('/')[0]));
    expect([...kinds].sort()).toEqual(['firmness', 'packout']);
  });
});
