import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { computeSeason, withCourses } from '../../src/findings/compute';
import type { ComputedSeason } from '../../src/findings/types';
import { type PlanFile, readPlan } from '../../src/plan/read';
import { mutate, mutations } from '../plan/mutated';
import { sampleFiles } from '../samples/sample';

/** Schedule and courses that are at hand while a plan is typed in. */
export type AtHand = Partial<Pick<ComputedSeason, 'release' | 'courses'>>;

/** A plan that edits start from. */
export interface Base {
  readonly files: readonly PlanFile[];
  /** What was found for it before anything was edited; made when it is first asked for. */
  readonly atHand: () => AtHand;
}

const PLANS = fileURLToPath(new URL('./plans/', import.meta.url));

/** The files of one of the small plans beside this file. */
export function smallPlan(name: string): PlanFile[] {
  return readdirSync(join(PLANS, name))
    .sort()
    .map((path) => ({ path, text: readFileSync(join(PLANS, name, path), 'utf8').replaceAll('\r\n', '\n') }));
}

/** Every section in three files; the same without records; one file in US units. */
export const SMALL: readonly Base[] = [
  base(smallPlan('orchard')),
  base(smallPlan('orchard').filter(({ path }) => !path.startsWith('records'))),
  base(smallPlan('bench')),
];

/** The samples that take no more than a moment each. */
export const LARGER: readonly Base[] = [
  'first-season',
  'us-units',
  'with-mistakes',
  'before-harvest',
  'mid-harvest',
  'in-march',
].map((name) => base(sampleFiles(name)));

/** What sequences start from: all but one in twenty-five a small plan; with LF, CRLF or both; some broken already. */
export const bases: fc.Arbitrary<Base> = fc
  .tuple(
    fc.oneof(
      { weight: 24, arbitrary: fc.constantFrom(...SMALL) },
      { weight: 1, arbitrary: fc.constantFrom(...LARGER) },
    ),
    fc.constantFrom(...Object.values({ lf: asIs, crlf: withCrlf, both: mixed })),
    fc.oneof(
      { weight: 4, arbitrary: fc.constant(undefined) },
      { weight: 1, arbitrary: fc.record({ file: fc.nat({ max: 5 }), steps: mutations }) },
    ),
  )
  .map(([of, ends, broken]) => {
    const files = ends(of.files);
    const { file, steps } = broken ?? { file: 0, steps: [] };
    return {
      files: files.map((one, at) =>
        at === file % files.length ? { path: one.path, text: steps.reduce(mutate, one.text) } : one,
      ),
      atHand: of.atHand,
    };
  });

function base(files: readonly PlanFile[]): Base {
  let found: AtHand | undefined;
  return {
    files,
    atHand: () => {
      found ??= settledFor(files);
      return found;
    },
  };
}

/** What settling finds for these files. */
export function settledFor(files: readonly PlanFile[]): AtHand {
  const { release, courses } = withCourses(computeSeason(readPlan(files)));
  return { release, courses };
}

function asIs(files: readonly PlanFile[]): PlanFile[] {
  return [...files];
}

export function withCrlf(files: readonly PlanFile[]): PlanFile[] {
  return files.map(({ path, text }) => ({ path, text: text.replaceAll('\n', '\r\n') }));
}

/** The files of one plan as lines of both kinds, one after the other. */
export function mixed(files: readonly PlanFile[]): PlanFile[] {
  return files.map(({ path, text }, file) => {
    let line = file;
    return { path, text: text.replaceAll('\n', () => (line++ % 3 === 0 ? '\r\n' : '\n')) };
  });
}
