import { formatDay } from '../plan/dates';
import { type PackedWait, packedWaits } from '../release/packed-waits';
import type { ReleaseProblem, ReleaseSchedule } from '../release/types';
import { tidy } from './amounts';
import { present } from './parts';
import type { ReleaseReport } from './schemas';

/** How long packed cartons wait, to the day; with names for products. */
export function packedWaitsJson(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
): ReleaseReport['packedWait'] {
  const found = packedWaits(problem, schedule);
  if (!found) return undefined;
  const wait = ({ product, packedOn, leavesOn, days }: PackedWait) => ({
    variety: problem.products[product]?.variety ?? '',
    packClass: problem.products[product]?.packClass ?? '',
    packedOn: formatDay(packedOn),
    leavesOn: formatDay(leavesOn),
    days,
  });
  return {
    allowedDays: found.allowedDays,
    ...present({ longest: found.longest && wait(found.longest) }),
    tooLong: found.tooLong.map((one) => ({ ...wait(one), cartons: tidy(one.cartons) })),
  };
}

/** The same in a sentence. */
export function packedWaitText({ packedWait: waits }: Pick<ReleaseReport, 'packedWait'>): string | undefined {
  const { longest } = waits ?? {};
  if (!waits || !longest) return undefined;
  const { variety, packClass, packedOn, leavesOn, days } = longest;
  const counted = countedWeeks(waits.allowedDays);
  if (days === 0) return counted && `${counted}.`;
  const cartons = waits.tooLong.reduce((sum, one) => sum + one.cartons, 0);
  const over =
    cartons > 0
      ? `, and ${Math.round(cartons)} cartons wait longer than the ${waits.allowedDays} days allowed`
      : '';
  return `Longest in the cold store: ${days} of ${waits.allowedDays} days allowed (${variety} ${packClass}, packed on ${packedOn}, leaves on ${leavesOn})${over}.${counted ? ` ${counted}.` : ''}`;
}

/** The schedule counts what cartons may wait in whole weeks, never more than the days allowed; said where it is less. */
function countedWeeks(allowedDays: number): string | undefined {
  const weeks = Math.floor(allowedDays / 7);
  if (allowedDays === 7 * weeks) return undefined;
  const counts = `The ${allowedDays} days that cartons may wait count as ${weeks === 0 ? 'no whole week' : weeks === 1 ? 'one whole week' : `${weeks} whole weeks`}`;
  return `${counts}: they leave ${weeks === 0 ? 'in the week they are packed in' : `at the latest ${weeks === 1 ? 'in the week after' : `${weeks} weeks after that`}`}`;
}
