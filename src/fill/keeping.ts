import { regimeSuits } from '../fruit/data';
import type { FruitData, Variety } from '../fruit/types';
import { lotTime } from '../keeping/lot-keeping';
import { termOf } from '../keeping/maturity';
import { type Week, weekOfDay } from '../plan/dates';
import { countedFigure } from '../plan/figure';
import type { Fill, Lot, Plan } from '../plan/model';
import type { KeepsIn, RegimeChoice } from './types';
import { airFruitSealed, daysToSealing, easyFillingDays, weekLostABin } from './weights';

const TERMS = ['long', 'mid', 'short', 'air'] as const;

/** The storage term as a step from the longest; null without a maturity test that decides it. */
export function termIndex(lot: Lot, variety: Variety): number | null {
  const { term } = termOf(lot.maturity, variety);
  return term === undefined ? null : TERMS.indexOf(term);
}

export function termName(term: number | null): (typeof TERMS)[number] | undefined {
  return term === null ? undefined : TERMS[term];
}

/** How long a lot would keep in each regime, were its room filled in the usual days; null where it does not suit. */
export function keepsIn(
  plan: Plan,
  fruit: FruitData,
  lot: Lot,
  variety: Variety,
  bins: number,
  choices: readonly RegimeChoice[],
): (KeepsIn | null)[] {
  const latest = choices.map((choice) => latestIn(plan, fruit, lot, variety, bins, choice));
  const best = Math.max(...latest.filter((week) => week !== null));
  const term = termName(termIndex(lot, variety));
  return latest.map((week, index) => {
    if (week === null) return null;
    const lost =
      (best - week) * (term === 'air' || term === 'short' ? weekLostABin[term] : weekLostABin.long);
    const sealed = choices[index]?.sealed === true;
    return { latest: week, costABin: lost + (term === 'air' && sealed ? airFruitSealed : 0) };
  });
}

function latestIn(
  plan: Plan,
  fruit: FruitData,
  lot: Lot,
  variety: Variety,
  bins: number,
  choice: RegimeChoice,
): Week | null {
  const regime = fruit.regime(choice.name);
  const first = lot.picked?.value.first;
  if (!regime || !regimeSuits(regime, variety) || first === undefined) return null;
  const last = first + easyFillingDays - 1;
  const on = (value: number) => ({ value, at: lot.at });
  const fill: Fill = {
    id: lot.id,
    at: lot.at,
    places: lot.places,
    room: undefined,
    regime: { value: choice.name, at: lot.at },
    firstBin: on(first),
    lastBin: on(last),
    sealed: choice.sealed ? on(last + choice.conditioningDays + daysToSealing) : undefined,
    lots: [],
    open: undefined,
  };
  const inRoom = {
    lot,
    variety,
    bins: countedFigure('bins to be placed', 'bins', bins, 'bins of the lot that no fill takes'),
    fruit: countedFigure('fruit to be placed', 'kg', bins, 'one for each bin: keeping does not depend on it'),
  };
  const latest = lotTime(inRoom, fill, regime, confidenceOf(plan))?.keeping.latest;
  if (latest === undefined || !Number.isFinite(latest)) return null;
  const ends = plan.season?.ends?.value;
  return ends === undefined ? latest : Math.min(latest, weekOfDay(ends));
}

/** The plan's confidence as a share; certainty either way has no place on a normal distribution. */
function confidenceOf({ policy }: Plan): number {
  const percent = policy.confidence.value;
  return Math.min(0.999, Math.max(0.01, Number.isFinite(percent) ? percent / 100 : 0.9));
}
