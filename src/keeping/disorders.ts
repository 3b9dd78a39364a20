import type { Disorder, DisorderCondition, Regime, Variety } from '../fruit/types';
import { disorderTitle } from '../fruit/varieties/disorders';
import { type Day, type Week, weekOfDay } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Fill, Lot } from '../plan/model';
import type { LotInRoom } from '../room/types';
import { starchOneToEight } from './maturity';
import { isSealed } from './storage-life';

/** Writes a figure in the reader's units. */
export type Show = (figure: Figure) => string;

/** A disorder that threatens a lot in its room. No chance is given: none is published that holds elsewhere. */
export interface DisorderRisk {
  readonly disorder: Disorder;
  readonly title: string;
  /** First week of it. */
  readonly from: Week;
  /** Last week in which it comes; to the end of storage where absent. */
  readonly until?: Week;
  /** Days from the first picking to its beginning. */
  readonly begins: Figure<'days'>;
  /** Days from the first picking by which the lot is packed because of it, where somebody gives a number. */
  readonly packedBy?: Figure<'days'>;
  /** Why this lot, in words; empty where the variety alone is the reason. */
  readonly because: (show: Show) => string;
  /** What lessens it here, in words. */
  readonly eased?: string;
}

interface Stay {
  readonly lot: Lot;
  readonly variety: Variety;
  readonly fill: Fill;
  readonly regime: Regime;
}

/** A condition that holds: from how many days after sealing, and the words for it. */
interface Holds {
  readonly from?: Figure<'days'>;
  readonly said: (show: Show) => string;
}

/** The disorders that threaten a lot in its room, the first to come first. `start` is its first day of picking. */
export function lotDisorders(
  { lot, variety }: Pick<LotInRoom, 'lot' | 'variety'>,
  fill: Fill,
  regime: Regime,
  start: Day,
): DisorderRisk[] {
  const stay = { lot, variety, fill, regime };
  return variety.disorders
    .flatMap((disorder) => riskOf(stay, disorder, start) ?? [])
    .sort((a, b) => a.begins.value - b.begins.value || (a.disorder.id < b.disorder.id ? -1 : 1));
}

function riskOf(stay: Stay, disorder: Disorder, start: Day): DisorderRisk | undefined {
  const sealed = isSealed(stay.fill, stay.regime) ? stay.fill.sealed?.value : undefined;
  const bySealing = disorder.countedFrom === 'sealing';
  if (bySealing && sealed === undefined) return undefined;
  const held: Holds[] = [];
  for (const condition of disorder.conditions) {
    const holds = holdsFor(stay, disorder, condition, sealed !== undefined);
    if (!holds) return undefined;
    held.push(holds);
  }
  const later = held.find(({ from }) => from)?.from;
  const offset = countedFigure(
    'days from the first picking to sealing',
    'days',
    bySealing && sealed !== undefined ? sealed - start : 0,
    `days from the first picking of ${stay.lot.id} to the sealing of ${stay.fill.id}`,
    [stay.lot.picked?.at, stay.fill.sealed?.at].filter((at) => at !== undefined),
  );
  const begins = fromPicking(`beginning of ${disorderTitle(disorder.id)}`, disorder.from, offset, later);
  const inAir = sealed === undefined ? disorder.packedByInAir : undefined;
  const packedBy = disorder.packedBy ?? inAir;
  const eased = easedBy(stay, disorder, sealed);
  return {
    disorder,
    title: disorderTitle(disorder.id),
    from: weekOfDay(start + Math.floor(begins.value)),
    ...(disorder.until && { until: weekOfDay(start + Math.ceil(disorder.until.value + offset.value)) }),
    begins,
    ...(packedBy && {
      packedBy: fromPicking(`packing because of ${disorderTitle(disorder.id)}`, packedBy, offset, undefined),
    }),
    because: (show) =>
      held
        .map(({ said }) => said(show))
        .filter((text) => text !== '')
        .join(' and '),
    ...(eased !== undefined && { eased }),
  };
}

/** Days from the first picking to what comes so many days after picking or sealing, or after a later stage begins. */
function fromPicking(
  what: string,
  days: Figure<'days'>,
  offset: Figure<'days'>,
  later: Figure<'days'> | undefined,
): Figure<'days'> {
  const name = `days from picking to ${what}`;
  if (later) {
    const inputs = { days, offset, stage: later };
    return compute(
      name,
      'days',
      'offset + max(days, stage)',
      inputs,
      (v) => v.offset + Math.max(v.days, v.stage),
    );
  }
  return compute(name, 'days', 'offset + days', { offset, days }, (v) => v.offset + v.days);
}

function holdsFor(
  stay: Stay,
  disorder: Disorder,
  condition: DisorderCondition,
  sealed: boolean,
): Holds | undefined {
  const { lot, variety, regime } = stay;
  switch (condition.kind) {
    case 'sealed':
      return sealed ? { said: () => '' } : undefined;
    case 'conditioned':
      return regime.conditioning ? { said: () => 'it is conditioned' } : undefined;
    case 'not conditioned':
      return regime.conditioning ? undefined : { said: () => 'it is not conditioned' };
    case 'not treated': {
      if (lot.treatments.some(({ value }) => condition.with.includes(value))) return undefined;
      return { said: () => `it has had no ${condition.with.map(treatmentName).join(' or ')}` };
    }
    case 'carbon dioxide above its limit':
      return sealed ? carbonDioxideAbove(stay, disorder) : undefined;
    case 'oxygen below its limit':
      return sealed ? oxygenBelow(variety, regime) : undefined;
    case 'temperature below its limit':
      return tooCold(variety, regime);
  }
}

function treatmentName(treatment: string): string {
  return treatment === '1-mcp' ? '1-MCP' : treatment;
}

/** A value held by a regime, from so many days after sealing. */
interface Held<T> {
  readonly value: T;
  readonly from?: Figure<'days'>;
}

function heldIn<T>(
  own: T | undefined,
  regime: Regime,
  ofStage: (stage: NonNullable<Regime['stages']>[number]) => T | undefined,
): Held<T>[] {
  const stages = (regime.stages ?? []).flatMap((stage): Held<T>[] => {
    const value = ofStage(stage);
    return value === undefined ? [] : [{ value, from: stage.from }];
  });
  return own === undefined ? stages : [{ value: own }, ...stages];
}

/** The first time in the months when it injures that the level is above what the fruit bears. */
function carbonDioxideAbove({ lot, variety, regime }: Stay, disorder: Disorder): Holds | undefined {
  const { levelIfTreated: treated, until } = disorder;
  const has = treated && lot.treatments.some(({ value }) => value === treated.with);
  const limit = has ? treated.level : variety.mostCarbonDioxide;
  const last = until?.value ?? Number.POSITIVE_INFINITY;
  const above = heldIn(regime.carbonDioxide, regime, (stage) => stage.carbonDioxide).find(
    ({ value, from }) => value.value > limit.value && (from?.value ?? 0) < last,
  );
  if (!above) return undefined;
  return {
    ...(above.from && { from: above.from }),
    said: (show) => `${show(above.value)} carbon dioxide is above the ${show(limit)} it bears`,
  };
}

function oxygenBelow({ leastOxygen }: Variety, regime: Regime): Holds | undefined {
  const below = heldIn(regime.oxygen, regime, (stage) => stage.oxygen).find(
    ({ value }) => value.value < leastOxygen.value,
  );
  if (!below) return undefined;
  return {
    ...(below.from && { from: below.from }),
    said: (show) => `${show(below.value)} oxygen is below the ${show(leastOxygen)} it bears`,
  };
}

function tooCold({ leastTemperature }: Variety, regime: Regime): Holds | undefined {
  const cold = heldIn(regime.temperature, regime, (stage) => stage.temperature).find(
    ({ value }) => value.value < leastTemperature.value,
  );
  return cold && { said: (show) => `${show(cold.value)} is below the ${show(leastTemperature)} it bears` };
}

function easedBy({ lot }: Stay, disorder: Disorder, sealed: Day | undefined): string | undefined {
  const { easedByDelay, easedByStarch } = disorder;
  const picked = lot.picked?.value.last;
  if (easedByDelay && sealed !== undefined && picked !== undefined && sealed - picked >= easedByDelay.value)
    return `sealed ${sealed - picked} days after picking`;
  const starch = lot.maturity?.starch;
  if (!easedByStarch || !lot.maturity || !starch) return undefined;
  const index = starchOneToEight(starch.value, lot.maturity.starchScale);
  return index < easedByStarch.value ? `starch was below ${easedByStarch.value}` : undefined;
}
