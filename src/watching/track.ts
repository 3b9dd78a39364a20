import type { Minute } from '../readings/types';
import type { Track } from './types';

/** Reads a track at times that come one after the other, each in constant time. */
export class TrackReader {
  private index = 0;

  constructor(private readonly track: Track) {}

  /** On the straight line between two points; the first and last level before and after. NaN without points. */
  at(time: Minute): number {
    const { times, values } = this.track;
    const last = times.length - 1;
    if (this.index > 0 && (times[this.index] ?? 0) > time) this.index = 0;
    while (this.index < last && (times[this.index + 1] ?? 0) <= time) this.index++;
    const [from, level] = [times[this.index], values[this.index] ?? Number.NaN];
    if (from === undefined || time <= from || this.index === last) return level;
    const [to = from, next = level] = [times[this.index + 1], values[this.index + 1]];
    return level + ((next - level) * (time - from)) / (to - from);
  }
}
