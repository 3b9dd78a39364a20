import type { NewFill } from './add-fills';
import { formatDay } from './dates';
import { setValue } from './edits';
import type { Fill, Plan, PlanText } from './model';
import type { TextEdit } from './problem';

/**
 * Edits that put more bins into fills of the plan: the bins of their lots, the last bin's day, and the day of sealing
 * where one is written. All other text stays as it is. Fills that are not in the plan are left out.
 */
export function topUpFills(plan: Plan, fills: readonly NewFill[]): TextEdit[] {
  return fills.flatMap((more) => {
    const fill = plan.fills.get(more.id);
    const file = fill && plan.files.get(fill.at.file);
    return fill && file ? [...lotEdits(file, fill, more), ...dayEdits(file, fill, more)] : [];
  });
}

function lotEdits(file: PlanText, fill: Fill, { lots }: NewFill): TextEdit[] {
  return lots.flatMap(({ lot, bins }) => {
    const had = fill.lots.find((one) => one.lot.value === lot)?.bins.value ?? 0;
    return setValue(file, fill.places, ['lots', lot], String(had + bins));
  });
}

function dayEdits(file: PlanText, fill: Fill, { lastBin, sealed }: NewFill): TextEdit[] {
  const isLater = fill.lastBin && lastBin > fill.lastBin.value;
  const isSealedLater = fill.sealed && sealed !== undefined && sealed > fill.sealed.value;
  return [
    ...(isLater ? setValue(file, fill.places, ['last-bin'], formatDay(lastBin)) : []),
    ...(isSealedLater ? setValue(file, fill.places, ['sealed'], formatDay(sealed)) : []),
  ];
}
