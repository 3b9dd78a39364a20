import { gapOf, isProven } from './gap';
import { SIMPLE_BOUND_RESTS_ON, simpleBound } from './simple-bound';
import type { ReleaseProblem, ReleaseResult, ReleaseSchedule } from './types';

/** The best schedule and the best bound so far. */
export class Incumbent {
  private best: ReleaseSchedule | undefined;
  bound: number;
  private restsOn = SIMPLE_BOUND_RESTS_ON;

  constructor(
    problem: ReleaseProblem,
    unmet: readonly number[],
    private readonly publish: (
      schedule: ReleaseSchedule,
      bound: number,
      restsOn: string,
      provenOptimal: boolean,
    ) => ReleaseResult,
  ) {
    this.bound = simpleBound(problem, unmet);
  }

  get schedule(): ReleaseSchedule {
    if (!this.best) throw new RangeError('no schedule yet');
    return this.best;
  }

  get value(): number {
    return this.best?.value ?? Number.NEGATIVE_INFINITY;
  }

  get gap(): number {
    return gapOf(this.value, this.bound);
  }

  offer(schedule: ReleaseSchedule | undefined): void {
    if (!schedule || schedule.value <= this.value) return;
    this.best = schedule;
    this.result();
  }

  limit(bound: number, restsOn: string): void {
    if (!(bound < this.bound)) return;
    this.bound = bound;
    this.restsOn = restsOn;
    if (this.best) this.result();
  }

  result(): ReleaseResult {
    return this.publish(this.schedule, this.bound, this.restsOn, isProven(this.gap));
  }
}
