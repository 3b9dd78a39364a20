import { afterEach, describe, expect, it } from 'vitest';
import { type ClientOptions, ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
const BUILDINGS = `${ROOT}/orrowby.lotplan.yaml`;
const sample = new Map(samplePlan('first-season').map(({ path, text }) => [`${ROOT}/${path}`, text]));
const fruit = sample.get(FRUIT) ?? '';
let client: TestClient;

async function started(options: ClientOptions) {
  client = new TestClient(new Map(sample), options);
  await client.start();
  client.open(FRUIT, fruit);
  await client.until('the first computation', () => client.computed.length > 0);
}

afterEach(() => client.stop(), 30_000);

describe('a client other than ours', () => {
  const hoverOverRoom = () =>
    client.request<{ contents: { kind: string; value: string } }>('textDocument/hover', {
      textDocument: { uri: FRUIT },
      position: { line: fruit.split('\n').indexOf('    room: R2'), character: 11 },
    });

  it('that does not say that it shows Markdown has hovers in plain text', async () => {
    await started({ capabilities: { textDocument: { hover: { contentFormat: ['plaintext'] } } } });
    const { kind, value } = (await hoverOverRoom()).contents;
    expect(kind).toBe('plaintext');
    expect(value).toMatch(/^The room that is filled\.\n\n/);
    expect(value).toMatch(/^Room R2$/m);
    expect(value).not.toMatch(/[*\\`]|^---$/m);
  });

  it('that shows Markdown has it', async () => {
    await started({
      capabilities: { textDocument: { hover: { contentFormat: ['plaintext', 'markdown'] } } },
    });
    const { kind, value } = (await hoverOverRoom()).contents;
    expect(kind).toBe('markdown');
    expect(value).toMatch(/^\*\*Room R2\*\*$/m);
  });

  it('that cannot be asked for its settings is heard when it says them, and told what is wrong with them', async () => {
    await started({ capabilities: {} });
    await client.settled();
    const severity = () => client.diagnostics(BUILDINGS).find(({ code }) => code === 'lime-dust')?.severity;
    const say = (settings: unknown) =>
      client.connection.sendNotification('workspace/didChangeConfiguration', { settings });
    expect(severity()).not.toBe(1);
    await say({ lotwright: { findings: { 'lime-dust': 'error', 'room-overfilled': 'fatal' } } });
    await client.until('the severity that was said', () => severity() === 1);
    expect(client.log).toEqual([
      'Setting lotwright.findings.room-overfilled must be one of error, warning, notice, off, not "fatal".',
    ]);
    // What is said of other settings leaves ours as they are.
    await say({ yaml: { validate: true } });
    await say({ lotwright: { findings: { 'lime-dust': 'off' } } });
    await client.until('the finding to go', () => severity() === undefined);
    expect(client.log).toHaveLength(1);
  });

  it('that changes no text but its version has findings of that version', async () => {
    await started({ capabilities: {} });
    await client.settled();
    const { revision } = client.computed.at(-1) ?? {};
    await client.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: FRUIT, version: 7 },
      contentChanges: [],
    });
    await client.until('the version', () => client.computed.at(-1)?.versions[FRUIT] === 7);
    // Nothing was computed for it.
    expect(client.computed.at(-1)?.revision).toBe(revision);
    client.writeFile(BUILDINGS, (sample.get(BUILDINGS) ?? '').replace('  R2:\n', '  R9:\n'));
    await client.until('findings on what another file changed', () =>
      client.codes(FRUIT).includes('unknown-reference'),
    );
    expect(client.published.findLast(({ uri }) => uri === FRUIT)?.version).toBe(7);
  });
});
