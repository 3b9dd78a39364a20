import { heatAtRegime } from '../fruit/fermentation';
import { respirationHeat, respirationInAir } from '../fruit/respiration';
import type { Regime } from '../fruit/types';
import { formatDay } from '../plan/dates';
import { compute, type Figure, referenceFigure } from '../plan/figure';
import type { BinType, Fill, Plan } from '../plan/model';
import { type AirState, airHeat } from './air';
import { binsOfVarietyBy } from './arrivals';
import { type Assumptions, assumptionsOf } from './assumptions';
import { specificHeatOfBin, specificHeatOfFruit } from './bulk';
import {
  airChangeHeat,
  coolingHalfTime,
  heatOfCooling,
  respirationHeatOf,
  sevenEighthsTime,
  transmissionHeat,
} from './cooling';
import { figureLater, finite, formulaKeys, type Keyed, largestOfSome, sumOf } from './figures';
import { intakeDays } from './intake';
import type { ComesIn, Intake } from './intake-heat';
import { fanHeatHolding, fanHeatIn, loadingHeat } from './loading-heat';
import { commonPractice } from './sources';
import type {
  Arrival,
  FilledRoom,
  IntakeDay,
  LotInRoom,
  RoomCapacity,
  StepDown,
  VarietyInRoom,
} from './types';

const usualOutside = referenceFigure(
  'outside temperature',
  'degC',
  20,
  commonPractice('Where the plan has no season: 20 °C in the harvest weeks'),
);

export type RoomCooling = Pick<
  FilledRoom,
  | 'intake'
  | 'stepDown'
  | 'peakCooling'
  | 'holdingCooling'
  | 'emptyingCooling'
  | 'fanHeatHolding'
  | 'sevenEighthsTime'
  | 'coolerLoad'
>;

/** What the room's cooling follows from, all of it known. */
interface Conditions {
  readonly intake: Intake;
  /** At the regime's temperature: another than the intake's where the room is held warm first. */
  readonly atRegime: ComesIn;
  readonly regime: Regime;
  /** Rooms kept in air are opened for fruit and people; sealed ones are not. */
  readonly sealed: boolean;
  readonly fansHolding: Figure<'kW'>;
  readonly assumptions: Assumptions;
}

/** Contents of a room as far as cooling needs them. */
export interface CoolingContents {
  readonly arrivals: readonly Arrival[];
  readonly lots: readonly LotInRoom[];
  readonly varieties: readonly VarietyInRoom[];
  readonly fruit: Figure<'t'> | undefined;
  readonly bins: Figure<'bins'>;
  readonly field: Figure<'degC'> | undefined;
  readonly binType: BinType | undefined;
}

/** Cooling from the first bin to holding. Holding is reckoned with the outside air of the harvest weeks. */
export function roomCooling(
  plan: Plan,
  fill: Fill,
  capacity: RoomCapacity,
  regime: Regime | undefined,
  contents: CoolingContents,
): RoomCooling {
  const conditions = conditionsOf(plan, fill, capacity, regime, contents);
  if (!conditions) return { intake: [] };
  const { days: intake, mostKw } = intakeDays(conditions.intake);
  const holdingCooling = finite(holding(conditions));
  const stepDown = holdingCooling && stepDownOf(conditions, holdingCooling);
  const peakCooling = peakOf(intake, mostKw, stepDown);
  const { room } = capacity;
  const cooler = room.coolerCapacity;
  return {
    intake,
    stepDown,
    peakCooling,
    holdingCooling,
    emptyingCooling: finite(emptying(conditions)),
    fanHeatHolding: conditions.fansHolding,
    sevenEighthsTime: sevenEighthsTime(room.coolingHalfTime ?? coolingHalfTime, room.coolingLag),
    coolerLoad: peakCooling && cooler && finite(coolerLoad(peakCooling, cooler)),
  };
}

function conditionsOf(
  plan: Plan,
  fill: Fill,
  { room, volume, surface }: RoomCapacity,
  regime: Regime | undefined,
  { arrivals, lots, varieties, fruit, bins, field, binType }: CoolingContents,
): Conditions | undefined {
  const { tare, netFruit } = binType ?? {};
  const heatOfBins = specificHeatOfBin(binType);
  if (!regime || !volume || !surface || !fruit || !field || !tare || !netFruit || !heatOfBins)
    return undefined;
  if (!fill.firstBin || !fill.lastBin || varieties.length === 0) return undefined;
  const assumptions = assumptionsOf(plan);
  const outside: AirState = {
    temperature: plan.season?.outsideTemperature ?? usualOutside,
    humidity: assumptions.outsideHumidity,
  };
  const warm = warmHold(regime);
  const inside: AirState = { temperature: warm ?? regime.temperature, humidity: regime.humidity };
  const comesIn = (at: AirState): ComesIn => ({
    outsideHeat: airHeat(outside, at),
    transmission: transmissionHeat(surface, room.heatTransfer, outside.temperature, at.temperature),
  });
  const intake: Intake = {
    ...comesIn(inside),
    lastBin: fill.lastBin.value,
    arrivals,
    varieties,
    binsOfVariety: binsOfVarietyBy(plan, fill, lots),
    fruit,
    bins,
    netFruit,
    tare,
    heatOfFruit: specificHeatOfFruit(varieties),
    heatOfBins,
    inside,
    volume,
    halfTime: room.coolingHalfTime,
    lag: room.coolingLag,
    fans: fanHeatIn(room, volume),
    work: loadingHeat(plan, room),
    airChanges: assumptions.airChangesLoading,
  };
  return {
    intake,
    assumptions,
    regime,
    atRegime: warm ? comesIn({ temperature: regime.temperature, humidity: regime.humidity }) : intake,
    sealed: regime.oxygen !== undefined && fill.sealed !== undefined,
    fansHolding: fanHeatHolding(intake.fans, room.fansHolding),
  };
}

/** The temperature of a warm hold before cooling, where the regime has one above its holding temperature. */
function warmHold(regime: Regime): Figure<'degC'> | undefined {
  const warm = regime.conditioning?.temperature;
  return warm && warm.value > regime.temperature.value ? warm : undefined;
}

function holding({ intake, regime, sealed, fansHolding, assumptions, atRegime }: Conditions): Figure<'kW'> {
  const keys = formulaKeys(
    'variety',
    intake.varieties.map(({ variety }) => variety.name),
  );
  const respiration = intake.varieties.map(
    ({ variety, fruit }, index) =>
      [keys[index] ?? '', respirationHeatOf(fruit, heatAtRegime(variety, regime))] as const,
  );
  return sumOf('cooling when holding', 'kW', [
    ['respiration', sumOf('heat of respiration in store', 'kW', respiration)],
    ['transmission', atRegime.transmission],
    ['fans', fansHolding],
    ...(sealed
      ? []
      : ([
          ['airChange', airChangeHeat(intake.volume, assumptions.airChangesHolding, atRegime.outsideHeat)],
        ] as const)),
  ]);
}

/**
 * What an opened room asks while it is emptied: its fruit in air at the temperature it is held at, air changes as while
 * it is filled, lights, vehicles and people. All the fruit is counted until the last day, for the plan does not say what
 * is out by when: it is the most that is asked on any of these days. Outside air is that of the harvest weeks.
 */
function emptying({ intake, regime, fansHolding, atRegime }: Conditions): Figure<'kW'> {
  const keys = formulaKeys(
    'variety',
    intake.varieties.map(({ variety }) => variety.name),
  );
  const respiration = intake.varieties.map(({ variety, fruit }, index) => {
    const rate = respirationInAir(variety, regime.temperature);
    const heat = respirationHeatOf(fruit, respirationHeat(rate, variety.heatPerMilligram));
    return [keys[index] ?? '', heat] as const;
  });
  return sumOf('cooling while it is emptied', 'kW', [
    ['respiration', sumOf('heat of respiration in air', 'kW', respiration)],
    ['transmission', atRegime.transmission],
    ['fans', fansHolding],
    ['airChange', airChangeHeat(intake.volume, intake.airChanges, atRegime.outsideHeat)],
    ['lights', intake.work.lights],
    ['vehicles', intake.work.vehicles],
    ['people', intake.work.people],
  ]);
}

/** After a warm hold all the fruit comes down together, a little each day. */
function stepDownOf(
  { intake, regime, assumptions: { stepDownADay } }: Conditions,
  holdingCooling: Figure<'kW'>,
): StepDown | undefined {
  const warm = warmHold(regime);
  const lasts = regime.conditioning?.lasts;
  if (!warm || !lasts || !(lasts.value >= 0 && lasts.value < 366)) return undefined;
  const days = Math.ceil((warm.value - regime.temperature.value) / stepDownADay.value - 1e-6);
  if (!(days >= 1 && days < 366)) return undefined;
  const first = intake.lastBin + 1 + Math.round(lasts.value);
  return {
    first,
    last: first + days - 1,
    cooling: stepDownCooling(intake, warm, stepDownADay, holdingCooling),
  };
}

function stepDownCooling(
  intake: Intake,
  warm: Figure<'degC'>,
  stepDownADay: Figure<'K'>,
  holdingCooling: Figure<'kW'>,
): Figure<'kW'> {
  const { fruit, bins, tare, heatOfFruit, heatOfBins } = intake;
  const fruitMass = compute('fruit', 'kg', 'fruit * 1000', { fruit }, (v) => v.fruit * 1000);
  const binMass = compute(
    'empty mass of the bins',
    'kg',
    'bins * tare',
    { bins, tare },
    (v) => v.bins * v.tare,
  );
  const end = compute(
    'temperature a day later',
    'degC',
    'warm - step',
    { warm, step: stepDownADay },
    (v) => v.warm - v.step,
  );
  return sumOf('cooling while the room steps down', 'kW', [
    ['fruitHeat', heatOfCooling('heat of the fruit', fruitMass, heatOfFruit, warm, end)],
    ['binHeat', heatOfCooling('heat of the bins', binMass, heatOfBins, warm, end)],
    ['holding', holdingCooling],
  ]);
}

/** `mostKw` is the most of the intake's days. */
function peakOf(
  intake: readonly IntakeDay[],
  mostKw: number,
  stepDown: StepDown | undefined,
): Figure<'kW'> | undefined {
  const value = Math.max(mostKw, stepDown ? stepDown.cooling.value : Number.NEGATIVE_INFINITY);
  if (!Number.isFinite(value)) return undefined;
  return figureLater('peak cooling', 'kW', value, () => {
    const days = formulaKeys(
      'day',
      intake.map(({ day }) => formatDay(day)),
    );
    const parts = intake.map(({ heat }, index): Keyed<'kW'> => [days[index] ?? '', heat]);
    if (stepDown) parts.push(['stepDown', stepDown.cooling]);
    return largestOfSome('peak cooling', 'kW', parts);
  });
}

function coolerLoad(peak: Figure<'kW'>, cooler: Figure<'kW'>): Figure<'%'> {
  return compute(
    "load of the room's cooler",
    '%',
    '100 * peak / cooler',
    { peak, cooler },
    (v) => (100 * v.peak) / v.cooler,
  );
}
