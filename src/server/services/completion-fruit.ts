import { regimeSuits } from '../../fruit/data';
import type { FruitData } from '../../fruit/types';
import type { Fill, Plan } from '../../plan/model';
import type { Proposal } from './completion-types';

/**
 * Varieties and regimes by how likely they are at a place: the varieties that most lots of the plan are of, and for a
 * fill the regimes that suit its lots. Undefined where the place asks for neither; `names` are all that may stand there.
 */
export function likelyFruit(
  plan: Plan,
  fruit: FruitData,
  path: readonly string[],
  names: readonly string[],
): Proposal[] | undefined {
  const [section, id, key] = path;
  if (path.length !== 3) return undefined;
  if (key === 'variety') return varieties(plan, names);
  if (section === 'fills' && key === 'regime') return regimes(plan, fruit, plan.fills.get(id ?? ''), names);
  return undefined;
}

function varieties(plan: Plan, names: readonly string[]): Proposal[] {
  const lots = new Map<string, number>();
  for (const { variety } of plan.lots.values())
    if (variety) lots.set(variety.value, (lots.get(variety.value) ?? 0) + 1);
  const count = (name: string) => lots.get(name) ?? 0;
  return names
    .toSorted((a, b) => count(b) - count(a))
    .map((name) => entry(name, count(name) > 0 ? `varieties, of the plan's lots` : 'varieties'));
}

function regimes(plan: Plan, fruit: FruitData, fill: Fill | undefined, names: readonly string[]): Proposal[] {
  const kept = varietiesIn(plan, fill);
  const ranked = names.map((name) => {
    const unsuited = kept.filter((variety) => !suits(fruit, name, variety));
    const suited = kept.length - unsuited.length;
    const told = kept.length === 0 ? 'regimes' : suitedWords(kept, unsuited);
    return { suited, proposal: entry(name, told) };
  });
  return ranked.toSorted((a, b) => b.suited - a.suited).map(({ proposal }) => proposal);
}

function suitedWords(kept: readonly string[], unsuited: readonly string[]): string {
  if (unsuited.length === 0) return kept.length === 1 ? `for ${kept[0]}` : 'for all its varieties';
  if (unsuited.length === 1) return `not for ${unsuited[0]}`;
  return unsuited.length === kept.length ? 'for none of its varieties' : 'not for all its varieties';
}

function suits(fruit: FruitData, regimeName: string, varietyName: string): boolean {
  const [regime, variety] = [fruit.regime(regimeName), fruit.variety(varietyName)];
  return regime !== undefined && variety !== undefined && regimeSuits(regime, variety);
}

function varietiesIn(plan: Plan, fill: Fill | undefined): string[] {
  return [...new Set(fill?.lots.flatMap(({ lot }) => plan.lots.get(lot.value)?.variety?.value ?? []))];
}

/**
 * Tells of a lot's variety whether it belongs in a fill: beside the varieties that it has; while it has none, those that
 * its regime suits; any, while it has no regime.
 */
export function belongsIn(
  plan: Plan,
  fruit: FruitData,
  fill: Fill | undefined,
): (variety: string | undefined) => boolean {
  const kept = new Set(varietiesIn(plan, fill));
  if (kept.size > 0) return (variety) => kept.has(variety ?? '');
  const regime = fill?.regime?.value;
  if (regime === undefined) return () => true;
  const known = new Map<string, boolean>();
  return (variety = '') => {
    const is = known.get(variety) ?? suits(fruit, regime, variety);
    known.set(variety, is);
    return is;
  };
}

function entry(name: string, detail: string): Proposal {
  return { label: name, kind: 'entry', detail, documentation: '', newText: name };
}
