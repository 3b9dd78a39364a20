import { checkSchedule } from './checker';
import { bestPlacement, packedIn } from './placing';
import { betterAround, MOVES_AROUND, reviseOpening, stateOf } from './revise';
import { CLOSED, type SeasonState } from './season-state';
import { settledSchedule } from './settle';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** A room that opens in another week than in the schedule at hand; null where it stayed closed. */
export interface MovedAlong {
  readonly room: number;
  readonly from: number | null;
  readonly to: number;
}

/** What others could do around an opening that the planner moves. */
export interface AroundOffer {
  /** The problem with the moved opening as its pin: the one that the schedule answers. */
  readonly problem: ReleaseProblem;
  readonly schedule: ReleaseSchedule;
  readonly moved: readonly MovedAlong[];
  /** Money more than with the one opening moved alone; both schedules settled exactly. */
  readonly gain: number;
  /** Money that moving it alone costs; negative where it brings some. */
  readonly aloneCosts: number;
}

/** Share of the gain that may go for fewer rooms to be moved. */
const MAY_GO = 0.15;
/** A gain below this share of the worth is not worth a word. */
const LEAST_GAIN = 1e-4;
const SEED = 1;

/** The problem with a room's opening pinned to a week. */
export function pinnedTo(problem: ReleaseProblem, room: number, week: number): ReleaseProblem {
  return {
    ...problem,
    rooms: problem.rooms.map((one, at) => (at === room ? { ...one, pinned: week } : one)),
  };
}

/**
 * The few other rooms that would best move along when one is opened in another week, and what that wins back. Checked by
 * the independent checker. Undefined where the opening cannot be made, or nothing worth a word can be won.
 */
export function offerAround(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  room: number,
  week: number,
  unmet: readonly number[] = [],
): AroundOffer | undefined {
  const held = pinnedTo(problem, room, week);
  const left = unmet.filter((one) => one !== room);
  const options = { seed: SEED, moves: MOVES_AROUND, unmet: left };
  const found = betterAround(held, schedule, [{ room, week }], options);
  if (!found) return undefined;
  const single = stateOf(held, schedule);
  if (single.opens[room] !== week) reviseOpening(single, room, week);
  const alone = settled(held, single);
  const state = stateOf(held, found.schedule);
  takeBack(state, schedule, alone.value);
  const better = settled(held, state);
  const moved = held.rooms.flatMap(({ fromField }, at): MovedAlong[] => {
    const [from, to] = [schedule.opens[at] ?? null, better.opens[at] ?? null];
    return at === room || fromField || from === to || to === null ? [] : [{ room: at, from, to }];
  });
  const gain = better.value - alone.value;
  if (moved.length === 0 || gain <= LEAST_GAIN * Math.abs(alone.value)) return undefined;
  // A room that would have to stay closed for it cannot be pinned so.
  const closes = held.rooms.some(
    ({ fromField }, at) => !fromField && schedule.opens[at] !== null && better.opens[at] === null,
  );
  if (closes || checkSchedule(held, better, left).length > 0) return undefined;
  return { problem: held, schedule: better, moved, gain, aloneCosts: schedule.value - alone.value };
}

/** Puts moved rooms back to their weeks, those that lose least first, while most of the gain stays. */
function takeBack(state: SeasonState, schedule: ReleaseSchedule, alone: number): void {
  const { rooms } = state.problem;
  let mayGo = MAY_GO * Math.max(0, settled(state.problem, state).value - alone);
  for (;;) {
    const moved = rooms.flatMap(({ pinned, fromField }, room) => {
      const week = schedule.opens[room] ?? CLOSED;
      return pinned !== null || fromField || state.opens[room] === week ? [] : [{ room, week }];
    });
    let best: { room: number; week: number; loses: number } | undefined;
    for (const { room, week } of moved) {
      state.lift(room);
      const change = bestPlacement(state, { room, week }, week !== CLOSED)?.change;
      state.putBack(room);
      if (change !== undefined && -change < (best?.loses ?? Number.POSITIVE_INFINITY))
        best = { room, week, loses: -change };
    }
    if (!best || best.loses > mayGo) return;
    if (reviseOpening(state, best.room, best.week) === undefined) return;
    mayGo -= Math.max(0, best.loses);
  }
}

function settled(problem: ReleaseProblem, state: SeasonState): ReleaseSchedule {
  return settledSchedule(problem, { opens: state.opens.slice(), packed: packedIn(state) });
}
