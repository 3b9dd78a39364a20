import fs from 'node:fs';
import path from 'node:path';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import type { ComputedSeason, Finding } from '../../src/findings/types';
import { readPlan } from '../../src/plan/read';
import type { PlacePoint } from '../../src/server/services/entries';
import { atCaret } from './cursor';

export interface TextFile {
  readonly path: string;
  readonly text: string;
}

const samples = path.resolve(import.meta.dirname, '../../sample-plans');

/** The files of a sample plan, by their paths in it. */
export function samplePlan(name: string): TextFile[] {
  const folder = path.join(samples, name);
  return fs
    .readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.lotplan.yaml'))
    .sort()
    .map((file) => ({ path: file, text: fs.readFileSync(path.join(folder, file), 'utf8') }));
}

export function computed(files: readonly TextFile[]): { season: ComputedSeason; findings: Finding[] } {
  const season = computeSeason(readPlan(files), { courses: true });
  return { season, findings: findingsOf(season) };
}

/** The sample `first-season` with a caret before `word` at its `nth` place in the file. */
export function caretIn(files: readonly TextFile[], file: string, marked: string): PlacePoint {
  const { text, offset } = atCaret(marked);
  const whole = files.find(({ path: name }) => name === file)?.text ?? '';
  const start = whole.indexOf(text);
  if (start < 0 || whole.indexOf(text, start + 1) >= 0) throw new Error(`not once in ${file}: ${text}`);
  return { file, offset: start + offset };
}
