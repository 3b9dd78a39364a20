import { judgeAll } from '../expect/judge';
import type { Outcome, Told } from '../expect/types';
import { hasRule } from '../findings/rules';
import type { ComputedSeason, Finding } from '../findings/types';
import { formatWeek } from '../plan/dates';
import { type DisplayUnits, measureOf, type UnitSystem } from '../plan/display';
import { caution } from '../room/caution';
import { displayUnits } from './explain';
import { planPart, present } from './parts';
import { placeOf } from './place';
import type { ExpectReport } from './schemas';

export type ExpectationRow = ExpectReport['expectations'][number];

export interface ExpectOptions {
  readonly units?: UnitSystem | undefined;
  /** One that cannot be judged fails too. */
  readonly strict?: boolean;
  /** Cures are worked out by valuing the schedule anew. */
  readonly thorough?: boolean;
}

/** The codes that promises themselves give: what a promise says of findings is not meant of them. */
const OWN_CODES: ReadonlySet<string> = new Set(['expectation-broken', 'expectation-not-judged']);

/** The plan's promises with what came of each, in the order of the plan. */
export function expectReport(
  season: ComputedSeason,
  findings: readonly Finding[],
  { units: system, strict = false, thorough = true }: ExpectOptions = {},
): ExpectReport {
  const { plan } = season;
  const units = displayUnits(plan, system);
  const outcomes = outcomesOf(season, findings, thorough);
  const rows = outcomes.map((outcome) => rowOf(season, outcome, units));
  const count = (state: ExpectationRow['state']) => rows.filter((row) => row.state === state).length;
  const counts = { kept: count('kept'), broken: count('broken'), notJudged: count('not judged') };
  const opening = outcomes.some((one) => one.opening && one.verdict.state !== 'not judged');
  return {
    format: 'lotwright-expect-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    schedule: season.release ? 'quick' : 'none',
    failed: counts.broken > 0 || (strict && counts.notJudged > 0),
    counts,
    expectations: rows,
    ...(opening && { caution }),
  };
}

export function outcomesOf(
  season: ComputedSeason,
  findings: readonly Finding[],
  thorough: boolean,
): Outcome[] {
  return judgeAll(season, {
    thorough,
    findings: findings.filter(({ code }) => !OWN_CODES.has(code)),
    isCode: hasRule,
  });
}

function rowOf({ plan }: ComputedSeason, outcome: Outcome, units: DisplayUnits): ExpectationRow {
  const { expectation, claim, verdict } = outcome;
  const isJudged = verdict.state !== 'not judged';
  const kind = expectation.claims.length === 1 ? expectation.claims[0]?.kind : undefined;
  return {
    id: expectation.id,
    place: placeOf(plan, verdict.at),
    claim,
    ...present({ kind, because: expectation.because }),
    state: verdict.state,
    ...(isJudged &&
      present({
        promised: toldJson(verdict.promised, units),
        measured: toldJson(verdict.measured, units),
      })),
    why: verdict.why,
    cures: (isJudged ? verdict.cures : []).map(({ text, fixes }) => ({
      text,
      edits: fixes.flatMap(({ title, edits }) =>
        edits.map(({ at, newText }) => ({ title, place: placeOf(plan, at), newText })),
      ),
    })),
  };
}

function toldJson(told: Told, units: DisplayUnits): ExpectationRow['promised'] {
  if (told.kind === 'week') return { week: told.week === null ? null : formatWeek(told.week) };
  return measureOf(told.figure, units);
}
