import { isAsGrave } from '../compare/gravity';
import type {
  AmountUnit,
  Comparison,
  Consequence,
  FoundFinding,
  Gravity,
  PlanChange,
  PlanValue,
  SeasonTotals,
} from '../compare/types';
import { formatWeek } from '../plan/dates';
import { type DisplayUnits, type Measure, measure } from '../plan/display';
import type { Plan } from '../plan/model';
import type { Span } from '../plan/span';
import { caution } from '../room/caution';
import { changeText, editText } from './compare-changes';
import { consequenceText } from './compare-words';
import { planPart, present } from './parts';
import { type Place, placeOf } from './place';
import type { CompareReport } from './schemas';

/** The two plans as they are called, with their texts. */
export interface ComparedPlans {
  readonly old: { readonly name: string; readonly plan: Plan };
  readonly now: { readonly name: string; readonly plan: Plan };
}

export type FailOn = Gravity | 'never';

/** Whether a comparison holds something for the worse that is as grave as asked, or graver. */
export function comparisonFails({ consequences }: Comparison, failOn: FailOn): boolean {
  return failOn !== 'never' && consequences.some((one) => isAsGrave(one, failOn));
}

/** A comparison as JSON. */
export function compareReport(
  comparison: Comparison,
  plans: ComparedPlans,
  options: { readonly units: DisplayUnits; readonly failOn: FailOn },
): CompareReport {
  const { units, failOn } = options;
  const { old, now } = plans;
  const { changes, edits, totals } = comparison;
  const side = ({ name, plan }: ComparedPlans['old']) => ({ name, files: [...plan.files.keys()] });
  return {
    format: 'lotwright-compare-report',
    version: 1,
    plan: planPart(now.plan),
    units: units.system,
    caution,
    old: side(old),
    new: side(now),
    failOn,
    failed: comparisonFails(comparison, failOn),
    changes: changes.map((one) => changeJson(one, plans, units)),
    renames: comparison.renames.map((one) => ({ ...one })),
    edits: edits.map((edit) => ({
      text: editText(edit, units),
      things: edit.entries.map((thing) => ({ ...thing })),
      changes: edit.changes.map((one) => changes.indexOf(one)),
    })),
    consequences: comparison.consequences.map((one) => consequenceJson(one, plans, units)),
    heldBack: comparison.heldBack.map((one) => ({ ...one })),
    thresholds: { ...comparison.thresholds },
    ...(totals && { totals: { old: totalsJson(totals.old, units), new: totalsJson(totals.now, units) } }),
    notComputed: comparison.notComputed.map((one) => ({ ...one })),
    ...(comparison.weeksOf && { weeksOf: comparison.weeksOf }),
  };
}

function changeJson(
  one: PlanChange,
  { old, now }: ComparedPlans,
  units: DisplayUnits,
): CompareReport['changes'][number] {
  const { kind, things, key, before, after, amount, oldAt, newAt } = one;
  return present({
    kind,
    things: things.map((thing) => ({ ...thing })),
    key,
    before: before && valueJson(before, units),
    after: after && valueJson(after, units),
    amount: amount && valueJson(amount, units),
    text: changeText(one, units),
    oldPlace: oldAt && placeOf(old.plan, oldAt),
    newPlace: newAt && placeOf(now.plan, newAt),
  });
}

function valueJson({ value, unit }: PlanValue, units: DisplayUnits): Measure | { text: string } {
  if (typeof value !== 'number') return { text: String(value) };
  const known = unit ?? '1';
  return measure(value, known, units) ?? { value, unit: known };
}

function consequenceJson(
  one: Consequence,
  plans: ComparedPlans,
  units: DisplayUnits,
): CompareReport['consequences'][number] {
  const { kind, key, about, gravity, direction, before, after, limit, unit, byWeek } = one;
  const { orders, oldFinding, newFinding } = one;
  return present({
    kind,
    key,
    about: { ...about },
    gravity,
    direction,
    text: consequenceText(one, units),
    before: amountJson(before, unit, units),
    after: amountJson(after, unit, units),
    limit: limit === undefined || unit === 'week' ? undefined : measure(limit, unit, units),
    weeks: byWeek?.map(({ week, before: was, after: is }) => ({
      week: formatWeek(week),
      before: inUnits(was, unit, units),
      after: inUnits(is, unit, units),
    })),
    orders: orders?.map(({ demand, before: was, after: is }) => ({
      demand,
      before: inUnits(was, unit, units),
      after: inUnits(is, unit, units),
    })),
    oldFinding: oldFinding && foundJson(oldFinding, plans),
    newFinding: newFinding && foundJson(newFinding, plans),
    causes: causesJson(one, units),
  });
}

function amountJson(
  value: number | undefined,
  unit: AmountUnit,
  units: DisplayUnits,
): Measure | string | undefined {
  if (value === undefined) return undefined;
  return unit === 'week' ? formatWeek(value) : inUnits(value, unit, units);
}

function inUnits(value: number, unit: AmountUnit, units: DisplayUnits): Measure {
  const known = unit === 'week' ? 'weeks' : unit;
  return measure(value, known, units) ?? { value, unit: known };
}

function causesJson({ causes, unit }: Consequence, units: DisplayUnits) {
  const number = (value: number | undefined) =>
    value === undefined ? undefined : inUnits(value, unit, units).value;
  return present({
    parts: causes.parts.map(({ edits, part }) => present({ edits: [...edits], part: number(part) })),
    together: number(causes.together),
    onlyTogether: causes.onlyTogether,
    untried: causes.untried,
  });
}

function foundJson({ code, severity, message, at }: FoundFinding, plans: ComparedPlans) {
  return { code, severity, message, place: placeIn(plans, at) };
}

/** Where something stands: in the new plan, or in a file of the old one. */
export function placeIn({ old, now }: ComparedPlans, at: Span): Place {
  return placeOf(now.plan.files.has(at.file) ? now.plan : old.plan, at);
}

function totalsJson({ errors, warnings, fills, binsStored, schedule }: SeasonTotals, units: DisplayUnits) {
  return present({
    errors,
    warnings,
    fills,
    binsStored: inUnits(binsStored, 'bins', units),
    schedule: schedule && {
      cartonsSold: inUnits(schedule.cartonsSold, 'cartons', units),
      cartonsShort: inUnits(schedule.cartonsShort, 'cartons', units),
      cartonsSurplus: inUnits(schedule.cartonsSurplus, 'cartons', units),
      value: inUnits(schedule.value, 'money', units),
    },
  });
}
