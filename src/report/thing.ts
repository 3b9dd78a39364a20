import type { Entry } from '../plan/model';
import type { Span } from '../plan/span';
import type { NamedFigure } from './named-figures';

/** Something of a plan that can be explained: an entry, a built-in variety or regime, or a finding's code. */
export interface Thing {
  readonly kind: string;
  readonly id: string;
  /** What it is, in a few words. */
  readonly summary: string;
  /** Where it is defined; empty for what is built in. */
  readonly at: readonly Span[];
  /** The whole entry, to tell which findings stand in it. */
  readonly within: readonly Span[];
  readonly figures: readonly NamedFigure[];
}

/** An entry of the plan as a thing. */
export function entryThing(
  kind: string,
  entry: Entry,
  summary: string,
  figures: readonly NamedFigure[] | (() => readonly NamedFigure[]),
): Thing {
  const thing = { kind, id: entry.id, summary, at: [entry.at], within: [entry.places.span] };
  return typeof figures === 'function' ? withFigures(thing, figures) : { ...thing, figures };
}

/** A thing whose figures are worked out when they are first asked for: of all things a planner asks for one. */
export function withFigures(thing: Omit<Thing, 'figures'>, make: () => readonly NamedFigure[]): Thing {
  let made: readonly NamedFigure[] | undefined;
  return {
    ...thing,
    get figures() {
      made ??= make();
      return made;
    },
  };
}
