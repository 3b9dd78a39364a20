import type { Day } from './dates';
import type { Plan } from './model';
import type { Given } from './span';

/**
 * By fill, the first day on which its fruit was packed once it was closed, where nobody recorded that it was opened: fruit
 * comes out of a closed room through its door, so it was open by then at the latest. Bins that were taken before the door
 * was sealed, or before the last bin came, opened nothing.
 */
export function openedByPacking({
  fills,
  progress,
  packed,
}: Pick<Plan, 'fills' | 'progress' | 'packed'>): ReadonlyMap<string, Given<Day>> {
  const first = new Map<string, Given<Day>>();
  for (const { fill, day } of packed.values()) {
    const own = fill && fills.get(fill.value);
    if (!own || !day) continue;
    const recorded = progress.get(own.id);
    const closed = recorded?.sealed ?? (own.planned ?? own).sealed ?? recorded?.lastBin;
    if (recorded?.opened || (closed && day.value < closed.value)) continue;
    const known = first.get(own.id);
    if (!known || day.value < known.value) first.set(own.id, day);
  }
  return first;
}
