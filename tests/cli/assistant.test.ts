import path from 'node:path';
import { Client } from '@modelcontextprotocol/sdk/client/index.js';
import { InMemoryTransport } from '@modelcontextprotocol/sdk/inMemory.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { assistantServer } from '../../src/cli/assistant/mcp';
import { nodeFiles, nodeResources } from '../../src/cli/files';
import type { Io } from '../../src/cli/io';
import { parseDay } from '../../src/plan/dates';
import { highsForNode } from '../../src/release/highs-node';
import { noPaint } from '../../src/report/paint';
import { root, solveHere } from './in-process';

const io: Io = {
  out: { isTerminal: false, write: () => {} },
  err: { isTerminal: false, write: () => {} },
  files: nodeFiles,
  resources: nodeResources(path.join(root, 'schemas'), path.join(root, 'src/findings/pages')),
  cwd: root,
  today: parseDay('2026-10-01') ?? 0,
  paint: noPaint,
  version: '9.8.7',
  solve: solveHere,
  loadSolver: highsForNode(),
  onInterrupt: () => () => {},
};

describe('questions of an assistant', () => {
  const client = new Client({ name: 'test', version: '1' });
  beforeAll(async () => {
    const [here, there] = InMemoryTransport.createLinkedPair();
    await assistantServer(io, 'sample-plans/first-season').connect(there);
    await client.connect(here);
  });
  afterAll(() => client.close());

  async function ask(name: string, input: Record<string, unknown> = {}) {
    const { content, isError } = await client.callTool({ name, arguments: input });
    const [first] = content as { text: string }[];
    return { text: first?.text ?? '', isError };
  }

  it('are listed, each as one that only reads', async () => {
    const { tools } = await client.listTools();
    expect(tools.map(({ name }) => name)).toContain('lotwright_what_if');
    for (const { annotations, description } of tools) {
      expect(annotations?.readOnlyHint).toBe(true);
      expect(description).toBeTruthy();
    }
    expect(client.getInstructions()).toMatch(/Sealed rooms kill/);
  });

  it('are answered as the command line answers', async () => {
    expect((await ask('lotwright_rooms')).text).toContain('R2');
    expect((await ask('lotwright_windows')).text).toMatch(/Sealed rooms kill/);
    const findings = JSON.parse((await ask('lotwright_findings', { format: 'json' })).text);
    expect(findings.findings).toBeInstanceOf(Array);
    expect((await ask('lotwright_explain', { figure: 'R2.free-gas-volume' })).text).toContain(
      'free gas volume =',
    );
    expect((await ask('lotwright_gas', { room: 'R4' })).text).toContain('R4-braeburn');
  });

  it('can be asked of a changed plan, and the file stays as it is', async () => {
    const file = 'fruit.lotplan.yaml';
    const changes = [{ file, old: 'lots: { G4: 78, G5: 81, G6: 76 }', new: 'lots: { G4: 78 }' }];
    const before = nodeFiles.read(path.join(root, 'sample-plans/first-season', file));
    const changed = await ask('lotwright_what_if', { changes, question: 'rooms' });
    expect(changed.text).toMatch(/R2\s.*\b78\b/);
    expect(nodeFiles.read(path.join(root, 'sample-plans/first-season', file))).toBe(before);
  });

  it('are refused with a reason where they make no sense', async () => {
    const outside = [{ file: '../us-units/wrenlow.lotplan.yaml', old: 'a', new: 'b' }];
    expect(await ask('lotwright_what_if', { changes: outside, question: 'check' })).toMatchObject({
      isError: true,
    });
    const absent = [{ file: 'fruit.lotplan.yaml', old: 'no such text', new: '' }];
    expect((await ask('lotwright_what_if', { changes: absent, question: 'check' })).text).toMatch(
      /does not hold this text/,
    );
    const twice = [{ file: 'fruit.lotplan.yaml', old: 'Gala', new: 'Fuji' }];
    expect((await ask('lotwright_what_if', { changes: twice, question: 'check' })).text).toMatch(
      /more than once/,
    );
    expect((await ask('lotwright_explain', { figure: 'R99.nothing' })).isError).toBe(true);
  });
});
