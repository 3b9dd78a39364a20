import { type Consequence, type Direction, type Gravity, gravities } from './types';

/**
 * How grave a consequence is and whether it is for the worse, by facts alone. A consequence that is undone is as grave
 * as one that is done, for the better: so the two directions of a comparison mirror each other.
 */

type Compared = Pick<Consequence, 'kind' | 'before' | 'after' | 'limit'>;

export function gravityOf(
  { kind, before, after, limit }: Compared,
  wasThere: boolean,
  isThere: boolean,
): Gravity {
  switch (kind) {
    case 'window':
      return before === 0 || after === 0 ? 'closed' : 'shift';
    case 'opens':
      // A fill that is new or gone is none that was left closed.
      return wasThere && isThere && (before === undefined || after === undefined) ? 'closed' : 'shift';
    case 'cartons-short':
      return 'short';
    case 'scrubber-peak':
    case 'nitrogen-peak':
    case 'cooling-peak':
    case 'room-cooling':
      return limit !== undefined && Math.max(before ?? 0, after ?? 0) > limit ? 'overload' : 'shift';
    case 'value':
      return 'value';
    default:
      return 'shift';
  }
}

export function findingGravity(severity: 'error' | 'warning' | 'notice'): Gravity {
  return severity === 'notice' ? 'shift' : severity;
}

/** A rise of these is for the worse; of the others that have a direction, a fall. */
const LESS_IS_BETTER = new Set<Consequence['kind']>([
  'cartons-short',
  'scrubber-peak',
  'nitrogen-peak',
  'cooling-peak',
  'room-cooling',
]);

export function directionOf({ kind, before, after }: Compared, gravity: Gravity): Direction {
  const change = (after ?? 0) - (before ?? 0);
  if (kind === 'opens') {
    if (gravity !== 'closed') return 'neither';
    return after === undefined ? 'worse' : 'better';
  }
  if (gravity === 'shift' || change === 0) return kind === 'latest' ? sign(change) : 'neither';
  if (kind === 'window' || kind === 'value') return sign(change);
  return LESS_IS_BETTER.has(kind) ? sign(-change) : 'neither';
}

function sign(change: number): Direction {
  return change > 0 ? 'better' : change < 0 ? 'worse' : 'neither';
}

/** True where a consequence is for the worse, and as grave as the given one or graver. */
export function isAsGrave(
  { gravity, direction }: Pick<Consequence, 'gravity' | 'direction'>,
  least: Gravity,
): boolean {
  return direction === 'worse' && gravities.indexOf(gravity) <= gravities.indexOf(least);
}

const DIRECTIONS: readonly Direction[] = ['worse', 'better', 'neither'];

/** What is asked after first, of consequences as grave as each other. */
const ORDER: readonly Consequence['kind'][] = [
  'finding',
  'window',
  'cartons-short',
  'value',
  'opens',
  'latest',
  'earliest',
  'best-before',
  'cartons-sold',
  'cartons-surplus',
  'bins-packed',
  'bins-stored',
  'nitrogen-peak',
  'scrubber-peak',
  'cooling-peak',
  'room-cooling',
  'carbon-dioxide',
  'scrubber-duty',
];

/** The worse first, then the better; each the gravest first; of the same gravity what is told of safety, then the most. */
export function graveFirst(a: Omit<Consequence, 'causes'>, b: Omit<Consequence, 'causes'>): number {
  return (
    DIRECTIONS.indexOf(a.direction) - DIRECTIONS.indexOf(b.direction) ||
    gravities.indexOf(a.gravity) - gravities.indexOf(b.gravity) ||
    Number(isSafety(b)) - Number(isSafety(a)) ||
    ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind) ||
    size(b) - size(a) ||
    (a.key < b.key ? -1 : a.key > b.key ? 1 : 0)
  );
}

function isSafety({ oldFinding, newFinding }: Omit<Consequence, 'causes'>): boolean {
  return (newFinding ?? oldFinding)?.family === 'safety';
}

/** How much it is: findings and rooms left closed are all alike. */
function size({ kind, before, after }: Omit<Consequence, 'causes'>): number {
  if (kind === 'finding' || kind === 'opens' || kind === 'window') return 0;
  return Math.abs((after ?? 0) - (before ?? 0));
}
