import { regimeSuits } from '../fruit/data';
import type { DaysRange, FruitData, Regime, Variety } from '../fruit/types';
import { varietyNames } from '../fruit/varieties/names';
import type { Figure } from '../plan/figure';
import { type Known, knownOf, leastKnown } from '../plan/how-known';

/** How long fruit keeps, in days, and how well that is known. The same twice where the source gives no range. */
export interface Life {
  readonly shortest: number;
  readonly longest: number;
  readonly known: Known;
}

export interface VarietyRow {
  readonly name: string;
  readonly fruit: 'apple' | 'pear';
  readonly aliases: readonly string[];
  /** Regimes that suit it, the usual one first. */
  readonly regimes: readonly string[];
  readonly lifeInAir: Life;
  readonly lifeInStore: Life;
}

export interface RegimeRow {
  readonly name: string;
  readonly varieties: readonly string[];
  readonly temperature: Figure<'degC'>;
  /** Absent for a regime in air. */
  readonly oxygen?: Figure<'%'> | undefined;
  readonly carbonDioxide?: Figure<'%'> | undefined;
  /** How well the levels it holds are known: the least known of them. */
  readonly known: Known;
  /** Absent where the variety's own life stands. */
  readonly life?: Life | undefined;
}

/** Every variety, in the order of names. */
export function varietyRows(fruit: FruitData): VarietyRow[] {
  const regimes = regimesOf(fruit);
  return byName(fruit.varietyNames).flatMap((name) => {
    const variety = fruit.variety(name);
    if (!variety) return [];
    return [
      {
        name,
        fruit: variety.fruit,
        aliases: varietyNames.find((one) => one.name === variety.name)?.aliases ?? [],
        regimes: regimesFor(variety, regimes),
        lifeInAir: life(variety.storageLifeInAir, variety.storageLifeInAirRange),
        lifeInStore: life(variety.storageLife, variety.storageLifeRange),
      },
    ];
  });
}

/** Every regime, in the order of names. */
export function regimeRows(fruit: FruitData): RegimeRow[] {
  return regimesOf(fruit).map((regime) => {
    const { name, varieties, temperature, oxygen, carbonDioxide, storageLife, storageLifeRange } = regime;
    return {
      name,
      varieties,
      temperature,
      oxygen,
      carbonDioxide,
      known: leastKnown([temperature, oxygen, carbonDioxide].flatMap((one) => (one ? [knownOf(one)] : []))),
      life: storageLife && life(storageLife, storageLifeRange),
    };
  });
}

/** Regimes that suit a variety, its usual one first. */
export function regimesFor(variety: Variety, regimes: readonly Regime[]): string[] {
  const suiting = regimes.filter((regime) => regimeSuits(regime, variety)).map(({ name }) => name);
  return [...new Set([...variety.regimes, ...suiting])];
}

export function regimesOf(fruit: FruitData): Regime[] {
  return byName(fruit.regimeNames).flatMap((name) => fruit.regime(name) ?? []);
}

/** `122-152`, or `213` without a range; whole days. */
export function lifeText({ shortest, longest }: Pick<Life, 'shortest' | 'longest'>): string {
  const [low, high] = [Math.round(shortest), Math.round(longest)];
  return low === high ? String(low) : `${low}-${high}`;
}

function life(expected: Figure<'days'>, range: DaysRange | undefined): Life {
  return {
    shortest: range?.shortest.value ?? expected.value,
    longest: range?.longest.value ?? expected.value,
    known: knownOf(expected),
  };
}

function byName(names: readonly string[]): string[] {
  return [...names].sort((a, b) => (a < b ? -1 : 1));
}
