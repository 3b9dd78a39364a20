import type { Disorder, DisorderCondition, Regime, Variety } from '../fruit/types';
import { disorderTitle } from '../fruit/varieties/disorders';
import { type Day, type Week, weekOfDay } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import { LateFigure } from '../plan/late-figure';
import type { Fill, Lot } from '../plan/model';
import { figureLater } from '../room/figures';
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
  readonly until?: Week | undefined;
  /** Days from the first picking to its beginning. */
  readonly begins: Figure<'days'>;
  /** Days from the first picking by which the lot is packed because of it, where somebody gives a number. */
  readonly packedBy?: Figure<'days'> | undefined;
  /** Why this lot, in words; empty where the variety alone is the reason. */
  readonly because: (show: Show) => string;
  /** What lessens it here, in words. */
  readonly eased?: string | undefined;
}

/** What lots have in common that are of one variety and have had the same treatments, in a fill. */
interface Stay {
  readonly variety: Variety;
  readonly treatments: Lot['treatments'];
  readonly fill: Fill;
  readonly regime: Regime;
}

/** A disorder that threatens all lots of a stay. */
export interface Threat {
  readonly disorder: Disorder;
  readonly title: string;
  /** The day the room is sealed, of a room in controlled atmosphere. */
  readonly sealed: Day | undefined;
  readonly isFromSealing: boolean;
  /** Days from sealing to the stage of the regime that brings it. */
  readonly later: Figure<'days'> | undefined;
  readonly packedBy: Figure<'days'> | undefined;
  readonly begins: string;
  readonly because: DisorderRisk['because'];
}

/** A condition that holds: from how many days after sealing, and the words for it. */
interface Holds {
  readonly from?: Figure<'days'>;
  readonly said: (show: Show) => string;
}

/** The disorders that threaten the lots of a stay, which begin at different times for each. */
export function threatsOf(stay: Stay): Threat[] {
  const threats: Threat[] = [];
  for (const disorder of stay.variety.disorders) {
    const threat = threatOf(stay, disorder);
    if (threat) threats.push(threat);
  }
  return threats;
}

function threatOf(stay: Stay, disorder: Disorder): Threat | undefined {
  const sealed = isSealed(stay.fill, stay.regime) ? stay.fill.sealed?.value : undefined;
  const isFromSealing = disorder.countedFrom === 'sealing';
  if (isFromSealing && sealed === undefined) return undefined;
  const held: Holds[] = [];
  for (const condition of disorder.conditions) {
    const holds = holdsFor(stay, disorder, condition, sealed !== undefined);
    if (!holds) return undefined;
    held.push(holds);
  }
  const title = disorderTitle(disorder.id);
  return {
    disorder,
    title,
    sealed,
    isFromSealing,
    later: held.find(({ from }) => from)?.from,
    packedBy: disorder.packedBy ?? (sealed === undefined ? disorder.packedByInAir : undefined),
    begins: `beginning of ${title}`,
    because: (show) =>
      held
        .map(({ said }) => said(show))
        .filter((text) => text !== '')
        .join(' and '),
  };
}

/** The disorders that threaten a lot in its room, the first to come first. `start` is its first day of picking. */
export function lotDisorders(
  lot: Lot,
  threats: readonly Threat[],
  fill: Fill,
  start: Day,
): readonly DisorderRisk[] {
  if (threats.length === 0) return NONE;
  const { id, picked } = lot;
  const picking = { id, picked, fill, start };
  const risks = threats.map(
    (threat) => new RiskOfLot(threat, picking, easedBy(lot, picked, threat.disorder, threat.sealed)),
  );
  if (risks.length < 2) return risks;
  return risks.sort((a, b) => a.beginsAfter - b.beginsAfter || (a.disorder.id < b.disorder.id ? -1 : 1));
}

const NONE: readonly DisorderRisk[] = [];

/** What a lot's days are counted from. */
interface Picking {
  readonly id: string;
  readonly picked: Lot['picked'];
  readonly fill: Fill;
  readonly start: Day;
}

/** Where a risk stands once it has let go of what its figures are made from. */
export interface RisksAgain {
  /** The same risk as it is made again. */
  riskAgain(place: number): DisorderRisk | undefined;
}

/** A threat to one lot. There are thousands: it shares what all lots of a stay have in common. */
class RiskOfLot implements DisorderRisk {
  readonly #threat: Threat;
  readonly #days: number;
  readonly #offset: number;
  /** What the figures are made from. */
  #from: Picking | RisksAgain;
  #place = 0;

  constructor(
    threat: Threat,
    picking: Picking,
    readonly eased: string | undefined,
  ) {
    const { disorder, later } = threat;
    this.#threat = threat;
    this.#from = picking;
    this.#offset = daysToThreat(threat, picking.start);
    this.#days = this.#offset + (later ? Math.max(disorder.from.value, later.value) : disorder.from.value);
    this.from = weekOfDay(picking.start + Math.floor(this.#days));
    const { until } = disorder;
    this.until = until && weekOfDay(picking.start + Math.ceil(until.value + this.#offset));
  }

  readonly from: Week;
  readonly until: Week | undefined;

  get disorder(): Disorder {
    return this.#threat.disorder;
  }

  get title(): string {
    return this.#threat.title;
  }

  get because(): DisorderRisk['because'] {
    return this.#threat.because;
  }

  get begins(): Figure<'days'> {
    const [from, days, threat] = [this.#from, this.#days, this.#threat];
    if ('riskAgain' in from) return new LateFigure(days, 'days', () => from.riskAgain(this.#place)?.begins);
    return figureLater(`${FROM_PICKING}${threat.begins}`, 'days', days, () =>
      fromPicking(threat.begins, threat.disorder.from, offsetOf(threat, from), threat.later),
    );
  }

  /** Its value alone. */
  get beginsAfter(): number {
    return this.#days;
  }

  get packedBy(): Figure<'days'> | undefined {
    const [from, threat] = [this.#from, this.#threat];
    const { packedBy } = threat;
    if (!packedBy) return undefined;
    if (!('riskAgain' in from)) return packedFirst(threat, packedBy, this.#offset, from);
    return new LateFigure(this.#offset + packedBy.value, 'days', () => from.riskAgain(this.#place)?.packedBy);
  }

  letGo(again: RisksAgain, place: number): void {
    this.#from = again;
    this.#place = place;
  }

  /** As any other risk. */
  toJSON(): DisorderRisk {
    const { disorder, title, from, until, begins, packedBy, because, eased } = this;
    return {
      disorder,
      title,
      from,
      ...(until !== undefined && { until }),
      begins,
      ...(packedBy && { packedBy }),
      because,
      ...(eased !== undefined && { eased }),
    };
  }
}

/** The risks hold their figures by value from now on, and tell the rest of them from `again`. */
export function risksLetGo(risks: readonly DisorderRisk[], again: RisksAgain): void {
  for (const [place, risk] of risks.entries()) if (risk instanceof RiskOfLot) risk.letGo(again, place);
}

function packedFirst(
  threat: Threat,
  packedBy: Figure<'days'>,
  offset: number,
  picking: Picking,
): Figure<'days'> {
  const what = `packing because of ${threat.title}`;
  return figureLater(`${FROM_PICKING}${what}`, 'days', offset + packedBy.value, () =>
    fromPicking(what, packedBy, offsetOf(threat, picking), undefined),
  );
}

/** Days from the first picking to the day a threat is counted from. */
function daysToThreat({ isFromSealing, sealed }: Threat, start: Day): number {
  return isFromSealing && sealed !== undefined ? sealed - start : 0;
}

function offsetOf(threat: Threat, { id, picked, fill, start }: Picking): Figure<'days'> {
  return countedFigure(
    'days from the first picking to sealing',
    'days',
    daysToThreat(threat, start),
    `days from the first picking of ${id} to the sealing of ${fill.id}`,
    [picked?.at, fill.sealed?.at].filter((at) => at !== undefined),
  );
}

const FROM_PICKING = 'days from picking to ';

/** Days from the first picking to what comes so many days after picking or sealing, or after a later stage begins. */
function fromPicking(
  what: string,
  days: Figure<'days'>,
  offset: Figure<'days'>,
  later: Figure<'days'> | undefined,
): Figure<'days'> {
  const name = `${FROM_PICKING}${what}`;
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
  const { variety, regime, treatments } = stay;
  switch (condition.kind) {
    case 'sealed':
      return sealed ? { said: () => '' } : undefined;
    case 'conditioned':
      return regime.conditioning ? { said: () => 'it is conditioned' } : undefined;
    case 'not conditioned':
      return regime.conditioning ? undefined : { said: () => 'it is not conditioned' };
    case 'not treated': {
      if (treatments.some(({ value }) => condition.with.includes(value))) return undefined;
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
function carbonDioxideAbove({ treatments, variety, regime }: Stay, disorder: Disorder): Holds | undefined {
  const { levelIfTreated: treated, until } = disorder;
  const has = treated && treatments.some(({ value }) => value === treated.with);
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

function easedBy(
  lot: Lot,
  picking: Lot['picked'],
  disorder: Disorder,
  sealed: Day | undefined,
): string | undefined {
  const { easedByDelay, easedByStarch } = disorder;
  const picked = picking?.value.last;
  if (easedByDelay && sealed !== undefined && picked !== undefined && sealed - picked >= easedByDelay.value)
    return `sealed ${sealed - picked} days after picking`;
  if (!easedByStarch) return undefined;
  const { starch, starchScale } = lot.maturity ?? {};
  if (!starch || !starchScale) return undefined;
  const index = starchOneToEight(starch.value, starchScale);
  return index < easedByStarch.value ? `starch was below ${easedByStarch.value}` : undefined;
}
