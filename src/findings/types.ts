import type { FruitData } from '../fruit/types';
import type { RoomKeeping } from '../keeping/types';
import type { Plan } from '../plan/model';
import type { Fix, Problem, RelatedPlace, Severity } from '../plan/problem';
import type { Span } from '../plan/span';
import type { PlantSeason } from '../plant/types';
import type { ReleaseProblem, ReleaseResult } from '../release/types';
import type { FilledRoom, RoomCapacity } from '../room/types';
import type { SeenReadings } from '../watching/seen-readings';
import type { FoundCourses } from './courses';
import type { PlacedPart } from './placed';

export type Family =
  | 'plan'
  | 'room'
  | 'gas'
  | 'cooling'
  | 'keeping'
  | 'release'
  | 'demand'
  | 'safety'
  | 'readings';

/** What a rule finds in one entry; undefined where nothing is wrong with it, as with most. */
export type FindIn<E> = (season: ComputedSeason, entry: E) => Iterable<Problem> | undefined;

type ValueOf<M> = M extends ReadonlyMap<string, infer V> ? V : never;

/** By the map whose entries it speaks of. */
export type InEntry = {
  readonly [M in 'rooms' | 'binTypes' | 'regimes' | 'lots' | 'fills']?: FindIn<ValueOf<Plan[M]>>;
} & {
  readonly [M in 'capacities' | 'filled' | 'keeping']?: FindIn<ValueOf<ComputedSeason[M]>>;
};

/** A rule of the plan. Its page is `src/findings/pages/<code>.md`. */
export interface Rule {
  readonly code: string;
  readonly family: Family;
  readonly severity: Severity;
  /** One line for lists. */
  readonly summary: string;
  /** True of a caution that no setting, policy or comment turns off. */
  readonly isKept?: boolean;
  /** Undefined for codes that reading the plan gives itself. */
  readonly find?: (season: ComputedSeason) => Iterable<Problem>;
  /** The same entry by entry, where it is given: for rules of lots, of which there are thousands. */
  readonly inEntry?: InEntry;
  /** What a rule of single entries finds beside them, in the season as a whole. */
  readonly findBeside?: (season: ComputedSeason) => Iterable<Problem>;
}

/** Everything computed from a plan, before findings. */
export interface ComputedSeason {
  readonly plan: Plan;
  readonly fruit: FruitData;
  /** Where each lot's bins go, by lot identifier; undefined before any fill is planned. */
  readonly placed: ReadonlyMap<string, readonly PlacedPart[]> | undefined;
  readonly capacities: ReadonlyMap<string, RoomCapacity>;
  /** By fill identifier. */
  readonly filled: ReadonlyMap<string, FilledRoom>;
  readonly plant: PlantSeason | undefined;
  /** By fill identifier. */
  readonly keeping: ReadonlyMap<string, RoomKeeping>;
  /** Absent where the plan has too little for a release problem. */
  readonly release: { readonly problem: ReleaseProblem; readonly result: ReleaseResult } | undefined;
  /** Each room's cooling and gas course; only where asked for. */
  readonly courses?: FoundCourses | undefined;
  /** What the readings beside the plan come to; only where they have been read. */
  readonly readings?: SeenReadings | undefined;
}

export interface Finding {
  readonly code: string;
  readonly family: Family;
  readonly severity: Severity;
  readonly message: string;
  readonly at: Span;
  readonly related: readonly RelatedPlace[];
  readonly fixes: readonly Fix[];
  /** Stable under moved lines and reworded messages: made of code and what it is about. */
  readonly fingerprint: string;
}
