import { compute, countedFigure, type Figure, type Unit } from '../plan/figure';

/** A figure under a name that a formula can use. */
export type Keyed<U extends Unit> = readonly [key: string, figure: Figure<U>];

/** Names for formulas from identifiers of a plan: `lot_L012`. Two identifiers never get the same name. */
export function formulaKeys(prefix: string, ids: readonly string[]): string[] {
  const taken = new Set<string>();
  return ids.map((id) => {
    const base = `${prefix}_${id.replace(/[^A-Za-z0-9]/g, '_')}`;
    let key = base;
    for (let number = 2; taken.has(key); number++) key = `${base}_${number}`;
    taken.add(key);
    return key;
  });
}

/** The sum of figures of one unit; zero of none. */
export function sumOf<U extends Unit>(name: string, unit: U, parts: readonly Keyed<U>[]): Figure<U> {
  return sumWith(
    name,
    unit,
    parts.map(([, figure]) => figure),
    () => parts.map(([key]) => key),
  );
}

/** The same of figures by identifiers of the plan, which become names as `formulaKeys` makes them. */
export function sumById<U extends Unit>(
  name: string,
  unit: U,
  prefix: string,
  parts: readonly Keyed<U>[],
): Figure<U> {
  return sumWith(
    name,
    unit,
    parts.map(([, figure]) => figure),
    () =>
      formulaKeys(
        prefix,
        parts.map(([id]) => id),
      ),
  );
}

/** Most sums are never explained, and some have a term for each room of a plan: what they are made of waits to be asked for. */
function sumWith<U extends Unit>(
  name: string,
  unit: U,
  terms: readonly Figure<U>[],
  keysOf: () => readonly string[],
): Figure<U> {
  if (terms.length === 0) return countedFigure(name, unit, 0, 'nothing to add up');
  let value = 0;
  for (const term of terms) value += term.value;
  let origin: Figure['origin'] | undefined;
  return {
    name,
    value,
    unit,
    get origin() {
      if (!origin) {
        const keys = keysOf();
        const inputs = Object.fromEntries(keys.map((key, index) => [key, terms[index] as Figure]));
        origin = { kind: 'computed', formula: keys.join(' + '), inputs };
      }
      return origin;
    },
  };
}

/** The largest of figures of one unit; undefined of none. */
export function largestOf<U extends Unit>(
  name: string,
  unit: U,
  parts: readonly Keyed<U>[],
): Figure<U> | undefined {
  if (parts.length === 0) return undefined;
  return compute(
    name,
    unit,
    `max(${parts.map(([key]) => key).join(', ')})`,
    Object.fromEntries(parts),
    (values) => Math.max(...Object.values(values)),
  );
}

/** The figure, if its value is a number one can plan with. */
export function finite<U extends Unit>(figure: Figure<U>): Figure<U> | undefined {
  return Number.isFinite(figure.value) ? figure : undefined;
}
