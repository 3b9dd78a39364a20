import { packableBins } from './packing-weeks';
import type { Packhouse, ProblemRoom, ReleaseProblem } from './types';

/** What keeps a room from opening in any week, whatever the others do. */
export type NeverOpens =
  | { readonly kind: 'no-window' }
  /** Of its bins the packhouse runs `most` in the weeks of its emptying, wherever in its window they lie. */
  | { readonly kind: 'too-large'; readonly most: number };

/**
 * Most bins of a room that the packhouse runs in the weeks of its emptying, in whichever week of its window they begin;
 * of a room without any such week in whichever of the season.
 */
export function mostPackable(
  problem: Pick<Packhouse, 'weeks' | 'packingBins' | 'lastWeekBins'>,
  room: Pick<ProblemRoom, 'earliest' | 'latest' | 'weeksToEmpty'>,
): number {
  const { earliest, latest, weeksToEmpty } = room;
  const [first, last] = earliest <= latest ? [earliest, latest] : [0, problem.weeks - 1];
  let most = 0;
  for (let week = first; week <= last; week++)
    most = Math.max(most, packableBins(problem, week, weeksToEmpty));
  return most;
}

/** Why a room can be opened in no week; undefined where it can be in one. A pin is not asked about. */
export function neverOpens(problem: ReleaseProblem, room: ProblemRoom): NeverOpens | undefined {
  if (room.earliest > room.latest) return { kind: 'no-window' };
  const most = mostPackable(problem, room);
  return room.bins > most * (1 + ROUNDING) ? { kind: 'too-large', most } : undefined;
}

/** Sums of weeks differ by that much, as a share. */
const ROUNDING = 1e-9;
