import type { FruitData } from '../fruit/types';
import { type Day, formatDay, formatWeek } from '../plan/dates';
import type { Fill, Lot, Plan } from '../plan/model';
import { growerWish } from './growers';
import { keepsIn, termIndex } from './keeping';
import type { HeldFruit, RegimeChoice } from './types';
import { daysToSealing, mostDaysToSeal, mostFillingDays } from './weights';

/**
 * Why a fill of the plan may get no more bins: its opening week is pinned, its days are not known or more than filling
 * may take, its room is closed or its filling over (`today`), or another fill uses the room. Undefined where it may;
 * what is in it is not moved.
 */
export function whyNoMore(fill: Fill, fills: readonly Fill[], today: Day | undefined): string | undefined {
  const { room, regime, firstBin, lastBin, sealed, open } = fill;
  if (!room || !regime || !firstBin || !lastBin) return 'its room, regime or days of filling are not written';
  if (sealed && today !== undefined && sealed.value <= today)
    return `it is sealed since ${formatDay(sealed.value)}: a sealed room is not opened for more bins`;
  if (open) return `its opening week ${formatWeek(open.value)} is pinned`;
  const days = lastBin.value - firstBin.value + 1;
  if (days < 1 || days > mostFillingDays)
    return `its filling takes ${days} days, and ${mostFillingDays} are the most`;
  if (today !== undefined && today - firstBin.value >= mostFillingDays)
    return `its filling is over: its first bin came on ${formatDay(firstBin.value)}, ${mostFillingDays} days or more before`;
  const other = fills.find((one) => one !== fill && one.room?.value === room.value);
  return other && `${other.id} uses the room too`;
}

/** By room: what the fills that may take more have put into it. */
export function begunRooms(
  plan: Plan,
  fruit: FruitData,
  fills: readonly Fill[],
  regimes: readonly RegimeChoice[],
  today: Day | undefined,
): Map<string, HeldFruit> {
  const begun = new Map<string, HeldFruit>();
  for (const fill of fills.filter((one) => whyNoMore(one, fills, today) === undefined)) {
    const held = heldBy(plan, fruit, fill, regimes);
    if (fill.room && held) begun.set(fill.room.value, held);
  }
  return begun;
}

function heldBy(
  plan: Plan,
  fruit: FruitData,
  fill: Fill,
  regimes: readonly RegimeChoice[],
): HeldFruit | undefined {
  const regime = regimes.findIndex(({ name }) => name === fill.regime?.value);
  const [firstDay, lastDay] = [fill.firstBin?.value, fill.lastBin?.value];
  if (regime < 0 || firstDay === undefined || lastDay === undefined) return undefined;
  const lots = fill.lots.flatMap(({ lot }) => plan.lots.get(lot.value) ?? []);
  const bins = fill.lots.reduce((sum, one) => sum + one.bins.value, 0);
  return {
    fill: fill.id,
    regime,
    bins,
    firstDay,
    lastDay,
    // How its bins come in over its days the plan does not say: evenly.
    binsADay: Math.ceil(bins / (lastDay - firstDay + 1)),
    lots: lots.map(({ id }) => id),
    growers: [...new Set(lots.map(({ grower }) => grower ?? ''))].sort(),
    apart: lots.some((lot) => growerWish(plan, lot) === 'apart'),
    terms: lots.flatMap((lot) => termOf(fruit, lot) ?? []),
    latest: lots.flatMap((lot) => latestOf(plan, fruit, lot, regimes[regime]) ?? []),
    ...sealingOf(plan, fill, regimes[regime]),
  };
}

/** How far the sealing of a fill may be put off: not so far that gas comes late, where the plan makes that a finding. */
function sealingOf(
  { policy }: Plan,
  { sealed, firstBin, lastBin }: Fill,
  regime: RegimeChoice | undefined,
): Pick<HeldFruit, 'sealing'> {
  if (!sealed || !firstBin || !lastBin || !regime) return {};
  const usual = regime.conditioningDays + daysToSealing;
  const daysAfter = Math.min(usual, Math.max(0, sealed.value - lastBin.value));
  const choice = policy.findings.get('sealed-late')?.value;
  const mayBeLate = choice === 'off' || choice === 'notice';
  const latest = Math.max(sealed.value, firstBin.value + regime.conditioningDays + mostDaysToSeal);
  const lastBinBy = mayBeLate ? Number.POSITIVE_INFINITY : Math.max(lastBin.value, latest - daysAfter);
  return { sealing: { day: sealed.value, daysAfter, lastBinBy } };
}

function varietyOf(fruit: FruitData, lot: Lot) {
  return lot.variety && fruit.variety(lot.variety.value);
}

function termOf(fruit: FruitData, lot: Lot): number | null {
  const variety = varietyOf(fruit, lot);
  return variety ? termIndex(lot, variety) : null;
}

function latestOf(plan: Plan, fruit: FruitData, lot: Lot, regime: RegimeChoice | undefined) {
  const variety = varietyOf(fruit, lot);
  if (!variety || !regime) return undefined;
  return keepsIn(plan, fruit, lot, variety, 1, [regime])[0]?.latest;
}
