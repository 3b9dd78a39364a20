import { addFills, type NewFill } from './add-fills';
import { applyEdits } from './edits';
import type { Plan } from './model';
import type { TextEdit } from './problem';
import { readPlan } from './read';
import { topUpFills } from './top-up';

/**
 * Edits that bring fills into the plan: new ones behind its last fill, those that stand with their bins more. Undefined
 * where the text would not read as the plan with just these fills: a section in a form that cannot be added to.
 */
export function fillEdits(plan: Plan, fills: readonly NewFill[]): TextEdit[] | undefined {
  const edits = [
    ...topUpFills(
      plan,
      fills.filter(({ stands }) => stands),
    ),
    ...addFills(
      plan,
      fills.filter(({ stands }) => !stands),
    ),
  ];
  return readsWell(plan, edits, fills) ? edits : undefined;
}

function readsWell(plan: Plan, edits: readonly TextEdit[], fills: readonly NewFill[]): boolean {
  const after = readPlan(
    [...plan.files.values()].map(({ path, text }) => ({
      path,
      text: applyEdits(
        text,
        edits.filter(({ at }) => at.file === path),
      ),
    })),
  );
  const added = fills.filter(({ stands }) => !stands).length;
  return (
    fills.every((fill) => binsOf(after, fill.id) === binsOf(plan, fill.id) + binsIn(fill)) &&
    after.fills.size === plan.fills.size + added &&
    after.problems.length <= plan.problems.length
  );
}

function binsOf(plan: Plan, id: string): number {
  return (plan.fills.get(id)?.lots ?? []).reduce((sum, { bins }) => sum + bins.value, 0);
}

function binsIn({ lots }: NewFill): number {
  return lots.reduce((sum, { bins }) => sum + bins, 0);
}
