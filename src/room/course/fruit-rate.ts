import { fermentationCurve } from '../../fruit/fermentation';
import { batchTemperature, roomCelsius, settledAt } from './fruit-temperature';
import { CARBON_DIOXIDE_KG } from './state';
import type { CourseFruit, RespirationLaw, RoomTemperature, VarietyRate } from './types';

const OXYGEN_IN_AIR = 20.9;
/** Below it, per cent, the laws that know no oxygen run out to nothing, so that none goes below zero. */
const RUNS_OUT_BELOW = 0.05;

/**
 * What the fruit does at one time, moles an hour; water in kilograms. Two reactions: respiration, which takes up the
 * oxygen, and fermentation, whose carbon dioxide is among `carbonDioxide`.
 */
export interface FruitNow {
  carbonDioxide: number;
  fermented: number;
  oxygen: number;
  water: number;
}

/** Respiration as a share of that in air at the same temperature; gases in per cent. */
export function shareOfAir(
  law: RespirationLaw,
  shareInStore: number,
  oxygen: number,
  carbonDioxide: number,
): number {
  return inhibition(law, carbonDioxide) * byOxygen(law, shareInStore, Math.max(0, oxygen));
}

function inhibition({ carbonDioxideHalvesAt: halvesAt }: RespirationLaw, carbonDioxide: number): number {
  return halvesAt === undefined ? 1 : 1 / (1 + Math.max(0, carbonDioxide) / halvesAt);
}

/** Carbon dioxide of fermentation as a share of that of respiration in air, by oxygen, per cent. */
export function fermentationOf(
  { shareInStore, oxygenBreakpoint }: Pick<VarietyRate, 'shareInStore' | 'oxygenBreakpoint'>,
  law: RespirationLaw,
): ((oxygen: number) => number) | undefined {
  if (oxygenBreakpoint === undefined || !(oxygenBreakpoint > 0)) return undefined;
  const withPlenty = law.kind === 'air' || law.kind === 'curve' ? 1 : shareInStore;
  return fermentationCurve(oxygenBreakpoint, byOxygen(law, shareInStore, oxygenBreakpoint), withPlenty);
}

function byOxygen(law: RespirationLaw, share: number, oxygen: number): number {
  const runsOut = Math.min(1, oxygen / RUNS_OUT_BELOW);
  if (law.kind === 'air') return runsOut;
  if (law.kind === 'share') return share * runsOut;
  const here = curve(law.halfAt, oxygen);
  if (law.kind === 'curve') return here;
  const atStore = curve(law.halfAt, law.storeOxygen);
  if (oxygen <= law.storeOxygen || atStore >= 1) return (share * here) / atStore;
  return share + ((1 - share) * (here - atStore)) / (1 - atStore);
}

/** Michaelis and Menten, 1 in air. */
function curve(halfAt: number, oxygen: number): number {
  return (((halfAt + OXYGEN_IN_AIR) / OXYGEN_IN_AIR) * oxygen) / (halfAt + oxygen);
}

/** Saturation vapour pressure over water, Pa, by Buck (1996), as in `saturationPressure`. */
function saturationPa(celsius: number): number {
  return 611.21 * Math.exp(((18.678 - celsius / 234.5) * celsius) / (257.14 + celsius));
}

/** All the fruit of a room, as functions of time and gas. */
export class FruitRate {
  readonly #fruit: CourseFruit;
  readonly #temperature: RoomTemperature;
  readonly #batches: readonly { readonly share: number; readonly at: (hours: number) => number }[];
  readonly #settledAt: number;
  readonly #settledRates: readonly number[];
  readonly #fermentations: readonly (((oxygen: number) => number) | undefined)[];
  readonly #settledWater: number;
  readonly #kg: number;
  /** The hour last asked for, with the rates in air and the water that depend on nothing else. */
  #hours = Number.NaN;
  readonly #inAir: number[];
  #water = 0;

  constructor(fruit: CourseFruit, temperature: RoomTemperature) {
    this.#fruit = fruit;
    this.#temperature = temperature;
    this.#batches = fruit.batches.map(({ loadedAtHours, fieldCelsius, share }) => ({
      share,
      at: batchTemperature(loadedAtHours, fieldCelsius, temperature, fruit.halfTimeHours, fruit.lag),
    }));
    this.#kg = fruit.varieties.reduce((sum, { kg }) => sum + kg, 0);
    this.#settledAt = settledAt(fruit, temperature);
    const last = temperature.knots.at(-1)?.celsius ?? 0;
    this.#settledRates = fruit.varieties.map((variety) => molesInAir(variety, last));
    this.#fermentations = fruit.varieties.map((variety) => fermentationOf(variety, fruit.law));
    this.#settledWater = this.#waterAt(last, saturationPa(last));
    this.#inAir = fruit.varieties.map(() => 0);
  }

  celsius(hours: number): number {
    if (hours >= this.#settledAt) return this.#temperature.knots.at(-1)?.celsius ?? 0;
    return this.#batches.reduce((sum, { share, at }) => sum + share * at(hours), 0);
  }

  /** Writes into `now` what the fruit gives off and uses at a time and gas, per cent. */
  at(hours: number, oxygen: number, carbonDioxide: number, now: FruitNow): void {
    const { varieties, law } = this.#fruit;
    const settled = hours >= this.#settledAt;
    if (!settled && hours !== this.#hours) this.#coolingAt(hours);
    const rates = settled ? this.#settledRates : this.#inAir;
    now.carbonDioxide = 0;
    now.fermented = 0;
    now.oxygen = 0;
    now.water = settled ? this.#settledWater : this.#water;
    for (let index = 0; index < varieties.length; index++) {
      const variety = varieties[index];
      if (!variety) continue;
      const uninhibited = (rates[index] ?? 0) * inhibition(law, carbonDioxide);
      const respired = uninhibited * byOxygen(law, variety.shareInStore, Math.max(0, oxygen));
      const fermented = uninhibited * (this.#fermentations[index]?.(oxygen) ?? 0);
      now.carbonDioxide += respired + fermented;
      now.fermented += fermented;
      now.oxygen += respired / variety.respiratoryQuotient;
    }
  }

  /** While fruit still cools: the rates and the water of all batches, kept until another hour is asked for. */
  #coolingAt(hours: number): void {
    const { varieties } = this.#fruit;
    const roomSaturation = saturationPa(roomCelsius(this.#temperature, hours));
    this.#hours = hours;
    this.#water = 0;
    this.#inAir.fill(0);
    for (const { share, at } of this.#batches) {
      const celsius = at(hours);
      this.#water += share * this.#waterAt(celsius, roomSaturation);
      for (let index = 0; index < varieties.length; index++) {
        const variety = varieties[index];
        if (variety) this.#inAir[index] = (this.#inAir[index] ?? 0) + share * molesInAir(variety, celsius);
      }
    }
  }

  /** Kilograms an hour: the fruit's surface is taken as saturated at the fruit's temperature. */
  #waterAt(fruit: number, roomSaturation: number): number {
    const { humidity, humidityAtFruit = 100, transpiration } = this.#fruit;
    const deficit = (humidityAtFruit / 100) * saturationPa(fruit) - (humidity / 100) * roomSaturation;
    return transpiration * 1e-12 * 3600 * this.#kg * Math.max(0, deficit);
  }
}

function molesInAir({ kg, inAir }: VarietyRate, celsius: number): number {
  return (kg * inAir(celsius) * 1e-6) / CARBON_DIOXIDE_KG;
}
