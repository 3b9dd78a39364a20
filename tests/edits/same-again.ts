import fc from 'fast-check';
import { SeasonAgain } from '../../src/findings/again/season-again';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import type { ComputedSeason } from '../../src/findings/types';
import type { Figure } from '../../src/plan/figure';
import type { Plan } from '../../src/plan/model';
import { type EditedFile, emptyPlanCache, type PlanFile, readPlan } from '../../src/plan/read';
import { changeBetween } from '../../src/plan/text/change';
import { EditedText } from '../../src/plan/text/edited-text';
import { checkReport } from '../../src/report/check-report';
import { type Edit, editedFiles, edits } from '../plan/edited';
import { type AtHand, type Base, bases, settledFor } from './bases';
import { difference, type InPlace } from './difference';

/** Somebody's edits of a plan, and what is at hand at each state: by turns, over and over. */
export interface Sequence {
  readonly base: Base;
  readonly edits: readonly Edit[];
  readonly atHand: readonly ('kept' | 'none' | 'settled')[];
  /** Lots are noticed as a whole too, as comparisons of plans do it, beside field by field, as editors do. */
  readonly asAWhole: boolean;
}

const hands = fc.array(
  fc.oneof(
    { weight: 20, arbitrary: fc.constant('kept' as const) },
    { weight: 4, arbitrary: fc.constant('none' as const) },
    { weight: 1, arbitrary: fc.constant('settled' as const) },
  ),
  { minLength: 1, maxLength: 5 },
);

const asAWhole = fc.oneof(
  { weight: 2, arbitrary: fc.constant(false) },
  { weight: 1, arbitrary: fc.constant(true) },
);

export const sequences: fc.Arbitrary<Sequence> = bases.chain((base) =>
  fc.record({ base: fc.constant(base), edits: edits(base.files), atHand: hands, asAWhole }),
);

/**
 * Reads and computes a plan again after each edit, as an editor does, and afresh. Throws where the two differ in the
 * plan, a figure, a finding or the report. Gives how many states were compared.
 */
export function sameAfterEdits({ base, edits: sequence, atHand, asAWhole }: Sequence): number {
  const cache = emptyPlanCache();
  const ways = [new SeasonAgain({ byField: true }), ...(asAWhole ? [new SeasonAgain()] : [])];
  const states = [base.files, ...editedFiles(base.files, sequence)];
  let found = base.atHand();
  let texts: readonly EditedFile[] = [];
  for (const [index, files] of states.entries()) {
    const hand = atHand[index % atHand.length];
    if (hand === 'settled' && index > 0) found = settledFor(files);
    texts = files.map((file) => asEdited(file, texts));
    const plan = readPlan(texts, cache);
    const fresh = readPlan(files);
    same('the plan', plan, fresh, wholeTexts);
    compareSeasons(ways, { plan, fresh, atHand: hand === 'none' ? {} : found });
  }
  return states.length;
}

/** The text as an editor's document comes to it: the one before with one stretch replaced. */
function asEdited({ path, text }: PlanFile, before: readonly EditedFile[]): EditedFile {
  const last = before.find((file) => file.path === path)?.text;
  if (!(last instanceof EditedText)) return { path, text: EditedText.of(text) };
  const { start, oldEnd, newEnd } = changeBetween(last.slice(0, last.length), text);
  return { path, text: last.replaced({ start, end: oldEnd, text: text.slice(start, newEnd) }) };
}

/** A text that is edited is compared by what it says, and stays in its pieces. */
function wholeTexts(key: string, value: unknown): unknown {
  return key === 'view' && value instanceof EditedText ? value.slice(0, value.length) : value;
}

const OPTIONS = { units: 'metric', failOn: 'error' } as const;

export interface State {
  /** Read with a cache. */
  readonly plan: Plan;
  /** Read without one. */
  readonly fresh: Plan;
  readonly atHand: AtHand;
}

export function compareSeasons(ways: readonly SeasonAgain[], { plan, fresh, atHand }: State): void {
  const { release, courses } = atHand;
  const season = computeSeason(fresh, { release: release ?? 'none', courses });
  const findings = findingsOf(season);
  const [figures, report] = [figuresOf(season), checkReport(season, findings, OPTIONS)];
  for (const again of ways) {
    const other = again.compute(plan, { release, courses });
    const otherFindings = again.findings(other, {});
    same('findings', otherFindings, findings);
    same('figures', figuresOf(other), figures, shortened);
    same('the report', checkReport(other, otherFindings, OPTIONS), report);
  }
}

/** All figures of a season, each with what it was made of and where that stands, as plain data. */
function figuresOf({ fruit, capacities, filled, plant, keeping }: ComputedSeason): unknown {
  const names = [fruit.varietyNames, fruit.regimeNames];
  const weeks = plant && [plant.scrubbers, plant.nitrogen, plant.refrigeration];
  return [names, capacities, filled, weeks, keeping];
}

/** Entries stand as where they are, and a figure's inputs as their values: all of them stand elsewhere in full. */
function shortened(key: string, value: unknown): unknown {
  if (key === 'origin') return originOf(value as Figure['origin']);
  if (isEntry(value)) return [value.id, value.at];
  if (key === 'rooms' || key === 'filled' || key === 'capacity' || key === 'inRoom' || key === 'variety')
    return Array.isArray(value) ? value.length : undefined;
  return value;
}

function originOf(origin: Figure['origin']): unknown {
  if (origin.kind !== 'computed') return origin;
  return [
    origin.formula,
    Object.entries(origin.inputs).map(([name, { value, unit }]) => [name, value, unit]),
  ];
}

function isEntry(value: unknown): value is { readonly id: string; readonly at: unknown } {
  return typeof value === 'object' && value !== null && 'id' in value && 'at' in value && 'places' in value;
}

function same(what: string, again: unknown, afresh: unknown, inPlace?: InPlace): void {
  const found = difference(again, afresh, inPlace);
  if (found) throw new Error(`${what} made again and afresh differ at ${found}`);
}
