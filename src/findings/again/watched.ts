import type { FruitData, Regime, Variety } from '../../fruit/types';
import { type Noticer, type Readers, tellAll, withReader } from './cells';

/** One value whose readers are noticed. */
export class Watched<T> {
  private readers: Readers;

  constructor(
    private readonly noticer: Noticer,
    private now: T,
  ) {}

  get value(): T {
    const { reader } = this.noticer;
    if (reader && reader !== this.readers) this.readers = withReader(this.readers, reader);
    return this.now;
  }

  set(next: T): void {
    if (this.now === next) return;
    this.now = next;
    tellAll(this.readers);
    this.readers = undefined;
  }
}

interface Known<T> {
  readers: Readers;
  value: T;
}

/** Varieties and regimes by name, each with its own readers. */
export class WatchedFruit implements FruitData {
  private now: FruitData | undefined;
  private ofNames: Readers;
  private readonly known = {
    variety: new Map<string, Known<Variety | undefined>>(),
    regime: new Map<string, Known<Regime | undefined>>(),
  };

  constructor(private readonly noticer: Noticer) {}

  set(next: FruitData): void {
    if (this.now === next) return;
    this.now = next;
    tellAll(this.ofNames);
    this.ofNames = undefined;
    for (const [name, known] of this.known.variety) tell(known, next.variety(name));
    for (const [name, known] of this.known.regime) tell(known, next.regime(name));
    for (const known of Object.values(this.known))
      for (const [name, { readers }] of known) if (readers === undefined) known.delete(name);
  }

  variety(name: string): Variety | undefined {
    return this.read(this.known.variety, name, this.now?.variety(name));
  }

  regime(name: string): Regime | undefined {
    return this.read(this.known.regime, name, this.now?.regime(name));
  }

  get varietyNames(): readonly string[] {
    this.readNames();
    return this.now?.varietyNames ?? [];
  }

  get regimeNames(): readonly string[] {
    this.readNames();
    return this.now?.regimeNames ?? [];
  }

  private readNames(): void {
    const { reader } = this.noticer;
    if (reader) this.ofNames = withReader(this.ofNames, reader);
  }

  private read<T>(known: Map<string, Known<T>>, name: string, value: T): T {
    const { reader } = this.noticer;
    if (!reader) return value;
    const one = known.get(name);
    if (!one) known.set(name, { readers: reader, value });
    else if (one.readers !== reader) one.readers = withReader(one.readers, reader);
    return value;
  }
}

function tell<T>(known: Known<T>, value: T): void {
  if (known.value === value) return;
  known.value = value;
  tellAll(known.readers);
  known.readers = undefined;
}
