/**
 * Results that know what they were made from, so that after a change only those are made again that looked at what has
 * changed. What is looked at is noticed by itself, as it is read: no rule or formula says what it depends on.
 */

/** Something that may change, with the results that looked at it. */
export type Source = Set<Dependent>;

/** Whatever remembers who looked at it. */
interface Remembering {
  delete(dependent: Dependent): void;
}

/** A result that is old once something it looked at has changed. */
export interface Dependent {
  isOld: boolean;
  readonly sources: Set<Remembering>;
}

/** Notices what is read while a result is made. */
export class Noticer {
  /** What is being made, and so reads. */
  reader: Dependent | undefined;

  /** Somebody reads what the source stands for. */
  read(source: Source): void {
    const { reader } = this;
    if (!reader || reader.sources.has(source)) return;
    reader.sources.add(source);
    source.add(reader);
  }

  /** Whether whoever reads has read the source already. */
  hasRead(source: Source): boolean {
    const { reader } = this;
    return !reader || reader.sources.has(source);
  }

  /** What is read meanwhile, nobody is told to have read. */
  unnoticed<T>(work: () => T): T {
    return this.while(undefined, work);
  }

  while<T>(reader: Dependent | undefined, work: () => T): T {
    const around = this.reader;
    this.reader = reader;
    try {
      return work();
    } finally {
      this.reader = around;
    }
  }
}

/** All who looked at the source have to be made again. */
export function changed(source: Source | undefined): void {
  if (source) for (const dependent of source) dependent.isOld = true;
}

/** One result. */
export class Cell<T> implements Dependent {
  isOld = true;
  readonly sources = new Set<Remembering>();
  private value: T | undefined;
  private inputs: readonly unknown[] = [];

  constructor(private readonly noticer: Noticer) {}

  /** The result, made again where something it looked at has changed, or an input. */
  get(inputs: readonly unknown[], make: () => T): T {
    if (this.isOld || !sameItems(inputs, this.inputs)) {
      this.forget();
      this.inputs = inputs;
      this.value = this.noticer.while(this, make);
      this.isOld = false;
    }
    return this.value as T;
  }

  /** The result that was made last; undefined where it holds no longer. */
  atHand(): T | undefined {
    return this.isOld ? undefined : this.value;
  }

  /** Nobody needs the result any more: nothing remembers it. */
  forget(): void {
    for (const source of this.sources) source.delete(this);
    this.sources.clear();
    this.isOld = true;
    this.value = undefined;
  }
}

/** A cell for each key. Those that a round does not ask for are forgotten at its end. */
export class Cells<T> {
  private readonly cells = new Map<string, { readonly cell: Cell<T>; round: number }>();
  private round = 0;

  constructor(private readonly noticer: Noticer) {}

  get(key: string, inputs: readonly unknown[], make: () => T): T {
    let known = this.cells.get(key);
    if (!known) {
      known = { cell: new Cell<T>(this.noticer), round: this.round };
      this.cells.set(key, known);
    }
    known.round = this.round;
    return known.cell.get(inputs, make);
  }

  /** What was made for a key without inputs, where it still holds. */
  atHand(key: string): T | undefined {
    const known = this.cells.get(key);
    const value = known?.cell.atHand();
    if (known && value !== undefined) known.round = this.round;
    return value;
  }

  endRound(): void {
    for (const [key, { cell, round }] of this.cells) {
      if (round === this.round) continue;
      cell.forget();
      this.cells.delete(key);
    }
    this.round++;
  }
}

export function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((item, index) => item === b[index]);
}
