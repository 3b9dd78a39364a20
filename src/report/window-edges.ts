import { windowByConfidence } from '../keeping/by-confidence';
import type { RoomKeeping, WindowEdge } from '../keeping/types';
import type { Day } from '../plan/dates';
import { figureWith } from '../plan/figure';
import type { Plan } from '../plan/model';
import { type CountedDays, type NamedFigure, named } from './named-figures';

/** The figures behind a room's opening window, each with its week. */
export function windowFigures(owner: string, keeping: RoomKeeping | undefined): NamedFigure[] {
  if (!keeping?.window) return [];
  const { earliest, bestBefore, latest } = keeping.window;
  const edges = { earliest, 'best-before': bestBefore, latest };
  return Object.entries(edges).flatMap(([slug, edge]) => edgeFigure(owner, slug, keeping, edge));
}

/** The figures behind its latest week at the confidences beside the plan's: `latest-at-95`. */
export function confidenceFigures(
  owner: string,
  plan: Plan,
  keeping: RoomKeeping | undefined,
): NamedFigure[] {
  const latest = (keeping && windowByConfidence(plan, keeping)?.latest) ?? [];
  return latest.flatMap(({ confidence, isPlans, edge }) =>
    isPlans || !keeping
      ? []
      : edgeFigure(owner, `latest-at-${confidence}`, keeping, atConfidence(edge, confidence)),
  );
}

/** Its figure says for which confidence it is: a card has it beside the plan's own. */
function atConfidence(edge: WindowEdge, confidence: number): WindowEdge {
  const { because } = edge;
  return {
    ...edge,
    because: figureWith(because, { name: `${because.name}, at ${confidence} % confidence` }),
  };
}

function edgeFigure(owner: string, slug: string, keeping: RoomKeeping, edge: WindowEdge): NamedFigure[] {
  return named(owner, { [slug]: edge.because }).map((figure) => ({
    ...figure,
    counted: { week: edge.week, from: countedFrom(keeping, edge) },
  }));
}

function countedFrom({ filled }: RoomKeeping, { limit, lot }: WindowEdge): CountedDays['from'] {
  const { fill } = filled;
  if (limit === 'storage life' || limit === 'firmness' || limit === 'disorder') {
    const picked = lot?.picked?.value.first;
    if (picked !== undefined) return { day: picked, what: `first of lot ${lot?.id ?? ''} picked` };
    return firstOf([fill.firstBin, 'first bin in'], [fill.lastBin, 'last bin in'], [fill.sealed, 'sealed']);
  }
  if (limit === 'cooling') return firstOf([fill.lastBin, 'last bin in'], [fill.firstBin, 'first bin in']);
  return firstOf([fill.sealed, 'sealed'], [fill.lastBin, 'last bin in'], [fill.firstBin, 'first bin in']);
}

function firstOf(
  ...days: readonly (readonly [{ readonly value: Day } | undefined, string])[]
): CountedDays['from'] {
  for (const [day, what] of days) if (day) return { day: day.value, what };
  return undefined;
}
