import type { Connection } from 'vscode-languageserver';
import { formatWeek, parseWeek } from '../plan/dates';
import { offerAround, pinnedTo } from '../release/around';
import { checkSchedule } from '../release/checker';
import { aroundText } from '../report/around-text';
import { displayUnits } from '../report/explain';
import type { KeptAround } from './kept-around';
import { sameProblem } from './kept-schedule';
import { pinsAnswer } from './pins-answer';
import type { OpenPlan } from './plan-sessions';
import { type AroundAnswer, type OtherWeekParams, type PinsAnswer, requests } from './protocol';
import type { ServerState } from './server-state';
import { pinTo } from './services/pins';

/** Registers what is offered around an opening that is moved, and its pins. */
export function addAroundFeatures(connection: Connection, state: ServerState): void {
  connection.onRequest(
    requests.aroundWeek,
    async ({ uri, fill, week }: OtherWeekParams): Promise<AroundAnswer | null> => {
      await state.ready();
      const open = state.plans.planOrLatest(uri);
      return open && week !== undefined ? await offer(state, open, fill, week) : null;
    },
  );
  connection.onRequest(
    requests.pinAround,
    async ({ uri, fill, week }: OtherWeekParams): Promise<PinsAnswer | null> => {
      await state.ready();
      const open = state.plans.planOrLatest(uri);
      const kept = open && state.around.get(open.root);
      return open && kept?.fill === fill && kept.week === week ? pinAll(state, open, kept) : null;
    },
  );
}

async function offer(
  state: ServerState,
  open: OpenPlan,
  fill: string,
  week: string,
): Promise<AroundAnswer | null> {
  const { plan, season } = await open.session.settledSoon();
  const { release } = season;
  const wanted = parseWeek(week);
  const room = release?.problem.rooms.findIndex((one) => one.fill === fill) ?? -1;
  if (!release || room < 0 || wanted === undefined) return null;
  const { problem, result } = release;
  const at = wanted - problem.firstWeek;
  if (result.schedule.opens[room] === at) return null;
  const found = offerAround(problem, result.schedule, room, at, result.unmet);
  if (!found) {
    state.around.delete(open.root);
    return null;
  }
  state.around.set(open.root, { fill, week, offer: found });
  return { text: aroundText(found, displayUnits(plan).currency), rooms: found.moved.length };
}

/**
 * Pins of the moved opening and of those that go with it, for the plan the offer was made for: as it was then, or with
 * the moved opening pinned already. The independent checker sees them once more.
 */
function pinAll(
  state: ServerState,
  open: OpenPlan,
  { fill, week, offer: kept }: KeptAround,
): PinsAnswer | null {
  const now = open.session.problem();
  const room = now?.rooms.findIndex((one) => one.fill === fill) ?? -1;
  const at = (parseWeek(week) ?? 0) - kept.problem.firstWeek;
  if (!now || !sameProblem(pinnedTo(now, room, at), kept.problem)) return null;
  const closed = kept.schedule.opens.flatMap((opens, index) => (opens === null ? [index] : []));
  const unmet = closed.filter((index) => kept.problem.rooms[index]?.pinned !== null);
  if (checkSchedule(kept.problem, kept.schedule, unmet).length > 0) return null;
  const { plan } = open.session.snapshot();
  const others = kept.moved.map(({ room: other, to }) => ({
    fill: kept.problem.rooms[other]?.fill ?? '',
    week: formatWeek(kept.problem.firstWeek + to),
  }));
  const pins = [{ fill, week }, ...others].flatMap((one) => pinTo(plan, one.fill, one.week));
  return pinsAnswer(state, open, pins, fill);
}
