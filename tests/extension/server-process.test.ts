import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Message, MessageTransports } from 'vscode-languageclient/node';
import { begunServer } from '../../extension/begun-server';
import { ServerProcess } from '../../extension/server-process';

// The client's own package wants an editor around it; both have readers and writers from the same place.
vi.mock('vscode-languageclient/node', () => import('vscode-languageserver/node'));

/** Says who it is to every message, and does what it is told. */
const SERVER = `
process.on('message', ({ method }) => {
  if (method === 'exit') process.exit(0);
  if (method === 'fall') process.exit(3);
  if (method === 'complain') console.error('too warm in here');
  process.send({ jsonrpc: '2.0', id: process.pid, result: method });
});
`;

describe('the process of the language server', () => {
  let folder = '';
  const log = { info: vi.fn(), error: vi.fn() };
  let server: ServerProcess;

  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'lotwright-server-'));
    const file = path.join(folder, 'server.cjs');
    writeFileSync(file, SERVER);
    server = new ServerProcess(file, log, begunServer(file));
  });

  afterEach(async () => {
    await server.end();
    rmSync(folder, { recursive: true });
    vi.clearAllMocks();
  });

  it('answers the client that comes for it later', async () => {
    const { asked } = spokenTo(await server.transports());
    expect(await asked('initialize')).toMatchObject({ result: 'initialize' });
    await asked('exit', false);
  });

  it('is followed by another one where it has ended', async () => {
    const first = spokenTo(await server.transports());
    const before = await first.asked('initialize');
    await first.asked('fall', false);
    await first.closed;
    const second = spokenTo(await server.transports());
    const after = await second.asked('initialize');
    expect(after).toMatchObject({ result: 'initialize' });
    expect(after).not.toMatchObject({ id: (before as unknown as { id: number }).id });
    await second.asked('exit', false);
  });

  it('writes into the log what it has to say beside its messages', async () => {
    const { asked } = spokenTo(await server.transports());
    await asked('complain');
    await vi.waitFor(() => expect(log.error).toHaveBeenCalledWith('too warm in here'));
    await asked('exit', false);
  });

  it('is ended where nobody has come for it', async () => {
    await server.end();
    const { asked } = spokenTo(await server.transports());
    expect(await asked('initialize')).toMatchObject({ result: 'initialize' });
    await asked('exit', false);
  });
});

/** As the client speaks: `answers` is false for what ends the server. */
function spokenTo({ reader, writer }: MessageTransports) {
  let hear: (message: Message) => void = () => {};
  reader.listen((message) => hear(message));
  const closed = new Promise<void>((resolve) => reader.onClose(() => resolve()));
  const asked = (method: string, answers = true) => {
    const answer = new Promise<Message>((resolve) => {
      hear = resolve;
    });
    const sent = writer.write({ jsonrpc: '2.0', method } as Message);
    return answers ? answer : sent;
  };
  return { asked, closed };
}
