import { keepsIn } from '../../fill/keeping';
import { regimeChoices } from '../../fill/regimes';
import type { FillProblem, LeftOut } from '../../fill/types';
import { regimeSuits } from '../../fruit/data';
import { formatWeek } from '../../plan/dates';
import type { ComputedSeason } from '../types';
import { fillLimits, type LimitOptions } from './limits';

/** Regimes that are tried for a lot that may be kept in none of those offered, the variety's usual ones first. */
const MOST_TRIED = 6;

/**
 * What the lots are told that findings bar from every regime offered: another known regime in which nothing stands
 * against them, the one that keeps them longest. Each is tried as those offered were.
 */
export function withOtherRegimes(
  season: ComputedSeason,
  before: FillProblem,
  limited: FillProblem,
  options: LimitOptions,
): FillProblem {
  const planned = new Set(limited.lots.map(({ id }) => id));
  const barred = new Set(before.lots.map(({ id }) => id).filter((id) => !planned.has(id)));
  if (barred.size === 0) return limited;
  const leftOut = limited.leftOut.map((one): LeftOut => {
    if (!barred.has(one.what)) return one;
    const text = otherRegime(season, before, one.what, options);
    return text === undefined
      ? { ...one, reason: `${one.reason} No other regime was found in which nothing stands against it.` }
      : { ...one, waysIn: [{ kind: 'regime', text }] };
  });
  return { ...limited, leftOut };
}

function otherRegime(
  season: ComputedSeason,
  problem: FillProblem,
  id: string,
  options: LimitOptions,
): string | undefined {
  const { plan, fruit } = season;
  const lot = plan.lots.get(id);
  const one = problem.lots.find((other) => other.id === id);
  const variety = lot?.variety && fruit.variety(lot.variety.value);
  if (!lot || !one || !variety) return undefined;
  const offered = new Set(problem.regimes.map(({ name }) => name));
  const names = [...new Set([...variety.regimes, ...fruit.regimeNames])].filter((name) => {
    const regime = fruit.regime(name);
    return regime !== undefined && !offered.has(name) && regimeSuits(regime, variety);
  });
  const regimes = regimeChoices(names.slice(0, MOST_TRIED), fruit);
  const keeps = keepsIn(plan, fruit, lot, variety, one.bins, regimes);
  const tried = { ...problem, regimes, lots: [{ ...one, keeps }] };
  const bars = fillLimits(season, tried, options).lots.get(id) ?? [];
  const [best] = regimes
    .map(({ name }, index) => ({ name, latest: keeps[index]?.latest }))
    .filter(({ name, latest }) => latest !== undefined && bars.every(({ regime }) => regime !== name))
    .sort((a, b) => (b.latest ?? 0) - (a.latest ?? 0) || (a.name < b.name ? -1 : 1));
  if (best?.latest === undefined) return undefined;
  return `In the regime ${best.name} nothing stands against it, and it lasts to ${formatWeek(best.latest)}: fill a room in it by hand, or define it under \`regimes\`.`;
}
