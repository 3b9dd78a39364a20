import type { NewFill } from '../../plan/add-fills';
import { countedFigure } from '../../plan/figure';
import type { Fill, Plan } from '../../plan/model';
import type { Given, PlaceNode, Span } from '../../plan/span';

/**
 * The plan as it would be with these fills: new ones beside its own, and those that stand with their bins more and
 * their days later. What is new has a place that is in no text, so that no comment of the plan allows anything there.
 * What is the same as before is the very same object, where `known` keeps it; it is of one plan.
 */
export function withFills(plan: Plan, fills: readonly NewFill[], known?: Map<string, Fill>): Plan {
  const all = new Map(plan.fills);
  for (const fill of fills) {
    const key = JSON.stringify(fill);
    const same = known?.get(key) ?? fillOf(plan, fill);
    known?.set(key, same);
    all.set(fill.id, same);
  }
  return { ...plan, fills: all };
}

function fillOf(plan: Plan, fill: NewFill): Fill {
  const stands = plan.fills.get(fill.id);
  return stands && fill.stands ? more(stands, fill) : made(plan, fill);
}

function made(plan: Plan, fill: NewFill): Fill {
  const at = nowhere(plan);
  const given = <T>(value: T): Given<T> => ({ value, at });
  const places: PlaceNode = { span: at };
  return {
    id: fill.id,
    at,
    places,
    room: given(fill.room),
    regime: given(fill.regime),
    firstBin: given(fill.firstBin),
    lastBin: given(fill.lastBin),
    sealed: fill.sealed === undefined ? undefined : given(fill.sealed),
    lots: fill.lots.map(({ lot, bins }) => ({ lot: given(lot), bins: proposedBins(bins) })),
    open: undefined,
  };
}

function more(fill: Fill, added: NewFill): Fill {
  const later = (day: Given<number> | undefined, other: number | undefined) =>
    day && other !== undefined && other > day.value ? { ...day, value: other } : day;
  const had = new Set(fill.lots.map(({ lot }) => lot.value));
  const bins = new Map(added.lots.map((one) => [one.lot, one.bins]));
  return {
    ...fill,
    lastBin: later(fill.lastBin, added.lastBin),
    sealed: later(fill.sealed, added.sealed),
    lots: [
      ...fill.lots.map((one) => {
        const count = bins.get(one.lot.value);
        return count === undefined ? one : { ...one, bins: proposedBins(one.bins.value + count) };
      }),
      ...added.lots
        .filter(({ lot }) => !had.has(lot))
        .map(({ lot, bins: count }) => ({ lot: { value: lot, at: fill.at }, bins: proposedBins(count) })),
    ],
  };
}

function proposedBins(bins: number) {
  return countedFigure('bins', 'bins', bins, 'bins of the lot as proposed');
}

function nowhere(plan: Plan): Span {
  const file = [...plan.files.keys()][0] ?? '';
  return { file, start: -1, end: -1 };
}
