import type { FillState } from './state';
import type { Measures } from './types';
import { easyFillingDays, likeWeeks, wellFilled } from './weights';

/** What a fill comes to, by each of its aims; less is better in all of them. */
export function measuresOf(state: FillState): Measures {
  const { problem } = state;
  const found = { bins: 0, rooms: 0, partly: 0, splits: 0, slowDays: 0, weeksApart: 0, termSteps: 0 };
  for (const bins of state.leftBins) found.bins += bins;
  state.roomsOf.forEach((rooms, lot) => {
    found.splits += Math.max(0, rooms - ((problem.lots[lot]?.inFills ?? 0) > 0 ? 0 : 1));
  });
  problem.rooms.forEach((room, index) => {
    const load = state.loads[index];
    if (!load) return;
    const { soonest, last, longestTerm, shortestTerm } = load.likeness;
    if (!room.held) found.rooms += 1;
    if (load.bins + (room.held?.bins ?? 0) < wellFilled * room.places) found.partly += 1;
    found.slowDays += Math.max(0, load.days - easyFillingDays);
    found.weeksApart += Math.max(0, last - soonest - likeWeeks);
    found.termSteps += Math.max(0, shortestTerm - longestTerm);
  });
  return found;
}

/** What is worse in `after` than in `before`, each measure by how much; what is not worse counts nought. */
export function worsened(before: Measures, after: Measures): Measures {
  const more = (key: keyof Measures) => Math.max(0, after[key] - before[key]);
  return {
    bins: more('bins'),
    rooms: more('rooms'),
    partly: more('partly'),
    splits: more('splits'),
    slowDays: more('slowDays'),
    weeksApart: more('weeksApart'),
    termSteps: more('termSteps'),
  };
}
