import { formatDay, parseDay } from '../../src/plan/dates';

export function addDays(date: string, days: number): string {
  return formatDay((parseDay(date) ?? Number.NaN) + days);
}
