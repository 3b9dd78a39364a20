import { SeasonAgain } from '../findings/again/season-again';
import { opensIn, QUICK_MOVES } from '../findings/compute';
import { type FoundCourses, findCourses } from '../findings/courses';
import type { SeverityChoice } from '../findings/find';
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
  /** Whether schedule and courses are known to fit this very plan; else they are those of an older one. */
  readonly isSettled: boolean;
}

export interface SessionHost {
  /** The plan's files as they are now, in a steady order. */
  files(): readonly { readonly path: string; readonly text: string }[];
  severities(): ReadonlyMap<string, SeverityChoice>;
  /** Calls back later unless cancelled. */
  later(milliseconds: number, work: () => void): () => void;
  /** Milliseconds of a clock that only ever goes on. */
  now(): number;
  computed(snapshot: Snapshot): void;
}

export interface Delays {
  /** From the last edit to findings at most, milliseconds; nothing while a computation takes less than that. */
  readonly edit: number;
  /** From findings to a schedule that fits them. */
  readonly idle: number;
}

/** The seed the command line's quick schedules use too: both must give the same one. */
const SEED = 1;

/** No pause needs to be longer than this before a schedule is looked for, milliseconds. */
const MOST_IDLE = 3000;

/**
 * Keeps one plan computed while it is edited. What is cheap comes at once, with the schedule and the rooms' courses
 * that were at hand; those that fit the edited plan are looked for once the planner pauses, one after the other, and
 * are dropped when an edit comes between.
 */
export class PlanSession {
  private readonly cache = emptyPlanCache();
  private readonly again = new SeasonAgain();
  private revision = 0;
  private changed = true;
  /** What of the present plan is settled: nothing, its schedule, or its courses too. */
  private settled: 'nothing' | 'release' | 'all' = 'nothing';
  /** How long the last computation took, and the longest step of the last settling; milliseconds. */
  private took = 0;
  private settlingTook = 0;
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
    this.settled = 'nothing';
    this.latestPlan = undefined;
    // Where computing takes its time, keys that follow fast are computed together.
    this.schedule(this.took < this.delays.edit ? 0 : this.delays.edit);
  }

  /** The plan as read from the present text. */
  plan(): Plan {
    this.latestPlan ??= readPlan(this.host.files(), this.cache);
    return this.latestPlan;
  }

  /** The computation of the present text, with the schedule at hand. */
  snapshot(): Snapshot {
    if (this.latest && !this.changed) return this.latest;
    const snapshot = this.compute();
    // What takes long begins only in a longer pause, for nothing is answered meanwhile.
    this.schedule(Math.max(this.delays.idle, Math.min(MOST_IDLE, 4 * this.settlingTook)));
    return snapshot;
  }

  /** The last computation, perhaps of an older text: for what must answer before a new one could be made. */
  latestSeason(): ComputedSeason | undefined {
    return this.latest?.season;
  }

  /** The computation of the present text with a schedule that fits it. */
  settledSnapshot(): Snapshot {
    this.snapshot();
    this.cancel();
    this.settleRelease();
    this.settleCourses();
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
    this.settled = 'nothing';
    this.settledSnapshot();
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
    if (this.changed) {
      this.snapshot();
      return;
    }
    const began = this.host.now();
    if (this.settled === 'nothing') {
      this.settleRelease();
      this.settlingTook = this.host.now() - began;
      // What has been asked or edited meanwhile goes before the courses.
      this.schedule(0);
    } else {
      this.settleCourses();
      this.settlingTook = Math.max(this.settlingTook, this.host.now() - began);
    }
  }

  private settleRelease(): void {
    const { plan, season } = this.snapshot();
    if (this.settled !== 'nothing') return;
    this.settled = 'release';
    const release = this.fitting(releaseProblem(plan, season.keeping));
    if (release === this.release) return;
    this.release = release;
    this.compute();
  }

  private settleCourses(): void {
    const { plan, season } = this.snapshot();
    if (this.settled !== 'release') return;
    this.settled = 'all';
    this.courses = findCourses(plan, season.filled, opensIn(season), this.courses);
    this.compute();
  }

  /** The schedule at hand where it still fits, else a quick one. */
  private fitting(problem: ReleaseProblem | undefined): Release | undefined {
    if (!problem) return undefined;
    const kept = [this.solved, this.quick].flatMap((found) => (found && keptFor(found, problem)) ?? [])[0];
    if (kept) return kept;
    this.quick = { problem, result: quickRelease(problem, { seed: SEED, moves: QUICK_MOVES }) };
    return this.quick;
  }

  /** Computes the present plan with what is at hand, and tells of it. Where nothing differs, the last one stays. */
  private compute(): Snapshot {
    const { release, courses, latest } = this;
    const isSettled = this.settled === 'all';
    if (latest && !this.changed && latest.season.release === release && latest.season.courses === courses) {
      this.latest = { ...latest, isSettled };
      if (isSettled && !latest.isSettled) this.host.computed(this.latest);
      return this.latest;
    }
    const began = this.host.now();
    const plan = this.plan();
    const season = this.again.compute(plan, { release, courses });
    const findings = this.again.findings(season, { severities: this.host.severities() });
    this.changed = false;
    this.revision += 1;
    this.latest = { revision: this.revision, plan, season, findings, isSettled };
    this.took = this.host.now() - began;
    this.host.computed(this.latest);
    return this.latest;
  }
}
