import type { FileLayout } from '../plan/table-model';

const PARTS = /^(\d{1,4})[-./ ](\d{1,2})[-./ ](\d{1,4})$/;

/** A date as ISO 8601 from its three numbers; undefined where there are not three, or the year has not four digits. */
export function yearFirst(text: string, order: FileLayout['dates']): string | undefined {
  const found = PARTS.exec(text);
  if (!found) return undefined;
  const [, a = '', b = '', c = ''] = found;
  const [year, month, day] = {
    'year-month-day': [a, b, c],
    'day-month-year': [c, b, a],
    'month-day-year': [c, a, b],
  }[order] as [string, string, string];
  if (year.length !== 4 || month.length > 2 || day.length > 2) return undefined;
  return `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
}
