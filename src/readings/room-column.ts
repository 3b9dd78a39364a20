import { type Minute, quantities, type ReadQuantity, type RoomReadings } from './types';

/** The readings of one room while they are gathered: arrays that grow by doubling. */
export class RoomColumn {
  private count = 0;
  private times = new Float64Array(256);
  private lines = new Uint32Array(256);
  private readonly values: Record<ReadQuantity, Float32Array>;

  constructor(private readonly room: string) {
    this.values = each(() => new Float32Array(256));
  }

  /** `line` is that of the file it was read from, 0 where it is of none. */
  push(time: Minute, read: Partial<Record<ReadQuantity, number>>, line = 0): void {
    if (this.count === this.times.length) this.grow();
    this.times[this.count] = time;
    this.lines[this.count] = line;
    for (const quantity of quantities) this.values[quantity][this.count] = read[quantity] ?? Number.NaN;
    this.count++;
  }

  /** Earliest first; of several of one time the last that was pushed. */
  sorted(): { readonly readings: RoomReadings; readonly repeated: number } {
    const { times } = this;
    const order = Uint32Array.from({ length: this.count }, (_, index) => index);
    const isSorted = order.every((_, index) => index === 0 || (times[index - 1] ?? 0) < (times[index] ?? 0));
    if (!isSorted) order.sort((a, b) => (times[a] ?? 0) - (times[b] ?? 0) || a - b);
    const kept = isSorted ? order : order.filter((at, index) => times[at] !== times[order[index + 1] ?? -1]);
    const picked = <T extends Float64Array | Float32Array | Uint32Array>(from: T, into: T): T => {
      kept.forEach((at, index) => {
        into[index] = from[at] ?? Number.NaN;
      });
      return into;
    };
    return {
      readings: {
        room: this.room,
        times: picked(times, new Float64Array(kept.length)),
        lines: picked(this.lines, new Uint32Array(kept.length)),
        values: each((quantity) => picked(this.values[quantity], new Float32Array(kept.length))),
      },
      repeated: this.count - kept.length,
    };
  }

  private grow(): void {
    const doubled = 2 * this.times.length;
    const times = new Float64Array(doubled);
    times.set(this.times);
    this.times = times;
    const lines = new Uint32Array(doubled);
    lines.set(this.lines);
    this.lines = lines;
    for (const quantity of quantities) {
      const values = new Float32Array(doubled);
      values.set(this.values[quantity]);
      this.values[quantity] = values;
    }
  }
}

function each(make: (quantity: ReadQuantity) => Float32Array): Record<ReadQuantity, Float32Array> {
  return {
    oxygen: make('oxygen'),
    'carbon-dioxide': make('carbon-dioxide'),
    temperature: make('temperature'),
    humidity: make('humidity'),
  };
}
