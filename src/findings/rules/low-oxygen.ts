import { michaelisConstant } from '../../fruit/conversions';
import type { Variety } from '../../fruit/types';
import { type Day, formatDay } from '../../plan/dates';
import type { Figure } from '../../plan/figure';
import type { Fill } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import type { Span } from '../../plan/span';
import { fermentationOf, shareOfAir } from '../../room/course/fruit-rate';
import type { FilledRoom, LotInRoom } from '../../room/types';
import { shower } from '../say';
import type { ComputedSeason, Rule } from '../types';

/** Oxygen so low that fruit suffers: below what it bears, or below where it begins to ferment. */

/** The lot whose variety asks most; in a room of several, the most sensitive decides. */
export function strictest(
  lots: readonly LotInRoom[],
  limit: (lot: LotInRoom) => number,
): LotInRoom | undefined {
  return lots.reduce<LotInRoom | undefined>(
    (best, lot) => (!best || limit(lot) > limit(best) ? lot : best),
    undefined,
  );
}

/** How a limit's source is said in a message. */
export function knownFrom({ origin }: Figure): string {
  if (origin.kind === 'plan') return 'by the plan';
  return origin.kind === 'reference' ? origin.source.known : 'computed';
}

export function atRegime(fill: Fill): Span {
  return fill.regime?.at ?? fill.at;
}

interface SetPoint {
  readonly oxygen: Figure<'%'>;
  readonly from?: Day;
}

/** The lowest oxygen of a regime and its stages, and the day a stage has it from. */
function lowestSetPoint({ regime, fill }: FilledRoom): SetPoint | undefined {
  if (!regime?.oxygen) return undefined;
  const stages = (regime.stages ?? []).flatMap(({ oxygen, from }): SetPoint[] =>
    oxygen
      ? [
          {
            oxygen,
            ...(fill.sealed && from.value < 1000 ? { from: fill.sealed.value + Math.round(from.value) } : {}),
          },
        ]
      : [],
  );
  return [{ oxygen: regime.oxygen }, ...stages].reduce<SetPoint>(
    (low, one) => (one.oxygen.value < low.oxygen.value ? one : low),
    { oxygen: regime.oxygen },
  );
}

function* oxygenBelowLimit(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const filled of season.filled.values()) {
    const lot = strictest(filled.lots, ({ variety }) => variety.leastOxygen.value);
    const lowest = lowestSetPoint(filled);
    const oxygen = lowest?.oxygen;
    if (!oxygen || !lot || oxygen.value >= lot.variety.leastOxygen.value) continue;
    yield {
      code: 'oxygen-below-limit',
      message: `${filled.fill.id}: ${show(oxygen)} oxygen${fromDay(lowest)} is below the ${show(lot.variety.leastOxygen)} that ${lot.variety.name} bears (${knownFrom(lot.variety.leastOxygen)}).${fermentation(season, filled, oxygen) || ' Below it fruit ferments.'} Raise the regime's oxygen, or choose another.`,
      at: atRegime(filled.fill),
      related: setPointAt(oxygen),
      about: filled.fill.id,
    };
  }
}

function* oxygenBelowBreakpoint(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const filled of season.filled.values()) {
    const lowest = lowestSetPoint(filled);
    const oxygen = lowest?.oxygen;
    const lot = strictest(filled.lots, ({ variety }) => variety.oxygenBreakpoint.value);
    if (!oxygen || !lot || oxygen.value >= lot.variety.oxygenBreakpoint.value) continue;
    // That finding tells of the fermentation too.
    if (filled.lots.some(({ variety }) => oxygen.value < variety.leastOxygen.value)) continue;
    const { name, oxygenBreakpoint: breakpoint } = lot.variety;
    yield {
      code: 'oxygen-below-breakpoint',
      message: `${filled.fill.id}: ${show(oxygen)} oxygen${fromDay(lowest)} is below the ${show(breakpoint)} at which ${name} begins to ferment (${knownFrom(breakpoint)}).${fermentation(season, filled, oxygen)} Raise the set-point to ${show(breakpoint)} or above; if your own trials find less, give ${name} its \`oxygen-breakpoint\` and \`source\`.`,
      at: atRegime(filled.fill),
      related: setPointAt(oxygen),
      about: filled.fill.id,
    };
  }
}

function fromDay(setPoint: SetPoint | undefined): string {
  return setPoint?.from === undefined ? '' : ` from ${formatDay(setPoint.from)}`;
}

function setPointAt({ origin }: Figure): Problem['related'] {
  return origin.kind === 'plan' ? [{ at: origin.at, message: 'The set-point' }] : [];
}

/** What the fruit makes of it: its quotient, and the ethanol by opening. Empty at or above every breakpoint. */
function fermentation(season: ComputedSeason, filled: FilledRoom, oxygen: Figure<'%'>): string {
  const show = shower(season);
  const lot = strictest(filled.lots, ({ variety }) => variety.oxygenBreakpoint.value);
  if (!lot || !filled.regime?.oxygen || oxygen.value >= lot.variety.oxygenBreakpoint.value) return '';
  const { respiratoryQuotient: usual } = lot.variety;
  const more = fermentedOfRespired(lot.variety, filled.regime.oxygen.value, oxygen.value);
  const ethanol = season.courses?.courses.get(filled.fill.id)?.ethanolMade;
  const left = ethanol
    ? `, and ${show(ethanol)} of ethanol is in the fruit of the room when it opens, if the fruit bears it that long`
    : '';
  return ` Its respiratory quotient is then near ${(usual.value * (1 + more)).toFixed(2)} instead of ${usual.value.toFixed(2)}: fermentation adds ${Math.round(100 * more)} % to the carbon dioxide${left}.`;
}

/** Carbon dioxide of fermentation over that of respiration at an oxygen level, per cent, as in the room's course. */
function fermentedOfRespired(variety: Variety, storeOxygen: number, oxygen: number): number {
  const law = { kind: 'to-store-share', halfAt: michaelisConstant.value, storeOxygen } as const;
  const shareInStore = variety.respirationInStore.expected.value;
  const ferments = fermentationOf({ shareInStore, oxygenBreakpoint: variety.oxygenBreakpoint.value }, law);
  const respired = shareOfAir(law, shareInStore, oxygen, 0);
  return respired > 0 ? (ferments?.(oxygen) ?? 0) / respired : 0;
}

export const lowOxygenRules: readonly Rule[] = [
  {
    code: 'oxygen-below-limit',
    family: 'gas',
    severity: 'error',
    summary: 'Oxygen below what a variety bears.',
    find: oxygenBelowLimit,
  },
  {
    code: 'oxygen-below-breakpoint',
    family: 'gas',
    severity: 'warning',
    summary: 'Oxygen at which a variety begins to ferment.',
    find: oxygenBelowBreakpoint,
  },
];
