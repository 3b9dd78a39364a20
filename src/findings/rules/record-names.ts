import { plainText } from '../../plan/edits';
import { nearest } from '../../plan/nearest';
import type { Problem } from '../../plan/problem';
import { type Given, placeAt } from '../../plan/span';
import { listed } from '../../plan/wording';
import type { ComputedSeason, Rule } from '../types';

/** What a record calls something, and the names the plan has for it. */
interface Named {
  /** `Sale V1`, `Packed run P1`. */
  readonly record: string;
  readonly what: 'market' | 'class' | 'variety';
  readonly name: Given<string> | undefined;
  readonly known: ReadonlySet<string>;
  /** What comes of it. */
  readonly so: string;
}

const UNSOLD = 'so that it fills no order';

function* recordsWithoutDemand({ plan, fruit }: ComputedSeason): Iterable<Problem> {
  const demands = [...plan.demand.values()];
  if (demands.length === 0) return;
  const markets = new Set(demands.flatMap(({ market }) => market?.value ?? []));
  const varieties = new Set(
    demands.flatMap(({ variety }) => (variety ? [variety.value, fruit.variety(variety.value)?.name] : [])),
  );
  const sold = new Set(demands.flatMap(({ packClass }) => packClass?.value ?? []));
  const shares = [...(plan.packing?.packout.values() ?? [])].flatMap((packout) => [...packout.shares.keys()]);
  const packed = new Set([...sold, ...shares]);
  const written = new Set(demands.flatMap(({ variety }) => variety?.value ?? []));
  for (const { id, market, packClass, variety } of plan.sales.values()) {
    const record = `Sale ${id}`;
    yield* notNamed({ record, what: 'market', name: market, known: markets, so: UNSOLD });
    yield* notNamed({ record, what: 'class', name: packClass, known: sold, so: UNSOLD });
    const isWanted = variety && varieties.has(fruit.variety(variety.value)?.name ?? variety.value);
    if (!isWanted) yield* notNamed({ record, what: 'variety', name: variety, known: written, so: UNSOLD });
  }
  for (const { id, cartons, places, at } of plan.packed.values())
    for (const value of cartons.keys()) {
      const name = { value, at: placeAt(places, ['cartons', value])?.key ?? at };
      const so = 'and no packout gives it, so that its cartons are for nobody';
      yield* notNamed({ record: `Packed run ${id}`, what: 'class', name, known: packed, so });
    }
}

function* notNamed({ record, what, name, known, so }: Named): Iterable<Problem> {
  if (!name || known.has(name.value)) return;
  const meant = nearest(name.value, known);
  const there = `Those of the demands are ${listed(
    [...known].map((one) => `\`${one}\``),
    6,
  )}: correct the record, or add a demand.`;
  yield {
    code: 'record-without-demand',
    message: `${record} is of the ${what} \`${name.value}\`, which no demand names, ${so}. ${meant === undefined ? there : `Is \`${meant}\` meant?`}`,
    at: name.at,
    about: `${record}/${what}/${name.value}`,
    fixes:
      meant === undefined
        ? []
        : [{ title: `Change to \`${meant}\``, edits: [{ at: name.at, newText: plainText(meant) }] }],
  };
}

export const recordNameRules: readonly Rule[] = [
  {
    code: 'record-without-demand',
    family: 'demand',
    severity: 'warning',
    summary: 'A sale or a packed run of a market, class or variety that no demand names.',
    find: recordsWithoutDemand,
  },
];
