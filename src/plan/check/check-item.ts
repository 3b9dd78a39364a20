import type { ProblemSink } from '../problem-sink';
import type { Item, ItemCheck } from './checked';
import { fullCheck } from './full-check';
import { quickCheck } from './quick-check';

/** One for all items in which nothing is wrong. */
export const NOTHING_BAD: ReadonlySet<string> = new Set();

/** Holds an item against the published schema, and against what a schema cannot say of a single value. */
export function checkItem(item: Item, sink: ProblemSink): ItemCheck {
  const references = quickCheck(item);
  return references ? { bad: NOTHING_BAD, references } : fullCheck(item, sink);
}
