import { type ChildProcess, spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  createProtocolConnection,
  type Hover,
  type InitializeResult,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { framed } from '../../src/server/first-answer';
import { root } from '../cli/in-process';

// Any editor that speaks the Language Server Protocol starts the server so: a process, its standard streams, no options.
describe('the language server on standard streams, for any editor', () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-server-'));
  const plan = path.join(root, 'sample-plans/with-mistakes');
  const [name = ''] = fs.readdirSync(plan).filter((file) => file.endsWith('.lotplan.yaml'));
  const uri = pathToFileURL(path.join(plan, name)).href;
  const text = fs.readFileSync(path.join(plan, name), 'utf8');
  let server: ChildProcess;
  let connection: ProtocolConnection;

  beforeAll(async () => {
    await build({
      absWorkingDir: root,
      entryPoints: { server: 'src/server/node.ts', 'server-parts': 'src/server/serve-node.ts' },
      outdir: folder,
      outExtension: { '.js': '.cjs' },
      bundle: true,
      platform: 'node',
      format: 'cjs',
      target: 'node20',
      alias: { highs: path.join(root, 'node_modules/highs/build/highs.js') },
      logLevel: 'error',
    });
    server = spawn(process.execPath, [path.join(folder, 'server.cjs')], {
      env: { ...process.env, NODE_DISABLE_COMPILE_CACHE: '1' },
    });
    if (!server.stdout || !server.stdin) throw new Error('no streams');
    connection = createProtocolConnection(
      new StreamMessageReader(server.stdout),
      new StreamMessageWriter(server.stdin),
    );
    connection.onRequest('client/registerCapability', () => null);
    connection.onRequest('workspace/configuration', () => [null]);
    connection.listen();
  });
  afterAll(() => {
    connection?.dispose();
    server?.kill();
    fs.rmSync(folder, { recursive: true, force: true });
  });

  it('tells findings and hovers of a plan on the disk', async () => {
    const published = new Promise<PublishDiagnosticsParams>((resolve) => {
      connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
        if (params.uri === uri && params.diagnostics.length > 0) resolve(params);
      });
    });
    const { capabilities } = await connection.sendRequest<InitializeResult>('initialize', {
      processId: process.pid,
      rootUri: pathToFileURL(plan).href,
      workspaceFolders: [{ uri: pathToFileURL(plan).href, name: 'plan' }],
      capabilities: { workspace: { workspaceFolders: true } },
    });
    expect(capabilities).toMatchObject({ hoverProvider: true, completionProvider: {}, renameProvider: {} });
    await connection.sendNotification('initialized', {});
    await connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId: 'lotplan', version: 1, text },
    });
    const { diagnostics } = await published;
    expect(diagnostics.every(({ source }) => source === 'Lotwright')).toBe(true);
    const line = text.split('\n').findIndex((one) => one.startsWith('rooms:'));
    const hover = await connection.sendRequest<Hover | null>('textDocument/hover', {
      textDocument: { uri },
      position: { line, character: 2 },
    });
    expect(JSON.stringify(hover?.contents)).toContain('Rooms');
  });

  it('tells how it is spoken to, and an option that it does not know in a line', async () => {
    const help = await ended(['--help']);
    expect(help).toMatchObject({ code: 0, err: '' });
    for (const way of ['--stdio', '--node-ipc', '--socket=<port>', '--pipe=<name>'])
      expect(help.out).toContain(way);
    expect(help.out.split('\n').length).toBeLessThan(14);
    for (const words of [
      ['--stdoi'],
      ['--stdio', '--verbose'],
      ['plans/2026'],
      ['--socket=telnet'],
      ['--socket'],
    ]) {
      const { code, out, err } = await ended(words);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(/^lotwright server: .*expected .*\n$/);
    }
  });

  it.each(['--stdio', `--clientProcessId=${process.pid}`, `--clientProcessId ${process.pid}`])(
    'answers on its standard streams with %s',
    async (words) => {
      const { out } = await ended(
        words.split(' '),
        framed({ jsonrpc: '2.0', id: 7, method: 'initialize', params: {} }),
      );
      expect(out).toContain('"id":7,"result":{"serverInfo"');
    },
  );

  /** The process by itself, its input closed after what it is told. */
  async function ended(words: readonly string[], told = '') {
    const one = spawn(process.execPath, [path.join(folder, 'server.cjs'), ...words], {
      env: { ...process.env, NODE_DISABLE_COMPILE_CACHE: '1' },
    });
    const written = { out: '', err: '' };
    one.stdout.on('data', (chunk) => (written.out += String(chunk)));
    one.stderr.on('data', (chunk) => (written.err += String(chunk)));
    one.stdin.on('error', () => {});
    one.stdin.end(told);
    const code = await new Promise<number | null>((resolve) => one.on('close', resolve));
    return { code, ...written };
  }

  it('is started as the README tells', () => {
    const readme = fs.readFileSync(path.join(root, 'README.md'), 'utf8');
    const section = readme.split('## In other editors')[1]?.split('\n## ')[0] ?? '';
    expect(section.match(/dist\/server\.cjs/g)?.length).toBeGreaterThanOrEqual(2);
    expect(section.match(/--stdio/g)?.length).toBeGreaterThanOrEqual(2);
    expect(section).toContain('*.lotplan.yaml');
  });
});
