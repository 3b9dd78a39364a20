import type { Connection } from 'vscode-languageserver';
import { parseDay, parseWeek } from '../plan/dates';
import { checkSchedule } from '../release/checker';
import { gapToTell } from '../release/gap';
import { ToldWindows } from '../report/by-confidence';
import { newPlanText } from '../report/new-plan';
import { whatIfOpened, whyItsWeek } from '../report/other-week';
import { timelineView } from '../report/timeline';
import { asked } from './asked';
import { ofClient } from './conversation';
import { drawnBeside } from './draw-features';
import { letting } from './in-slices';
import { toOffset, toRange } from './lsp';
import { pinsAnswer } from './pins-answer';
import { planName } from './plan-sessions';
import {
  type AllowAnswer,
  type AllowParams,
  type ExplainAnswer,
  type ExplainParams,
  type NewPlanAnswer,
  type NewPlanParams,
  type OtherWeekAnswer,
  type OtherWeekParams,
  type PinsAnswer,
  type PinsParams,
  type PlanParams,
  type ReleaseProblemAnswer,
  type ReleaseResultAnswer,
  type ReleaseResultParams,
  requests,
  type TimelineAnswer,
  type TimelineParams,
} from './protocol';
import type { ServerState } from './server-state';
import { allowance } from './services/actions';
import { explainAt } from './services/explain';
import { fillAt, pinsOf, pinTo } from './services/pins';

/** Registers what only Lotwright's own clients ask. */
export function addPlanFeatures(connection: Connection, state: ServerState): void {
  const windows = new ToldWindows();
  connection.onRequest(requests.timeline, async ({ uri }: TimelineParams): Promise<TimelineAnswer | null> => {
    await state.ready();
    const open = state.plans.planOrLatest(uri);
    if (!open) return null;
    const { season, findings, revision, isSettled } = open.session.snapshot();
    // Typing goes on between slices of it, and nothing of it is worked out before a timeline is shown.
    await letting(windows.ahead(season.plan, season.keeping.values()));
    const today = state.today();
    const against = state.compared.get(open.root);
    const drawn = drawnBeside(state, open.root, season.release);
    const view = timelineView(season, [...findings], {
      revision,
      plan: `${open.root} ${state.run()}`,
      ...(today === undefined ? {} : { today }),
      ...(against && { against }),
      ...(drawn && { drawn }),
      windows,
    });
    return { root: open.root, files: Object.fromEntries(open.files()), view, isSettled };
  });

  connection.onRequest(
    requests.releaseProblem,
    async ({ uri }: PlanParams): Promise<ReleaseProblemAnswer | null> => {
      await state.ready();
      const open = state.plans.planOrLatest(uri);
      const problem = open?.session.problem();
      if (!open || !problem) return null;
      return { root: open.root, name: planName(open.session.plan(), open.root), problem };
    },
  );

  connection.onRequest(requests.releaseResult, async (params: ReleaseResultParams) =>
    ofClient(() => takeResult(state, params)),
  );

  connection.onRequest(
    requests.otherWeek,
    async ({ uri, fill, week }: OtherWeekParams): Promise<OtherWeekAnswer | null> => {
      await state.ready();
      const season = (await state.plans.planOrLatest(uri)?.session.settledSoon())?.season;
      const wanted = week === undefined ? undefined : parseWeek(week);
      if (!season) return null;
      const answer = wanted === undefined ? whyItsWeek(season, fill) : whatIfOpened(season, fill, wanted);
      return answer ?? null;
    },
  );

  connection.onRequest(requests.newPlan, ({ name, units, harvest }: NewPlanParams): NewPlanAnswer | null => {
    const day = parseDay(harvest);
    return day === undefined ? null : { text: newPlanText({ name, units, harvest: day }) };
  });

  connection.onRequest(requests.pins, async (params: PinsParams) => pins(state, params));

  connection.onRequest(
    requests.explain,
    async ({ uri, position }: ExplainParams): Promise<ExplainAnswer | null> => {
      const found = await asked(state, uri);
      if (!found) return null;
      return explainAt(found.plan.session.snapshot().season, found.point(position)) ?? null;
    },
  );

  connection.onRequest(
    requests.allow,
    async ({ uri, position, code, reason }: AllowParams): Promise<AllowAnswer | null> => {
      const found = await asked(state, uri);
      if (!found) return null;
      const plan = found.plan.session.plan();
      const { file, offset } = found.point(position);
      const edit = allowance(plan, { file, start: offset, end: offset }, code, reason);
      return { position: toRange(plan, edit.at).start, newText: edit.newText };
    },
  );
}

/** The schedule is first brought in line with the text: weeks of another plan would be pinned else. */
async function pins(
  state: ServerState,
  { uri, fill, week, position }: PinsParams,
): Promise<PinsAnswer | null> {
  await state.ready();
  const open = state.plans.planOrLatest(uri);
  if (!open) return null;
  const { plan, season } = await open.session.settledSoon();
  const text = uri === undefined ? undefined : plan.files.get(open.fileOf(uri));
  const at =
    position && text ? fillAt(plan, { file: text.path, offset: toOffset(text, position) }) : undefined;
  const wanted = fill ?? at;
  const all = position && wanted === undefined ? [] : pinsOf(plan, season.release, wanted);
  const found = week !== undefined && fill !== undefined ? pinTo(plan, fill, week) : all;
  return pinsAnswer(state, open, found, wanted);
}

/** A schedule from a worker counts only when the independent checker finds nothing against it. */
async function takeResult(
  state: ServerState,
  { root, problem, result }: ReleaseResultParams,
): Promise<ReleaseResultAnswer> {
  const open = state.plans.withRoot(root);
  if (!open) return { accepted: false, message: 'The plan has been closed meanwhile.' };
  const [violation] = checkSchedule(problem, result.schedule, result.unmet ?? []);
  if (violation)
    return { accepted: false, message: `The schedule did not pass its check: ${violation.message}` };
  if (!(await open.session.accept({ problem, result })))
    return {
      accepted: false,
      message:
        'The plan was changed while release weeks were looked for. Find them again for the plan as it is.',
    };
  return { accepted: true, message: worth(gapToTell(result, result.schedule.value), result.provenOptimal) };
}

function worth(gap: number | undefined, proven: boolean): string {
  if (proven) return 'Release weeks found; no schedule is worth more.';
  if (gap === undefined) return 'Release weeks found; they are worth nothing, and more may be had.';
  return `Release weeks found; no schedule can be worth more than ${(100 * gap).toFixed(1)} % above this one.`;
}
