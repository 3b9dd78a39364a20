import { Choices, refill } from './refill';
import type { FillState } from './state';
import type { WithoutRoom } from './types';

/** What each room of a fill is needed for: its lots are placed again with the room closed and all others as they are. */
export function withoutRooms(found: FillState): WithoutRoom[] {
  const { problem } = found;
  const choices = new Choices(problem);
  return problem.rooms.flatMap(({ id }, room) => {
    const load = found.loads[room];
    if (!load) return [];
    const state = found.copy();
    state.empty(room);
    const lots = load.parts.map(({ lot }) => lot).sort((a, b) => a - b);
    refill(state, choices, lots, () => 0, 0, room);
    const leftOf = (of: FillState) => lots.reduce((sum, lot) => sum + (of.leftBins[lot] ?? 0), 0);
    const opened = problem.rooms.flatMap((other, index) =>
      state.loads[index] && !found.loads[index] ? [other.id] : [],
    );
    return [{ room: id, bins: Math.max(0, leftOf(state) - leftOf(found)), opened }];
  });
}
