import {
  type CancellationToken,
  type CodeAction,
  CodeActionKind,
  type Connection,
  type Position,
} from 'vscode-languageserver';
import { checkFill } from '../fill/checker';
import { newFills } from '../fill/new-fills';
import type { FillProblem, ProposedRoom } from '../fill/types';
import { computeSeason } from '../findings/compute';
import { judgeFillsInSteps } from '../findings/fills/judge';
import { fillProblemOf } from '../findings/fills/problem';
import { fillRemarks } from '../findings/fills/remarks';
import type { ComputedSeason } from '../findings/types';
import type { Day } from '../plan/dates';
import type { Plan } from '../plan/model';
import { fillMarkdown } from '../report/fill-markdown';
import { fillReport } from '../report/fill-report';
import { type Asked, asked } from './asked';
import { ofClient } from './conversation';
import { inSlices } from './in-slices';
import { toEdits } from './lsp';
import { type OpenPlan, planName } from './plan-sessions';
import {
  type AcceptFillsAnswer,
  type AcceptFillsParams,
  clientCommands,
  type FillPageAnswer,
  type FillPageParams,
  type FillProblemAnswer,
  type FillProblemParams,
  type FillResultAnswer,
  type FillResultParams,
  requests,
} from './protocol';
import type { ServerState } from './server-state';
import { acceptRooms, type KeptFills, openRooms, proposedRoomAt, whatGoesIn } from './services/fills';

/** Registers proposing fills: the search itself runs with the client, in a worker. */
export function addFillFeatures(connection: Connection, state: ServerState): void {
  connection.onRequest(
    requests.fillProblem,
    async ({ uri, topUp }: FillProblemParams): Promise<FillProblemAnswer | null> => {
      await state.ready();
      const open = state.plans.planOrLatest(uri);
      if (!open) return null;
      const { problem } = problemNow(state, open, topUp === true);
      return { root: open.root, name: planName(open.session.plan(), open.root), problem };
    },
  );
  connection.onRequest(requests.fillResult, async (params: FillResultParams, token: CancellationToken) =>
    ofClient(() => takeFills(state, params, token)),
  );
  connection.onRequest(requests.fillPage, async ({ root }: FillPageParams) => pageLeft(state, root));
  connection.onRequest(requests.acceptFills, async (params: AcceptFillsParams) => accept(state, params));
}

/** Seed of the quick schedules that a proposal is held against: the same plan always gives the same. */
const SEED = 1;

interface ProblemNow {
  readonly season: ComputedSeason;
  readonly problem: FillProblem;
}

const problems = new WeakMap<Plan, Map<string, ProblemNow>>();

/**
 * The problem with a schedule of its own: the one that the editor shows may be another one a moment later. Worked out
 * once for a plan: it is asked for before the search and after it.
 */
function problemNow(state: ServerState, { session }: OpenPlan, topUp: boolean): ProblemNow {
  const { plan } = session.snapshot();
  const today = state.today();
  const known = problems.get(plan) ?? new Map<string, ProblemNow>();
  problems.set(plan, known);
  const key = `${topUp} ${today}`;
  const found = known.get(key) ?? problemOf(plan, topUp, today);
  known.set(key, found);
  return found;
}

function problemOf(plan: Plan, topUp: boolean, today: Day | undefined): ProblemNow {
  const season = computeSeason(plan, { release: 'quick', seed: SEED });
  return { season, problem: fillProblemOf(season, { topUp, today }) };
}

const CHANGED = 'The plan was changed while fills were looked for. Propose them again for the plan as it is.';

function remarksOn(
  state: ServerState,
  season: ComputedSeason,
  { problem, result, topUp, judged }: Omit<KeptFills, 'remarks'>,
): string[] {
  return fillRemarks(season, problem, result.proposal, {
    topUp,
    today: state.today(),
    takenOut: judged.takenOut,
    ofSchedule: judged.ofSchedule,
    inTheOpen: judged.inTheOpen,
    heavier: judged.heavier,
  });
}

/** A proposal from a worker counts only when the independent checker finds nothing against it. Ends when it is cancelled. */
async function takeFills(
  state: ServerState,
  { root, topUp, problem, result: found }: FillResultParams,
  token: CancellationToken,
): Promise<FillResultAnswer> {
  const refused = (message: string): FillResultAnswer => ({ accepted: false, message, rooms: [] });
  const open = state.plans.withRoot(root);
  if (!open) return refused('The plan has been closed meanwhile.');
  const [violation] = checkFill(problem, found.proposal);
  if (violation) return refused(`The proposal did not pass its check: ${violation.message}`);
  const before = open.session.snapshot().plan;
  const { season: asIs, problem: now } = problemNow(state, open, topUp === true);
  if (JSON.stringify(now) !== JSON.stringify(problem)) return refused(CHANGED);
  const steps = judgeFillsInSteps(asIs.plan, now, found, { seed: SEED, release: asIs.release });
  const judged = await inSlices(steps, () => token.isCancellationRequested);
  if (!judged) return refused('The fill proposal was cancelled.');
  const { result } = judged;
  const { plan, season, findings } = open.session.snapshot();
  if (plan !== before) return refused(CHANGED);
  const remarks = remarksOn(state, asIs, { problem: now, result, topUp: topUp === true, judged });
  state.proposedFills.set(root, { problem: now, result, topUp: topUp === true, judged, remarks });
  const fills = newFills(plan, now, result.proposal.rooms);
  const report = fillReport(season, { problem: now, result, fills }, findings, {
    violations: [],
    judged,
    remarks,
    today: state.today(),
  });
  const { binsPlaced, bins, roomsUsed } = report.totals;
  return {
    accepted: true,
    message:
      roomsUsed === 0
        ? `None of ${bins} bins goes into a room: the page of the proposal says why.`
        : `${binsPlaced} of ${bins} bins go into ${roomsUsed} rooms.`,
    page: { title: `Fills of ${planName(plan, root)}`, markdown: fillMarkdown(report) },
    rooms: result.proposal.rooms.map(({ room }) => room),
  };
}

/** The page of the proposal kept, with what is left of it to accept. */
async function pageLeft(state: ServerState, root: string): Promise<FillPageAnswer | null> {
  await state.ready();
  const open = state.plans.withRoot(root);
  const kept = state.proposedFills.get(root);
  if (!open || !kept) return null;
  const { plan, season, findings } = open.session.snapshot();
  const left = roomsLeft(state, open, kept).map(({ room }) => room);
  const { problem, result, judged, remarks } = kept;
  const all = result.proposal.rooms;
  const proposed = { problem, result, fills: newFills(plan, problem, all) };
  const report = fillReport(season, proposed, findings, {
    violations: [],
    rooms: left,
    judged,
    remarks,
    today: state.today(),
  });
  const gone = all.flatMap(({ room }) => (left.includes(room) ? [] : [room]));
  return { title: `Fills of ${planName(plan, root)}`, markdown: fillMarkdown(report, gone) };
}

async function accept(
  state: ServerState,
  { uri, room, position }: AcceptFillsParams,
): Promise<AcceptFillsAnswer | null> {
  await state.ready();
  const open = state.plans.planOrLatest(uri);
  const kept = open && state.proposedFills.get(open.root);
  if (!open || !kept) return null;
  const { plan } = open.session.snapshot();
  const rooms = roomsLeft(state, open, kept);
  const found = position && uri !== undefined ? await asked(state, uri) : undefined;
  const at = found && position ? proposedRoomAt(plan, rooms, found.point(position)) : undefined;
  const wanted = room ?? at?.room;
  const all = position === undefined && room === undefined;
  const chosen = all ? rooms : rooms.filter((one) => one.room === wanted);
  const accepted = acceptRooms(plan, open.session.snapshot().season.fruit, kept, chosen, state.today());
  const edits = toEdits(plan, accepted?.edits ?? [], open.uriOf);
  const versions = Object.keys(edits).flatMap((file) => {
    const version = state.version(file);
    return version === undefined ? [] : [[file, version] as const];
  });
  return {
    root: open.root,
    name: planName(plan, open.root),
    open: rooms.map((one) => ({ room: one.room, what: whatGoesIn(one) })),
    rooms: accepted?.rooms ?? [],
    edits,
    versions: Object.fromEntries(versions),
  };
}

function roomsLeft(state: ServerState, { session }: OpenPlan, kept: KeptFills): ProposedRoom[] {
  const { plan, season } = session.snapshot();
  return openRooms(plan, season.fruit, kept, state.today());
}

/** Over a room, or a lot, of the proposal: to fill the room as proposed. */
export function fillActions(state: ServerState, found: Asked, at: Position): CodeAction[] {
  const kept = state.proposedFills.get(found.plan.root);
  if (!kept) return [];
  const { plan, season } = found.plan.session.snapshot();
  const proposed = proposedRoomAt(plan, roomsLeft(state, found.plan, kept), found.point(at));
  if (!proposed) return [];
  const title = `Put these lots into ${proposed.room}: ${whatGoesIn(proposed)}`;
  const kind = CodeActionKind.RefactorRewrite;
  // The edits are only worked out once they are asked for, where the client can ask.
  if (state.options().clientCommands)
    return [
      { title, kind, command: { title, command: clientCommands.acceptFill, arguments: [proposed.room] } },
    ];
  const accepted = acceptRooms(plan, season.fruit, kept, [proposed], state.today());
  return accepted
    ? [{ title, kind, edit: { changes: toEdits(plan, accepted.edits, found.plan.uriOf) } }]
    : [];
}
