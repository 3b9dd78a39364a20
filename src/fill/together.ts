import type { RoomLoad } from './load';
import type { FillProblem } from './types';
import { weights } from './weights';

/** In how many rooms the fruit of each grower is who is to be kept together; the plan's fills counted. */
export class Together {
  private readonly growers: readonly string[];
  private readonly inFills: readonly number[];
  private readonly rooms: number[];

  constructor(
    private readonly problem: FillProblem,
    as?: Together,
  ) {
    this.growers = as?.growers ?? togetherGrowers(problem);
    this.inFills = as?.inFills ?? this.growers.map((grower) => roomsInFills(problem, grower));
    this.rooms = [...(as?.rooms ?? this.inFills)];
  }

  become(other: Together): void {
    for (let index = 0; index < this.rooms.length; index++) this.rooms[index] = other.rooms[index] as number;
  }

  /** What the rooms beyond each grower's first cost, those the plan's fills take not charged again. */
  get cost(): number {
    let more = 0;
    for (let index = 0; index < this.rooms.length; index++)
      more +=
        Math.max(0, (this.rooms[index] as number) - 1) - Math.max(0, (this.inFills[index] as number) - 1);
    return weights.growerRoom * more;
  }

  /** A load is put into a room (1) or taken out (-1). */
  count(room: number, load: RoomLoad, by: 1 | -1): void {
    if (this.growers.length === 0) return;
    const held = this.problem.rooms[room]?.held?.growers ?? [];
    for (const grower of load.likeness.growers) {
      const index = held.includes(grower) ? -1 : this.growers.indexOf(grower);
      if (index >= 0) this.rooms[index] = (this.rooms[index] as number) + by;
    }
  }

  costOfAnother(room: number, load: RoomLoad | undefined, grower: string): number {
    const index = this.growers.indexOf(grower);
    if (index < 0 || (this.rooms[index] ?? 0) === 0) return 0;
    const inIt = load?.likeness.growers ?? this.problem.rooms[room]?.held?.growers;
    return inIt?.includes(grower) ? 0 : weights.growerRoom;
  }
}

export function togetherGrowers({ lots }: FillProblem): string[] {
  return [...new Set(lots.flatMap(({ together, grower }) => (together ? [grower] : [])))].sort();
}

/** Rooms that the plan's fills have put fruit of the grower into. */
export function roomsInFills({ pinned }: FillProblem, grower: string): number {
  return new Set(pinned.flatMap((fill) => (fill.together.includes(grower) ? [fill.room] : []))).size;
}
