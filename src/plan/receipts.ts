import type { Day } from './dates';
import { type Figure, planFigure } from './figure';
import type { Span } from './span';

/** What is known of a lot's receipts. */
export interface Receipts {
  readonly byDay: ReadonlyMap<Day, number>;
  readonly at: Span;
  readonly source?: string | undefined;
  readonly pickedTo: Day | undefined;
  readonly expectedBins: number;
  /** The day up to which things are known; undefined where nobody has said. */
  readonly stand?: Day | undefined;
}

/**
 * The sum of the days. Days that end before picking does are not all of the lot yet: undefined until they are, until
 * more has come than was expected, or until a day is known that lies after the last of picking. Then the estimate counts.
 */
export function receivedSum(receipts: Receipts): Figure<'bins'> | undefined {
  const { byDay, at, pickedTo, expectedBins, stand, source } = receipts;
  if (byDay.size === 0) return undefined;
  const sum = [...byDay.values()].reduce((bins, one) => bins + one, 0);
  const known = Math.max(...byDay.keys(), stand === undefined ? Number.NEGATIVE_INFINITY : stand - 1);
  const isUnderWay = pickedTo !== undefined && known < pickedTo;
  if (isUnderWay && sum < expectedBins) return undefined;
  const written = `${sum} in ${byDay.size} ${byDay.size === 1 ? 'day' : 'days'}`;
  return planFigure('bins received', 'bins', sum, at, written, source);
}
