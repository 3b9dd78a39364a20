import type { FruitData, Regime, Variety } from '../../fruit/types';
import { changed, type Noticer, type Source } from './cells';

/** One value whose readers are noticed. */
export class Watched<T> {
  private readonly source: Source = new Set();

  constructor(
    private readonly noticer: Noticer,
    private now: T,
  ) {}

  get value(): T {
    this.noticer.read(this.source);
    return this.now;
  }

  set(next: T): void {
    if (this.now === next) return;
    this.now = next;
    changed(this.source);
  }
}

/** Varieties and regimes by name, each with its own readers. */
export class WatchedFruit implements FruitData {
  private now: FruitData | undefined;
  private readonly names: Source = new Set();
  private readonly known = {
    variety: new Map<string, { readonly source: Source; value: Variety | undefined }>(),
    regime: new Map<string, { readonly source: Source; value: Regime | undefined }>(),
  };

  constructor(private readonly noticer: Noticer) {}

  set(next: FruitData): void {
    if (this.now === next) return;
    this.now = next;
    changed(this.names);
    for (const known of Object.values(this.known))
      for (const [name, { source }] of known) if (source.size === 0) known.delete(name);
    for (const [name, known] of this.known.variety) tell(known, next.variety(name));
    for (const [name, known] of this.known.regime) tell(known, next.regime(name));
  }

  variety(name: string): Variety | undefined {
    return this.read(this.known.variety, name, this.now?.variety(name));
  }

  regime(name: string): Regime | undefined {
    return this.read(this.known.regime, name, this.now?.regime(name));
  }

  get varietyNames(): readonly string[] {
    this.noticer.read(this.names);
    return this.now?.varietyNames ?? [];
  }

  get regimeNames(): readonly string[] {
    this.noticer.read(this.names);
    return this.now?.regimeNames ?? [];
  }

  private read<T>(known: Map<string, { readonly source: Source; value: T }>, name: string, value: T): T {
    let one = known.get(name);
    if (!one) {
      one = { source: new Set(), value };
      known.set(name, one);
    }
    this.noticer.read(one.source);
    return value;
  }
}

function tell<T>(known: { readonly source: Source; value: T }, value: T): void {
  if (known.value === value) return;
  known.value = value;
  changed(known.source);
}
