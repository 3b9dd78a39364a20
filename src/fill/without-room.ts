import { loadOf, type RoomLoad } from './load';
import { measuresOf, worsened } from './measures';
import { Choices, refill } from './refill';
import type { FillState } from './state';
import type { OtherPlace, WithoutRoom } from './types';

/** What each room of a fill is needed for: its lots are placed again with the room closed and all others as they are. */
export function withoutRooms(found: FillState): WithoutRoom[] {
  const { problem } = found;
  const choices = new Choices(problem);
  const before = measuresOf(found);
  return problem.rooms.flatMap(({ id }, room) => {
    const load = found.loads[room];
    if (!load) return [];
    const state = found.copy();
    state.empty(room);
    const lots = load.parts.map(({ lot }) => lot).sort((a, b) => a - b);
    refill(
      state,
      choices,
      lots,
      () => 0,
      0,
      (other) => other !== room,
    );
    const worse = worsened(before, measuresOf(state));
    return [{ room: id, bins: worse.bins, opened: openedIn(found, state), worse }];
  });
}

/**
 * For each room the lot that could be elsewhere at the least cost, where that would be, and what would be worse: each
 * lot is taken out and placed again with the room closed, all else as it is.
 */
export function otherPlaces(found: FillState): OtherPlace[] {
  const { problem } = found;
  const choices = new Choices(problem);
  const before = measuresOf(found);
  return problem.rooms.flatMap(({ id }, room) => {
    const load = found.loads[room];
    if (!load) return [];
    let best: { readonly state: FillState; readonly lot: number } | undefined;
    for (const { lot } of load.parts) {
      const state = elsewhere(found, choices, room, load, lot);
      if (state && (!best || state.cost < best.state.cost)) best = { state, lot };
    }
    if (!best) return [];
    const { state, lot } = best;
    const into = problem.rooms.flatMap((other, index) => {
      const more = binsIn(state.loads[index], lot) - binsIn(found.loads[index], lot);
      return index !== room && more > 0 ? [other.id] : [];
    });
    return [{ room: id, lot: problem.lots[lot]?.id ?? '', into, worse: worsened(before, measuresOf(state)) }];
  });
}

function elsewhere(
  found: FillState,
  choices: Choices,
  room: number,
  load: RoomLoad,
  lot: number,
): FillState | undefined {
  const at = found.problem.rooms[room];
  const state = found.copy();
  state.empty(room);
  const others = load.parts.filter((part) => part.lot !== lot);
  const rest = at && others.length > 0 ? loadOf(found.problem, at, load.regime, others) : undefined;
  // Fewer bins go in as well as more; were they not to, there would be nothing to compare.
  if (others.length > 0 && !rest) return undefined;
  if (rest) state.set(room, rest);
  refill(
    state,
    choices,
    [lot],
    () => 0,
    0,
    (other) => other !== room,
  );
  return state;
}

function openedIn(before: FillState, after: FillState): string[] {
  return before.problem.rooms.flatMap(({ id, held }, room) =>
    after.loads[room] && !before.loads[room] && !held ? [id] : [],
  );
}

function binsIn(load: RoomLoad | undefined, lot: number): number {
  return load?.parts.find((part) => part.lot === lot)?.bins ?? 0;
}
