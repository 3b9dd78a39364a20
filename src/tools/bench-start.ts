/**
 * What starting costs, over an empty Node program; bundled and started by `bench.ts`, prints a line of JSON. By processor
 * time but for the way to the first findings, which is what a person waits for: that is by the clock.
 */
import { spawn, spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { firstMessage, framed } from '../server/first-answer';

/** Milliseconds, kilobytes. */
export interface StartRun {
  /** What answers a client's first request. */
  readonly coreKilobytes: number;
  /** From the start of the process to that answer, over an empty program. */
  readonly answered: number;
  /** All parts of the server loaded, over an empty program. */
  readonly loaded: number;
  /** From the start of the process to the findings of `full-season`, by the clock. */
  readonly firstFindings: number;
  /** The extension's code loaded, in an editor that does nothing. */
  readonly extension: number;
}

const [root = '', scratch = ''] = process.argv.slice(2);
const dist = (file: string) => path.join(root, 'dist', file);
const program = (name: string, text: string) => {
  const file = path.join(scratch, name);
  writeFileSync(file, text);
  return file;
};
const INITIALIZE = {
  jsonrpc: '2.0',
  id: 0,
  method: 'initialize',
  params: { processId: null, capabilities: {}, workspaceFolders: [] },
};

void measure().then((run) => console.log(JSON.stringify(run)));

async function measure(): Promise<StartRun> {
  mkdirSync(scratch, { recursive: true });
  const empty = processorTime(program('empty.cjs', ''), '');
  // The core beside parts that end at once, so that its own way to the answer is all there is.
  copyFileSync(dist('server.cjs'), path.join(scratch, 'server.cjs'));
  program('server-parts.cjs', 'process.exit(0);');
  const core = processorTime(path.join(scratch, 'server.cjs'), framed(INITIALIZE));
  const loaded = processorTime(
    program('load.cjs', `require(${JSON.stringify(dist('server-parts.cjs'))});`),
    '',
  );
  const extension = processorTime(program('extension.cjs', withoutEditor(dist('extension.cjs'))), '');
  return {
    coreKilobytes: statSync(dist('server.cjs')).size / 1e3,
    answered: core - empty,
    loaded: loaded - empty,
    firstFindings: await toFirstFindings(),
    extension: extension - empty,
  };
}

/** Of a process given a text to read, the least of five. */
function processorTime(file: string, input: string): number {
  const usage = path.join(scratch, 'usage.json');
  const env = { ...process.env, BENCH_USAGE: usage };
  const args = ['--require', path.join(root, 'src/tools/bench-at-exit.cjs'), file, '--stdio'];
  const times = Array.from({ length: 5 }, () => {
    const { status, stderr } = spawnSync(process.execPath, args, { env, input, encoding: 'utf8' });
    if (status !== 0) throw new Error(`${file} failed:\n${stderr}`);
    const { userCPUTime, systemCPUTime } = JSON.parse(readFileSync(usage, 'utf8'));
    return (userCPUTime + systemCPUTime) / 1000;
  });
  return Math.min(...times);
}

/** The extension needs an editor's classes to inherit from, and no more while it is loaded. */
function withoutEditor(file: string): string {
  return `
const Module = require('node:module');
const load = Module._load;
const nothing = () => new Proxy(class {}, {
  get: (target, key) => (key in target || typeof key === 'symbol' ? target[key] : nothing()),
  apply: () => nothing(),
});
const editor = new Proxy({ version: '1.90.0' }, { get: (known, key) => known[key] ?? nothing() });
Module._load = (name, ...rest) => (name === 'vscode' ? editor : load(name, ...rest));
require(${JSON.stringify(file)});
process.exit(0);
`;
}

function toFirstFindings(): Promise<number> {
  const folder = pathToFileURL(path.join(root, 'sample-plans/full-season')).toString();
  const began = performance.now();
  const server = spawn(process.execPath, [dist('server.cjs'), '--stdio'], {
    // As where it has never run before.
    env: { ...process.env, NODE_DISABLE_COMPILE_CACHE: '1' },
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const send = (message: object) => server.stdin.write(framed({ jsonrpc: '2.0', ...message }));
  const params = {
    processId: null,
    capabilities: {},
    workspaceFolders: [{ uri: folder, name: 'full-season' }],
  };
  send({ ...INITIALIZE, params });
  let kept = Buffer.alloc(0);
  return new Promise((resolve) => {
    server.stdout.on('data', (chunk: Buffer) => {
      kept = Buffer.concat([kept, chunk]);
      for (let message = firstMessage(kept); message; message = firstMessage(kept)) {
        kept = kept.subarray(kept.indexOf('\r\n\r\n') + 4 + lengthOf(kept));
        const {
          id,
          method,
          params: told,
        } = message.content as {
          readonly id?: number;
          readonly method?: string;
          readonly params?: { readonly diagnostics?: readonly unknown[] };
        };
        if (id === INITIALIZE.id && method === undefined) send({ method: 'initialized', params: {} });
        if (method !== 'textDocument/publishDiagnostics' || !told?.diagnostics?.length) continue;
        server.kill();
        resolve(performance.now() - began);
      }
    });
  });
}

function lengthOf(bytes: Buffer): number {
  return Number(/content-length: *(\d+)/i.exec(bytes.toString('latin1', 0, 100))?.[1]);
}
