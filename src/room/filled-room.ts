import type { FruitData, Regime } from '../fruit/types';
import { compute, type Figure } from '../plan/figure';
import type { BinType, Fill, Plan } from '../plan/model';
import { arrivalsOf } from './arrivals';
import { type Assumptions, assumptionsFor } from './assumptions';
import { densityOfFruit } from './bulk';
import { binsOf, fruitOf, lotsInRoom, meanFieldTemperature, varietiesInRoom } from './contents';
import { finite } from './figures';
import { freeGasVolume } from './gas';
import {
  carbonDioxideInAir,
  carbonDioxideInStore,
  fermentedInStore,
  meanRespiration,
  oxygenUse,
} from './in-store';
import { limeFor } from './lime';
import { pullDown } from './pull-down';
import { roomCooling } from './room-cooling';
import { oxygenLeak, oxygenLeakMeasured } from './tightness';
import { transpirationOf } from './transpiration';
import type { FilledRoom, RoomCapacity, VarietyInRoom } from './types';
import { freshAirForOxygen, freshAirVolumes } from './ventilation';
import { daysInMonth, weightLoss } from './weight-loss';

export interface FilledRoomOptions {
  /** Leaves out its cooling, which takes longest, for a reader that asks nothing of it. */
  readonly withoutCooling?: boolean;
}

/**
 * What follows for a room from one of its fills. Never throws: a figure whose inputs the plan lacks is left out, and
 * so are lots and varieties that are not defined, save that their bins still take up places.
 */
export function filledRoom(
  plan: Plan,
  fruit: FruitData,
  fill: Fill,
  capacity: RoomCapacity,
  { withoutCooling = false }: FilledRoomOptions = {},
): FilledRoom {
  const { room } = capacity;
  const binType = room.binType && plan.binTypes.get(room.binType.value);
  const regime = fill.regime && fruit.regime(fill.regime.value);
  const lots = lotsInRoom(plan, fruit, fill, binType);
  const varieties = varietiesInRoom(lots);
  const bins = binsOf(fill);
  const tonnes = binType?.netFruit && finite(fruitOf(bins, binType.netFruit));
  const field = meanFieldTemperature(lots);
  const meanField = field && finite(field);
  const assumptions = assumptionsFor(plan, room);
  const gasVolume = gasVolumeOf(capacity, tonnes, bins, binType, varieties);
  const use = regime && oxygenUse(varieties, regime);
  const source = room.nitrogen && plan.nitrogenSources.get(room.nitrogen.value);
  const arrivals = meanField ? arrivalsOf(plan, fill, bins, meanField) : [];
  const contents = { arrivals, lots, varieties, fruit: tonnes, bins, field: meanField, binType };
  return {
    fill,
    room,
    capacity,
    assumptions,
    regime,
    lots,
    varieties,
    bins,
    fruit: tonnes,
    utilisation: capacity.places && finite(utilisation(bins, capacity.places)),
    freeGasVolume: gasVolume,
    meanFieldTemperature: meanField,
    arrivals,
    carbonDioxideAtFilling:
      meanField && carbonDioxideInAir('carbon dioxide given off at filling', varieties, meanField),
    ...storeFigures(regime, varieties, assumptions),
    oxygenUse: use,
    ...pullDown(source, regime, gasVolume, use),
    ...(withoutCooling ? { intake: [] } : roomCooling(plan, fill, capacity, regime, contents)),
    ...leakFigures(capacity, regime, gasVolume, use, assumptions),
    ...limeFigures(plan, capacity, regime, varieties, assumptions),
    freshAirVolumes: regime && freshAirOf(regime),
  };
}

function utilisation(bins: Figure<'bins'>, places: Figure<'places'>): Figure<'%'> {
  return compute(
    'places filled',
    '%',
    '100 * bins / places',
    { bins, places },
    (v) => (100 * v.bins) / v.places,
  );
}

function gasVolumeOf(
  capacity: RoomCapacity,
  fruit: Figure<'t'> | undefined,
  bins: Figure<'bins'>,
  binType: BinType | undefined,
  varieties: readonly VarietyInRoom[],
): Figure<'m3'> | undefined {
  const { tare, material, solidVolume } = binType ?? {};
  if (!capacity.volume || !fruit || !tare || !material) return undefined;
  return finite(
    freeGasVolume(capacity.volume, fruit, bins, tare, material, {
      fruitDensity: densityOfFruit(varieties),
      solidVolume,
      equipmentVolume: capacity.room.equipmentVolume,
    }),
  );
}

/** What the fruit gives off and loses in store; in air there is no range, for the atmosphere cuts nothing. */
function storeFigures(
  regime: Regime | undefined,
  varieties: readonly VarietyInRoom[],
  { humidityAtFruit }: Assumptions,
): Partial<FilledRoom> {
  if (!regime) return {};
  const expected = carbonDioxideInStore(varieties, regime, 'expected');
  const fermented = fermentedInStore(varieties, regime);
  const meanRate = expected && meanRespiration(expected, varieties);
  const meanFermented = fermented && meanRespiration(fermented, varieties, 'mean fermentation in store');
  return {
    carbonDioxideBeforePullDown: carbonDioxideInAir(
      'carbon dioxide given off before the gas is set',
      varieties,
      regime.temperature,
    ),
    carbonDioxideInStore: expected,
    carbonDioxideInStoreLow: carbonDioxideInStore(varieties, regime, 'low'),
    carbonDioxideInStoreHigh: carbonDioxideInStore(varieties, regime, 'high'),
    weightLossPerMonth:
      meanRate &&
      finite(
        weightLoss(
          regime.temperature,
          regime.humidity,
          meanRate,
          daysInMonth,
          meanFermented,
          transpirationOf(varieties),
          humidityAtFruit,
        ),
      ),
    ...(fermented ? { fermentedInStore: fermented } : {}),
  };
}

function leakFigures(
  capacity: RoomCapacity,
  regime: Regime | undefined,
  gasVolume: Figure<'m3'> | undefined,
  use: Figure<'m3/h'> | undefined,
  assumptions: Assumptions,
): Partial<FilledRoom> {
  const { tightness: test, leakInService } = capacity.room;
  if (!regime?.oxygen || !gasVolume) return {};
  if (leakInService) {
    const measured = oxygenLeakMeasured(leakInService, regime.oxygen);
    return { oxygenLeak: measured, leakShareOfFruitUse: use && finite(leakShare(measured, use)) };
  }
  if (!capacity.leakFlow || !test) return {};
  const leak = finite(
    oxygenLeak(
      capacity.leakFlow,
      test.from,
      gasVolume,
      regime.oxygen,
      assumptions,
      capacity.room.breatherBag,
    ),
  );
  return { oxygenLeak: leak, leakShareOfFruitUse: leak && use && finite(leakShare(leak, use)) };
}

function leakShare(leak: Figure<'m3/h'>, use: Figure<'m3/h'>): Figure<'%'> {
  return compute(
    'oxygen that leaks in, of what the fruit uses',
    '%',
    '100 * leak / use',
    { leak, use },
    (v) => (100 * v.leak) / v.use,
  );
}

function limeFigures(
  plan: Plan,
  { room }: RoomCapacity,
  regime: Regime | undefined,
  varieties: readonly VarietyInRoom[],
  { limeUtilisation }: Assumptions,
): Partial<FilledRoom> {
  const scrubber = room.scrubber && plan.scrubbers.get(room.scrubber.value);
  const given = regime?.oxygen && carbonDioxideInStore(varieties, regime, 'expected');
  return scrubber?.kind === 'lime' && given
    ? { limePerMonth: finite(limeFor(given, daysInMonth, limeUtilisation)) }
    : {};
}

/** A room kept in air needs no fresh air before the door opens. */
function freshAirOf({ oxygen, carbonDioxide }: Regime): Figure<'1'> | undefined {
  if (!oxygen) return undefined;
  return finite(carbonDioxide ? freshAirVolumes(oxygen, carbonDioxide) : freshAirForOxygen(oxygen));
}
