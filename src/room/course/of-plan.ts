import { michaelisConstant } from '../../fruit/conversions';
import type { RespirationCase } from '../../fruit/respiration';
import type { Regime, Variety } from '../../fruit/types';
import { type Figure, referenceFigure } from '../../plan/figure';
import { coolingHalfTime } from '../cooling';
import { commonPractice } from '../sources';
import { atmosphere, leakInService, weatherFlow } from '../tightness';
import { transpirationOf } from '../transpiration';
import type { FilledRoom } from '../types';
import type {
  CourseFruit,
  CourseRoom,
  GasStage,
  NitrogenFeed,
  RespirationLaw,
  RoomTemperature,
  Scrubbing,
  VarietyRate,
} from './types';

/** Where a room has no pressure test: the half-life that ordinary CA asks for. */
const assumedHalfLife = referenceFigure(
  'half-life of the test pressure, no test in the plan',
  'min',
  20,
  commonPractice('250 Pa to 125 Pa in 20 minutes or more for ordinary CA (NRAES-22, 1984, from memory)'),
);
/** Above it, per cent, a room is kept in air, whatever the plan calls it. */
const MOST_OXYGEN = 18;

/** No source fills a room so many times in an hour: such a flow is a mistyped number, and costly to integrate. */
const MOST_VOLUMES_AN_HOUR = 1000;

export interface CourseChoices {
  /** Which end of the sources' range of respiration in store. */
  readonly respiration?: RespirationCase;
  /** How respiration falls with oxygen; `to-store-share` where left out. */
  readonly law?: RespirationLaw['kind'];
  /** Oxygen at half the greatest respiration, per cent. The published values for apples run from 1 to 5. */
  readonly halfAt?: number;
  readonly carbonDioxideHalvesAt?: number;
  /** What serves the room, worked out by the plant. */
  readonly scrubbing?: Scrubbing | undefined;
  /** Hours after sealing at which the nitrogen source is free for this room; 0 where left out. */
  readonly feedStartsAtHours?: number;
  /** Set-points by stage in place of the regime's own. */
  readonly stages?: readonly GasStage[];
  /** Lag factor of the fruit's cooling; the room's, else 1, where left out. */
  readonly coolingLag?: number;
}

export interface PlannedCourse {
  readonly room: CourseRoom;
  /** What the plan lacked and was assumed. */
  readonly assumptions: readonly string[];
}

/**
 * What a fill's course follows from; undefined for rooms kept in air and where the plan lacks the room's size, its
 * dates, its regime or its fruit. `untilDay` is the day the room opens, or the season's last.
 */
export function courseRoom(
  filled: FilledRoom,
  untilDay: number,
  choices: CourseChoices = {},
): PlannedCourse | undefined {
  const { fill, regime, freeGasVolume, meanFieldTemperature: field } = filled;
  const { firstBin, lastBin, sealed } = fill;
  if (!regime?.oxygen || !freeGasVolume || !field || !firstBin || !lastBin || !sealed) return undefined;
  const days = lastBin.value - firstBin.value + 1;
  const lasts = untilDay - sealed.value;
  if (!(freeGasVolume.value > 0 && days >= 1 && days <= 120 && lasts > 0 && lasts < 800)) return undefined;
  if (!(regime.oxygen.value > 0 && regime.oxygen.value < MOST_OXYGEN)) return undefined;
  if (filled.flush.some(({ flow }) => flow.value > MOST_VOLUMES_AN_HOUR * freeGasVolume.value))
    return undefined;
  const leak = leakOf(filled);
  const all = filled.arrivals.reduce((sum, { bins }) => sum + bins.value, 0);
  const batches = filled.arrivals.flatMap(({ day, bins, field: warm }) =>
    bins.value > 0
      ? [
          {
            loadedAtHours: 24 * (day - sealed.value),
            fieldCelsius: warm.value,
            share: bins.value / all,
          },
        ]
      : [],
  );
  return {
    room: {
      gasVolumeM3: freeGasVolume.value,
      untilHours: 24 * lasts,
      temperature: roomTemperature(filled, regime, sealed.value),
      fruit: fruitOf(filled, regime, regime.oxygen.value, batches, choices),
      stages: choices.stages ?? gasStages(regime, regime.oxygen.value),
      feed: feedOf(filled, choices.feedStartsAtHours ?? 0),
      scrubbing: choices.scrubbing,
      leakM3h: leak.m3h,
      weatherM3h: weatherOf(filled, freeGasVolume),
      limits: limitsOf(filled),
    },
    assumptions: leak.assumptions,
  };
}

/** The regime's set-points from sealing on, then those of its stages. */
function gasStages({ carbonDioxide, stages = [] }: Regime, oxygen: number): GasStage[] {
  const own = { fromHours: 0, oxygen, carbonDioxide: carbonDioxide?.value };
  const later = stages.map((stage) => ({
    fromHours: 24 * stage.from.value,
    oxygen: stage.oxygen?.value ?? own.oxygen,
    carbonDioxide: stage.carbonDioxide?.value ?? own.carbonDioxide,
  }));
  return later[0]?.fromHours === 0 ? later : [own, ...later];
}

/** Nothing beside a leak that was measured in service: the weather is in it. */
function weatherOf({ room, assumptions }: FilledRoom, freeGasVolume: Figure<'m3'>): number {
  if (room.leakInService) return 0;
  return weatherFlow(freeGasVolume, assumptions.barometerRise, room.breatherBag).value;
}

function leakOf({ capacity, assumptions: { servicePressure } }: FilledRoom): {
  readonly m3h: number;
  readonly assumptions: readonly string[];
} {
  const { leakFlow, volume, room } = capacity;
  if (room.leakInService) return { m3h: room.leakInService.value, assumptions: [] };
  if (leakFlow && room.tightness) {
    return { m3h: leakInService(leakFlow, room.tightness.from, servicePressure).value, assumptions: [] };
  }
  const m3h =
    ((volume?.value ?? 0) / atmosphere.value) *
    servicePressure.value *
    Math.LN2 *
    (60 / assumedHalfLife.value);
  const untold = room.tightness ? ' that tells its leak' : '';
  return { m3h, assumptions: [`${room.id} has no pressure test${untold}: a half-life of 20 min is assumed`] };
}

/**
 * The room's own temperature, hours from the start of a day on: a warm hold, then a step down a day; else the holding
 * temperature from before the first bin. Then the temperatures of the regime's stages, each come to by a kelvin a day.
 */
export function roomTemperature(
  { stepDown, fill }: Pick<FilledRoom, 'stepDown' | 'fill'>,
  { temperature, conditioning, stages = [] }: Regime,
  originDay: number,
): RoomTemperature {
  const knots =
    stepDown && conditioning
      ? [
          { hours: 24 * (stepDown.first - originDay), celsius: conditioning.temperature.value },
          { hours: 24 * (stepDown.last + 1 - originDay), celsius: temperature.value },
        ]
      : [{ hours: 0, celsius: temperature.value }];
  const sealed = fill.sealed?.value;
  if (sealed === undefined) return { knots };
  for (const stage of stages) {
    const before = knots.at(-1);
    const celsius = (stage.temperature ?? temperature).value;
    if (!before || before.celsius === celsius) continue;
    const begins = Math.max(before.hours, 24 * (sealed - originDay + stage.from.value));
    knots.push({ hours: begins, celsius: before.celsius });
    knots.push({ hours: begins + 24 * Math.abs(celsius - before.celsius), celsius });
  }
  return { knots };
}

function fruitOf(
  { varieties, room, assumptions }: FilledRoom,
  regime: Regime,
  storeOxygen: number,
  batches: CourseFruit['batches'],
  choices: CourseChoices,
): CourseFruit {
  const which = choices.respiration ?? 'expected';
  return {
    batches,
    varieties: varieties.map(
      ({ variety, fruit }): VarietyRate => ({
        kg: fruit.value,
        inAir: rateInAir(variety),
        respiratoryQuotient: variety.respiratoryQuotient.value,
        shareInStore: variety.respirationInStore[which].value,
        oxygenBreakpoint: variety.oxygenBreakpoint.value,
      }),
    ),
    halfTimeHours: (room.coolingHalfTime ?? coolingHalfTime).value,
    lag: choices.coolingLag ?? room.coolingLag?.value ?? 1,
    law: {
      kind: choices.law ?? 'to-store-share',
      halfAt: choices.halfAt ?? michaelisConstant.value,
      storeOxygen,
      carbonDioxideHalvesAt: choices.carbonDioxideHalvesAt,
    },
    humidity: regime.humidity.value,
    humidityAtFruit: assumptions.humidityAtFruit.value,
    joulesPerMilligram: varieties[0]?.variety.heatPerMilligram.value,
    transpiration: transpirationOf(varieties).value,
  };
}

/** A straight piece of the logarithm of a rate over temperature, up to `upper` °C. */
interface RatePiece {
  readonly upper: number;
  readonly low: number;
  readonly logLow: number;
  readonly slope: number;
}

/** A variety's respiration in air, coldest piece first; `alone` is the rate of a table of one point. */
export interface RateInAir {
  readonly pieces: readonly RatePiece[];
  readonly alone: number;
}

export function rateTable({ respiration }: Pick<Variety, 'respiration'>): RateInAir {
  const at = respiration.map((point) => point.at.value);
  const logs = respiration.map(({ rate }) => Math.log(rate.value));
  const pieces = at.slice(1).map((upper, index) => {
    const [low, logLow] = [at[index] ?? 0, logs[index] ?? 0];
    return { upper, low, logLow, slope: ((logs[index + 1] ?? 0) - logLow) / (upper - low) };
  });
  return { pieces, alone: respiration[0]?.rate.value ?? 0 };
}

/** `respirationInAir` in plain numbers, for the many times a course asks: the same straight lines of logarithms. */
export function rateAt({ pieces, alone }: RateInAir, celsius: number): number {
  const last = pieces.length - 1;
  if (last < 0) return alone;
  let index = 0;
  while (index < last && celsius > (pieces[index] as RatePiece).upper) index++;
  const { low, logLow, slope } = pieces[index] as RatePiece;
  return Math.exp(logLow + slope * (celsius - low));
}

export function rateInAir(variety: Pick<Variety, 'respiration'>): (celsius: number) => number {
  const table = rateTable(variety);
  return (celsius) => rateAt(table, celsius);
}

function feedOf({ flush }: FilledRoom, startsAtHours: number): NitrogenFeed | undefined {
  if (flush.length === 0) return undefined;
  return {
    startsAtHours,
    steps: flush.map(({ purity, flow, oxygenTo }) => ({
      oxygenInGas: 100 - purity.value,
      flowM3h: flow.value,
      untilOxygen: oxygenTo.value,
    })),
  };
}

/** The most sensitive variety decides for the room. */
function limitsOf({ varieties }: FilledRoom): CourseRoom['limits'] {
  if (varieties.length === 0) return {};
  return {
    leastOxygen: Math.max(...varieties.map(({ variety }) => variety.leastOxygen.value)),
    mostCarbonDioxide: Math.min(...varieties.map(({ variety }) => variety.mostCarbonDioxide.value)),
  };
}
