import fc from 'fast-check';
import { LSPErrorCodes, ResponseError } from 'vscode-languageserver/node';
import type { PlanFile } from '../../src/plan/read';
import { type Edit, editedFiles, edits } from '../plan/edited';
import { ROOT, TestClient } from '../server/client';
import { LARGER, mixed, SMALL, withCrlf } from './bases';
import { type Asking, asking, REQUESTS } from './requests';

/** Folders with a plan each: small ones, one of them with CRLF and one with lines of both kinds, and larger ones. */
const [whole, planned, us] = SMALL.map(({ files }) => files);
const [first, , mistaken] = LARGER.map(({ files }) => files);
const FOLDERS: readonly (readonly PlanFile[])[] = [
  whole ?? [],
  withCrlf(planned ?? []),
  mixed(us ?? []),
  mixed(first ?? []),
  withCrlf(mistaken ?? []),
].map((files, folder) => files.map(({ path, text }) => ({ path: `${folder}/${path}`, text })));

/** Somebody's edits of one of the plans, and what is asked in between. */
export interface Session {
  readonly folder: number;
  readonly edits: readonly Edit[];
  readonly asked: readonly Asking[];
}

export const sessions: fc.Arbitrary<Session> = fc
  .oneof({ weight: 24, arbitrary: fc.constantFrom(0, 1, 2) }, { weight: 1, arbitrary: fc.constantFrom(3, 4) })
  .chain((folder) =>
    fc.record({
      folder: fc.constant(folder),
      edits: edits(FOLDERS[folder] ?? []),
      asked: fc.array(asking, { minLength: 4, maxLength: 24 }),
    }),
  );

/** A language server with all the plans open. */
export class AskedServer {
  private readonly texts = new Map<string, string>();
  private readonly client: TestClient;
  /** What the server has logged as an error. */
  private readonly logged: string[] = [];

  constructor() {
    for (const { path, text } of FOLDERS.flat()) this.texts.set(uriOf(path), text);
    this.client = new TestClient(new Map(this.texts), {
      folders: FOLDERS.map((_, folder) => `${ROOT}/${folder}`),
      // What takes longer is looked for where a request waits for it, and not after every edit.
      idle: 5000,
    });
  }

  async start(): Promise<void> {
    this.client.connection.onNotification(
      'window/logMessage',
      ({ type, message }: { type: number; message: string }) => {
        if (type === 1) this.logged.push(message);
      },
    );
    await this.client.start();
    for (const [uri, text] of this.texts) this.client.open(uri, text);
  }

  stop(): Promise<void> {
    return this.client.stop();
  }

  /** Makes the edits, and asks between them. Throws where a request fails, or an error is logged. */
  async run({ folder, edits: sequence, asked }: Session): Promise<number> {
    const files = FOLDERS[folder] ?? [];
    const states = [files, ...editedFiles(files, sequence)];
    const each = Math.ceil(asked.length / states.length);
    for (const [index, state] of states.entries()) {
      for (const { path, text } of state) this.show(uriOf(path), text);
      const now = asked.slice(index * each, (index + 1) * each);
      await Promise.all(now.map((one) => this.ask(files, one)));
    }
    if (this.logged.length > 0) throw new Error(`the server logged: ${this.logged.splice(0).join('\n')}`);
    return asked.length;
  }

  private show(uri: string, text: string): void {
    if (this.texts.get(uri) === text) return;
    this.texts.set(uri, text);
    this.client.change(uri, text);
  }

  private async ask(files: readonly PlanFile[], asked: Asking): Promise<void> {
    const { method, line, character, what } = asked;
    const file = files[asked.file % (files.length + 1)];
    const uri = uriOf(file?.path ?? 'nowhere.lotplan.yaml');
    const place = { textDocument: { uri }, position: { line, character } };
    try {
      await this.client.request(method, REQUESTS[method]?.(place, what));
    } catch (error) {
      // What cannot be renamed is refused, with the reason.
      const isRefusal = error instanceof ResponseError && error.code === LSPErrorCodes.RequestFailed;
      if (!isRefusal || !method.toLowerCase().includes('rename'))
        throw new Error(`${method} at ${line}:${character} of ${uri} (${what}): ${String(error)}`);
    }
  }
}

function uriOf(path: string): string {
  return `${ROOT}/${path}`;
}
