import { regimeSuits } from '../fruit/data';
import { respirationInAir } from '../fruit/respiration';
import type { DaysRange, Regime, StorageTerm, Variety } from '../fruit/types';
import { compute, countedFigure, type Figure, referenceFigure } from '../plan/figure';
import type { Fill, Lot } from '../plan/model';
import {
  allowedFilling,
  allowedWait,
  lifeLostADay,
  terms,
  treatedLife,
  usualSpread,
  warmReference,
} from './assumptions';

/** A life before corrections, with the range its source gives, where it gives one. */
interface Life {
  readonly life: Figure<'days'>;
  readonly range?: DaysRange | undefined;
}

/** Whether a fill is kept in controlled atmosphere: sealed, in a regime that names an oxygen level. */
export function isSealed(fill: Pick<Fill, 'sealed'>, regime: Pick<Regime, 'oxygen'>): boolean {
  return fill.sealed !== undefined && regime.oxygen !== undefined;
}

/**
 * Storage life of a lot before corrections: the planner's own value for the regime, else for the variety; else what
 * the regime's source says for this variety, else what the variety's does.
 */
function lifeBefore(variety: Variety, regime: Regime, sealed: boolean): Life {
  const own: Life = sealed
    ? { life: variety.storageLife, range: variety.storageLifeRange }
    : { life: variety.storageLifeInAir, range: variety.storageLifeInAirRange };
  const meant = sealed === (regime.oxygen !== undefined);
  if (!regime.storageLife || !meant) return own;
  const ofRegime: Life = { life: regime.storageLife, range: regime.storageLifeRange };
  if (regime.storageLife.origin.kind === 'plan') return ofRegime;
  return own.life.origin.kind === 'plan' || !regimeSuits(regime, variety) ? own : ofRegime;
}

export interface LotLife {
  /** Median, in days from the first day of picking. */
  readonly life: Figure<'days'>;
  /** Standard deviation. */
  readonly spread: Figure<'days'>;
}

/** Storage life of a lot in a fill, after corrections for maturity, treatment and delay. */
export function lotLife(
  lot: Lot,
  variety: Variety,
  fill: Fill,
  regime: Regime,
  term: StorageTerm | undefined,
): LotLife {
  const sealed = isSealed(fill, regime);
  const { life, range } = lifeBefore(variety, regime, sealed);
  const mature = forMaturity(life, term);
  const treated = lot.treatments.some(({ value }) => value === '1-mcp') ? withTreatment(mature) : mature;
  const corrected = compute(
    `storage life of lot ${lot.id}`,
    'days',
    'max(0, life - lostInWarmth - lostBeforeSealing)',
    {
      life: treated,
      lostInWarmth: lostInWarmth(lot, variety, fill),
      lostBeforeSealing: sealed ? lostBeforeSealing(lot, variety, fill, regime, treated) : nothing,
    },
    (v) => Math.max(0, v.life - v.lostInWarmth - v.lostBeforeSealing),
  );
  return { life: corrected, spread: spreadOf(corrected, life, range) };
}

/** Fruit not mature for long storage keeps to the end of its term, or for its share of a long life, if that is more. */
function forMaturity(life: Figure<'days'>, term: StorageTerm | undefined): Figure<'days'> {
  if (term === undefined || term === 'long') return life;
  return compute(
    `storage life of fruit of ${term === 'air' ? 'over-mature' : `${term}-term`} maturity`,
    'days',
    'min(life, max(share * life, length))',
    { life, share: terms[term].share, length: terms[term].length },
    (v) => Math.min(v.life, Math.max(v.share * v.life, v.length)),
  );
}

function withTreatment(life: Figure<'days'>): Figure<'days'> {
  return compute(
    'storage life with 1-MCP',
    'days',
    'life * factor',
    { life, factor: treatedLife },
    (v) => v.life * v.factor,
  );
}

const nothing = referenceFigure('days lost before sealing', 'days', 0, {
  citation: 'Kept in air: there is no door to seal',
  known: 'common practice',
});

/** Days from the last picking to the cold room, at the field temperature, beyond the usual one. */
function lostInWarmth(lot: Lot, variety: Variety, fill: Fill): Figure<'days'> {
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
function lostBeforeSealing(
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

/** A quarter of the source's range as a standard deviation, in proportion to the corrected life. */
function spreadOf(
  corrected: Figure<'days'>,
  life: Figure<'days'>,
  range: DaysRange | undefined,
): Figure<'days'> {
  const name = 'spread of the storage life';
  if (!range || life.value <= 0) {
    const inputs = { corrected, share: usualSpread };
    return compute(name, 'days', 'share * corrected', inputs, (v) => v.share * v.corrected);
  }
  return compute(
    name,
    'days',
    '(longest - shortest) / 4 * corrected / life',
    { longest: range.longest, shortest: range.shortest, corrected, life },
    (v) => (((v.longest - v.shortest) / 4) * v.corrected) / v.life,
  );
}
