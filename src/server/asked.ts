import type { Position } from 'vscode-languageserver';
import type { PlanText } from '../plan/model';
import { toOffset } from './lsp';
import type { OpenPlan } from './plan-sessions';
import type { ServerState } from './server-state';
import type { PlacePoint } from './services/entries';

/** A document of a plan, as a request finds it. */
export interface Asked {
  readonly plan: OpenPlan;
  readonly text: PlanText;
  point(position: Position): PlacePoint;
}

/** The plan a request is about; undefined for a document that is in none. */
export async function asked(state: ServerState, uri: string): Promise<Asked | undefined> {
  await state.ready();
  const plan = state.plans.planOf(uri);
  const file = plan?.fileOf(uri);
  const text = file === undefined ? undefined : plan?.session.plan().files.get(file);
  if (!plan || !text) return undefined;
  return { plan, text, point: (position) => ({ file: text.path, offset: toOffset(text, position) }) };
}
