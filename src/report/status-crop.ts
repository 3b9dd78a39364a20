import type { ComputedSeason } from '../findings/types';
import type { Lot, PackedRun, Plan } from '../plan/model';
import type { FilledRoom } from '../room/types';
import { byName } from './papers/by-name';
import { present } from './parts';
import type { StatusReport } from './schemas';

/** Bins of a lot. */
export interface LotStand {
  readonly lot: Lot;
  readonly variety: string;
  readonly estimate: number;
  readonly received: number;
  /** Of the estimate, what has not come in yet; nothing once all of the lot is in. */
  readonly toCome: number;
  readonly isIn: boolean;
}

type CropPart = StatusReport['crop'];
type ToCome = CropPart['fillsToCome'][number];

export function lotStand(lot: Lot): LotStand {
  const byDay = [...(lot.receivedByDay?.values() ?? [])].reduce((sum, bins) => sum + bins, 0);
  const received = lot.receivedBins?.value ?? byDay;
  const estimate = (lot.planned ?? lot).expectedBins?.value ?? received;
  const isIn = lot.receivedBins !== undefined;
  return {
    lot,
    variety: lot.variety?.value ?? '',
    estimate,
    received,
    toCome: isIn ? 0 : Math.max(0, estimate - received),
    isIn,
  };
}

/** Whether all that goes into a fill is in: its last bin is, or what comes after that has happened. */
export function isFilled(plan: Plan, { fill }: FilledRoom): boolean {
  const progress = plan.progress.get(fill.id);
  if (fill.opened) return true;
  if (!progress) return false;
  const { lastBin, lots, sealed, lowOxygen, setPoint, emptied } = progress;
  return lots.length > 0 || [lastBin, sealed, lowOxygen, setPoint, emptied].some((day) => day !== undefined);
}

/** The crop by variety, and what it does to the fills that are still to come. */
export function cropPart(season: ComputedSeason): CropPart {
  const lots = [...season.plan.lots.values()].map(lotStand);
  return { varieties: varietiesOf(lots), ...fillsToCome(season, lots) };
}

function varietiesOf(lots: readonly LotStand[]): CropPart['varieties'] {
  const names = [...new Set(lots.map(({ variety }) => variety))].sort(byName);
  return names.map((variety) => {
    const own = lots.filter((lot) => lot.variety === variety);
    const sum = (of: (lot: LotStand) => number) => own.reduce((total, lot) => total + of(lot), 0);
    const [estimate, received, toCome] = [
      sum((lot) => lot.estimate),
      sum((lot) => lot.received),
      sum((lot) => lot.toCome),
    ];
    return {
      variety,
      lots: own.length,
      lotsIn: own.filter(({ isIn }) => isIn).length,
      estimate,
      received,
      toCome,
      expected: received + toCome,
      change: received + toCome - estimate,
    };
  });
}

/** Bins of each lot that went into filled rooms or were packed from the field. */
function goneBins({ plan, filled }: ComputedSeason): Map<string, number> {
  const gone = new Map<string, number>();
  const add = (lot: string, bins: number) => gone.set(lot, (gone.get(lot) ?? 0) + bins);
  for (const room of filled.values())
    if (isFilled(plan, room)) for (const { lot, bins } of room.fill.lots) add(lot.value, bins.value);
  for (const run of plan.packed.values())
    if (isFromField(run)) add(run.lot?.value ?? '', run.bins?.value ?? 0);
  return gone;
}

export function isFromField({ lot, fill }: PackedRun): boolean {
  return lot !== undefined && fill === undefined;
}

/** What is left of each lot goes to its fills in the order of their first bins; what is then left over, where room is. */
function fillsToCome(
  season: ComputedSeason,
  lots: readonly LotStand[],
): Pick<CropPart, 'fillsToCome' | 'withoutPlace'> {
  const { plan } = season;
  const gone = goneBins(season);
  const left = new Map(
    lots.map(({ lot, received, toCome }) => [
      lot.id,
      Math.max(0, received + toCome - (gone.get(lot.id) ?? 0)),
    ]),
  );
  const take = (lot: string, most: number): number => {
    const bins = Math.max(0, Math.min(most, left.get(lot) ?? 0));
    left.set(lot, (left.get(lot) ?? 0) - bins);
    return bins;
  };
  const open = [...season.filled.values()]
    .filter((room) => !isFilled(plan, room))
    .sort((a, b) => (a.fill.firstBin?.value ?? 0) - (b.fill.firstBin?.value ?? 0));
  const served = open.map((room) => {
    const planned = (room.fill.planned ?? room.fill).lots;
    return {
      room,
      planned: planned.reduce((sum, { bins }) => sum + bins.value, 0),
      willHold: planned.reduce((sum, { lot, bins }) => sum + take(lot.value, bins.value), 0),
    };
  });
  const fills = served.map(({ room, planned, willHold }): ToCome => {
    const places = room.capacity.places?.value;
    let spare = places === undefined ? 0 : Math.max(0, places - willHold);
    let more = 0;
    for (const { lot } of (room.fill.planned ?? room.fill).lots) {
      if (plan.lots.get(lot.value)?.packedAtHarvest) continue;
      const put = take(lot.value, spare);
      [spare, more] = [spare - put, more + put];
    }
    return present({
      fill: room.fill.id,
      room: room.room.id,
      planned,
      willHold,
      moreOfItsLots: more,
      places,
      placesEmpty: places === undefined ? undefined : Math.max(0, places - willHold - more),
    });
  });
  const withoutPlace = lots.flatMap(({ lot, variety }) => {
    const bins = left.get(lot.id) ?? 0;
    return bins > 0 && !lot.packedAtHarvest ? [{ lot: lot.id, variety, bins }] : [];
  });
  return { fillsToCome: fills, withoutPlace };
}
