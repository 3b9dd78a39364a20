import type { Trial } from './causes';
import type { Side } from './side';
import type { Touched } from './touched';

/** More edits than so many are made one upon the other instead of each alone. */
export const MOST_ALONE = 6;
/** More edits than so many are made in bundles. */
export const MOST_STEPS = 24;
/** Bundles, where there are more edits. */
const MOST_BUNDLES = 8;

/** A few edits, each tried alone on the old plan, so that what they do together beyond that is known too. */
export function eachAlone(
  touched: readonly Touched[],
  old: Side,
  evaluate: (edits: ReadonlySet<number>) => Side,
): Trial[] {
  if (touched.length < 2) return [];
  return touched.map((_, edit) => ({ edits: [edit], from: old, to: evaluate(new Set([edit])) }));
}

/** An edit or a bundle of them, and what the old plan comes to with it and all before; undefined for the last: the new plan. */
export interface Step {
  readonly edits: readonly number[];
  readonly to: Side | undefined;
}

/**
 * Many edits made one upon the other until the new plan is reached, and very many in bundles: each step is what its edits
 * do after those before, and the steps add up to the whole. Which edit of a bundle does it cannot be told.
 */
export function stepsOf(touched: readonly Touched[], evaluate: (edits: ReadonlySet<number>) => Side): Step[] {
  const bundles = touched.length <= MOST_STEPS ? touched.map((_, edit) => [edit]) : bundlesOf(touched);
  const made = new Set<number>();
  return bundles.map((edits, index) => {
    for (const edit of edits) made.add(edit);
    return { edits, to: index === bundles.length - 1 ? undefined : evaluate(made) };
  });
}

/** Steps as trials, from the old plan to the new one. */
export function asTrials(
  steps: readonly Step[],
  { old, now }: { readonly old: Side; readonly now: Side },
): Trial[] {
  return steps.map(({ edits, to }, index) => ({
    edits,
    from: steps[index - 1]?.to ?? old,
    to: to ?? now,
  }));
}

/**
 * Edits of one bundle touch other fills and other varieties: what follows for a variety is then that one edit's. Edits
 * that find no such bundle share the one in which they meet fewest others.
 */
function bundlesOf(touched: readonly Touched[]): number[][] {
  const bundles: number[][] = [];
  const order = touched
    .map((_, edit) => edit)
    .sort((a, b) => weight(touched[b]) - weight(touched[a]) || a - b);
  for (const edit of order) {
    const meets = (bundle: readonly number[]) =>
      bundle.filter((other) => meet(touched[edit], touched[other])).length;
    const free = bundles.find((bundle) => meets(bundle) === 0);
    if (free) free.push(edit);
    else if (bundles.length < MOST_BUNDLES) bundles.push([edit]);
    else {
      const least = bundles.reduce((best, bundle) => (meets(bundle) < meets(best) ? bundle : best));
      least.push(edit);
    }
  }
  return bundles.map((bundle) => bundle.sort((a, b) => a - b));
}

function weight(touched: Touched | undefined): number {
  return touched ? touched.tags.size + (touched.everything ? 1000 : 0) : 0;
}

/** Edits meet in a fill or a variety; shared equipment alone does not keep them apart. */
function meet(a: Touched | undefined, b: Touched | undefined): boolean {
  if (!a || !b) return false;
  if (a.everything || b.everything) return true;
  return [...a.tags].some(
    (tag) => (tag.startsWith('fill:') || tag.startsWith('variety:')) && b.tags.has(tag),
  );
}
