import type { FruitData } from '../fruit/types';
import { varietyNames } from '../fruit/varieties/names';
import { nearest } from '../plan/nearest';
import { regimesFor, regimesOf } from './fruit-rows';

/** The variety that a misspelt name speaks of, and its regimes: `idared-long` speaks of Idared. */
export function builtInFor(
  fruit: FruitData,
  words: string,
): { readonly variety: string; readonly regimes: readonly string[] } | undefined {
  const name = varietyIn(words) ?? nearestVariety(fruit, words);
  const variety = name === undefined ? undefined : fruit.variety(name);
  return variety && { variety: variety.name, regimes: regimesFor(variety, regimesOf(fruit)) };
}

/** The variety whose name, or another name it goes by, the words begin with; the longest such name. */
function varietyIn(words: string): string | undefined {
  const typed = kebab(words);
  const named = varietyNames.flatMap(({ name, aliases, regimeName }) =>
    [name, regimeName, ...aliases].map((each) => ({ name, spelled: kebab(each) })),
  );
  const found = named.filter(({ spelled }) => typed === spelled || typed.startsWith(`${spelled}-`));
  return found.sort((a, b) => b.spelled.length - a.spelled.length)[0]?.name;
}

function nearestVariety(fruit: FruitData, words: string): string | undefined {
  const variety = nearest(words, fruit.varietyNames);
  if (variety !== undefined) return variety;
  const regime = nearest(words, fruit.regimeNames);
  return regime === undefined ? undefined : fruit.regime(regime)?.varieties[0];
}

function kebab(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
}
