import { respirationInAir } from '../fruit/respiration';
import type { Regime, Variety } from '../fruit/types';
import { compute, countedFigure, type Figure, referenceFigure } from '../plan/figure';
import type { Fill, Lot } from '../plan/model';
import { allowedFilling, allowedWait, lifeLostADay, warmReference } from './assumptions';

/** Storage life that is lost between picking and the sealed door, beyond what storage lives allow for. */

export const nothingLost = referenceFigure('days lost before sealing', 'days', 0, {
  citation: 'Kept in air: there is no door to seal',
  known: 'common practice',
});

/** Days from the last picking to the cold room, at the field temperature, beyond the usual one. */
export function lostInWarmth(lot: Lot, variety: Variety, fill: Fill): Figure<'days'> {
  const picked = lot.picked?.value.last;
  const entered = fill.firstBin?.value;
  const days = picked === undefined || entered === undefined ? 0 : Math.max(0, entered - picked);
  const wait = countedFigure(
    'days from the last picking to the first bin',
    'days',
    days,
    `days between the last picking of ${lot.id} and the first bin of ${fill.id}`,
    [lot.picked?.at, fill.firstBin?.at].filter((at) => at !== undefined),
  );
  if (days <= allowedWait.value) return noneBeyond('storage life lost in warmth', wait, allowedWait);
  return compute(
    'storage life lost in warmth',
    'days',
    'lostADay * max(0, wait - allowed) * rate / rateAt21',
    {
      lostADay: lifeLostADay,
      wait,
      allowed: allowedWait,
      rate: respirationInAir(variety, lot.fieldTemperature),
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
  lot: Lot,
  variety: Variety,
  fill: Fill,
  regime: Regime,
  life: Figure<'days'>,
): Figure<'days'> {
  const entered = coldFrom(lot, fill);
  const sealed = fill.sealed?.value;
  const wait = countedFigure(
    'days from cold room to sealed door',
    'days',
    entered === undefined || sealed === undefined ? 0 : Math.max(0, sealed - entered),
    `days between ${lot.id} entering ${fill.id} and its sealing`,
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
export function coldFrom(lot: Lot, fill: Fill): number | undefined {
  const days = [lot.picked?.value.last, fill.firstBin?.value].filter((day) => day !== undefined);
  return days.length > 0 ? Math.max(...days) : undefined;
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
