import type { DrawInputs } from './draw-inputs';
import type { Draw } from './draws';
import type { ReleaseProblem } from './types';

/** What is in a room in a season drawn, against the plan. */
export interface DrawnFilling {
  /** Bins as a share of those planned. */
  readonly bins: number;
  /** Each variety's cartons a bin as a share of the plan's. */
  readonly mix: ReadonlyMap<string, number>;
}

/** A room holds no more than it has places, however large the crop; one planned fuller stays as it is planned. */
export function drawnFilling(
  problem: ReleaseProblem,
  { rooms }: DrawInputs,
  room: number,
  draw: Draw,
): DrawnFilling {
  const one = rooms[room];
  const factors = draw.crop[room];
  const planned = problem.rooms[room]?.bins ?? 0;
  let bins = one && one.varieties.size > 0 ? 0 : 1;
  for (const [variety, share] of one?.varieties ?? []) bins += share * (factors?.get(variety) ?? 1);
  const most =
    one?.places === undefined || planned <= 0 ? Number.POSITIVE_INFINITY : Math.max(1, one.places / planned);
  const mix = new Map(
    [...(one?.varieties ?? [])].map(([name]) => [name, (factors?.get(name) ?? 1) / bins] as const),
  );
  return { bins: Math.min(bins, most), mix };
}

/** Share of the week before the room's fruit falls below standard. */
export function keptShare({ rooms }: DrawInputs, room: number, week: number, draw: Draw): number {
  const keeps = rooms[room]?.keeps;
  if (!keeps) return 1;
  const until = keeps.from + (keeps.until - keeps.from) * (draw.storageLife[room] ?? 1);
  return Math.max(0, Math.min(1, until - week));
}
