import { type Day, type Week, weekOfDay } from '../plan/dates';
import type { Plan } from '../plan/model';
import { PAGE_WIDTH, wrap } from './table';

/** The week of a day that lies within the season; none outside it, where nothing is under way. */
export function weekWithin({ season }: Plan, today: Day | undefined): Week | undefined {
  const [starts, ends] = [season?.starts?.value, season?.ends?.value];
  if (today === undefined || starts === undefined || ends === undefined) return undefined;
  return starts <= today && today <= ends ? weekOfDay(today) : undefined;
}

export const WEEK_PASSED = 'week has passed';

/** What to do about rooms whose chosen week has passed, said once for all of them. A week just written is a pin already. */
export function weekPassedLines(
  rooms: readonly { readonly room: string; readonly opens?: string | undefined }[],
  today: string,
  by: 'here' | 'here and written' | 'by a quick schedule',
): string[] {
  if (rooms.length === 0) return [];
  const names = rooms.map(({ room, opens }) => `${room} ${opens ?? ''}`.trimEnd()).join(', ');
  const pin =
    by === 'here and written'
      ? ''
      : `, or pin its week with \`open:\` in the fill, as in open: ${rooms[0]?.opens ?? '2027-W01'}`;
  const text = `On ${today} the week chosen ${by} has passed for: ${names}. A schedule does not know what has happened since: write down what really happened, the day the seal was broken under \`progress\` as \`opened\`${pin}.`;
  return ['', ...wrap(text, PAGE_WIDTH, '  ')];
}
