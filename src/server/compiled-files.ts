import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { cachedDataVersionTag } from 'node:v8';
import vm from 'node:vm';

/** What Node gives a file of its own kind. */
type Run = (
  exports: unknown,
  require: (asked: string) => unknown,
  module: { exports: unknown },
  file: string,
  folder: string,
) => void;

/** A file that has been loaded. */
interface Loaded {
  readonly module: { exports: unknown };
  readonly script: vm.Script;
  /** Says which text it is; see `parts.mjs`. A file without it is loaded as well, and nothing of it is kept. */
  readonly mark: string | undefined;
  /** Bytes of what is kept of it and is of use. */
  keptBytes: number;
}

/** As Node begins and ends what it makes of a file. */
const HEAD = '(function (exports, require, module, __filename, __dirname) { ';
const END = '\n});';

/** A tenth more than has been kept is worth writing. */
const WORTH = 1.1;
const LONG_MS = 60 * 24 * 3600 * 1000;

/**
 * Loads files as `require` does, each with what the engine made of it when the program ran before: to take a function's
 * text apart costs as much as to run it once, and of opening a plan most is run once. What is kept is of no use to another
 * engine or to another text, and the engine refuses it then; whoever can write it could write the program as well.
 *
 * Node does this by itself from version 22 on (`module.enableCompileCache`), with no say in when it is written; what the
 * packages for it keep are the functions that are made while a file is loaded, which are few.
 */
export class CompiledFiles {
  private readonly loaded = new Map<string, Loaded>();

  /** `folder` holds the files, `kept` what is known of them, if anything is to be; `asFirst` does some work with the engine set as it began. */
  constructor(
    private readonly folder: string,
    private readonly kept: string | undefined,
    private readonly asFirst: <Result>(work: () => Result) => Result,
  ) {}

  /** What a file exports. Throws as `require` does. */
  load(name: string): unknown {
    const known = this.loaded.get(name);
    if (known) return known.module.exports;
    const file = path.join(this.folder, name);
    const one = this.asFirst(() => this.compiled(file, functionIn(file)));
    this.loaded.set(name, one);
    try {
      this.run(one, file);
    } catch (error) {
      this.loaded.delete(name);
      throw error;
    }
    return one.module.exports;
  }

  private run({ module, script }: Loaded, file: string): void {
    const nodes = createRequire(file);
    const require = (asked: string) =>
      asked.startsWith('./') ? this.load(path.basename(asked)) : nodes(asked);
    const run: Run = script.runInThisContext();
    run.call(module.exports, module.exports, Object.assign(require, nodes), module, file, this.folder);
  }

  /** Writes down what the engine has made since, if that is worth it. A folder that cannot be written is no error. */
  async keep(): Promise<void> {
    const { kept } = this;
    if (kept === undefined) return;
    let written: string | undefined;
    for (const [name, one] of this.loaded) {
      const { script, mark, keptBytes } = one;
      if (!mark) continue;
      const { data, to } = this.asFirst(() => ({ data: script.createCachedData(), to: placeIn(kept, name) }));
      if (data.length <= keptBytes * WORTH) continue;
      if (!(await isWritten(to, Buffer.concat([Buffer.from(mark, 'latin1'), data])))) return;
      one.keptBytes = data.length;
      written = to;
    }
    if (written) await clearOld(kept, written);
  }

  private compiled(file: string, text: string): Loaded {
    const mark = /\n\/\/ ([0-9a-f]{64})\n\n\}\);$/.exec(text.slice(-80))?.[1];
    const cachedData = mark ? this.keptOf(path.basename(file), mark) : undefined;
    const script = new vm.Script(text, {
      filename: file,
      // Columns in traces are those of the file.
      columnOffset: -HEAD.length,
      ...(cachedData && { cachedData }),
    });
    const keptBytes = script.cachedDataRejected === false ? (cachedData?.length ?? 0) : 0;
    return { module: { exports: {} }, script, mark, keptBytes };
  }

  private keptOf(name: string, mark: string): Buffer | undefined {
    if (this.kept === undefined) return undefined;
    try {
      const all = fs.readFileSync(placeIn(this.kept, name));
      return all.toString('latin1', 0, mark.length) === mark ? all.subarray(mark.length) : undefined;
    } catch {
      return undefined;
    }
  }
}

/** A file as a function, put together as bytes: as texts it would be copied twice more, which is felt at a megabyte. */
function functionIn(file: string): string {
  const open = fs.openSync(file, 'r');
  try {
    const { size } = fs.fstatSync(open);
    const bytes = Buffer.allocUnsafe(HEAD.length + size + END.length);
    bytes.write(HEAD, 'latin1');
    const read = fs.readSync(open, bytes, HEAD.length, size, 0);
    bytes.write(END, HEAD.length + read, 'latin1');
    return bytes.toString('latin1', 0, HEAD.length + read + END.length);
  } finally {
    fs.closeSync(open);
  }
}

function placeIn(kept: string, name: string): string {
  return path.join(kept, `${name}.${cachedDataVersionTag().toString(16)}`);
}

async function isWritten(to: string, bytes: Buffer): Promise<boolean> {
  // Two programs may keep the same file at once, and a third read it.
  const own = `${to}.${process.pid}`;
  try {
    await fs.promises.mkdir(path.dirname(to), { recursive: true });
    await fs.promises.writeFile(own, bytes);
    await fs.promises.rename(own, to);
    return true;
  } catch {
    await fs.promises.rm(own, { force: true }).catch(() => {});
    return false;
  }
}

/** Each engine has files of its own here: those written long before the newest are of engines that are hardly used any more. */
async function clearOld(folder: string, newest: string): Promise<void> {
  try {
    const { mtimeMs } = await fs.promises.stat(newest);
    for (const name of await fs.promises.readdir(folder)) {
      const file = path.join(folder, name);
      if ((await fs.promises.stat(file)).mtimeMs < mtimeMs - LONG_MS) await fs.promises.rm(file);
    }
  } catch {
    // Another program clears them, or nobody may.
  }
}
