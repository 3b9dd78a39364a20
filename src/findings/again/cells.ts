/**
 * Results that know what they were made from, so that after a change only those are made again that looked at what has
 * changed. What is looked at is noticed by itself, as it is read: no rule or formula says what it depends on.
 *
 * What may change remembers who looked at it, and forgets them once it has told them that it has changed: they look
 * again when they are made again. A result holds nothing of the kind: there are thousands of them.
 */

import type { Steps } from '../../plan/steps';

/** A result that is old once something it looked at has changed. */
export interface Dependent {
  isOld: boolean;
}

/** Who looked at something: nobody, one, or several. */
export type Readers = undefined | Dependent | Set<Dependent>;

/** So many readers are looked through for such as are old or gone. */
const MANY = 64;

/** The readers and one more. A set that has doubled drops those that are old: they look again when they are made again. */
export function withReader(readers: Readers, reader: Dependent): Readers {
  if (readers === undefined || readers === reader) return reader;
  if (!(readers instanceof Set)) return new Set([readers, reader]);
  const { size } = readers;
  if (size >= MANY && (size & (size - 1)) === 0)
    for (const other of readers) if (other.isOld) readers.delete(other);
  readers.add(reader);
  return readers;
}

/** Whether the reader is among them. */
export function isAmong(readers: Readers, reader: Dependent): boolean {
  return readers === reader || (readers instanceof Set && readers.has(reader));
}

/** Whether all of them are to be made again, or are gone. */
export function areOld(readers: Readers): boolean {
  if (!(readers instanceof Set)) return !readers || readers.isOld;
  for (const { isOld } of readers) if (!isOld) return false;
  return true;
}

/** All of them have to be made again. */
export function tellAll(readers: Readers): void {
  if (!(readers instanceof Set)) {
    if (readers) readers.isOld = true;
    return;
  }
  for (const reader of readers) reader.isOld = true;
}

/** Knows what is being made. */
export class Noticer {
  /** What is being made, and so reads. */
  reader: Dependent | undefined;

  /** What is read meanwhile, nobody is told to have read. */
  unnoticed<T>(work: () => T): T {
    return this.noticed(undefined, work);
  }

  /** What is read meanwhile, the reader reads. */
  noticed<T>(reader: Dependent | undefined, work: () => T): T {
    const around = this.reader;
    this.reader = reader;
    try {
      return work();
    } finally {
      this.reader = around;
    }
  }

  /** The same in steps. */
  *noticedSteps<T>(reader: Dependent, steps: Steps<T>): Steps<T> {
    for (;;) {
      const { done, value } = this.noticed(reader, () => steps.next());
      if (done) return value;
      yield;
    }
  }
}

/** One result. */
export class Cell<T> implements Dependent {
  private isOldNow = true;
  private value: T | undefined;
  private inputs: readonly unknown[] = NONE;

  /** The round of `Cells` in which it was asked for last. */
  round = 0;

  /** `among`: those that are to know when it is old. */
  constructor(private readonly among?: { hasOld: boolean }) {}

  get isOld(): boolean {
    return this.isOldNow;
  }

  set isOld(isOld: boolean) {
    this.isOldNow = isOld;
    if (isOld && this.among) this.among.hasOld = true;
  }

  /** The result, made again where something it looked at has changed, or an input. */
  get(noticer: Noticer, inputs: readonly unknown[], make: () => T): T {
    if (this.isOld || !sameItems(inputs, this.inputs)) this.make(noticer, inputs, make);
    return this.value as T;
  }

  /** Nobody needs the result any more. Those it looked at forget it in their time. */
  forget(): void {
    this.isOld = true;
    this.value = undefined;
    this.inputs = NONE;
  }

  private make(noticer: Noticer, inputs: readonly unknown[], make: () => T): void {
    const around = noticer.reader;
    this.forget();
    noticer.reader = this;
    this.isOld = false;
    try {
      this.value = make();
      this.inputs = inputs.length === 0 ? NONE : inputs;
    } catch (error) {
      this.isOld = true;
      throw error;
    } finally {
      noticer.reader = around;
    }
  }
}

const NONE: readonly unknown[] = [];

/** A cell for each key. Those that a round does not ask for are forgotten at its end. */
export class Cells<T> {
  private readonly cells = new Map<string, Cell<T>>();
  private round = 0;
  /** How many were asked for in this round. */
  private asked = 0;
  /** Whether any may be old since the last round ended. */
  hasOld = false;

  constructor(private readonly noticer: Noticer) {}

  get(key: string, inputs: readonly unknown[], make: () => T): T {
    let cell = this.cells.get(key);
    if (!cell) {
      cell = new Cell<T>(this);
      cell.round = this.round - 1;
      this.cells.set(key, cell);
    }
    this.ask(cell);
    return cell.get(this.noticer, inputs, make);
  }

  endRound(): void {
    if (this.asked < this.cells.size)
      for (const [key, cell] of this.cells) {
        if (cell.round === this.round) continue;
        cell.forget();
        this.cells.delete(key);
      }
    this.round++;
    this.asked = 0;
    // All that stay have been asked for, and so made again where they were old.
    this.hasOld = false;
  }

  private ask(cell: Cell<T>): void {
    if (cell.round === this.round) return;
    cell.round = this.round;
    this.asked++;
  }
}

export function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index++) if (a[index] !== b[index]) return false;
  return true;
}
