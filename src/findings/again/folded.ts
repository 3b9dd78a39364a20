import type { Figure, Unit } from '../../plan/figure';
import { FigureByValue, LetsGo } from '../../plan/late-figure';

/**
 * Most of what a season holds in memory is how its figures came about, and hardly ever does anybody ask. Folded, a thing
 * keeps its figures' values; when somebody asks for a name or an origin, the thing is made again, as it was made before.
 */

/** These belong to the plan or to another thing, and are held there. */
const NOT_ITS_OWN: ReadonlySet<string> = new Set([
  'fill',
  'room',
  'capacity',
  'regime',
  'assumptions',
  'filled',
  'inRoom',
  'lot',
  'variety',
  'disorder',
]);

/** The thing with its figures folded. `again` makes the very same thing anew. */
export function folded<T>(thing: T, again: () => T | undefined): T {
  if (!isObject(thing)) return thing;
  const source = new Remade(again);
  const known = new Map<object, object>();
  let index = 0;
  const fold = (part: object): object => {
    const isOne = isFigure(part);
    if (!(isOne ? isOwn(part) : isPlain(part))) {
      if (part instanceof LetsGo) part.letGo(source.whole);
      return part;
    }
    let folds = known.get(part);
    if (folds === undefined) {
      folds = isOne ? new FoldedFigure(part.value, part.unit, source, index++) : withParts(part, fold);
      known.set(part, folds);
    }
    return folds;
  };
  return fold(thing) as T;
}

/** The figures of a thing in the order in which they are folded. */
function figuresOf(thing: unknown): Figure[] {
  const figures: Figure[] = [];
  const seen = new Set<object>();
  const look = (part: object): object => {
    const isOne = isFigure(part);
    if (!(isOne ? isOwn(part) : isPlain(part)) || seen.has(part)) return part;
    seen.add(part);
    if (isOne) figures.push(part);
    else withParts(part, look);
    return part;
  };
  if (isObject(thing)) look(thing);
  return figures;
}

/** The thing with its parts folded; the thing itself where there is nothing to be folded in it. */
function withParts(part: object, fold: (part: object) => object): object {
  if (Array.isArray(part)) return withItems(part, fold);
  const parts = part as Readonly<Record<string, unknown>>;
  let folds: Record<string, unknown> | undefined;
  for (const key in parts) {
    const value = parts[key];
    if (!isObject(value) || NOT_ITS_OWN.has(key)) continue;
    const folded = fold(value);
    if (folded === value) continue;
    // A copy of the whole has the shape of what it copies, and is held in as little.
    folds ??= { ...parts };
    folds[key] = folded;
  }
  return folds ?? part;
}

function withItems(items: readonly unknown[], fold: (part: object) => object): readonly unknown[] {
  let folds: unknown[] | undefined;
  for (let index = 0; index < items.length; index++) {
    const item = items[index];
    if (!isObject(item)) continue;
    const folded = fold(item);
    if (folded === item) continue;
    folds ??= [...items];
    folds[index] = folded;
  }
  return folds ?? items;
}

/** Figures that are made of others: those that are written or known stand in the plan. */
function isOwn(figure: Figure): boolean {
  if (figure instanceof FoldedFigure) return false;
  const { kind } = figure.origin;
  return kind === 'computed' || kind === 'counted';
}

function isObject(part: unknown): part is object {
  return typeof part === 'object' && part !== null;
}

/** Lists and plain objects. */
function isPlain(part: object): boolean {
  return Array.isArray(part) || Object.getPrototypeOf(part) === Object.prototype;
}

function isFigure(part: object): part is Figure {
  return 'origin' in part && 'unit' in part;
}

/** A thing that is made again when it is asked for, and held as long as anybody else holds it. */
class Remade {
  #made: WeakRef<Made> | undefined;
  readonly #again: () => unknown;

  constructor(again: () => unknown) {
    this.#again = again;
  }

  figure(index: number): Figure | undefined {
    const made = this.#now();
    made.figures ??= figuresOf(made.thing);
    return made.figures[index];
  }

  /** The thing itself. */
  readonly whole = (): unknown => this.#now().thing;

  #now(): Made {
    let made = this.#made?.deref();
    if (!made) {
      made = { thing: this.#again() };
      this.#made = new WeakRef(made);
    }
    return made;
  }
}

interface Made {
  readonly thing: unknown;
  figures?: Figure[];
}

class FoldedFigure<U extends Unit = Unit> extends FigureByValue<U> {
  readonly #of: Remade;
  readonly #index: number;

  constructor(value: number, unit: U, of: Remade, index: number) {
    super(value, unit);
    this.#of = of;
    this.#index = index;
  }

  protected made(): Figure | undefined {
    return this.#of.figure(this.#index);
  }
}
