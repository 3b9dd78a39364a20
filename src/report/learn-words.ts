import type { Lesson, LessonKind } from '../learning/lesson';
import { isOutside } from '../learning/written';
import { type DisplayUnits, decimalsApart, measure, measureLabel, showMeasure } from '../plan/display';
import type { Unit } from '../plan/figure';

const RECORDS: Readonly<Record<LessonKind, string>> = {
  respiration: 'Readings say',
  leakage: 'Readings say',
  firmness: 'Samples say',
  packout: 'Packing says',
  crop: 'Receipts say',
};

/**
 * What records say and what the plan says, in a line: of a lesson with several values the first that differs. `Readings
 * say: respiration as a share of what the varieties give 1.20 (95 %: 1.13 to 1.26), plan 1.00`.
 */
export function lessonLine({ kind, values }: Lesson, units: DisplayUnits): string {
  const value = values.find(isOutside) ?? values[0];
  if (!value) return RECORDS[kind];
  const { name, unit, before, fitted } = value;
  const limits = [fitted.low, fitted.high].flatMap((one) => measure(one, unit, units) ?? []);
  const planned = before === undefined ? undefined : measure(before, unit, units);
  const more = planned ? decimalsApart(planned, limits) : 0;
  const show = (one: number) => shown(one, unit, units, more);
  const plan = before === undefined ? 'the plan has none' : `plan ${show(before)}`;
  return `${RECORDS[kind]}: ${name} ${show(fitted.value)} (95 %: ${show(fitted.low)} to ${show(fitted.high)}), ${plan}`;
}

export function shown(value: number, unit: Unit, units: DisplayUnits, more = 0): string {
  const told = measure(value, unit, units);
  return told ? `${showMeasure(told, more)} ${measureLabel(told.unit)}`.trim() : '';
}
