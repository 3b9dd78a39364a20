import type { Day } from '../plan/dates';
import { intakeOn } from './intake';
import type { RoomLoad } from './load';
import type { FillState } from './state';
import type { Entry, FillProblem, FillProposal, FreeRoom } from './types';

/** What a search or the exact model ends with, by names; each bin with the day it goes in. */
export function proposalOf(state: FillState): FillProposal {
  const { problem } = state;
  return {
    rooms: problem.rooms.flatMap((room, index) => {
      const load = state.loads[index];
      if (!load) return [];
      const regime = problem.regimes[load.regime]?.name ?? '';
      return [{ room: room.id, regime, entries: entriesOf(problem, room, load) }];
    }),
    unplaced: problem.lots.flatMap(({ id }, lot) => {
      const bins = state.leftBins[lot] ?? 0;
      return bins > 0 ? [{ lot: id, bins }] : [];
    }),
    cost: state.cost,
  };
}

/** A room's bins by day: first picked goes in first, and of one day's picking the lots in the order of their names. */
export function entriesOf({ lots }: FillProblem, room: FreeRoom, { parts, firstDay }: RoomLoad): Entry[] {
  const queue = parts
    .flatMap(({ lot, byArrival }) =>
      byArrival.map((bins, index) => ({
        lot: lots[lot]?.id ?? '',
        picked: lots[lot]?.arrivals[index]?.day ?? 0,
        bins,
      })),
    )
    .filter(({ bins }) => bins > 0)
    .sort((a, b) => a.picked - b.picked || (a.lot < b.lot ? -1 : 1));
  const entries: Entry[] = [];
  let day: Day = Number.NEGATIVE_INFINITY;
  let free = 0;
  for (const { lot, picked, bins } of queue) {
    let waiting = bins;
    while (waiting > 0) {
      const soonest = Math.max(picked, firstDay);
      if (soonest > day) [day, free] = [soonest, intakeOn(room, soonest)];
      while (free === 0) [day, free] = [day + 1, intakeOn(room, day + 1)];
      const now = Math.min(free, waiting);
      entries.push({ lot, picked, entered: day, bins: now });
      waiting -= now;
      free -= now;
    }
  }
  return entries;
}
