import { applyEdits } from '../plan/edits';
import type { Plan } from '../plan/model';
import type { Problem, TextEdit } from '../plan/problem';
import { readPlan } from '../plan/read';
import { takeDemand } from './demand';
import { takeMaturity } from './maturity';
import { takePacked } from './packed';
import { takeProgress } from './progress';
import { readTable } from './read-table';
import { takeReceipts } from './receipts';
import { wouldNotRead } from './records';
import { takeSales } from './sales';
import { takeSamples } from './samples';
import { faultsAt } from './sound-rows';
import type { RowFault, TableChange, TableLayout, TakenIn } from './types';

const TAKE = {
  receipts: takeReceipts,
  maturity: takeMaturity,
  demand: takeDemand,
  progress: takeProgress,
  samples: takeSamples,
  packed: takePacked,
  sales: takeSales,
} as const;

/**
 * What a file of comma-separated values changes in the plan: by a layout that the plan keeps, with the edits that make
 * it so, every comment and line of the plan otherwise left. Nothing is written here. Values that the plan would not
 * accept (a firmness of 900 N) are faults of their rows.
 */
export function takeIn(plan: Plan, layout: TableLayout, text: string): TakenIn {
  const { rows, faults, read } = readTable(text, layout);
  const taken = TAKE[layout.holds](plan, rows, layout);
  const { kept, refused } = acceptable(plan, taken.changes);
  return {
    ...taken,
    rows: read,
    changes: kept,
    faults: [...faults, ...taken.faults, ...refused].sort((a, b) => a.line - b.line),
  };
}

/**
 * The changes after which the plan still reads, and a fault for each row of an entry that would bring it a problem it had
 * not. Found by halves: a file has few of those.
 */
function acceptable(
  plan: Plan,
  changes: readonly TableChange[],
): { kept: TableChange[]; refused: RowFault[] } {
  const [problem] = changes.length === 0 ? [] : newProblems(plan, changes);
  if (!problem) return { kept: [...changes], refused: [] };
  const entries = [...new Set(changes.map(({ entry }) => entry))];
  if (entries.length === 1) {
    const lines = [...new Set(changes.flatMap((change) => change.lines))].sort((a, b) => a - b);
    return { kept: [], refused: faultsAt(lines, wouldNotRead(entries[0] ?? '', problem.message)) };
  }
  const half = new Set(entries.slice(0, entries.length / 2));
  const halves = [true, false].map((first) =>
    acceptable(
      plan,
      changes.filter(({ entry }) => half.has(entry) === first),
    ),
  );
  return {
    kept: halves.flatMap(({ kept }) => kept),
    refused: halves.flatMap(({ refused }) => refused),
  };
}

function newProblems(plan: Plan, changes: readonly TableChange[]): Problem[] {
  const after = readPlan([...filesAfter(plan, changes)].map(([path, text]) => ({ path, text })));
  const counts = new Map<string, number>();
  for (const { code, message } of plan.problems)
    counts.set(`${code} ${message}`, (counts.get(`${code} ${message}`) ?? 0) + 1);
  return after.problems.filter(({ code, message }) => {
    const left = counts.get(`${code} ${message}`) ?? 0;
    counts.set(`${code} ${message}`, left - 1);
    return left <= 0;
  });
}

/** The texts of the plan's files with the changes made; files without any are as they were. */
export function filesAfter(plan: Plan, changes: readonly TableChange[]): Map<string, string> {
  const edits = editsByFile(changes);
  return new Map(
    [...plan.files.values()].map(({ path, text }) => [path, applyEdits(text, edits.get(path) ?? [])]),
  );
}

export function editsByFile(changes: readonly TableChange[]): Map<string, TextEdit[]> {
  const byFile = new Map<string, TextEdit[]>();
  for (const { file, edits } of changes) byFile.set(file, [...(byFile.get(file) ?? []), ...edits]);
  return byFile;
}
