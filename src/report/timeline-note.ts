import type { ComputedSeason } from '../findings/types';
import { formatWeek } from '../plan/dates';
import { type DisplayUnits, fixed } from '../plan/display';
import { counted } from '../plan/wording';
import { gapToTell } from '../release/gap';
import { notRecorded } from '../release/season-whole';
import { isQuick } from '../release/simple-bound';

/**
 * A few sentences on the schedule: its value and how far it is from a proven bound, or that there is none. `passed` is
 * the number of rooms that it opens in weeks before today's.
 */
export function scheduleNote({ release, plan }: ComputedSeason, units: DisplayUnits, passed = 0): string {
  if (!release)
    return 'No release schedule: the plan lacks opening windows, demand or packing, or none was asked for.';
  const { result } = release;
  const unknown = notRecorded(release.problem, plan);
  const quick = isQuick(result);
  const worth = `${quick ? 'Quick schedule' : 'Release schedule'} worth ${units.currency} ${fixed(result.schedule.value, 0)}`;
  return [
    `${worth}, ${boundText(result)}.`,
    conflictText(result),
    passedText(passed),
    unknown
      ? `What was delivered before ${formatWeek(unknown.before)} is not recorded: it is told neither as sold nor as short.`
      : '',
    quick ? '"Find release weeks" searches for a better one.' : '',
  ]
    .filter((text) => text !== '')
    .join(' ');
}

function passedText(rooms: number): string {
  if (rooms === 0) return '';
  return rooms === 1
    ? 'One room is scheduled in a week that has passed: pin what really happened.'
    : `${rooms} rooms are scheduled in weeks that have passed: pin what really happened.`;
}

type Result = NonNullable<ComputedSeason['release']>['result'];

function boundText(result: Result): string {
  const { provenOptimal, bound } = result;
  if (provenOptimal) return 'proven to be the most that any is worth';
  if (!Number.isFinite(bound)) return 'with no proven bound';
  const gap = gapToTell(result, result.schedule.value);
  if (gap === undefined) return 'with no gap to tell of a worth of nothing';
  return `within ${fixed(gap * 100, 1)} % of a proven bound`;
}

/** Each conflict is of one room: it is too large, has no week, or cannot have the one it is pinned to. */
function conflictText({ conflicts }: Result): string {
  if (conflicts.length === 0) return '';
  return conflicts.length === 1
    ? `One room must stay shut: ${conflicts[0]}`
    : `${counted(conflicts.length, 'room')} must stay shut; the first: ${conflicts[0]}`;
}
