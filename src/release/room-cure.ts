import type { Standing } from './standing';

/** A room opened in another week that makes a shortage smaller. */
export interface RoomCure {
  readonly room: number;
  readonly week: number;
  /** Money less in all; negative where the schedule would be worth more. */
  readonly cost: number;
  /** Cartons fewer that the demand is short of over the season. */
  readonly cartons: number;
  /** Of them, in the week that the cure is for; never more. */
  readonly inWeek: number;
  /** Another room that must move with it, to make way. */
  readonly also?: { readonly room: number; readonly week: number };
}

/** A pinned room opened in another week, its pin taken out, and that of the room that moves with it where it has one. */
export interface PinCure extends RoomCure {
  /** Cartons that the demand stays short of over the season. */
  readonly staysShort: number;
}

/** What is to be cured: a demand's week, and the fewest cartons of it that count as help. */
export interface Shortage {
  readonly demand: number;
  readonly week: number;
  readonly least: number;
}

/**
 * Cartons that a change brings the demand over the season, and in the week itself. Undefined where it helps the week by
 * too little, or only by leaving another week as much shorter.
 */
export function cartonsGained(
  standing: Standing,
  { demand, week, least }: Shortage,
  sold: readonly ArrayLike<number>[],
): Pick<RoomCure, 'cartons' | 'inWeek'> | undefined {
  const [now, then] = [standing.sold[demand], sold[demand]];
  let cartons = 0;
  for (let at = 0; at < standing.problem.weeks; at++) cartons += (then?.[at] ?? 0) - (now?.[at] ?? 0);
  const inWeek = Math.min(cartons, (then?.[week] ?? 0) - (now?.[week] ?? 0));
  return cartons >= least && inWeek >= least ? { cartons, inWeek } : undefined;
}
