import type { Connection } from 'vscode-languageserver';
import { checkSchedule } from '../release/checker';
import { drawInputs } from '../release/draw-inputs';
import type { DrawSpan, DrawTally } from '../release/draw-tally';
import { inputsToWire } from '../release/draws-wire';
import { gapOf } from '../release/gap';
import type { ReleaseProblem } from '../release/types';
import { uncertaintyOf } from '../release/uncertainty';
import { drawnJson, drawnMarkdown } from '../report/drawn-markdown';
import { displayUnits } from '../report/explain';
import { type DrawnBeside, type DrawnSeasons, percent } from '../report/timeline-drawn';
import { ofClient } from './conversation';
import type { KeptDraws } from './kept-draws';
import { type Release, sameProblem } from './kept-schedule';
import { type OpenPlan, planName } from './plan-sessions';
import { type PlanParams, requests } from './protocol';
import type {
  DrawnSeasonsAnswer,
  DrawsJobAnswer,
  DrawsResultAnswer,
  DrawsResultParams,
} from './protocol-draws';
import type { ServerState } from './server-state';

/** Registers drawing seasons: they are drawn with the client, in workers. */
export function addDrawFeatures(connection: Connection, state: ServerState): void {
  connection.onRequest(requests.drawsJob, async ({ uri }: PlanParams): Promise<DrawsJobAnswer | null> => {
    await state.ready();
    const open = state.plans.planOrLatest(uri);
    return open ? await handOut(state, open) : null;
  });
  connection.onRequest(requests.drawsResult, async (params: DrawsResultParams) =>
    ofClient(() => take(state, params)),
  );
  connection.onRequest(
    requests.drawnSeasons,
    async ({ uri }: PlanParams): Promise<DrawnSeasonsAnswer | null> => {
      await state.ready();
      const open = state.plans.planOrLatest(uri);
      const season = (await open?.session.settledSoon())?.season;
      const drawn = open && drawnBeside(state, open.root, season?.release);
      return open && drawn ? { root: open.root, older: drawn.older, ...drawnJson(drawn.seasons) } : null;
    },
  );
}

/** The seasons drawn last of a plan, and whether they are of the schedule that it has now. */
export function drawnBeside(
  state: ServerState,
  root: string,
  release: Release | undefined,
): DrawnBeside | undefined {
  const seasons = state.draws.get(root)?.seasons;
  return seasons && { seasons, older: !release || !isOf(seasons, release) };
}

async function handOut(state: ServerState, open: OpenPlan): Promise<DrawsJobAnswer | null> {
  const { plan, season } = await open.session.settledSoon();
  const { release } = season;
  if (!release) return null;
  const kept = state.draws.get(open.root);
  const job = (kept?.job ?? 0) + 1;
  const { problem, result } = release;
  const inputs = drawInputs(plan, season.keeping, problem);
  state.draws.set(open.root, { ...kept, job, release, inputs });
  return {
    root: open.root,
    name: planName(plan, open.root),
    job,
    problem,
    inputs: inputsToWire(inputs),
    schedule: result.schedule,
    unmet: result.unmet ?? [],
  };
}

async function take(state: ServerState, params: DrawsResultParams): Promise<DrawsResultAnswer> {
  const refused = (message: string): DrawsResultAnswer => ({ accepted: false, message });
  const open = state.plans.withRoot(params.root);
  const kept = state.draws.get(params.root);
  if (!open || !kept) return refused('The plan has been closed meanwhile.');
  const now = (await open.session.settledSoon()).season.release;
  const { problem, result } = kept.release;
  if (kept.job !== params.job || !now || !isOf({ problem, schedule: result.schedule }, now))
    return refused('The plan was changed while seasons were drawn. Draw them again for the plan as it is.');
  const tallies = [params.tally, ...(params.across ? [params.across.expected] : [])];
  if (!tallies.every((tally) => fits(tally, problem, params.span)))
    return refused('The seasons drawn do not fit the plan. Draw them again.');
  const found = params.across?.found.schedule;
  if (found && found !== result.schedule) {
    const [violation] = checkSchedule(problem, found, result.unmet ?? []);
    if (violation) return refused(`The schedule did not pass its check: ${violation.message}`);
  }
  const seasons = seasonsOf(kept, params);
  if (found && !(await open.session.accept(withSchedule(kept.release, found))))
    return refused('The plan was changed while a schedule was sought. Seek it again for the plan as it is.');
  state.draws.set(params.root, { ...kept, seasons });
  const { plan } = open.session.snapshot();
  return {
    accepted: true,
    message: `${seasons.drawn.draws} seasons drawn: some week is short in ${percent(seasons.drawn.all.chance)} of them.`,
    page: {
      title: `Seasons of ${planName(plan, params.root)}`,
      markdown: drawnMarkdown(seasons, displayUnits(plan)),
    },
  };
}

function seasonsOf({ release, inputs }: KeptDraws, params: DrawsResultParams): DrawnSeasons {
  const { problem, result } = release;
  const { span, tally, across } = params;
  const schedule = across?.found.schedule ?? result.schedule;
  const before = result.schedule;
  const told = (one: DrawTally, of: typeof schedule) => uncertaintyOf(problem, of, inputs, one, span.seed);
  return {
    problem,
    schedule,
    ranges: inputs.ranges,
    drawn: told(tally, schedule),
    ...(across && {
      comparison: {
        draws: across.draws,
        across: across.found,
        before,
        expected: told(across.expected, before),
      },
    }),
  };
}

/** What is proven of another schedule: the bound stands, the distance from it is its own. */
function withSchedule({ problem, result }: Release, schedule: Release['result']['schedule']): Release {
  const gap = gapOf(schedule.value, result.bound);
  return { problem, result: { ...result, schedule, gap, provenOptimal: result.provenOptimal && gap === 0 } };
}

function isOf({ problem, schedule }: Pick<DrawnSeasons, 'problem' | 'schedule'>, now: Release): boolean {
  if (problem !== now.problem && !sameProblem(problem, now.problem)) return false;
  return schedule === now.result.schedule || JSON.stringify(schedule) === JSON.stringify(now.result.schedule);
}

/** What a client sends is not trusted: the numbers must be as many as the plan has weeks, rooms and varieties. */
function fits({ values, varieties, all, soft }: DrawTally, problem: ReleaseProblem, span: DrawSpan): boolean {
  const names = new Set(problem.demands.map(({ product }) => problem.products[product]?.variety));
  return (
    values.length === span.count &&
    values.length > 0 &&
    values.every(Number.isFinite) &&
    soft.length === problem.rooms.length &&
    varieties.length === names.size &&
    [all, ...varieties].every(({ weeks }) => weeks.length === problem.weeks)
  );
}
