import { type DisplayUnits, fixedApart, showApart, showFigure, showNeeded } from '../plan/display';
import type { Figure } from '../plan/figure';
import { toldUnits } from '../plan/told-units';
import type { ComputedSeason } from './types';

/** How results are shown: as asked for, or as the plan says. */
export function unitsOf(season: ComputedSeason): DisplayUnits {
  return toldUnits(season.plan);
}

/** Shows figures in these units. */
export function shower(season: ComputedSeason): (figure: Figure) => string {
  const units = unitsOf(season);
  return (figure) => showFigure(figure, units);
}

/** Shows sizes that are needed, rounded up, so that what is told is enough. */
export function neededShower(season: ComputedSeason): (figure: Figure) => string {
  const units = unitsOf(season);
  return (figure) => showNeeded(figure, units);
}

/** Shows two figures that differ with as many digits as tell them apart: what is too much never reads as much as is borne. */
export function apartShower(
  season: ComputedSeason,
): (one: Figure, other: Figure) => readonly [string, string] {
  const units = unitsOf(season);
  return (one, other) => showApart(one, other, units);
}

/** A share as a whole per cent: `112 %`. */
export function perCent(share: number): string {
  return `${Math.round(share)} %`;
}

/** A share that is above another, with the decimals that it takes to see it: `100.3 %` of 100 %. */
export function perCentAbove(share: number, other: number): string {
  return `${fixedApart(share, other, 0)[0]} %`;
}
