import type { Figure, HowKnown } from './figure';

/** How well a value is known; `plan` where the planner gives it. */
export type Known = HowKnown | 'plan';

/** A computed value is known as well as the least known of what it is computed from. */
export function knownOf({ origin }: Figure): Known {
  switch (origin.kind) {
    case 'reference':
      return origin.source.known;
    case 'computed':
      return leastKnown(Object.values(origin.inputs).map(knownOf));
    case 'plan':
    case 'counted':
      return 'plan';
  }
}

const LEAST_FIRST: readonly Known[] = ['from memory', 'common practice', 'published', 'plan'];

export function leastKnown(list: readonly Known[]): Known {
  return LEAST_FIRST.find((known) => list.includes(known)) ?? 'plan';
}
