import path from 'node:path';
import { CannotRun, type Io } from './io';

/** Writes what `--out` asks for and says so. Throws `CannotRun` where it cannot be written. */
export function saveOut(io: Io, out: string, text: string): void {
  const failed = io.files.save(path.resolve(io.cwd, out), text);
  if (failed) throw new CannotRun(`${out} could not be written: ${failed.failure}.`);
  io.out.write(`Written: ${out}\n`);
}
