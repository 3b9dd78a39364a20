import type { Day, Week } from './dates';
import type { Entry } from './entry';
import type { Figure } from './figure';
import type { Given, Span } from './span';

/** What the plan promises over what is computed from it. */
export interface Expectation extends Entry {
  readonly because: string | undefined;
  /** One where it is in order; none or several are told as a finding and not judged. */
  readonly claims: readonly Claim[];
}

/** The orders that a promise speaks of, and the weeks it is promised for; `before` is exclusive. */
export interface OrdersMeant {
  readonly market: Given<string> | undefined;
  readonly variety: Given<string> | undefined;
  readonly packClass: Given<string> | undefined;
  readonly from: Given<Week> | undefined;
  readonly before: Given<Week> | undefined;
}

export interface ShortageClaim extends OrdersMeant {
  readonly kind: 'no-shortage' | 'shortage';
  readonly at: Span;
  readonly atMost: Figure<'cartons'> | undefined;
  readonly atLeast: Figure<'cartons'> | undefined;
}

export interface OpensClaim {
  readonly kind: 'opens';
  readonly at: Span;
  readonly room: Given<string> | undefined;
  readonly before: Given<Week> | undefined;
  readonly after: Given<Week> | undefined;
  readonly in: Given<{ readonly first: Week; readonly last: Week }> | undefined;
  readonly beforeRoom: Given<string> | undefined;
}

export interface WindowClaim {
  readonly kind: 'window';
  readonly at: Span;
  readonly room: Given<string> | undefined;
  readonly atLeast: Figure<'days'> | undefined;
}

export type LoadKind = 'scrubber-load' | 'nitrogen-load' | 'refrigeration-load';

export interface LoadClaim {
  readonly kind: LoadKind;
  readonly at: Span;
  readonly machine: Given<string> | undefined;
  readonly atMost: Figure<'%'> | undefined;
  readonly from: Given<Week> | undefined;
  readonly before: Given<Week> | undefined;
}

export interface PackhouseClaim {
  readonly kind: 'packhouse-use';
  readonly at: Span;
  readonly atMost: Figure<'%'> | undefined;
  readonly from: Given<Week> | undefined;
  readonly before: Given<Week> | undefined;
}

export interface InStoreClaim {
  readonly kind: 'in-store';
  readonly at: Span;
  readonly variety: Given<string> | undefined;
  readonly on: Given<Day> | undefined;
  readonly atLeast: Figure<'%'> | undefined;
  readonly atMost: Figure<'%'> | undefined;
  readonly bins: Figure<'bins'> | undefined;
}

export interface GrowerClaim {
  readonly kind: 'grower-out';
  readonly at: Span;
  readonly grower: Given<string> | undefined;
  readonly by: Given<Week> | undefined;
}

export interface FindingClaim {
  readonly kind: 'no-finding';
  readonly at: Span;
  readonly code: Given<string> | undefined;
}

export interface ValueClaim {
  readonly kind: 'value';
  readonly at: Span;
  readonly atLeast: Figure<'money'> | undefined;
}

export type Claim =
  | ShortageClaim
  | OpensClaim
  | WindowClaim
  | LoadClaim
  | PackhouseClaim
  | InStoreClaim
  | GrowerClaim
  | FindingClaim
  | ValueClaim;

export type ClaimKind = Claim['kind'];
