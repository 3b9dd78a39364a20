import { fixed, type Measure, measureLabel, showMeasure } from '../plan/display';

/** A cell of a table; a dash where the plan does not tell. */
export function cell(value: Measure | undefined, decimals?: number): string {
  if (!value) return '-';
  return decimals === undefined ? showMeasure(value) : fixed(value.value, decimals);
}

/** A number of bins or cartons, whole. */
export function whole(value: number): string {
  return fixed(value, 0);
}

export function dayCell(day: string | undefined, otherwise = '-'): string {
  return day ?? otherwise;
}

/** The label of the unit a column's measures are in. */
export function columnUnit(values: readonly unknown[]): string {
  const first = values.find(isMeasure);
  return first ? measureLabel(first.unit) : '';
}

function isMeasure(value: unknown): value is Measure {
  return typeof value === 'object' && value !== null && 'unit' in value && typeof value.unit === 'string';
}

/** Consecutive weeks as ranges: `2026-W51..2027-W02, 2027-W05`. The weeks are ISO labels with their indexes. */
export function weekRanges(weeks: readonly { readonly index: number; readonly label: string }[]): string {
  const ranges: { first: string; last: string; end: number }[] = [];
  for (const { index, label } of weeks) {
    const open = ranges.at(-1);
    if (open && index === open.end + 1) {
      open.last = label;
      open.end = index;
    } else {
      ranges.push({ first: label, last: label, end: index });
    }
  }
  return ranges.map(({ first, last }) => (first === last ? first : `${first}..${last}`)).join(', ');
}
