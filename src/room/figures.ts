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
  return sumWith(name, unit, parts, undefined);
}

/** The same of figures by identifiers of the plan, which become names as `formulaKeys` makes them. */
export function sumById<U extends Unit>(
  name: string,
  unit: U,
  prefix: string,
  parts: readonly Keyed<U>[],
): Figure<U> {
  return sumWith(name, unit, parts, prefix);
}

/**
 * The same where the value is at hand: `parts`, which in their order must add up to it, are made only when somebody asks
 * what the sum is made of.
 */
export function sumLater<U extends Unit>(
  name: string,
  unit: U,
  prefix: string,
  value: number,
  parts: () => readonly Keyed<U>[],
): Figure<U> {
  return { name, value, unit, origin: new SumOrigin(() => apart(parts()), prefix) };
}

/**
 * A computed figure whose value is at hand: how it comes about, which must give that value, is made only when somebody
 * asks.
 */
export function figureLater<U extends Unit>(
  name: string,
  unit: U,
  value: number,
  make: () => Figure<U>,
): Figure<U> {
  return { name, value, unit, origin: new LaterOrigin(make) };
}

class LaterOrigin implements Sum {
  readonly kind = 'computed';
  private known: Sum | undefined;

  constructor(private readonly make: () => Figure) {}

  get formula(): string {
    return this.made().formula;
  }

  get inputs(): Sum['inputs'] {
    return this.made().inputs;
  }

  private made(): Sum {
    if (!this.known) {
      const { origin } = this.make();
      this.known = origin.kind === 'computed' ? origin : { kind: 'computed', formula: '0', inputs: {} };
    }
    return this.known;
  }

  /** As any other origin. */
  toJSON(): Sum {
    const { formula, inputs } = this.made();
    return { kind: this.kind, formula, inputs };
  }
}

function sumWith<U extends Unit>(
  name: string,
  unit: U,
  parts: readonly Keyed<U>[],
  prefix: string | undefined,
): Figure<U> {
  if (parts.length === 0) return countedFigure(name, unit, 0, 'nothing to add up');
  const [keys, terms]: [string[], Figure<U>[]] = [[], []];
  let value = 0;
  for (const [key, term] of parts) {
    keys.push(key);
    terms.push(term);
    value += term.value;
  }
  return { name, value, unit, origin: new SumOrigin({ keys, terms }, prefix) };
}

/** What is added up, by its keys. */
interface Summed {
  readonly keys: readonly string[];
  readonly terms: readonly Figure[];
}

function apart(parts: readonly Keyed<Unit>[]): Summed {
  return { keys: parts.map(([key]) => key), terms: parts.map(([, term]) => term) };
}

/** Most sums are never explained, and some have a term for each room of a plan: formula and inputs wait to be asked for. */
class SumOrigin implements Sum {
  readonly kind = 'computed';
  private made: Pick<Sum, 'formula' | 'inputs'> | undefined;

  constructor(
    private readonly summed: Summed | (() => Summed),
    private readonly prefix: string | undefined,
  ) {}

  get formula(): string {
    return this.make().formula;
  }

  get inputs(): Sum['inputs'] {
    return this.make().inputs;
  }

  private make(): Pick<Sum, 'formula' | 'inputs'> {
    if (!this.made) {
      const { summed, prefix } = this;
      const { keys: written, terms } = typeof summed === 'function' ? summed() : summed;
      const keys = prefix === undefined ? written : formulaKeys(prefix, written);
      const inputs = Object.fromEntries(keys.map((key, index) => [key, terms[index] as Figure]));
      this.made = { formula: keys.join(' + '), inputs };
    }
    return this.made;
  }

  /** As any other origin. */
  toJSON(): Sum {
    return { kind: this.kind, ...this.make() };
  }
}

type Sum = Extract<Figure['origin'], { readonly kind: 'computed' }>;

/** The largest of figures of one unit; undefined of none. */
export function largestOf<U extends Unit>(
  name: string,
  unit: U,
  parts: readonly Keyed<U>[],
): Figure<U> | undefined {
  return parts.length === 0 ? undefined : largestOfSome(name, unit, parts);
}

/** The same where there is one at least. */
export function largestOfSome<U extends Unit>(name: string, unit: U, parts: readonly Keyed<U>[]): Figure<U> {
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
