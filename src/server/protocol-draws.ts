import type { AcrossDraws } from '../release/across-types';
import type { DrawSpan, DrawTally } from '../release/draw-tally';
import type { DrawInputsOnWire } from '../release/draws-wire';
import type { ReleaseProblem, ReleaseSchedule } from '../release/types';
import type { ReleaseReport } from '../report/schemas';

/** The schedule at hand, for seasons to be drawn of it. */
export interface DrawsJobAnswer {
  readonly root: string;
  readonly name: string;
  /** Goes back with the result: it tells which schedule, of which state of the plan, the seasons are of. */
  readonly job: number;
  readonly problem: ReleaseProblem;
  readonly inputs: DrawInputsOnWire;
  readonly schedule: ReleaseSchedule;
  readonly unmet: readonly number[];
}

/** What seasons drawn came to. */
export interface DrawsResultParams {
  readonly root: string;
  readonly job: number;
  readonly span: DrawSpan;
  /** Of the schedule handed out; with `across`, of the one that was found. */
  readonly tally: DrawTally;
  /** A schedule that is good across seasons, which is to take the place of the one handed out. */
  readonly across?: {
    /** Seasons it was sought on. */
    readonly draws: number;
    readonly found: AcrossDraws;
    /** The schedule handed out, on the seasons of `span`. */
    readonly expected: DrawTally;
  };
}

export interface DrawsResultAnswer {
  /** The seasons are of the plan as it is, and the schedule, where there is a new one, passed its check. */
  readonly accepted: boolean;
  /** For the planner: what came out, or why it was not taken. */
  readonly message: string;
  /** The seasons as a page, Markdown; absent where they were not taken. */
  readonly page?: { readonly title: string; readonly markdown: string };
}

/** The seasons drawn last, as `release --draws --format json` has them. */
export interface DrawnSeasonsAnswer {
  readonly root: string;
  /** The plan or its schedule has changed since. */
  readonly older: boolean;
  readonly uncertainty: NonNullable<ReleaseReport['uncertainty']>;
  readonly goodAcross?: NonNullable<ReleaseReport['goodAcross']>;
}
