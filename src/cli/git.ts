import { execFileSync } from 'node:child_process';
import type { RunGit } from './io';

/** The one place of the command line that runs git: without a shell, in one folder, only to read. */
export function gitIn(folder: string): RunGit {
  return (words, input) => {
    try {
      const out = execFileSync('git', [...words], {
        cwd: folder,
        input: input ?? '',
        maxBuffer: MOST_BYTES,
        stdio: ['pipe', 'pipe', 'pipe'],
        // What git says is read by this program; and it must not take locks while an editor works.
        env: { ...process.env, LC_ALL: 'C', GIT_OPTIONAL_LOCKS: '0' },
      });
      return { out };
    } catch (error) {
      const { stderr, message } = error as { readonly stderr?: Buffer; readonly message: string };
      return { failure: stderr?.toString().trim() || message };
    }
  };
}

/** No plan is larger. */
const MOST_BYTES = 2 ** 30;
