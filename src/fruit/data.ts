import type { Plan, RegimeOverride, VarietyOverride } from '../plan/model';
import { overlaidRegime, overlaidVariety } from './overlay';
import { builtInRegime, builtInRegimeRows } from './regimes';
import { remembered } from './remembered';
import type { FruitData, Regime, Variety } from './types';
import { averageApple, builtInVariety, builtInVarietyNames } from './varieties/built-in';
import { varietyNames } from './varieties/names';

const canonicalNames: ReadonlyMap<string, string> = new Map(
  varietyNames.flatMap(({ name, aliases }) => [name, ...aliases].map((each) => [plain(each), name] as const)),
);

/**
 * Varieties and regimes of a plan: the built-in ones with the planner's values laid over them, and the planner's own.
 * Names are looked up without regard to case, and by their usual other names (`Red Delicious` finds `Delicious`).
 */
export function fruitData(
  plan: Pick<Plan, 'varieties' | 'regimes'> & Partial<Pick<Plan, 'policy'>>,
): FruitData {
  const ownVarieties = byPlainName(plan.varieties, canonicalName);
  const ownRegimes = byPlainName(plan.regimes, (id) => id);
  const heatPerMilligram = plan.policy?.assumptions?.heatPerMilligram;
  const varieties = remembered((name: string) => {
    const found = varietyNamed(name, ownVarieties, ownRegimes, []);
    return found && heatPerMilligram ? { ...found, heatPerMilligram } : found;
  });
  const regimes = remembered((name: string) => regimeNamed(name, ownRegimes, []));
  return {
    variety: (name) => varieties(canonicalName(name)),
    regime: (name) => regimes(plain(name)),
    varietyNames: namesOf(builtInVarietyNames, [...plan.varieties.keys()].map(canonicalName)),
    regimeNames: namesOf(
      builtInRegimeRows.map((row) => row.name),
      [...plan.regimes.keys()],
    ),
  };
}

/** The built-in variety's own name for any of its names; other names as they stand. */
export function canonicalName(name: string): string {
  return canonicalNames.get(plain(name)) ?? name;
}

/** By plain name, how the built-in varieties' names and other names are spelled. */
const spellings: ReadonlyMap<string, string> = new Map(
  varietyNames.flatMap(({ name, aliases }) => [name, ...aliases].map((each) => [plain(each), each] as const)),
);

/** A variety's name as the plan defines it, or as the built-in data spell it: `Braeburn` for `braeburn`. */
export function varietySpelling({ varieties }: Pick<Plan, 'varieties'>, name: string): string {
  if (varieties.has(name) || spellings.get(plain(name)) === name) return name;
  const own = [...varieties.keys()].find((each) => plain(each) === plain(name));
  return own ?? spellings.get(plain(name)) ?? name;
}

/** Whether a regime is meant for a variety, by either's list. */
export function regimeSuits(regime: Regime, variety: Variety): boolean {
  const listed = (names: readonly string[], name: string) =>
    names.some((each) => plain(each) === plain(name));
  return listed(regime.varieties, variety.name) || listed(variety.regimes, regime.name);
}

type Own<T> = ReadonlyMap<string, T>;

function varietyNamed(
  name: string,
  own: Own<VarietyOverride>,
  ownRegimes: Own<RegimeOverride>,
  seen: readonly string[],
): Variety | undefined {
  const override = own.get(plain(name));
  if (!override || seen.includes(plain(name))) return builtInVariety(name);
  const like =
    override.like &&
    varietyNamed(canonicalName(override.like.value), own, ownRegimes, [...seen, plain(name)]);
  const base = like ?? builtInVariety(name) ?? averageApple(name);
  const regimes = [...ownRegimes.values()]
    .filter(({ varieties }) => varieties?.some(({ value }) => plain(canonicalName(value)) === plain(name)))
    .map(({ id }) => id);
  return overlaidVariety(builtInVariety(name) ? name : override.id, base, override, regimes);
}

function regimeNamed(name: string, own: Own<RegimeOverride>, seen: readonly string[]): Regime | undefined {
  const builtIn = builtInRegime(plain(name));
  const override = own.get(plain(name));
  if (!override || seen.includes(plain(name))) return builtIn;
  const like = override.like && regimeNamed(override.like.value, own, [...seen, plain(name)]);
  return overlaidRegime(override, like ?? builtIn, canonicalName);
}

function plain(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .replace(/[\u2019`]/g, "'")
    .replace(/\s+/g, ' ');
}

function byPlainName<T>(entries: ReadonlyMap<string, T>, nameOf: (id: string) => string): Own<T> {
  return new Map([...entries].map(([id, entry]) => [plain(nameOf(id)), entry]));
}

function namesOf(builtIn: readonly string[], own: readonly string[]): readonly string[] {
  const known = new Set(builtIn.map(plain));
  return [...builtIn, ...own.filter((name) => !known.has(plain(name)))];
}
