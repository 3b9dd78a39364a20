import type { Span } from '../span';

/** Where a chunk stands now. */
export interface Standing {
  readonly file: string;
  readonly offset: number;
}

/**
 * A span that is counted from its chunk's start, so that it moves with the chunk and nobody has to move it. For whoever
 * reads it, it is a span as any other: `file`, `start` and `end`, in this order also as JSON.
 */
export class MovingSpan implements Span {
  constructor(
    private chunk: Standing,
    private from: number,
    private to: number,
  ) {}

  get file(): string {
    return this.chunk.file;
  }

  get start(): number {
    return this.chunk.offset + this.from;
  }

  get end(): number {
    return this.chunk.offset + this.to;
  }

  /** From now on it stands where the other one does, and moves with that one's chunk. */
  follow(other: MovingSpan): void {
    this.chunk = other.chunk;
    this.from = other.from;
    this.to = other.to;
  }

  toJSON(): Span {
    const { file, start, end } = this;
    return { file, start, end };
  }
}
