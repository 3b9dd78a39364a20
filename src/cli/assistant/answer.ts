import path from 'node:path';
import type { ComputedSeason } from '../../findings/types';
import { releaseDefaults } from '../../release/worker-protocol';
import { type Answer, answerTo } from '../../report/assistant/answer';
import { askedBy } from '../../report/assistant/asked';
import { caution } from '../../room/caution';
import { CannotRun, type Io } from '../io';
import { openPlan } from '../plan-files';
import { withReadings } from '../readings-files';

/** Answers a question about the plan in a folder. Never writes, and never throws for what is asked or what stands there. */
export async function answer(io: Io, folder: string, name: string, input: unknown): Promise<Answer> {
  const asked = askedBy(name, input);
  if (typeof asked === 'string') return { text: asked, failed: true, caution };
  try {
    const files = [...openPlan(io, folder).files.values()];
    const root = path.relative(io.cwd, path.resolve(io.cwd, folder)).split(path.sep).join('/');
    const below = (file: string) => (root === '' ? file : path.posix.relative(root, file));
    const around = {
      today: io.today,
      page: (code: string) => io.resources.page(code),
      readings: (season: ComputedSeason) => withReadings(io, season).readings,
    };
    const first = answerTo(files, asked, around, below);
    if (!('problem' in first)) return first;
    const settings = {
      seed: 1,
      timeLimitSeconds: releaseDefaults.timeLimitSeconds,
      gap: releaseDefaults.gap,
    };
    const solved = await io.solve(first.problem, settings, () => {}, new AbortController().signal);
    const second = answerTo(files, asked, { ...around, solved }, below);
    return 'problem' in second ? { text: 'No schedule was found.', failed: true, caution } : second;
  } catch (error) {
    if (!(error instanceof CannotRun)) throw error;
    return { text: error.message, failed: true, caution };
  }
}
