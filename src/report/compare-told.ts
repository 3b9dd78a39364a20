import { comparePlans } from '../compare/compare';
import { toldOnce } from '../compare/told-once';
import { readPlan } from '../plan/read';
import { countText, headlineOf } from './compare-headline';
import { compareMarkdown, MOST_CHARACTERS } from './compare-markdown';
import { placeIn } from './compare-report';
import { consequenceText } from './compare-words';
import { displayUnits } from './explain';

/** A plan as texts, and what it is called. */
export interface PlanTexts {
  readonly name: string;
  readonly files: readonly { readonly path: string; readonly text: string }[];
}

/** One consequence, and where the finding it is of stands. */
export interface ToldConsequence {
  readonly text: string;
  readonly direction: 'worse' | 'better' | 'neither';
  readonly gravity: string;
  /** Path in the plan, and line from 1. */
  readonly at?: { readonly file: string; readonly line: number };
}

/** What a change of a plan does, ready to be shown in an editor. */
export interface ToldChange {
  /** The gravest consequence with its amount; of a plan that says the same, that nothing changes. */
  readonly headline: string;
  readonly cause: string;
  /** `3 changes; what follows: 2 for the worse`. */
  readonly counts: string;
  readonly changes: number;
  /** The gravest first, no more than `MOST_TOLD`. */
  readonly consequences: readonly ToldConsequence[];
  /** The page as Markdown; empty where nothing changes. */
  readonly markdown: string;
}

export const MOST_TOLD = 20;

/** Compares two plans as texts. `linkBase` stands before the paths in the page's links. */
export function tellChange(old: PlanTexts, now: PlanTexts, linkBase: string, seed = 1): ToldChange {
  const plans = {
    old: { name: old.name, plan: readPlan(old.files) },
    now: { name: now.name, plan: readPlan(now.files) },
  };
  const units = displayUnits(plans.now.plan);
  const { comparison } = comparePlans(plans.old.plan, plans.now.plan, { seed, courses: true });
  const { text, cause } = headlineOf(comparison, units);
  const isSame = comparison.changes.length === 0 && comparison.consequences.length === 0;
  return {
    headline: isSame ? 'Nothing of the plan has changed' : text,
    cause,
    counts: countText(comparison),
    changes: comparison.changes.length,
    consequences: toldOnce(comparison.consequences)
      .slice(0, MOST_TOLD)
      .map((one) => {
        const finding = one.newFinding ?? one.oldFinding;
        const at = finding && placeIn(plans, finding.at);
        return {
          text: consequenceText(one, units),
          direction: one.direction,
          gravity: one.gravity,
          ...(at && { at: { file: at.file, line: at.line } }),
        };
      }),
    markdown: compareMarkdown(comparison, plans, {
      units,
      linkBase,
      marker: now.name,
      most: MOST_CHARACTERS,
    }),
  };
}
