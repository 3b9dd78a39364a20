import { newFills } from '../../../src/fill/new-fills';
import { proposeFill } from '../../../src/fill/propose';
import type { FillProblem, FillProposal } from '../../../src/fill/types';
import { computeSeason } from '../../../src/findings/compute';
import { type JudgedFills, judgeFills } from '../../../src/findings/fills/judge';
import { type FillOptionsOfSeason, fillProblemOf } from '../../../src/findings/fills/problem';
import { findingsOf } from '../../../src/findings/find';
import type { ComputedSeason } from '../../../src/findings/types';
import { applyEdits } from '../../../src/plan/edits';
import { fillEdits } from '../../../src/plan/fill-edits';
import type { Plan } from '../../../src/plan/model';
import { readPlan } from '../../../src/plan/read';

export interface Proposed {
  readonly plan: Plan;
  readonly problem: FillProblem;
  readonly judged: JudgedFills;
}

/** A proposal as the command line makes it, at fixed counts. */
export async function propose(plan: Plan, options: FillOptionsOfSeason = {}): Promise<Proposed> {
  const season = computeSeason(plan, { release: 'quick', seed: 1 });
  const problem = fillProblemOf(season, options);
  const found = await proposeFill(problem, { seed: 1, moves: 150 });
  return { plan, problem, judged: judgeFills(plan, problem, found, { seed: 1, ...options }) };
}

/** The plan with the proposal written into its text and read again, by other ways than the judge's. */
export function accepted({ plan, problem, judged }: Proposed): Plan {
  const edits = fillEdits(plan, newFills(plan, problem, judged.result.proposal.rooms)) ?? [];
  return readPlan(
    [...plan.files.values()].map(({ path, text }) => ({
      path,
      text: applyEdits(
        text,
        edits.filter(({ at }) => at.file === path),
      ),
    })),
  );
}

export function seasonOf(plan: Plan): ComputedSeason {
  return computeSeason(plan, { seed: 1, courses: true });
}

/**
 * Errors and warnings, each as often as it is found. What only the weeks of the quick schedule make weighs in its worth
 * instead: orders that are short, weight lost by a late opening, and what is found of rooms of the plan that the
 * proposal leaves as they are.
 */
export function warningsOf(season: ComputedSeason, { problem, judged }: Proposed): string[] {
  const touched = new Set(judged.result.proposal.rooms.map(({ room }) => room));
  const untouched = new Set(
    problem.pinned.filter(({ room }) => !touched.has(room)).flatMap(({ fill, room }) => [fill, room]),
  );
  const equipment = new Set(
    [...touched].flatMap((id) => {
      const room = season.plan.rooms.get(id);
      return [room?.scrubber, room?.nitrogen, room?.refrigerationGroup].map((one) => one?.value ?? '');
    }),
  );
  const { scrubbers, nitrogenSources, refrigerationGroups } = season.plan;
  const shared = new Set([...scrubbers.keys(), ...nitrogenSources.keys(), ...refrigerationGroups.keys()]);
  return findingsOf(season)
    .filter(
      ({ severity, code }) => severity !== 'notice' && !['demand-short', 'weight-loss-high'].includes(code),
    )
    .filter(({ code, fingerprint }) => {
      const about = fingerprint.slice(code.length + 1).split(/[/#]/)[0] ?? '';
      return !untouched.has(about) && (!shared.has(about) || equipment.has(about));
    })
    .map(({ fingerprint }) => fingerprint);
}

/** Warnings that the proposal makes and says so. */
export function toldOpenly({ judged }: Proposed): string[] {
  return judged.inTheOpen.map(({ fingerprint }) => fingerprint);
}

export function worthOf({ release }: ComputedSeason): number {
  return release?.result.schedule.value ?? Number.NEGATIVE_INFINITY;
}

export function binsIn({ rooms }: FillProposal): number {
  return rooms.flatMap(({ entries }) => entries).reduce((sum, { bins }) => sum + bins, 0);
}

/** The files with the entries of these fills cut out of their text. */
export function withoutFills(
  files: readonly { readonly path: string; readonly text: string }[],
  ids: readonly string[],
): { path: string; text: string }[] {
  return files.map(({ path, text }) => {
    let left = text;
    for (const id of ids)
      left = left.replace(
        new RegExp(`^  ${id}:.*\\n(?:(?:    .*)?\\n)*?(?=^ {0,2}\\S|(?![\\s\\S]))`, 'm'),
        '',
      );
    return { path, text: left };
  });
}
