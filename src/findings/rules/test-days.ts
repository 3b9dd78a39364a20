import { AFTER_PICKING_DAYS } from '../../plan/after-picking';
import { type Day, formatDay } from '../../plan/dates';
import type { Lot } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import type { Given } from '../../plan/span';
import { inYear } from './outside-season';

/** Starch and firmness are followed on the tree from a few weeks before picking on. Common practice. */
const BEFORE_PICKING_DAYS = 42;

interface Picked {
  readonly first: Day;
  readonly last: Day;
}

/** A maturity test on a day that tells nothing of the maturity at harvest. */
export function testedFarFromPicking(lot: Lot): Problem[] | undefined {
  const { picked } = lot;
  const tested = lot.maturity?.tested;
  if (!tested || !picked || tellsOf(tested.value, picked.value)) return undefined;
  const day = formatDay(tested.value);
  const late = tested.value > picked.value.last;
  const message = late
    ? `Lot ${lot.id}: its maturity is tested on ${day}, more than ${AFTER_PICKING_DAYS} days after its last picking (${formatDay(picked.value.last)}): fruit out of store does not tell the maturity at harvest. Correct the day, or record the test under \`samples\`.`
    : `Lot ${lot.id}: its maturity is tested on ${day}, more than ${BEFORE_PICKING_DAYS} days before its first picking (${formatDay(picked.value.first)}): fruit that long on the tree ripens on. Correct the day, or test it again.`;
  return [
    {
      code: 'dates-out-of-order',
      severity: 'warning',
      message,
      at: tested.at,
      related: [{ at: picked.at, message: 'Picked' }],
      about: `${lot.id}/tested`,
      fixes: inYearOfPicking(tested, picked.value),
    },
  ];
}

function tellsOf(tested: Day, { first, last }: Picked): boolean {
  return tested >= first - BEFORE_PICKING_DAYS && tested <= last + AFTER_PICKING_DAYS;
}

/** The same day in the year of the picking, where it tells of the harvest then: a year that was copied along. */
function inYearOfPicking({ value, at }: Given<Day>, picked: Picked): NonNullable<Problem['fixes']> {
  const day = inYear(
    value,
    Number(formatDay(picked.first).slice(0, 4)) - Number(formatDay(value).slice(0, 4)),
  );
  if (day === undefined || !tellsOf(day, picked)) return [];
  const newText = formatDay(day);
  return [{ title: `Change to ${newText}`, edits: [{ at, newText }] }];
}
