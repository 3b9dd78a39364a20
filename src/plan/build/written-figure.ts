import type { Figure, Origin, Unit } from '../figure';
import type { Span } from '../span';
import { MovingSpan } from '../text/moving-span';
import { type ChunkPlace, spanAt } from './places';

/**
 * A value the planner wrote, in one object: a large plan has tens of thousands, and most are never asked where they
 * stand.
 */
export class WrittenFigure<U extends Unit = Unit> implements Figure<U> {
  /** Where it stands, once somebody has asked. */
  private madeAt: Span | undefined;

  constructor(
    readonly name: string,
    readonly unit: U,
    readonly value: number,
    private place: ChunkPlace,
    private start: number,
    private end: number,
    private readonly text: string,
    private readonly source: string | undefined,
  ) {
    this.madeAt = undefined;
  }

  get origin(): Origin {
    const { at, text, source } = this;
    return source ? { kind: 'plan', at, text, source } : { kind: 'plan', at, text };
  }

  /** As a figure that holds all it says. */
  toJSON(): Figure<U> {
    const { name, value, unit, origin } = this;
    return { name, value, unit, origin };
  }

  /** Whether the other one says the same, wherever in the file it stands. */
  saysAs(other: unknown): boolean {
    return (
      other instanceof WrittenFigure &&
      Object.is(this.value, other.value) &&
      this.text === other.text &&
      this.unit === other.unit &&
      this.name === other.name &&
      this.source === other.source &&
      this.place.file === other.place.file
    );
  }

  /** Stands from now on where the other one does, and all that was told of its place with it. */
  follow(other: WrittenFigure): void {
    if (this.madeAt instanceof MovingSpan && other.at instanceof MovingSpan) this.madeAt.follow(other.at);
    this.place = other.place;
    this.start = other.start;
    this.end = other.end;
  }

  private get at(): Span {
    this.madeAt ??= spanAt(this.place, { start: this.start, end: this.end });
    return this.madeAt;
  }
}
