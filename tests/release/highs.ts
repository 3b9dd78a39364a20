import type { Highs } from 'highs';
import { highsForNode } from '../../src/release/highs-node';

let loaded: Promise<Highs> | undefined;

/** One solver for all tests of a file. */
export function loadHighs(): Promise<Highs> {
  loaded ??= highsForNode()();
  return loaded;
}
