import { computeSeason, QUICK_MOVES, withCourses, withRelease } from '../findings/compute';
import type { FoundCourses } from '../findings/courses';
import { findingsOf, type SeverityChoice } from '../findings/find';
import type { ComputedSeason, Finding } from '../findings/types';
import type { Plan } from '../plan/model';
import { emptyPlanCache, readPlan } from '../plan/read';
import { releaseProblem } from '../release/problem';
import { quickRelease } from '../release/quick';
import type { ReleaseProblem } from '../release/types';
import { keptFor, type Release, sameProblem } from './kept-schedule';

/** A plan's computation at one moment. Never changes; a newer one has a higher revision. */
export interface Snapshot {
  readonly revision: number;
  readonly plan: Plan;
  readonly season: ComputedSeason;
  readonly findings: readonly Finding[];
}

export interface SessionHost {
  /** The plan's files as they are now, in a steady order. */
  files(): readonly { readonly path: string; readonly text: string }[];
  severities(): ReadonlyMap<string, SeverityChoice>;
  /** Calls back later unless cancelled. */
  later(milliseconds: number, work: () => void): () => void;
  computed(snapshot: Snapshot): void;
}

export interface Delays {
  /** From the last edit to findings, milliseconds. */
  readonly edit: number;
  /** From findings to a schedule that fits them. */
  readonly idle: number;
}

/** The seed the command line's quick schedules use too: both must give the same one. */
const SEED = 1;

/**
 * Keeps one plan computed while it is edited. What is cheap comes soon after the last edit, with the schedule and the
 * rooms' courses that were at hand; those that fit the edited plan are looked for once the planner pauses.
 */
export class PlanSession {
  private readonly cache = emptyPlanCache();
  private revision = 0;
  private changed = true;
  private settled = false;
  private latestPlan: Plan | undefined;
  private latest: Snapshot | undefined;
  /** The schedule that is shown. */
  private release: Release | undefined;
  /** What was found last, by the solver and quickly: half-typed text does not fit them, what is made of it may again. */
  private solved: Release | undefined;
  private quick: Release | undefined;
  private courses: FoundCourses | undefined;
  private cancel: () => void = () => {};

  constructor(
    private readonly host: SessionHost,
    private readonly delays: Delays,
  ) {}

  /** The plan's text or the settings have changed. */
  edited(): void {
    this.changed = true;
    this.settled = false;
    this.latestPlan = undefined;
    this.schedule(this.delays.edit);
  }

  /** The plan as read from the present text. */
  plan(): Plan {
    this.latestPlan ??= readPlan(this.host.files(), this.cache);
    return this.latestPlan;
  }

  /** The computation of the present text, with the schedule at hand. */
  snapshot(): Snapshot {
    if (this.latest && !this.changed) return this.latest;
    const snapshot = this.compute(
      computeSeason(this.plan(), { release: this.release ?? 'none', courses: this.courses }),
    );
    this.schedule(this.delays.idle);
    return snapshot;
  }

  /** The last computation, perhaps of an older text: for what must answer before a new one could be made. */
  latestSeason(): ComputedSeason | undefined {
    return this.latest?.season;
  }

  /** The computation of the present text with a schedule that fits it. */
  settledSnapshot(): Snapshot {
    this.snapshot();
    this.settle();
    return this.snapshot();
  }

  /** The release problem of the present text; undefined where the plan has too little for one. */
  problem(): ReleaseProblem | undefined {
    const { plan, season } = this.snapshot();
    return releaseProblem(plan, season.keeping);
  }

  /** Takes a schedule that was solved elsewhere. False where the plan has changed meanwhile. */
  accept(release: Release): boolean {
    const problem = this.problem();
    if (!problem || !sameProblem(problem, release.problem)) return false;
    this.solved = { problem, result: release.result };
    this.settled = false;
    this.settle();
    return true;
  }

  dispose(): void {
    this.cancel();
  }

  private schedule(milliseconds: number): void {
    this.cancel();
    this.cancel = this.host.later(milliseconds, () => this.step());
  }

  private step(): void {
    if (this.changed) this.snapshot();
    else this.settle();
  }

  private settle(): void {
    const { plan, season } = this.snapshot();
    this.cancel();
    if (this.settled) return;
    this.settled = true;
    this.release = this.fitting(releaseProblem(plan, season.keeping));
    const released = season.release === this.release ? season : withRelease(season, this.release);
    const settled = withCourses(released, this.courses);
    this.courses = settled.courses;
    if (released !== season || settled.courses !== season.courses) this.compute(settled);
  }

  /** The schedule at hand where it still fits, else a quick one. */
  private fitting(problem: ReleaseProblem | undefined): Release | undefined {
    if (!problem) return undefined;
    const kept = [this.solved, this.quick].flatMap((found) => (found && keptFor(found, problem)) ?? [])[0];
    if (kept) return kept;
    this.quick = { problem, result: quickRelease(problem, { seed: SEED, moves: QUICK_MOVES }) };
    return this.quick;
  }

  private compute(season: ComputedSeason): Snapshot {
    this.changed = false;
    this.revision += 1;
    const findings = findingsOf(season, { severities: this.host.severities() });
    this.latest = { revision: this.revision, plan: season.plan, season, findings };
    this.host.computed(this.latest);
    return this.latest;
  }
}
