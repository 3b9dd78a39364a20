import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SeasonAgain } from '../../src/findings/again/season-again';
import { computeSeason, withCourses } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import type { ComputedSeason } from '../../src/findings/types';
import type { Figure } from '../../src/plan/figure';
import type { Plan } from '../../src/plan/model';
import { emptyPlanCache, type PlanFile, readPlan } from '../../src/plan/read';
import { checkReport } from '../../src/report/check-report';
import { editedFiles, edits } from '../plan/edited';
import { sampleFiles } from '../samples/sample';

/** All figures of a season, each with what it was made of and where that stands, as plain data. */
function figuresOf({ fruit, capacities, filled, plant, keeping }: ComputedSeason): unknown {
  const names = [fruit.varietyNames, fruit.regimeNames];
  const weeks = plant && [plant.scrubbers, plant.nitrogen, plant.refrigeration];
  return JSON.parse(JSON.stringify([names, [...capacities], [...filled], weeks, [...keeping]], shortened));
}

/** Entries stand as where they are, and a figure's inputs as their values: all of them stand elsewhere in full. */
function shortened(key: string, value: unknown): unknown {
  if (key === 'origin') return originOf(value as Figure['origin']);
  if (isEntry(value)) return [value.id, value.at];
  if (key === 'rooms' || key === 'filled' || key === 'capacity' || key === 'inRoom' || key === 'variety')
    return Array.isArray(value) ? value.length : undefined;
  return value;
}

function originOf(origin: Figure['origin']): unknown {
  if (origin.kind !== 'computed') return origin;
  return [
    origin.formula,
    Object.entries(origin.inputs).map(([name, { value, unit }]) => [name, value, unit]),
  ];
}

function isEntry(value: unknown): value is { readonly id: string; readonly at: unknown } {
  return typeof value === 'object' && value !== null && 'id' in value && 'at' in value && 'places' in value;
}

/** How many edit sequences are tried; more by `LOTWRIGHT_EDITS`. */
const RUNS = Number(process.env.LOTWRIGHT_EDITS ?? 20);

const OPTIONS = { units: 'metric', failOn: 'error' } as const;

describe.each(['first-season', 'with-mistakes', 'us-units'])('%s, edited', (name) => {
  const files = sampleFiles(name);
  // The schedule and the courses at hand stay while the plan is typed in, as they do in an editor.
  const { release, courses } = withCourses(computeSeason(readPlan(files)));

  it(
    'computed again is what it is computed afresh',
    () => {
      fc.assert(
        fc.property(edits(files), (sequence) => {
          const cache = emptyPlanCache();
          const [again, byField] = [new SeasonAgain(), new SeasonAgain({ byField: true })];
          for (const [index, edited] of [files, ...editedFiles(files, sequence)].entries()) {
            const atHand = index % 5 === 4 ? {} : { release, courses };
            compare([again, byField], readPlan(edited, cache), edited, atHand);
          }
        }),
        { numRuns: RUNS },
      );
    },
    600_000 + 10_000 * RUNS,
  );
});

type AtHand = Pick<ComputedSeason, 'courses'> & Partial<Pick<ComputedSeason, 'release'>>;

function compare(ways: readonly SeasonAgain[], plan: Plan, files: readonly PlanFile[], atHand: AtHand): void {
  const { release, courses } = atHand;
  const fresh = computeSeason(readPlan(files), { release: release ?? 'none', courses });
  const freshFindings = findingsOf(fresh);
  const [figures, report] = [figuresOf(fresh), checkReport(fresh, freshFindings, OPTIONS)];
  for (const again of ways) {
    const season = again.compute(plan, { release, courses });
    const findings = again.findings(season, {});
    expect(findings).toEqual(freshFindings);
    expect(figuresOf(season)).toEqual(figures);
    expect(checkReport(season, findings, OPTIONS)).toEqual(report);
  }
}
