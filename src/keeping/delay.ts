import { respirationInAir, respirationRateInAir } from '../fruit/respiration';
import type { Regime, Variety } from '../fruit/types';
import { compute, countedFigure, type Figure, referenceFigure } from '../plan/figure';
import type { Fill, Lot } from '../plan/model';
import { allowedFilling, allowedWait, lifeLostADay, warmReference } from './assumptions';

/** Storage life that is lost between picking and the sealed door, beyond what storage lives allow for. */

export const nothingLost = referenceFigure('days lost before sealing', 'days', 0, {
  citation: 'Kept in air: there is no door to seal',
  known: 'common practice',
});

/** What is to be known of a lot that waits. */
export interface Waiting {
  readonly id: string;
  readonly picked: Lot['picked'];
  /** Asked of a lot that waits in warmth for longer than usual, and of no other. */
  readonly fieldTemperature: Figure<'degC'> | undefined;
}

export function waitingOf(lot: Lot, picked: Lot['picked'], fill: Fill): Waiting {
  const isLong = daysInWarmth(picked, fill) > allowedWait.value;
  return { id: lot.id, picked, fieldTemperature: isLong ? lot.fieldTemperature : undefined };
}

/** Storage life that waiting takes, in days, as `lostInWarmth` and `lostBeforeSealing` tell. */
export function plainLostInWarmth(
  { picked, fieldTemperature }: Waiting,
  variety: Variety,
  fill: Fill,
): number {
  if (!fieldTemperature) return 0;
  const lost = lifeLostADay.value * Math.max(0, daysInWarmth(picked, fill) - allowedWait.value);
  return (
    (lost * respirationRateInAir(variety, fieldTemperature.value)) /
    respirationRateInAir(variety, warmReference.value)
  );
}

export function plainLostBeforeSealing(
  { picked }: Waiting,
  variety: Variety,
  fill: Fill,
  regime: Regime,
  life: number,
): number {
  const wait = daysToSealing(picked, fill);
  const allowed = allowedFilling.value + (regime.conditioning ? regime.conditioning.lasts.value : 0);
  if (wait <= allowed) return 0;
  const lifeInAir = variety.storageLifeInAir.value;
  return Math.min(Math.max(0, wait - allowed), lifeInAir) * Math.max(0, life / lifeInAir - 1);
}

function daysInWarmth(picked: Lot['picked'], { firstBin }: Fill): number {
  return picked === undefined || firstBin === undefined ? 0 : Math.max(0, firstBin.value - picked.value.last);
}

function daysToSealing(picked: Lot['picked'], fill: Fill): number {
  const entered = coldFrom(picked, fill);
  const sealed = fill.sealed?.value;
  return entered === undefined || sealed === undefined ? 0 : Math.max(0, sealed - entered);
}

/** Days from the last picking to the cold room, at the field temperature, beyond the usual one. */
export function lostInWarmth(
  { id, picked, fieldTemperature }: Waiting,
  variety: Variety,
  fill: Fill,
): Figure<'days'> {
  const wait = countedFigure(
    'days from the last picking to the first bin',
    'days',
    daysInWarmth(picked, fill),
    `days between the last picking of ${id} and the first bin of ${fill.id}`,
    [picked?.at, fill.firstBin?.at].filter((at) => at !== undefined),
  );
  if (!fieldTemperature) return noneBeyond('storage life lost in warmth', wait, allowedWait);
  return compute(
    'storage life lost in warmth',
    'days',
    'lostADay * max(0, wait - allowed) * rate / rateAt21',
    {
      lostADay: lifeLostADay,
      wait,
      allowed: allowedWait,
      rate: respirationInAir(variety, fieldTemperature),
      rateAt21: respirationInAir(variety, warmReference),
    },
    (v) => (v.lostADay * Math.max(0, v.wait - v.allowed) * v.rate) / v.rateAt21,
  );
}

/**
 * Days in cold air beyond the usual filling time. Each ages the fruit as a day in air does: by as much more than a
 * day in store as life in store is longer than life in air.
 */
export function lostBeforeSealing(
  { id, picked }: Waiting,
  variety: Variety,
  fill: Fill,
  regime: Regime,
  life: Figure<'days'>,
): Figure<'days'> {
  const wait = countedFigure(
    'days from cold room to sealed door',
    'days',
    daysToSealing(picked, fill),
    `days between ${id} entering ${fill.id} and its sealing`,
    [fill.firstBin?.at, fill.sealed?.at].filter((at) => at !== undefined),
  );
  const allowed = allowedFor(regime);
  if (wait.value <= allowed.value) return noneBeyond('storage life lost before sealing', wait, allowed);
  return compute(
    'storage life lost before sealing',
    'days',
    'min(max(0, wait - allowed), lifeInAir) * max(0, life / lifeInAir - 1)',
    { wait, allowed, life, lifeInAir: variety.storageLifeInAir },
    (v) => Math.min(Math.max(0, v.wait - v.allowed), v.lifeInAir) * Math.max(0, v.life / v.lifeInAir - 1),
  );
}

/** No loss: the short form spares the planner a derivation of nothing. */
function noneBeyond(name: string, wait: Figure<'days'>, allowed: Figure<'days'>): Figure<'days'> {
  return compute(name, 'days', 'max(0, wait - allowed)', { wait, allowed }, (v) =>
    Math.max(0, v.wait - v.allowed),
  );
}

/** The first day a lot can have been in the cold room. */
export function coldFrom(picked: Lot['picked'], { firstBin }: Fill): number | undefined {
  if (!picked) return firstBin?.value;
  return firstBin ? Math.max(picked.value.last, firstBin.value) : picked.value.last;
}

function allowedFor(regime: Regime): Figure<'days'> {
  if (!regime.conditioning) return allowedFilling;
  const inputs = { filling: allowedFilling, conditioning: regime.conditioning.lasts };
  return compute(
    'days to sealing allowed for, with conditioning',
    'days',
    'filling + conditioning',
    inputs,
    (v) => v.filling + v.conditioning,
  );
}
