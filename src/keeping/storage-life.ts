import { regimeSuits } from '../fruit/data';
import type { DaysRange, Regime, StorageTerm, Variety } from '../fruit/types';
import { compute, type Figure } from '../plan/figure';
import { type Known, knownOf, leastKnown } from '../plan/how-known';
import type { Fill } from '../plan/model';
import { figureLater } from '../room/figures';
import { terms, treatedLife, usualSpread } from './assumptions';
import {
  lostBeforeSealing,
  lostInWarmth,
  nothingLost,
  plainLostBeforeSealing,
  plainLostInWarmth,
  type Waiting,
} from './delay';

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

/** What lots of one variety, term and treatment share of their lives in a fill. */
export interface SharedLife extends Life {
  readonly isSealed: boolean;
  /** The life after corrections for season, maturity and treatment. */
  readonly corrected: Figure<'days'>;
}

export function sharedLife(
  variety: Variety,
  fill: Fill,
  regime: Regime,
  term: StorageTerm | undefined,
  isTreated: boolean,
): SharedLife {
  const sealed = isSealed(fill, regime);
  const { life, range } = lifeBefore(variety, regime, sealed);
  const mature = forMaturity(shortened(life, variety), term);
  return { isSealed: sealed, life, range, corrected: isTreated ? withTreatment(mature) : mature };
}

/** Storage life of a lot in a fill, after corrections for maturity, treatment and delay. */
export function lotLife(
  waiting: Waiting,
  variety: Variety,
  fill: Fill,
  regime: Regime,
  shared: SharedLife,
): LotLife {
  const before = shared.corrected.value;
  const inWarmth = plainLostInWarmth(waiting, variety, fill);
  const beforeSealing = shared.isSealed ? plainLostBeforeSealing(waiting, variety, fill, regime, before) : 0;
  const value = Math.max(0, before - inWarmth - beforeSealing);
  const life = figureLater(`storage life of lot ${waiting.id}`, 'days', value, () =>
    wholeLife(waiting, variety, fill, regime, shared),
  );
  const spread = figureLater(SPREAD, 'days', plainSpread(value, shared), () => spreadOf(life, shared));
  return { life, spread };
}

function wholeLife(
  waiting: Waiting,
  variety: Variety,
  fill: Fill,
  regime: Regime,
  { isSealed: sealed, corrected: life }: SharedLife,
): Figure<'days'> {
  return compute(
    `storage life of lot ${waiting.id}`,
    'days',
    'max(0, life - lostInWarmth - lostBeforeSealing)',
    {
      life,
      lostInWarmth: lostInWarmth(waiting, variety, fill),
      lostBeforeSealing: sealed ? lostBeforeSealing(waiting, variety, fill, regime, life) : nothingLost,
    },
    (v) => Math.max(0, v.life - v.lostInWarmth - v.lostBeforeSealing),
  );
}

/** What the plan says that the season's fruit keeps shorter. */
function shortened(life: Figure<'days'>, { name, keepsShorter }: Variety): Figure<'days'> {
  if (!keepsShorter || !(keepsShorter.value > 0)) return life;
  return compute(
    `storage life of this season's ${name}`,
    'days',
    'max(0, life - shorter)',
    { life, shorter: keepsShorter },
    (v) => Math.max(0, v.life - v.shorter),
  );
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

const SPREAD = 'spread of the storage life';

/** A quarter of the source's range as a standard deviation, in proportion to the corrected life. */
function spreadOf(corrected: Figure<'days'>, { life, range }: Life): Figure<'days'> {
  if (!range || life.value <= 0) {
    const inputs = { corrected, share: usualSpread };
    return compute(SPREAD, 'days', 'share * corrected', inputs, (v) => v.share * v.corrected);
  }
  return compute(
    SPREAD,
    'days',
    '(longest - shortest) / 4 * corrected / life',
    { longest: range.longest, shortest: range.shortest, corrected, life },
    (v) => (((v.longest - v.shortest) / 4) * v.corrected) / v.life,
  );
}

/** How well the spread is known: by the range that the source gives, or by the usual share. The life itself is another matter. */
export function lifeSpreadKnown(variety: Variety, regime: Regime, sealed: boolean): Known {
  const { life, range } = lifeBefore(variety, regime, sealed);
  if (!range || life.value <= 0) return knownOf(usualSpread);
  return leastKnown([knownOf(range.longest), knownOf(range.shortest)]);
}

function plainSpread(corrected: number, { life, range }: Life): number {
  if (!range || life.value <= 0) return usualSpread.value * corrected;
  return (((range.longest.value - range.shortest.value) / 4) * corrected) / life.value;
}
