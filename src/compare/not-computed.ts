import type { ComputedSeason } from '../findings/types';
import { formatWeek } from '../plan/dates';
import type { Plan } from '../plan/model';
import { counted, listed } from '../plan/wording';
import { notRecorded } from '../release/season-whole';
import type { NotComputed } from './types';

/** What stands in the way of a full comparison, side by side. */
export function notComputed(
  old: Plan,
  now: Plan,
  oldSeason: ComputedSeason,
  nowSeason: ComputedSeason,
  options: { readonly courses: boolean },
): NotComputed[] {
  return [
    ...unread('old', old),
    ...unread('new', now),
    ...unscheduled('old', oldSeason),
    ...unscheduled('new', nowSeason),
    ...unrecorded('old', oldSeason),
    ...unrecorded('new', nowSeason),
    ...(options.courses
      ? []
      : [{ side: 'both', what: "each room's course of gas and what would be found in it" } as const]),
  ];
}

/** Lines that could not be read: what stands there is in no comparison. */
function unread(side: NotComputed['side'], { problems }: Plan): NotComputed[] {
  const conflicts = problems.filter(({ code }) => code === 'merge-conflict');
  const files = [...new Set((conflicts.length > 0 ? conflicts : problems).map(({ at }) => at.file))];
  if (files.length === 0) return [];
  const what =
    conflicts.length > 0
      ? `${listed(files)}: a merge is not finished there`
      : `${counted(problems.length, 'value')} in ${listed(files)} that could not be read`;
  return [{ side, what }];
}

/** Why there is no schedule, or which fills are not in it. */
function unscheduled(side: NotComputed['side'], { release, filled }: ComputedSeason): NotComputed[] {
  if (!release)
    return filled.size === 0
      ? []
      : [{ side, what: 'a release schedule: it has no season, packhouse, demand or room with a window' }];
  const opened = release.problem.standing?.opened ?? [];
  const known = new Set([...release.problem.rooms, ...opened].map(({ fill }) => fill));
  const left = [...filled.keys()].filter((fill) => !known.has(fill));
  return left.length === 0
    ? []
    : [{ side, what: `${listed(left)} in the schedule: without a window, bins or a packout` }];
}

/** Weeks that are past of which nobody wrote what was packed or sold: what was wanted in them is not told as short. */
function unrecorded(side: NotComputed['side'], { release, plan }: ComputedSeason): NotComputed[] {
  if (!release) return [];
  const unknown = notRecorded(release.problem, plan);
  if (!unknown) return [];
  const { before, missing } = unknown;
  return [{ side, what: `what was delivered before ${formatWeek(before)}: no ${missing} is recorded` }];
}
