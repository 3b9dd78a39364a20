import type { Highs } from 'highs';
import type { SeverityChoice } from '../findings/find';
import type { Day } from '../plan/dates';
import type { OtherPlan } from '../report/timeline-other';
import type { ClientAbilities } from './client-abilities';
import type { KeptAround } from './kept-around';
import type { KeptDraws } from './kept-draws';
import type { KeptLessons } from './kept-lessons';
import type { KeptReadings } from './kept-readings';
import type { PlanSessions } from './plan-sessions';
import type { InitializationOptions } from './protocol';
import type { KeptFills } from './services/fills';

/** What the features share: the plans, once they have been read, and what the client can do. */
export interface ServerState {
  readonly plans: PlanSessions;
  /** By plan folder: the fills that were proposed last. */
  readonly proposedFills: Map<string, KeptFills>;
  /** By plan folder: what seasons were handed out to be drawn of, and what they came to. */
  readonly draws: Map<string, KeptDraws>;
  /** By plan folder: what was offered last around an opening that is moved. */
  readonly around: Map<string, KeptAround>;
  /** By plan folder: the other state that its timeline is held against. */
  readonly compared: Map<string, OtherPlan>;
  /** What was read in the rooms. */
  readonly readings: KeptReadings;
  /** What records teach. */
  readonly lessons: KeptLessons;
  /** Resolves when the workspace's files have been read. */
  ready(): Promise<void>;
  options(): InitializationOptions;
  /** What the client can show and do. */
  abilities(): ClientAbilities;
  today(): Day | undefined;
  /** Loads the solver on this thread, for what takes a fraction of a second. */
  loadSolver(): Promise<Highs>;
  run(): string;
  /** Severities of findings by code, as the planner's settings choose them. */
  severities(): ReadonlyMap<string, SeverityChoice>;
  /** The version of an open document. */
  version(uri: string): number | undefined;
}
