import type { Steps } from '../../plan/steps';
import type { Dependent, Noticer } from './cells';

/** Results that are made in one step. */
const MADE_A_STEP = 8;

/** One result among others. */
export class OrderedCell<T> implements Dependent {
  value: T | undefined;
  /** Where it stands among them. */
  place = 0;
  private isOldNow = true;

  constructor(
    readonly key: string,
    private old: Set<OrderedCell<T>> | undefined,
  ) {
    old?.add(this);
  }

  get isOld(): boolean {
    return this.isOldNow;
  }

  /** Whoever tells it that it is old tells those it stands among. */
  set isOld(isOld: boolean) {
    this.isOldNow = isOld;
    if (isOld) this.old?.add(this);
    else this.old?.delete(this);
  }

  /** Nobody needs it any more. What it looked at forgets it in its time. */
  leave(): void {
    this.old?.delete(this);
    this.old = undefined;
    this.isOldNow = true;
    this.value = undefined;
  }
}

/**
 * A result for each of many keys, in their order. Which of them are old is known without looking at the others, and those
 * that say anything are kept by themselves, for of thousands most say nothing.
 */
export class OrderedCells<T> {
  private readonly cells = new Map<string, OrderedCell<T>>();
  private order: readonly string[] = [];
  private readonly old = new Set<OrderedCell<T>>();
  private readonly saying = new Set<OrderedCell<T>>();
  private said: readonly OrderedCell<T>[] | undefined = [];

  constructor(
    private readonly noticer: Noticer,
    private readonly says: (value: T) => boolean,
  ) {}

  /** The keys of a map are those there are from now on. */
  setKeys(map: ReadonlyMap<string, unknown>): void {
    if (this.hasKeysOf(map)) return;
    const { cells } = this;
    this.order = [...map.keys()];
    for (const [key, cell] of cells) {
      if (map.has(key)) continue;
      cell.leave();
      cells.delete(key);
      this.saying.delete(cell);
    }
    for (const [place, key] of this.order.entries()) {
      let cell = cells.get(key);
      if (!cell) {
        cell = new OrderedCell<T>(key, this.old);
        cells.set(key, cell);
      }
      cell.place = place;
    }
    this.said = undefined;
  }

  /** Makes again what is old, some results a step. What is left undone the next time does. */
  *makeOld(make: (key: string) => T): Steps<void> {
    if (this.old.size === 0) return;
    let made = 0;
    for (const cell of inPlace(this.old)) {
      if (made++ % MADE_A_STEP === 0) yield;
      if (cell.isOld) this.make(cell, make);
    }
  }

  /** Those that say something, in order: the very same list while they are the same. */
  sayingAny(): readonly OrderedCell<T>[] {
    this.said ??= inPlace(this.saying);
    return this.said;
  }

  private make(cell: OrderedCell<T>, make: (key: string) => T): void {
    const { noticer } = this;
    const around = noticer.reader;
    cell.value = undefined;
    if (this.saying.has(cell)) this.said = undefined;
    noticer.reader = cell;
    cell.isOld = false;
    try {
      const value = make(cell.key);
      cell.value = value;
      if (this.says(value)) {
        this.saying.add(cell);
        this.said = undefined;
      } else this.saying.delete(cell);
    } catch (error) {
      cell.isOld = true;
      throw error;
    } finally {
      noticer.reader = around;
    }
  }

  private hasKeysOf(map: ReadonlyMap<string, unknown>): boolean {
    const { order } = this;
    if (map.size !== order.length) return false;
    let place = 0;
    for (const key of map.keys()) if (order[place++] !== key) return false;
    return true;
  }
}

function inPlace<T>(cells: Iterable<OrderedCell<T>>): OrderedCell<T>[] {
  return [...cells].sort((a, b) => a.place - b.place);
}
