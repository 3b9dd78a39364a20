import { compute, countedFigure, type Figure, figureWith } from './figure';
import type { Fill, FillLot, Lot, Plan } from './model';

/** What the last time left for the next, so that what has not changed stays the very same object. */
export interface KnownPlan {
  readonly written: Plan;
  readonly known: Plan;
}

interface Known {
  readonly written: Plan;
  /** With what has come in. */
  readonly lots: Plan['lots'];
  readonly before: KnownPlan | undefined;
}

/**
 * The fills with no more bins of a lot than came in, once all of it is in: what was planned beyond that is taken out of
 * the fills that begin last. A fill whose progress says what went in stays as it says.
 */
export function withWhatCameIn(fills: Plan['fills'], known: Known): Plan['fills'] {
  const missing = missingBins(fills, known.lots);
  if (missing.size === 0) return fills;
  const result = new Map(fills);
  const lastFirst = [...fills.values()]
    .filter(({ id }) => !saysWhatWentIn(known.written, id))
    .sort((a, b) => (b.firstBin?.value ?? 0) - (a.firstBin?.value ?? 0));
  for (const fill of lastFirst) {
    const lots = lotsLess(fill, missing, known.lots);
    if (lots) result.set(fill.id, sameAsBefore(fill, lots, known) ?? withLots(fill, lots));
  }
  return result;
}

/** Whether the last time took bins out of a fill because fewer came in. */
export function hasFewerBins({ written, known }: KnownPlan, id: string): boolean {
  const fill = known.fills.get(id);
  return fill?.planned !== undefined && fill.lots !== fill.planned.lots && !saysWhatWentIn(written, id);
}

function saysWhatWentIn({ progress }: Plan, id: string): boolean {
  return (progress.get(id)?.lots.length ?? 0) > 0;
}

/** By lot, the bins that fills take and that did not come. */
function missingBins(fills: Plan['fills'], lots: Plan['lots']): Map<string, number> {
  const placed = new Map<string, number>();
  for (const fill of fills.values())
    for (const { lot, bins } of fill.lots) placed.set(lot.value, (placed.get(lot.value) ?? 0) + bins.value);
  const missing = new Map<string, number>();
  for (const [id, bins] of placed) {
    const received = lots.get(id)?.receivedBins?.value;
    if (received !== undefined && bins > received) missing.set(id, bins - received);
  }
  return missing;
}

/** What a fill holds less what is missing, which is taken from `missing`; undefined where nothing is. */
function lotsLess(fill: Fill, missing: Map<string, number>, lots: Plan['lots']): FillLot[] | undefined {
  if (!fill.lots.some(({ lot }) => missing.get(lot.value))) return undefined;
  let isChanged = false;
  const left = fill.lots.flatMap((part): FillLot[] => {
    const less = Math.min(missing.get(part.lot.value) ?? 0, part.bins.value);
    const lot = lots.get(part.lot.value);
    if (less <= 0 || !lot?.receivedBins) return [part];
    isChanged = true;
    missing.set(part.lot.value, (missing.get(part.lot.value) ?? 0) - less);
    const bins = part.bins.value - less;
    return bins > 0 ? [{ lot: part.lot, bins: binsLeft(part, bins, lot.receivedBins) }] : [];
  });
  return isChanged ? left : undefined;
}

function binsLeft({ bins: { name } }: FillLot, bins: number, received: Figure<'bins'>): Figure<'bins'> {
  if (bins === received.value) return figureWith(received, { name });
  const elsewhere = countedFigure(
    'bins of it in other fills',
    'bins',
    received.value - bins,
    'those that the other fills hold',
  );
  return compute(
    name,
    'bins',
    'received - elsewhere',
    { received, elsewhere },
    (one) => one.received - one.elsewhere,
  );
}

function withLots(fill: Fill, lots: readonly FillLot[]): Fill {
  return { ...fill, planned: fill.planned ?? fill, lots };
}

/** The last time's fill, where it was made of the same. */
function sameAsBefore(
  fill: Fill,
  lots: readonly FillLot[],
  { written, lots: known, before }: Known,
): Fill | undefined {
  const last = before?.known.fills.get(fill.id);
  if (!before || !last || before.written.fills.get(fill.id) !== written.fills.get(fill.id)) return undefined;
  if (before.written.progress.get(fill.id) !== written.progress.get(fill.id)) return undefined;
  const isSame =
    last.opened === fill.opened &&
    last.lots.length === lots.length &&
    last.lots.every(
      ({ lot, bins }, at) =>
        lot === lots[at]?.lot && bins.value === lots[at].bins.value && sameLot(lot.value),
    );
  return isSame ? last : undefined;

  function sameLot(id: string): boolean {
    const lot: Lot | undefined = known.get(id);
    return lot === before?.known.lots.get(id);
  }
}
