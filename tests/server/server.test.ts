import { afterEach, describe, expect, it } from 'vitest';
import { parseDay, parseWeek } from '../../src/plan/dates';
import { quickRelease } from '../../src/release/quick';
import {
  type ExplainAnswer,
  type ReleaseProblemAnswer,
  type ReleaseResultAnswer,
  requests,
  type TimelineAnswer,
} from '../../src/server/protocol';
import { type ClientOptions, ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
const BUILDINGS = `${ROOT}/orrowby.lotplan.yaml`;
const sample = new Map(samplePlan('first-season').map(({ path, text }) => [`${ROOT}/${path}`, text]));
const fruit = sample.get(FRUIT) ?? '';
const unknownRoom = fruit.replace('    room: R2\n', '    room: R9\n');

let client: TestClient;

async function started(files: ReadonlyMap<string, string> = sample, options: ClientOptions = {}) {
  client = new TestClient(new Map(files), options);
  await client.start();
  return client;
}

afterEach(() => client.stop(), 30_000);

describe('findings in the editor', () => {
  it('appear as text changes and clear when it is mended', async () => {
    await started();
    client.open(FRUIT, fruit);
    await client.until('the first computation', () => client.computed.length > 0);
    expect(client.codes(FRUIT)).not.toContain('unknown-reference');
    const version = client.change(FRUIT, unknownRoom);
    await client.until('the unknown room', () => client.codes(FRUIT).includes('unknown-reference'));
    const found = client.diagnostics(FRUIT).find(({ code }) => code === 'unknown-reference');
    const line = unknownRoom.split('\n').indexOf('    room: R9');
    expect(found?.range).toEqual({ start: { line, character: 10 }, end: { line, character: 12 } });
    expect(found?.source).toBe('Lotwright');
    expect(found?.codeDescription?.href).toBe('file:///lotwright/pages/unknown-reference.md');
    expect(client.published.findLast(({ uri }) => uri === FRUIT)?.version).toBe(version);
    client.change(FRUIT, fruit);
    await client.until('no unknown room', () => !client.codes(FRUIT).includes('unknown-reference'));
  });

  it('are published for files that are not open, and clear when another file mends them', async () => {
    const without = (sample.get(BUILDINGS) ?? '').replace('  R2:\n', '  R2x:\n');
    await started(new Map([...sample, [BUILDINGS, without]]));
    await client.until('the unknown room', () => client.codes(FRUIT).includes('unknown-reference'));
    client.open(BUILDINGS, without);
    client.change(BUILDINGS, sample.get(BUILDINGS) ?? '');
    await client.until('no unknown room', () => !client.codes(FRUIT).includes('unknown-reference'));
  });

  it('stand as they are when a file is opened as it is, and are those of the document from then on', async () => {
    await started(new Map([...sample, [FRUIT, unknownRoom]]), { idle: 60_000 });
    await client.until('the first computation', () => client.computed.length > 0);
    const [first] = client.computed;
    client.open(FRUIT, unknownRoom);
    await client.until('the version', () => client.computed.at(-1)?.versions[FRUIT] === 1);
    expect(client.computed.at(-1)?.revision).toBe(first?.revision);
    expect(client.codes(FRUIT)).toContain('unknown-reference');
    const version = client.change(FRUIT, fruit);
    await client.until('the edit', () => client.computed.at(-1)?.versions[FRUIT] === version);
    expect(client.computed.at(-1)?.revision).toBeGreaterThan(first?.revision ?? 0);
  });

  it('are not looked for anew when the settings are told of that were known', async () => {
    const settings = { findings: { 'lime-dust': 'warning' } };
    const options = { settings, idle: 60_000 };
    await started(sample, options);
    await client.until('the first computation', () => client.computed.length > 0);
    const tell = () => client.connection.sendNotification('workspace/didChangeConfiguration', { settings });
    await tell();
    client.open(FRUIT, fruit);
    await client.until('the version', () => client.computed.at(-1)?.versions[FRUIT] === 1);
    expect(new Set(client.computed.map(({ revision }) => revision)).size).toBe(1);
    settings.findings['lime-dust'] = 'error';
    await tell();
    await client.until('new findings', () => (client.computed.at(-1)?.revision ?? 0) > 1);
  });

  it('go away with their file, and come back with it', async () => {
    await started(new Map([...sample, [FRUIT, unknownRoom]]));
    await client.until('the unknown room', () => client.codes(FRUIT).includes('unknown-reference'));
    client.writeFile(FRUIT, undefined);
    await client.until('nothing about the deleted file', () => client.diagnostics(FRUIT).length === 0);
    client.writeFile(FRUIT, unknownRoom);
    await client.until('the unknown room again', () => client.codes(FRUIT).includes('unknown-reference'));
  });

  it('follow the text that is on disk when a document is closed unsaved', async () => {
    await started();
    client.open(FRUIT, fruit);
    client.change(FRUIT, unknownRoom);
    await client.until('the unknown room', () => client.codes(FRUIT).includes('unknown-reference'));
    client.close(FRUIT);
    await client.until('no unknown room', () => !client.codes(FRUIT).includes('unknown-reference'));
  });

  it('never come from a text that is no longer there', async () => {
    await started();
    client.open(FRUIT, fruit);
    const texts = new Map([[1, fruit]]);
    for (let round = 0; round < 12; round++) {
      const text = round % 2 === 0 ? unknownRoom : fruit;
      texts.set(client.change(FRUIT, text), text);
      await new Promise((resolve) => setTimeout(resolve, round * 3));
    }
    await client.settled();
    expect(client.codes(FRUIT)).not.toContain('unknown-reference');
    const versions = client.published.filter(({ uri }) => uri === FRUIT).map(({ version }) => version ?? 0);
    expect(versions).toEqual([...versions].sort((a, b) => a - b));
    for (const { uri, version, diagnostics } of client.published)
      if (uri === FRUIT && version !== undefined)
        expect(diagnostics.some(({ code }) => code === 'unknown-reference')).toBe(
          texts.get(version) === unknownRoom,
        );
  });

  it('are sent again only where they have changed', async () => {
    await started();
    client.open(FRUIT, unknownRoom);
    await client.until('the unknown room', () => client.codes(FRUIT).includes('unknown-reference'));
    await client.settled();
    const before = client.published.length;
    client.change(FRUIT, `${unknownRoom}\n# a comment at the end changes nothing\n`);
    await client.settled();
    expect(client.published.length).toBe(before);
  });

  it("take their severity from the editor's settings, and the plan's word before them", async () => {
    const settings = { findings: { 'lime-dust': 'warning', 'caution-before-opening': 'off', nonsense: 7 } };
    const policy = '\npolicy:\n  findings: { lime-dust: error }\n';
    await started(sample, { settings });
    await client.settled();
    const severity = () => client.diagnostics(BUILDINGS).find(({ code }) => code === 'lime-dust')?.severity;
    expect(severity()).toBe(2);
    // A caution is not for a setting to turn off.
    expect(client.codes(FRUIT)).toContain('caution-before-opening');
    const own = (sample.get(BUILDINGS) ?? '').replace('\npolicy:\n', `${policy}`);
    client.open(BUILDINGS, own);
    await client.until('the severity of the plan', () => severity() === 1);
  });
});

describe('plans of a workspace', () => {
  it('lie side by side and do not see each other', async () => {
    const two = [...sample].flatMap(([uri, text]) => [
      [uri.replace(ROOT, `${ROOT}/north`), text] as const,
      [uri.replace(ROOT, `${ROOT}/south`), uri === FRUIT ? unknownRoom : text] as const,
    ]);
    await started(new Map(two));
    await client.settled();
    expect(new Set(client.computed.map(({ root }) => root))).toEqual(
      new Set([`${ROOT}/north`, `${ROOT}/south`]),
    );
    expect(client.codes(`${ROOT}/south/fruit.lotplan.yaml`)).toContain('unknown-reference');
    expect(client.codes(`${ROOT}/north/fruit.lotplan.yaml`)).not.toContain('unknown-reference');
  });

  it('may be a single document that was never saved', async () => {
    await started(new Map());
    client.open('untitled:Untitled-1', 'rooms:\n  R1: { colour: red }\n');
    await client.until('its findings', () => client.diagnostics('untitled:Untitled-1').length > 0);
    client.close('untitled:Untitled-1');
    await client.until('none', () => client.diagnostics('untitled:Untitled-1').length === 0);
  });

  it.each([
    ['a document of a folder that nobody has told of', (uri: string) => client.open(uri, fruit)],
    ['the one file of a folder that was told of', (uri: string) => client.writeFile(uri, fruit)],
  ])('are found beside %s', async (_, comes) => {
    await started(new Map([...sample].map(([uri, text]) => [uri.replace(ROOT, `${ROOT}/north`), text])));
    await client.settled();
    // A folder that comes all at once is not always told of file by file.
    const south = (uri: string) => uri.replace(ROOT, `${ROOT}/south`);
    for (const [uri, text] of sample) client.files.set(south(uri), text);
    comes(south(FRUIT));
    await client.until('its computation', () =>
      client.computed.some(({ root, rooms }) => root === `${ROOT}/south` && rooms === 4),
    );
    await client.settled();
    expect(client.codes(south(FRUIT))).not.toContain('unknown-reference');
  });

  it('are found beside a document outside the workspace', async () => {
    const outside = new Map([...sample].map(([uri, text]) => [uri.replace(ROOT, 'file:///elsewhere'), text]));
    await started(outside);
    client.open('file:///elsewhere/fruit.lotplan.yaml', fruit);
    await client.until('its computation', () => client.computed.some(({ rooms }) => rooms === 4));
    await client.settled();
    expect(client.codes('file:///elsewhere/fruit.lotplan.yaml')).not.toContain('unknown-reference');
    client.change('file:///elsewhere/fruit.lotplan.yaml', unknownRoom);
    await client.until(
      'a finding',
      () => client.diagnostics('file:///elsewhere/fruit.lotplan.yaml').length > 0,
    );
    client.close('file:///elsewhere/fruit.lotplan.yaml');
    await client.until('nothing about it once it is closed', () =>
      [...outside.keys()].every((uri) => client.diagnostics(uri).length === 0),
    );
  });

  it('go with their folder', async () => {
    const below = new Map(
      [...sample].map(([uri, text]) => [
        uri.replace(ROOT, `${ROOT}/2026`),
        uri === FRUIT ? unknownRoom : text,
      ]),
    );
    await started(below);
    const moved = `${ROOT}/2026/fruit.lotplan.yaml`;
    await client.until('the unknown room', () => client.codes(moved).includes('unknown-reference'));
    client.files.clear();
    client.deleteFolder(`${ROOT}/2026`);
    await client.until('nothing about its files', () => client.diagnostics(moved).length === 0);
  });
});

describe('requests', () => {
  it('answer from the text as it is, not from what was computed last', async () => {
    await started();
    client.open(FRUIT, fruit);
    await client.settled();
    client.change(FRUIT, `# one line more\n${fruit}`);
    const line = fruit.split('\n').indexOf('    room: R2');
    const params = { textDocument: { uri: FRUIT }, position: { line: line + 1, character: 11 } };
    const [definition] = await client.request<{ uri: string }[]>('textDocument/definition', params);
    expect(definition?.uri).toBe(BUILDINGS);
  });

  it('give hover, outline, references, completion and actions in the words of the protocol', async () => {
    await started();
    client.open(FRUIT, unknownRoom);
    await client.settled();
    const textDocument = { uri: FRUIT };
    const line = unknownRoom.split('\n').indexOf('    room: R9');
    const position = { line: line + 1, character: 15 };
    const hover = await client.request<{ contents: { value: string } }>('textDocument/hover', {
      textDocument,
      position,
    });
    expect(hover.contents.value).toContain('Regime gala-own');
    const symbols = await client.request<{ name: string }[]>('textDocument/documentSymbol', { textDocument });
    expect(symbols.map(({ name }) => name)).toEqual(['regimes', 'lots', 'fills']);
    const references = await client.request<unknown[]>('textDocument/references', {
      textDocument,
      position,
      context: { includeDeclaration: true },
    });
    expect(references).toHaveLength(2);
    const completion = await client.request<{ label: string }[]>('textDocument/completion', {
      textDocument,
      position: { line, character: 12 },
    });
    expect(completion.map(({ label }) => label)).toEqual(['R2', 'R1', 'R3', 'R4']);
    const range = { start: { line, character: 10 }, end: { line, character: 12 } };
    const actions = await client.request<{ title: string; command?: { command: string } }[]>(
      'textDocument/codeAction',
      { textDocument, range, context: { diagnostics: [] } },
    );
    expect(actions.map(({ command }) => command?.command)).toContain('lotwright.showFindingPage');
  });

  it('give the timeline with the plan, its rows and where they stand in the text', async () => {
    await started(sample, { today: parseDay('2026-10-07') ?? 0 });
    client.open(FRUIT, fruit);
    const answer = await client.request<TimelineAnswer>(requests.timeline, { uri: FRUIT });
    expect(answer.root).toBe(ROOT);
    expect(answer.view.rows.map(({ key }) => key).sort()).toEqual([
      'R1-gala',
      'R2-gala',
      'R3-golden',
      'R4-braeburn',
    ]);
    expect(answer.view.weeks[Math.floor(answer.view.today ?? -1)]).toBe('2026-W41');
    const row = answer.view.rows.find(({ key }) => key === 'R3-golden');
    expect(answer.files[row?.target.file ?? '']).toBe(FRUIT);
    expect(fruit.slice(row?.target.start, row?.target.end)).toContain('R3-golden');
  });

  it('give the window by confidence with it, of the text as it is', async () => {
    await started();
    client.open(FRUIT, fruit);
    const latest = async () => {
      const { view } = await client.request<TimelineAnswer>(requests.timeline, { uri: FRUIT });
      const row = view.rows.find(({ key }) => key === 'R2-gala');
      return row?.byConfidence?.map(({ confidence, latest: week }) => [confidence, view.weeks[week]]);
    };
    const before = [
      [95, '2027-W07'],
      [90, '2027-W08'],
      [80, '2027-W10'],
      [50, '2027-W13'],
    ];
    expect(await latest()).toEqual(before);
    client.change(FRUIT, fruit.replaceAll('sealed: 2026-09-18', 'sealed: 2026-10-09'));
    const after = await latest();
    expect(after?.map(([confidence]) => confidence)).toEqual([95, 90, 80, 50]);
    // Fruit that waits three weeks longer for its gas keeps a shorter time at every confidence.
    for (const [at, [, week = '']] of (after ?? []).entries())
      expect(week < (before[at]?.[1] ?? '')).toBe(true);
    client.change(FRUIT, fruit);
    expect(await latest()).toEqual(before);
  });

  it('explain the figures of the entry at the caret', async () => {
    await started();
    client.open(FRUIT, fruit);
    const line = fruit.split('\n').indexOf('    room: R2');
    const answer = await client.request<ExplainAnswer>(requests.explain, {
      uri: FRUIT,
      position: { line, character: 11 },
    });
    expect(answer.title).toBe('Room R2');
    expect(answer.markdown).toContain('room volume = length * width * height');
  });

  it('answer null for a document that is in no plan', async () => {
    await started();
    const textDocument = { uri: 'file:///farm/other.yaml' };
    const answer = await client.request('textDocument/hover', {
      textDocument,
      position: { line: 0, character: 0 },
    });
    expect(answer).toBeNull();
  });
});

describe('release weeks solved elsewhere', () => {
  async function solved() {
    const handed = await client.request<ReleaseProblemAnswer>(requests.releaseProblem, { uri: FRUIT });
    const result = quickRelease(handed.problem, { seed: 7, moves: 500 });
    return { root: handed.root, problem: handed.problem, result };
  }

  it('are taken when they pass the check and the plan is the same', async () => {
    await started();
    client.open(FRUIT, fruit);
    await client.settled();
    const params = await solved();
    const answer = await client.request<ReleaseResultAnswer>(requests.releaseResult, params);
    expect(answer).toMatchObject({ accepted: true });
    const { view } = await client.request<TimelineAnswer>(requests.timeline, { uri: FRUIT });
    const opens = params.problem.rooms.map(
      ({ fill }) => view.rows.find(({ key }) => key === fill)?.opens?.week,
    );
    const first = params.problem.firstWeek - firstWeekOf(view.weeks[0] ?? '');
    expect(opens).toEqual(params.result.schedule.opens.map((week) => (week ?? 0) + first));
  });

  it('are not taken when the plan has changed meanwhile', async () => {
    await started();
    client.open(FRUIT, fruit);
    await client.settled();
    const params = await solved();
    client.change(FRUIT, fruit.replace('D1: 97', 'D1: 60'));
    const answer = await client.request<ReleaseResultAnswer>(requests.releaseResult, params);
    expect(answer.accepted).toBe(false);
    expect(answer.message).toContain('changed');
  });

  it('are not taken when they do not pass the check', async () => {
    await started();
    client.open(FRUIT, fruit);
    await client.settled();
    const params = await solved();
    const sold = params.result.schedule.sold.map((weeks) => weeks.map((cartons) => cartons + 1000));
    const result = { ...params.result, schedule: { ...params.result.schedule, sold } };
    const answer = await client.request<ReleaseResultAnswer>(requests.releaseResult, { ...params, result });
    expect(answer.accepted).toBe(false);
    expect(answer.message).toContain('check');
  });

  it('are kept through edits that do not concern them', async () => {
    await started();
    client.open(FRUIT, fruit);
    await client.settled();
    const params = await solved();
    await client.request<ReleaseResultAnswer>(requests.releaseResult, params);
    const before = await client.request<TimelineAnswer>(requests.timeline, { uri: FRUIT });
    client.change(FRUIT, `# read again in spring\n${fruit}`);
    await client.settled();
    const after = await client.request<TimelineAnswer>(requests.timeline, { uri: FRUIT });
    expect(after.view.rows.map(({ opens }) => opens?.week)).toEqual(
      before.view.rows.map(({ opens }) => opens?.week),
    );
    expect(after.view.revision).toBeGreaterThan(before.view.revision);
  });
});

function firstWeekOf(label: string): number {
  return parseWeek(label) ?? Number.NaN;
}
