import type { Connection } from 'vscode-languageserver';
import { claimWords, showerOf } from '../expect/words';
import type { Expectation } from '../plan/expect-model';
import type { Plan } from '../plan/model';
import { type ExpectationRow, expectReport } from '../report/expect-report';
import { amountsText, toldText } from '../report/expect-text';
import { cautionInShort } from '../room/caution';
import { toRange } from './lsp';
import { type OpenPlan, planName } from './plan-sessions';
import {
  type ExpectationsAnswer,
  type ExpectationsParams,
  expectationsRequest,
  type ToldExpectation,
} from './protocol-expect';
import type { ServerState } from './server-state';

/** Registers what the editor's test explorer asks: the promises of a plan, and what came of them. */
export function addExpectFeatures(connection: Connection, state: ServerState): void {
  connection.onRequest(
    expectationsRequest,
    async ({ root, judge }: ExpectationsParams): Promise<ExpectationsAnswer | null> => {
      await state.ready();
      const open = state.plans.withRoot(root);
      if (!open) return null;
      if (!judge) return answer(open, open.session.plan(), new Map());
      const { plan, season, findings } = await open.session.settledSoon();
      const { expectations, caution } = expectReport(season, findings);
      const rows = new Map(expectations.map((row) => [row.id, row]));
      return answer(open, plan, rows, caution === undefined ? undefined : cautionInShort);
    },
  );
}

function answer(
  open: OpenPlan,
  plan: Plan,
  rows: ReadonlyMap<string, ExpectationRow>,
  caution?: string,
): ExpectationsAnswer {
  return {
    root: open.root,
    name: planName(plan, open.root),
    expectations: [...plan.expectations.values()].flatMap((one) => {
      const told = toldExpectation(open, plan, one, rows.get(one.id), caution);
      return told ? [told] : [];
    }),
  };
}

function toldExpectation(
  open: OpenPlan,
  plan: Plan,
  { id, at, claims }: Expectation,
  row: ExpectationRow | undefined,
  caution: string | undefined,
): ToldExpectation | undefined {
  const uri = open.uriOf(at.file);
  if (uri === undefined) return undefined;
  const [claim] = claims;
  const words = claim ? claimWords(claim, showerOf(plan)) : '';
  const verdict = row && {
    state: row.state,
    message: messageOf(row, caution),
    ...(row.promised && row.measured
      ? { promised: toldText(row.promised), measured: toldText(row.measured) }
      : {}),
    at: { line: row.place.line - 1, character: row.place.column - 1 },
  };
  return { id, claim: words, uri, ...toRange(plan, at), ...(verdict && { verdict }) };
}

function messageOf(row: ExpectationRow, caution: string | undefined): string {
  const amounts = row.promised && row.measured ? [amountsText(row)] : [];
  return [
    ...amounts,
    row.why,
    ...row.cures.map(({ text }) => text),
    ...(row.because === undefined ? [] : [`Promised because: ${row.because}`]),
    ...(caution === undefined ? [] : [caution]),
  ].join('\n\n');
}
