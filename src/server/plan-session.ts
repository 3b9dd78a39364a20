import { SeasonAgain } from '../findings/again/season-again';
import { opensIn, QUICK_MOVES } from '../findings/compute';
import { type FoundCourses, findCoursesSteps, type PutOff, triedSteps } from '../findings/courses';
import type { SeverityChoice } from '../findings/find';
import type { ComputedSeason, Finding } from '../findings/types';
import type { Plan } from '../plan/model';
import { type EditedFile, emptyPlanCache, readPlan } from '../plan/read';
import { finish, type Steps } from '../plan/steps';
import type { FileRead } from '../readings/file-of';
import { releaseProblem, releaseProblemSteps } from '../release/problem';
import { quickReleaseSteps } from '../release/quick';
import type { ReleaseProblem } from '../release/types';
import type { SeenReadings } from '../watching/seen-readings';
import { WatchAgain } from '../watching/watch-again';
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
  files(): readonly EditedFile[];
  severities(): ReadonlyMap<string, SeverityChoice>;
  /** Calls back later unless cancelled. */
  later(milliseconds: number, work: () => void): () => void;
  /** Milliseconds of a clock that only ever goes on. */
  now(): number;
  computed(snapshot: Snapshot): void;
}

export interface Delays {
  /** From findings to a schedule that fits them, milliseconds. */
  readonly idle: number;
}

/** The seed the command line's quick schedules use too: both must give the same one. */
const SEED = 1;

/** So long settling goes on at once, milliseconds: what is asked or typed meanwhile waits no longer. */
const SLICE = 5;

/** The same for the findings of an edit, which somebody waits for. */
const EDIT_SLICE = 4;

/**
 * Keeps one plan computed while it is edited. What is cheap comes at once, with the schedule and the rooms' courses
 * that were at hand; those that fit the edited plan are looked for once the planner pauses, a slice at a time, and
 * are dropped when an edit comes between. Until they are found the last answer stands, marked as not settled.
 */
export class PlanSession {
  private readonly cache = emptyPlanCache();
  private readonly again = new SeasonAgain({ byField: true });
  private revision = 0;
  private changed = true;
  private isSettled = false;
  /** The settling under way, for the text as it was computed last. */
  private settling: Steps<void> | undefined;
  private readonly waiting: ((snapshot: Snapshot) => void)[] = [];
  private readonly awaiting: ((snapshot: Snapshot) => void)[] = [];
  /** What the findings of the courses at hand leave out as long as it has not been tried. */
  private readonly putOff: PutOff = new Map();
  /** The computation of the present text, where it has begun. An edit drops it. */
  private computing: Steps<Snapshot> | undefined;
  private latestPlan: Plan | undefined;
  private latest: Snapshot | undefined;
  /** The schedule that is shown. */
  private release: Release | undefined;
  /** What was found last, by the solver and quickly: half-typed text does not fit them, what is made of it may again. */
  private solved: Release | undefined;
  private quick: Release | undefined;
  private courses: FoundCourses | undefined;
  /** The readings beside the plan, what they are watched with, and what they came to. */
  private files: readonly FileRead[] = [];
  private readonly watch = new WatchAgain();
  private seen: SeenReadings | undefined;
  private cancel: () => void = () => {};

  constructor(
    private readonly host: SessionHost,
    private readonly delays: Delays,
  ) {}

  /** The plan's text or the settings have changed. */
  edited(): void {
    this.changed = true;
    this.unsettle();
    this.latestPlan = undefined;
    this.computing = undefined;
    this.schedule(0);
  }

  /** The plan is as it was, and somebody who has not heard of it listens now. */
  retold(): void {
    if (this.latest && !this.changed) this.host.computed(this.latest);
  }

  /** The readings beside the plan are these: the very same list where nothing has changed. */
  read(files: readonly FileRead[]): void {
    if (files === this.files || (files.length === 0 && this.files.length === 0)) return;
    this.files = files;
    // What settles now, or will, comes to them by itself.
    if (!this.isSettled) return;
    this.unsettle();
    this.schedule(0);
  }

  /** The plan as read from the present text. */
  plan(): Plan {
    this.latestPlan ??= readPlan(this.host.files(), this.cache);
    return this.latestPlan;
  }

  /** The computation of the present text, with the schedule at hand. */
  snapshot(): Snapshot {
    if (this.latest && !this.changed) return this.latest;
    this.computing ??= this.compute();
    return this.tell(finish(this.computing));
  }

  /** The same as soon as it is there, for what can wait: keys and other questions go before it. */
  soon(): Promise<Snapshot> {
    if (this.latest && !this.changed) return Promise.resolve(this.latest);
    return new Promise((resolve) => {
      this.awaiting.push(resolve);
      this.schedule(0);
    });
  }

  private tell(snapshot: Snapshot): Snapshot {
    this.computing = undefined;
    this.host.computed(snapshot);
    for (const resolve of this.awaiting.splice(0)) resolve(snapshot);
    this.schedule(this.waiting.length > 0 ? 0 : this.delays.idle);
    return snapshot;
  }

  /** What was computed last; undefined before anything was. */
  latestSnapshot(): Snapshot | undefined {
    return this.latest;
  }

  /** The last computation, perhaps of an older text: for what must answer before a new one could be made. */
  latestSeason(): ComputedSeason | undefined {
    return this.latest?.season;
  }

  /** The computation of the present text with a schedule that fits it, all of it at once. */
  settledSnapshot(): Snapshot {
    const snapshot = this.snapshot();
    if (this.isSettled) return snapshot;
    this.cancel();
    this.settling ??= this.settle();
    finish(this.settling);
    return this.snapshot();
  }

  /** The same as soon as it is there: nothing else waits for it. After an edit it is that of the edited text. */
  settledSoon(): Promise<Snapshot> {
    const snapshot = this.snapshot();
    if (this.isSettled) return Promise.resolve(snapshot);
    return new Promise((resolve) => {
      this.waiting.push(resolve);
      this.schedule(0);
    });
  }

  /**
   * What is there to be shown: the computation of the present text with courses, perhaps those of an older one. Only
   * where there have been none yet they are waited for.
   */
  shown(): Promise<Snapshot> {
    const snapshot = this.snapshot();
    return snapshot.season.courses ? Promise.resolve(snapshot) : this.settledSoon();
  }

  /** The release problem of the present text; undefined where the plan has too little for one. */
  problem(): ReleaseProblem | undefined {
    const { season } = this.snapshot();
    return releaseProblem(season.plan, season.keeping);
  }

  /** Takes a schedule that was solved elsewhere. False where the plan has changed meanwhile. */
  async accept(release: Release): Promise<boolean> {
    const problem = this.problem();
    if (!problem || !sameProblem(problem, release.problem)) return false;
    this.solved = { problem, result: release.result };
    this.unsettle();
    await this.settledSoon();
    return true;
  }

  dispose(): void {
    if (this.awaiting.length > 0) this.snapshot();
    this.cancel();
    this.settling = undefined;
    this.computing = undefined;
    if (this.latest) this.answer(this.latest);
  }

  private unsettle(): void {
    this.isSettled = false;
    this.settling = undefined;
  }

  private schedule(milliseconds: number): void {
    this.cancel();
    this.cancel = this.host.later(milliseconds, () => this.step());
  }

  private step(): void {
    const began = this.host.now();
    if (this.changed) {
      this.computing ??= this.compute();
      while (this.host.now() - began < EDIT_SLICE) {
        const { done, value } = this.computing.next();
        if (!done) continue;
        this.tell(value);
        return;
      }
    } else {
      if (this.isSettled) return;
      this.settling ??= this.settle();
      while (this.host.now() - began < SLICE) if (this.settling.next().done) return;
    }
    this.schedule(0);
  }

  /** Looks for what fits the plan as it was computed last, and tells of it. */
  private *settle(): Steps<void> {
    const { season } = this.snapshot();
    yield;
    const release = yield* this.fitting(yield* releaseProblemSteps(season.plan, season.keeping));
    if (release !== this.release) {
      this.release = release;
      this.host.computed(yield* this.compute());
    }
    const opens = release && opensIn({ release });
    const cooling = this.again.cooling();
    const courses = yield* findCoursesSteps(season.plan, season.filled, opens, {
      atHand: this.courses,
      cooling,
    });
    if (courses !== this.courses) {
      this.courses = courses;
      // All that is put off for them is put off anew.
      this.putOff.clear();
      yield* this.compute();
    }
    if (this.courses && this.putOff.size > 0) {
      this.courses = yield* triedSteps(this.courses, this.putOff);
      this.putOff.clear();
      yield* this.compute();
    }
    yield* this.watchReadings(season);
    this.isSettled = true;
    this.settling = undefined;
    this.latest = { ...this.snapshot(), isSettled: true };
    this.host.computed(this.latest);
    this.answer(this.latest);
  }

  /** Holds the readings against the courses at hand, and tells what is seen as findings. */
  private *watchReadings({ filled }: ComputedSeason): Steps<void> {
    const { courses, seen: before } = this;
    const courseOf = (fill: string) => courses?.courses.get(fill);
    let files: readonly FileRead[];
    do {
      files = this.files;
      this.seen = files.length === 0 ? undefined : yield* this.watch.steps(files, { filled, courseOf });
    } while (files !== this.files);
    if (this.seen !== before) yield* this.compute();
  }

  private answer(snapshot: Snapshot): void {
    for (const resolve of this.waiting.splice(0)) resolve(snapshot);
  }

  /** The schedule at hand where it still fits, else a quick one. */
  private *fitting(problem: ReleaseProblem | undefined): Steps<Release | undefined> {
    if (!problem) return undefined;
    for (const found of [this.solved, this.quick]) {
      yield;
      const kept = found && keptFor(found, problem);
      if (kept) return kept;
    }
    const result = yield* quickReleaseSteps(problem, { seed: SEED, moves: QUICK_MOVES });
    this.quick = { problem, result };
    return this.quick;
  }

  /** Computes the present plan with what is at hand. */
  private *compute(): Steps<Snapshot> {
    const { release, courses, putOff, seen: readings } = this;
    const plan = this.plan();
    const season = yield* this.again.computeSteps(plan, { release, courses, readings });
    const findings = yield* this.again.findingsSteps(season, { severities: this.host.severities() }, putOff);
    this.changed = false;
    this.revision += 1;
    this.latest = { revision: this.revision, plan, season, findings, isSettled: false };
    return this.latest;
  }
}
