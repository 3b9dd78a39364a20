import { nearest } from '../plan/nearest';
import { figureId, type NamedFigure, slugOf } from './named-figures';
import { otherNames } from './other-names';
import type { Thing } from './thing';

/** What a planner's words for a thing come to. */
export type Found =
  | { readonly kind: 'thing'; readonly thing: Thing }
  | { readonly kind: 'figure'; readonly thing: Thing; readonly figure: NamedFigure }
  /** Several things answer to it; each candidate names one of them. */
  | { readonly kind: 'ambiguous'; readonly candidates: readonly string[] }
  /** Nothing does; the names nearest to it. */
  | {
      readonly kind: 'unknown';
      readonly nearest: readonly string[];
      /** Of a figure that a thing does not have: the figures it has. */
      readonly has?: { readonly thing: string; readonly figures: readonly string[] };
    };

const MOST_NEAREST = 5;

/**
 * Finds a thing by its identifier (`R01`, `lot:G1` where several kinds share one) or a figure by its owner's and its
 * own name (`R01.free-gas-volume`, `R01/free-gas-volume`).
 */
export function findThing(things: readonly Thing[], words: string): Found {
  const text = words.trim();
  const entries = withIdentifier(things, text);
  if (entries.length === 1 && entries[0]) return { kind: 'thing', thing: entries[0] };
  if (entries.length > 1) return { kind: 'ambiguous', candidates: entries.map(qualified) };
  return findFigure(things, text) ?? { kind: 'unknown', nearest: nearestNames(things, text) };
}

function qualified({ kind, id }: Pick<Thing, 'kind' | 'id'>): string {
  return `${kind}:${id}`;
}

/** Things by identifier, exact before careless about capitals. A room stands for a fill of the same name. */
function withIdentifier(things: readonly Thing[], text: string): Thing[] {
  const exact = things.filter((thing) => thing.id === text || qualified(thing) === text);
  const lower = text.toLowerCase();
  const found =
    exact.length > 0
      ? exact
      : things.filter(
          (thing) => thing.id.toLowerCase() === lower || qualified(thing).toLowerCase() === lower,
        );
  const rooms = new Set(found.filter(({ kind }) => kind === 'room').map(({ id }) => id));
  return found.filter(({ kind, id }) => kind !== 'fill' || !rooms.has(id));
}

/** Identifiers may themselves hold points and slashes: every one of them is tried as the border, the last first. */
function findFigure(things: readonly Thing[], text: string): Found | undefined {
  for (let at = text.length - 1; at > 0; at -= 1) {
    if (text[at] !== '.' && text[at] !== '/') continue;
    const owners = withIdentifier(things, text.slice(0, at));
    if (owners.length === 0) continue;
    const found = figuresNamed(owners, text.slice(at + 1));
    if (found.length === 1 && found[0]) return { kind: 'figure', ...found[0] };
    if (found.length > 1) return { kind: 'ambiguous', candidates: found.map(qualifiedFigure) };
    const figures = owners.flatMap((thing) => thing.figures.filter(({ minor }) => !minor));
    return {
      kind: 'unknown',
      nearest: nearestFigures(owners, text.slice(at + 1)),
      has: { thing: owners[0]?.id ?? '', figures: [...new Set(figures.map(({ slug }) => slug))] },
    };
  }
  return undefined;
}

interface FoundFigure {
  readonly thing: Thing;
  readonly figure: NamedFigure;
}

function figuresNamed(owners: readonly Thing[], name: string): FoundFigure[] {
  // `duty.2026-W41` and `duty/2026-W41` are `duty-2026-W41`.
  const asked = name.trim().replace(/[./]/g, '-');
  const found = figuresCalled(owners, asked);
  const listed = otherNames.get(slugOf(asked).toLowerCase());
  return found.length > 0 || listed === undefined ? found : figuresCalled(owners, listed);
}

function figuresCalled(owners: readonly Thing[], name: string): FoundFigure[] {
  const lower = name.toLowerCase();
  const slug = slugOf(name).toLowerCase();
  const seen = new Set<unknown>();
  return owners.flatMap((thing) =>
    thing.figures
      .filter((figure) => [slug, lower].includes(figure.slug.toLowerCase()))
      .filter(({ figure }) => !seen.has(figure) && seen.add(figure))
      .map((figure) => ({ thing, figure })),
  );
}

/** A figure of one of several owners of the same name is told apart by the owner's kind. */
function qualifiedFigure({ thing, figure }: FoundFigure): string {
  return figure.owner === thing.id ? `${thing.kind}:${figureId(figure)}` : figureId(figure);
}

function nearestFigures(owners: readonly Thing[], name: string): string[] {
  const figures = owners.flatMap((thing) => thing.figures);
  const slugs = new Map(figures.map((figure) => [figure.slug, figureId(figure)]));
  return closest(name, [...slugs.keys()]).map((slug) => slugs.get(slug) ?? slug);
}

function nearestNames(things: readonly Thing[], text: string): string[] {
  return closest(text, [...new Set(things.map(({ id }) => id))]);
}

/** The nearest by spelling, then those that hold what was typed. */
function closest(typed: string, names: readonly string[]): string[] {
  const found: string[] = [];
  const left = new Set(names);
  while (found.length < MOST_NEAREST) {
    const best = nearest(typed, left);
    if (best === undefined) break;
    found.push(best);
    left.delete(best);
  }
  const lower = typed.toLowerCase();
  const holding = lower.length < 2 ? [] : [...left].filter((name) => name.toLowerCase().includes(lower));
  return [...found, ...holding].slice(0, MOST_NEAREST);
}
