import type { Barred, FillProblem, FreeRoom, LeftOut, LotToPlace } from './types';

/** A regime by its name that a room or a lot may not be kept in, with the finding it would make. */
export type BarredRegime = Omit<Barred, 'regime'> & { readonly regime: string };

/** What stands against a fill for reasons that lie outside the rooms' places: findings, packhouse and market. */
export interface FillLimits {
  /** By room. */
  readonly rooms: ReadonlyMap<string, readonly BarredRegime[]>;
  /** By lot. */
  readonly lots: ReadonlyMap<string, readonly BarredRegime[]>;
  /** By room: the most bins it may hold, those of a fill it has begun with among them. */
  readonly mostBins: ReadonlyMap<string, { readonly bins: number; readonly reason: string }>;
}

/** By lot: the bins of it that are worth a room, why no more are, and the order that would make them worth it. */
export type WorthStoring = ReadonlyMap<
  string,
  { readonly bins: number; readonly reason: string; readonly order?: string | undefined }
>;

/** Whether a room may be kept in a regime: in that of the fill it has begun with, else in one that it can hold. */
export function mayRun({ regimes }: FillProblem, room: FreeRoom, regime: number): boolean {
  if (room.held) return room.held.regime === regime;
  if (regimes[regime]?.sealed === true && !room.sealable) return false;
  return room.barred?.every((one) => one.regime !== regime) ?? true;
}

/** The problem within the limits. A room of which no place may be used is left out, as is a lot that suits no regime then. */
export function limitedProblem(problem: FillProblem, limits: FillLimits): FillProblem {
  const leftOut: LeftOut[] = [...problem.leftOut];
  const barredBy = (list: readonly BarredRegime[] | undefined): Barred[] =>
    (list ?? []).flatMap((one) => {
      const regime = problem.regimes.findIndex(({ name }) => name === one.regime);
      return regime < 0 ? [] : [{ ...one, regime }];
    });
  const rooms = problem.rooms.flatMap((room) => {
    const barred = room.held ? [] : barredBy(limits.rooms.get(room.id));
    const most = limits.mostBins.get(room.id);
    const limited = { ...room, ...(barred.length > 0 && { barred }) };
    if (!most || most.bins >= room.places) return [limited];
    if (most.bins <= (room.held?.bins ?? 0)) {
      leftOut.push({ what: room.id, bins: 0, reason: most.reason });
      return [];
    }
    const binsADay = Math.max(1, Math.min(room.binsADay, most.bins));
    const ofPlaces = { places: room.places, reason: most.reason };
    return [{ ...limited, places: most.bins, binsADay, ofPlaces }];
  });
  const lots = problem.lots.flatMap((lot) => {
    const barred = barredBy(limits.lots.get(lot.id));
    if (barred.length === 0) return [lot];
    const keeps = lot.keeps.map((one, regime) => (barred.some((bar) => bar.regime === regime) ? null : one));
    if (keeps.some((one) => one !== null)) return [{ ...lot, keeps, barred }];
    const reasons = [...new Set(barred.map(({ reason }) => reason))];
    leftOut.push({ what: lot.id, bins: lot.bins, reason: reasons.join(' ') });
    return [];
  });
  return { ...problem, rooms, lots, leftOut };
}

/** The problem without the bins that are not worth a room; they are named in `leftOut` with the reason. */
export function withoutWorthless(problem: FillProblem, worth: WorthStoring): FillProblem {
  const leftOut: LeftOut[] = [...problem.leftOut];
  const lots = problem.lots.flatMap((lot) => {
    const limit = worth.get(lot.id);
    const over = limit ? lot.bins - limit.bins : 0;
    if (!limit || over <= 0) return [lot];
    const waysIn = limit.order === undefined ? [] : [{ kind: 'order', text: limit.order } as const];
    leftOut.push({ what: lot.id, bins: over, reason: limit.reason, waysIn });
    return limit.bins <= 0 ? [] : [fewerOf(lot, limit.bins)];
  });
  return { ...problem, lots, leftOut };
}

/** The lot with its first bins alone. */
function fewerOf(lot: LotToPlace, bins: number): LotToPlace {
  let left = bins;
  const arrivals = lot.arrivals.flatMap(({ day, bins: come }) => {
    const taken = Math.min(come, left);
    left -= taken;
    return taken > 0 ? [{ day, bins: taken }] : [];
  });
  return { ...lot, arrivals, bins, allBins: lot.allBins - (lot.bins - bins) };
}
