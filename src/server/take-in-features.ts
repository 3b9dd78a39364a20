import type { Connection } from 'vscode-languageserver';
import { displayUnits } from '../report/explain';
import { takeInMarkdown } from '../report/take-in-markdown';
import { takeInReport } from '../report/take-in-report';
import { editsByFile, takeIn } from '../take-in/take-in';
import { toEdits } from './lsp';
import { planName } from './plan-sessions';
import type { PlanParams } from './protocol';
import {
  type TablesAnswer,
  type TakeInAnswer,
  type TakeInParams,
  tablesRequest,
  takeInRequest,
} from './protocol-take-in';
import type { ServerState } from './server-state';

/** Registers taking files into the plan, as the command line does: the client shows the page and makes the edits. */
export function addTakeInFeatures(connection: Connection, state: ServerState): void {
  connection.onRequest(tablesRequest, async ({ uri }: PlanParams): Promise<TablesAnswer | null> => {
    await state.ready();
    const open = state.plans.planOrLatest(uri);
    if (!open) return null;
    const plan = open.session.plan();
    const tables = [...plan.tables.values()].map(({ id, holds }) => ({ id, ...(holds && { holds }) }));
    return { name: planName(plan, open.root), tables };
  });
  connection.onRequest(takeInRequest, async (params: TakeInParams): Promise<TakeInAnswer | null> => {
    await state.ready();
    return takenIn(state, params);
  });
}

function takenIn(state: ServerState, { uri, table, source, text }: TakeInParams): TakeInAnswer | null {
  const open = state.plans.planOrLatest(uri);
  const plan = open?.session.plan();
  const layout = plan?.tables.get(table);
  if (!open || !plan || !layout?.holds) return null;
  const taken = takeIn(plan, { ...layout, holds: layout.holds }, text);
  const units = displayUnits(plan).system;
  const report = takeInReport(plan, { ...layout, holds: layout.holds }, taken, {
    source,
    written: false,
    units,
  });
  const edits = toEdits(plan, [...editsByFile(taken.changes).values()].flat(), open.uriOf);
  const versions = Object.keys(edits).flatMap((document) => {
    const version = state.version(document);
    return version === undefined ? [] : [[document, version] as const];
  });
  return {
    page: { title: `Take in ${source}`, markdown: takeInMarkdown(report) },
    rows: report.rows,
    changes: report.changes.length,
    faults: report.faults.length,
    edits,
    versions: Object.fromEntries(versions),
  };
}
