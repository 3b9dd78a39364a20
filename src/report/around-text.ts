import { formatWeek } from '../plan/dates';
import { counted } from '../plan/wording';
import type { AroundOffer } from '../release/around';
import { whole } from './text-cells';

const LISTED = 4;

/** What others could do around a moved opening: `3 rooms moved along would win back EUR 1,200: N04 to 2027-W02 …` */
export function aroundText({ problem, moved, gain, aloneCosts }: AroundOffer, currency: string): string {
  const said = moved
    .slice(0, LISTED)
    .map(({ room, to }) => `${problem.rooms[room]?.room ?? ''} to ${formatWeek(problem.firstWeek + to)}`);
  if (moved.length > LISTED) said.push(`and ${moved.length - LISTED} more`);
  const amount = `${currency} ${whole(gain)}`;
  // What is won beyond what the move costs is no winning back.
  const does = aloneCosts >= gain ? `would win back ${amount}` : `would bring ${amount} more`;
  return `${counted(moved.length, 'room')} moved along ${does}: ${said.join(', ')}.`;
}
