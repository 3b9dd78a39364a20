import { carbonDioxideDensity } from '../fruit/conversions';
import { respirationHeat, respirationInAir, usualHeatPerMilligram } from '../fruit/respiration';
import type { Regime } from '../fruit/types';
import { compute, countedFigure, type Figure, figureWith, referenceFigure } from '../plan/figure';
import type { BinType } from '../plan/model';
import { specificHeatOfBin, specificHeatOfFruit } from './bulk';
import { heatOfCooling, respirationHeatOf } from './cooling';
import { finite, formulaKeys, sumOf } from './figures';
import { carbonDioxideOf, oxygenUseOf, respirationHours } from './gas';
import { limeFor } from './lime';
import { oxygenInNitrogen } from './nitrogen';
import { limeByTheBushel, limeByTheTonne } from './sources';
import {
  atmosphere,
  leakInService,
  leakThatMatchesFruit,
  oxygenInAir,
  oxygenRise,
  weatherFlow,
  weatherShare,
} from './tightness';
import { transpirationOf } from './transpiration';
import type { FilledRoom, FlushStep } from './types';
import {
  freshAirForCarbonDioxide,
  freshAirForOxygen,
  freshAirVolumes,
  leastOxygenByLaw,
} from './ventilation';
import { dryMatterLoss, vapourPressureDeficit, waterLoss } from './weight-loss';

/**
 * What an engineer works out for a room on paper: each from one formula, at one temperature and rate, as handbooks
 * state it. They stand beside the figures of the tool's own balances, to hold those against. Absent where the plan
 * lacks what a figure needs.
 */
export type ByHand = Readonly<Record<string, Figure | undefined>>;

const thirtyDays = countedFigure('days', 'days', 30, 'a month as handbooks reckon it');
const quarter = countedFigure('days', 'days', 90, 'three months as handbooks reckon them');
const oneKilopascal = countedFigure('rise of the barometer', 'Pa', 1000, 'one kilopascal');

/** `stay`: days from sealing to opening; `binType`: the room's. */
export function byHand(
  filled: FilledRoom,
  binType: BinType | undefined,
  stay: Figure<'days'> | undefined,
): ByHand {
  return {
    ...respirationByHand(filled),
    ...heatByHand(filled, binType),
    ...pullDownByHand(filled),
    ...(filled.regime?.oxygen && stay ? limeByHand(filled, stay) : {}),
    ...airByHand(filled),
    ...(filled.regime ? lossByHand(filled, filled.regime, stay) : {}),
    ...(filled.regime ? ventilationByHand(filled, filled.regime) : {}),
  };
}

/** Mean over all fruit of the room, of known variety. */
function meanRate(
  name: string,
  carbonDioxide: Figure<'kg/day'> | undefined,
  fruit: Figure<'kg'>,
): Figure<'mg/kg/h'> | undefined {
  if (!carbonDioxide) return undefined;
  return finite(
    compute(
      name,
      'mg/kg/h',
      'carbonDioxide * 10^6 / 24 / fruit',
      { carbonDioxide, fruit },
      (v) => (v.carbonDioxide * 10 ** 6) / 24 / v.fruit,
    ),
  );
}

function knownFruit({ varieties }: FilledRoom): Figure<'kg'> {
  return sumOf(
    'fruit of known variety',
    'kg',
    keyedBy(varieties, ({ fruit }) => fruit),
  );
}

function keyedBy<U extends Figure['unit']>(
  varieties: FilledRoom['varieties'],
  figureOf: (one: FilledRoom['varieties'][number]) => Figure<U>,
) {
  const keys = formulaKeys(
    'variety',
    varieties.map(({ variety }) => variety.name),
  );
  return varieties.map((one, index) => [keys[index] ?? '', figureOf(one)] as const);
}

function respirationByHand(filled: FilledRoom): ByHand {
  const fruit = knownFruit(filled);
  const inAir = meanRate('mean respiration in air', filled.carbonDioxideBeforePullDown, fruit);
  const inStore = meanRate('mean respiration in store', filled.carbonDioxideInStore, fruit);
  const joules = filled.varieties[0]?.variety.heatPerMilligram ?? usualHeatPerMilligram;
  return {
    'respiration-in-air': inAir,
    'respiration-in-store': inStore,
    'respiration-heat-in-air': inAir && respirationHeatOf(fruit, respirationHeat(inAir, joules)),
    'respiration-heat-in-store': inStore && respirationHeatOf(fruit, respirationHeat(inStore, joules)),
  };
}

/** A day's intake brought all the way from the field to its holding temperature, and the load beside it. */
function heatByHand(
  { fruit, bins, fill, regime, intake, varieties, meanFieldTemperature: field }: FilledRoom,
  binType: BinType | undefined,
): ByHand {
  const [day] = intake;
  const { firstBin, lastBin } = fill;
  if (!day || !fruit || !bins || !field || !regime || !firstBin || !lastBin) return {};
  const count = lastBin.value - firstBin.value + 1;
  const days = countedFigure('days of intake', 'days', count, 'first bin to last bin');
  const fruitADay = compute(
    'fruit a day',
    'kg',
    'fruit * 1000 / days',
    { fruit, days },
    (v) => (v.fruit * 1000) / v.days,
  );
  const tare = binType?.tare;
  const heatOfBins = specificHeatOfBin(binType);
  const binsADay =
    tare &&
    compute(
      'empty mass of the bins a day',
      'kg',
      'bins * tare / days',
      { bins, tare, days },
      (v) => (v.bins * v.tare) / v.days,
    );
  const to = regime.temperature;
  return {
    'field-heat-a-day': heatOfCooling(
      "field heat of a day's fruit",
      fruitADay,
      specificHeatOfFruit(varieties),
      field,
      to,
    ),
    'bin-heat-a-day':
      binsADay && heatOfBins && heatOfCooling("heat of a day's bins", binsADay, heatOfBins, field, to),
    'transmission-heat': day.transmissionHeat,
    'air-change-heat': day.airChangeHeat,
    'fan-heat': day.fanHeat,
    ...stated({
      'light-heat': day.lightHeat,
      'vehicle-heat': day.vehicleHeat,
      'people-heat': day.peopleHeat,
    }),
  };
}

/** Of heat that is counted only where the plan states it, what there is. */
function stated(heats: Readonly<Record<string, Figure<'kW'>>>): ByHand {
  return Object.fromEntries(Object.entries(heats).filter(([, { value }]) => value > 0));
}

/** Nitrogen in volumes of the gas, and the fruit alone from air to the set-point at one steady rate. */
function pullDownByHand(filled: FilledRoom): ByHand {
  const { freeGasVolume: volume, nitrogenVolume: nitrogen, regime, oxygenUse } = filled;
  const oxygen = regime?.oxygen;
  if (!volume || !oxygen || !regime) return {};
  const inAir = oxygenUseInAir(filled, regime);
  const alone = (use: Figure<'m3/h'> | undefined) =>
    use &&
    finite(
      figureWith(respirationHours(volume, oxygenInAir, oxygen, use), { name: 'hours by respiration alone' }),
    );
  return {
    'nitrogen-volumes':
      nitrogen &&
      finite(
        compute(
          'volumes of nitrogen',
          '1',
          'nitrogen / volume',
          { nitrogen, volume },
          (v) => v.nitrogen / v.volume,
        ),
      ),
    'oxygen-use-in-air': inAir,
    'nitrogen-hours-with-fruit-at-rate-in-air': inAir && flushWithFruit(filled.flush, volume, inAir),
    'nitrogen-hours-with-fruit-at-rate-in-store':
      oxygenUse && flushWithFruit(filled.flush, volume, oxygenUse),
    'hours-by-respiration-at-rate-in-air': alone(inAir),
    'hours-by-respiration-at-rate-in-store': alone(oxygenUse),
  };
}

/** The flush with the fruit's use all the way: each gas tends to its own oxygen less what the fruit takes from it. */
function flushWithFruit(
  steps: readonly FlushStep[],
  volume: Figure<'m3'>,
  use: Figure<'m3/h'>,
): Figure<'h'> | undefined {
  const hours = steps.map((step, index) => [`step_${index + 1}`, stepWithFruit(step, volume, use)] as const);
  return hours.length === 0 ? undefined : finite(sumOf('hours of nitrogen, with the fruit', 'h', hours));
}

function stepWithFruit(
  { purity, flow, oxygenFrom, oxygenTo }: FlushStep,
  volume: Figure<'m3'>,
  use: Figure<'m3/h'>,
): Figure<'h'> {
  const tendsTo = compute(
    'oxygen that nitrogen and fruit tend to',
    '%',
    'oxygenInGas - 100 * use / flow',
    { oxygenInGas: oxygenInNitrogen(purity), use, flow },
    (v) => v.oxygenInGas - (100 * v.use) / v.flow,
  );
  return compute(
    `hours of ${Number(purity.value.toFixed(2))} % nitrogen, with the fruit`,
    'h',
    'volume / flow * log((oxygenFrom - tendsTo) / (oxygenTo - tendsTo))',
    { volume, flow, oxygenFrom, oxygenTo, tendsTo },
    (v) => (v.volume / v.flow) * Math.log((v.oxygenFrom - v.tendsTo) / (v.oxygenTo - v.tendsTo)),
  );
}

function oxygenUseInAir({ varieties }: FilledRoom, regime: Regime): Figure<'m3/h'> | undefined {
  if (varieties.length === 0) return undefined;
  const density = carbonDioxideDensity(regime.temperature);
  return finite(
    sumOf(
      'oxygen the fruit uses in air',
      'm3/h',
      keyedBy(varieties, ({ variety, fruit }) =>
        oxygenUseOf(
          carbonDioxideOf(
            `carbon dioxide of ${variety.name}`,
            fruit,
            respirationInAir(variety, regime.temperature),
          ),
          variety.respiratoryQuotient,
          density,
        ),
      ),
    ),
  );
}

const bushelRule = referenceFigure('lime for each tonne, three months', '1', 11.905, limeByTheBushel);
const tonneRule = referenceFigure('lime for each tonne, six to ten weeks', '1', 7.5, limeByTheTonne);

/** Were lime to take up all the fruit gives off; and what the rules of thumb ask for. */
function limeByHand(
  { carbonDioxideInStore: made, fruit, assumptions: { limeUtilisation } }: FilledRoom,
  stay: Figure<'days'>,
): ByHand {
  const byRule = (perTonne: Figure<'1'>) =>
    fruit &&
    compute('lime by the rule', 'kg', 'fruit * perTonne', { fruit, perTonne }, (v) => v.fruit * v.perTonne);
  return {
    'lime-for-stay': made && finite(limeFor(made, stay, limeUtilisation)),
    'lime-for-90-days': made && finite(limeFor(made, quarter, limeUtilisation)),
    'lime-by-bushel-rule': byRule(bushelRule),
    'lime-by-tonne-rule': byRule(tonneRule),
  };
}

function airByHand({
  capacity,
  room,
  regime,
  oxygenUse,
  freeGasVolume: volume,
  assumptions: { servicePressure, barometerRise },
}: FilledRoom): ByHand {
  const oxygen = regime?.oxygen;
  if (!oxygen) return {};
  const { leakFlow } = capacity;
  return {
    'leak-in-service':
      leakFlow && room.tightness && leakInService(leakFlow, room.tightness.from, servicePressure),
    'weather-air': volume && weatherFlow(volume, barometerRise, room.breatherBag),
    'leak-that-matches-fruit': oxygenUse && finite(leakThatMatchesFruit(oxygenUse, oxygen)),
    'air-let-in-by-1-kpa':
      volume &&
      compute(
        'air that a rise of the barometer presses in',
        'm3',
        'volume * rise / atmosphere',
        { volume, rise: oneKilopascal, atmosphere },
        (v) => (v.volume * v.rise) / v.atmosphere,
      ),
    'oxygen-rise-by-1-kpa': oxygenRise(weatherShare(oneKilopascal), oxygen),
  };
}

function lossByHand(
  filled: FilledRoom,
  { temperature, humidity }: Regime,
  stay: Figure<'days'> | undefined,
): ByHand {
  const deficit = vapourPressureDeficit(temperature, humidity, filled.assumptions.humidityAtFruit);
  const transpiration = transpirationOf(filled.varieties);
  const rate = meanRate('mean respiration in store', filled.carbonDioxideInStore, knownFruit(filled));
  return {
    'vapour-pressure-deficit': deficit,
    'water-loss-in-30-days': waterLoss(deficit, thirtyDays, transpiration),
    'dry-matter-loss-in-30-days': rate && dryMatterLoss(rate, thirtyDays),
    'water-loss-to-opening': stay && waterLoss(deficit, stay, transpiration),
    'dry-matter-loss-to-opening': stay && rate && dryMatterLoss(rate, stay),
  };
}

/** Fresh air from the gas held to a level, one gas at a time. Planning figures: `caution` goes with them. */
function ventilationByHand({ freeGasVolume: volume }: FilledRoom, { oxygen, carbonDioxide }: Regime): ByHand {
  if (!oxygen) return {};
  const volumes = carbonDioxide ? freshAirVolumes(oxygen, carbonDioxide) : freshAirForOxygen(oxygen);
  return {
    'fresh-air-to-least-oxygen-by-law': finite(freshAirForOxygen(oxygen, leastOxygenByLaw)),
    'fresh-air-for-oxygen': finite(freshAirForOxygen(oxygen)),
    'fresh-air-for-carbon-dioxide': carbonDioxide && finite(freshAirForCarbonDioxide(carbonDioxide)),
    'fresh-air':
      volume &&
      finite(
        compute(
          'fresh air to plan for',
          'm3',
          'volume * volumes',
          { volume, volumes },
          (v) => v.volume * v.volumes,
        ),
      ),
  };
}
