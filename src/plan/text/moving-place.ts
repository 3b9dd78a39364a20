import type { ChunkPlace } from '../build/places';
import type { Span } from '../span';

/**
 * The place of a chunk that stays as it is while text above it grows or shrinks. All spans made of it move with it, so
 * that whatever was made of the chunk (an entry, a figure, a finding) stands for ever at its right place and need not
 * be made again. This is the one thing about a plan that changes after it was read: whoever reads with a cache has
 * spans into the newest text that was read with it.
 */
export class MovingPlace implements ChunkPlace {
  private readonly spans: { start: number; end: number }[] = [];
  readonly keep: ChunkPlace['keep'];

  /** Where it is not to `move`, its spans are not kept. */
  constructor(
    readonly file: string,
    public offset: number,
    moves: boolean,
  ) {
    if (moves) this.keep = (span: Span) => void this.spans.push(span);
  }

  moveTo(offset: number): void {
    const by = offset - this.offset;
    if (by === 0) return;
    this.offset = offset;
    for (const span of this.spans) {
      span.start += by;
      span.end += by;
    }
  }
}
