import type { Connection } from 'vscode-languageserver';
import { computeSeason } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import type { Plan } from '../plan/model';
import { readPlan } from '../plan/read';
import { displayUnits, explainFigure } from '../report/explain';
import { findThing } from '../report/find-thing';
import { cardKeyOf, roomCard } from '../report/room-card';
import { seasonCard } from '../report/season-card';
import { thingsOf } from '../report/things';
import { timelineView } from '../report/timeline';
import { applyScenario } from '../scenario/apply';
import { toOffset } from './lsp';
import { type OpenPlan, planName } from './plan-sessions';
import {
  type CompareAnswer,
  type CompareParams,
  type ExplainFigureParams,
  type FigureAnswer,
  type PlaceParams,
  type PlanParams,
  type PlanTextsAnswer,
  type Position,
  type RoomCardAnswer,
  type RoomCardParams,
  requests,
  type SeasonCardAnswer,
} from './protocol';
import type { ServerState } from './server-state';
import { cursorAt } from './services/cursor';
import { entryAround } from './services/subject';

/** Registers what the cards of rooms and of the season ask. */
export function addCardFeatures(connection: Connection, state: ServerState): void {
  connection.onRequest(
    requests.roomCard,
    async ({ uri, key, position }: RoomCardParams): Promise<RoomCardAnswer | null> => {
      await state.ready();
      const open = state.plans.planOrLatest(uri);
      if (!open) return null;
      const { season, findings, revision, isSettled } = await open.session.shown();
      const wanted =
        key ?? (uri !== undefined && position ? keyAt(open, season, season.plan, uri, position) : undefined);
      const readings = await state.readings.of(open);
      const watch = await state.readings.watch(open);
      const card =
        wanted === undefined ? undefined : roomCard(season, findings, wanted, revision, readings, watch);
      return card ? { root: open.root, card, isSettled } : null;
    },
  );

  connection.onRequest(requests.rowAt, async ({ uri, position }: PlaceParams): Promise<string | null> => {
    await state.ready();
    const open = state.plans.planOrLatest(uri);
    // The caret moves far more often than rooms come and go: nothing is computed for it.
    const season = open?.session.latestSeason();
    return (open && season && keyAt(open, season, open.session.plan(), uri, position)) ?? null;
  });

  connection.onRequest(requests.seasonCard, async ({ uri }: PlanParams): Promise<SeasonCardAnswer | null> => {
    await state.ready();
    const open = state.plans.planOrLatest(uri);
    if (!open) return null;
    const { season, findings, revision, isSettled } = await open.session.shown();
    return { root: open.root, card: seasonCard(season, findings, revision), isSettled };
  });

  connection.onRequest(requests.planTexts, async ({ uri }: PlanParams): Promise<PlanTextsAnswer | null> => {
    await state.ready();
    const open = state.plans.planOrLatest(uri);
    if (!open) return null;
    const { plan } = open.session.snapshot();
    const files = [...open.files()].map(([path, at]) => ({
      path,
      uri: at,
      text: plan.files.get(path)?.text ?? '',
    }));
    return { root: open.root, name: planName(plan, open.root), files, scenarios: [...plan.scenarios.keys()] };
  });

  connection.onRequest(requests.compare, async (params: CompareParams) => compare(state, params));

  connection.onRequest(
    requests.explainFigure,
    async ({ uri, figure }: ExplainFigureParams): Promise<FigureAnswer | null> => {
      await state.ready();
      const open = state.plans.planOrLatest(uri);
      if (!open) return null;
      const { plan, season } = await open.session.settledSoon();
      const found = findThing(thingsOf(season), figure);
      if (found.kind !== 'figure') return null;
      const { name } = found.figure.figure;
      const text = explainFigure(found.figure.figure, plan, displayUnits(plan).system);
      return { title: `${found.thing.id}: ${name}`, text };
    },
  );
}

/** Computes the other state once; the timeline is then told against it until there is none. */
async function compare(state: ServerState, { uri, against }: CompareParams): Promise<CompareAnswer | null> {
  await state.ready();
  const open = state.plans.planOrLatest(uri);
  if (!open) return null;
  if (!against) {
    state.compared.delete(open.root);
    return { root: open.root, note: '' };
  }
  const other = otherPlan(open, against);
  if (!other) return null;
  const { label } = other;
  const season = computeSeason(other.plan);
  state.compared.set(open.root, { label, season });
  const { season: now, findings, revision } = await open.session.settledSoon();
  const view = timelineView(now, findings, { revision, against: { label, season } });
  return { root: open.root, note: view.against?.note ?? '' };
}

/** Another text of the plan, or the plan with a scenario laid over it; undefined for a scenario it does not have. */
function otherPlan(
  open: OpenPlan,
  against: NonNullable<CompareParams['against']>,
): { readonly label: string; readonly plan: Plan } | undefined {
  if ('files' in against) return { label: against.label, plan: readPlan(against.files) };
  const { plan } = open.session.snapshot();
  const scenario = plan.scenarios.get(against.scenario);
  return scenario && { label: `scenario ${scenario.id}`, plan: applyScenario(plan, scenario).plan };
}

/** The row's key of the fill, room or lot at a place. */
function keyAt(
  open: OpenPlan,
  season: ComputedSeason,
  plan: Plan,
  uri: string,
  position: Position,
): string | undefined {
  const text = plan.files.get(open.fileOf(uri));
  const place = text && cursorAt(text.text, toOffset(text, position));
  const subject = place && entryAround(place);
  return subject && cardKeyOf(season, subject.section, subject.id);
}
