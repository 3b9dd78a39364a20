import { formatWeek } from '../../plan/dates';
import type { Problem } from '../../plan/problem';
import { salesOfRooms } from '../../release/room-sales';
import { counted, listed, perCent } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { mayBeWantedUnread } from './unread-orders';

/** Above this share of a room's packed cartons most of it is unsold. */
const MOST = 0.5;

function* roomsUnsold(season: ComputedSeason): Iterable<Problem> {
  const { plan, release, keeping } = season;
  if (!release) return;
  const { problem, result } = release;
  const mayBeWanted = mayBeWantedUnread(season);
  for (const [index, { packed, unsold, unsoldFrom }] of salesOfRooms(problem, result.schedule).entries()) {
    const room = problem.rooms[index];
    const fill = plan.fills.get(room?.fill ?? '');
    if (!room || !fill || room.fromField || packed < 1 || unsold <= MOST * packed) continue;
    const varieties = keeping.get(room.fill)?.filled.varieties ?? [];
    // An order that cannot be read is told itself; who buys the fruit is not known before it is mended.
    if (varieties.some(({ variety }) => mayBeWanted(variety.name))) continue;
    const markets = (fill.forMarkets ?? []).map(({ value }) => `\`${value}\``);
    const keeper = keeping.get(room.fill)?.lots.some(({ term }) => term === 'long') ?? false;
    const kept = [
      ...(markets.length > 0 ? [`is kept for ${listed(markets)}`] : []),
      ...(keeper ? ['holds lots fit to keep long'] : []),
    ].join(' and ');
    const from = unsoldFrom === undefined ? '' : `, from ${formatWeek(problem.firstWeek + unsoldFrom)} on`;
    const enough = Math.ceil(unsold - MOST * packed);
    const reach = `which brings it just under half, and for up to ${counted(unsold, 'carton')} to sell all`;
    const cure =
      markets.length > 0
        ? `Plan orders of ${listed(markets)} for ${counted(enough, 'carton')} more in these weeks, ${reach}, or let other markets have it too`
        : `Plan orders for ${counted(enough, 'carton')} more in the weeks in which it can be sold, ${reach}`;
    yield {
      code: 'room-mostly-unsold',
      message: `${fill.id} ${kept === '' ? '' : `${kept}, and `}gives ${counted(packed, 'packed carton')}, of which the schedule sends ${counted(unsold, 'carton')} (${perCent((unsold / packed) * 100)}) to processing${from}: nobody buys them. ${cure}; or fill the room with what is wanted.`,
      at: fill.forMarkets?.[0]?.at ?? fill.at,
      about: fill.id,
    };
  }
}

export const unsoldRules: readonly Rule[] = [
  {
    code: 'room-mostly-unsold',
    family: 'demand',
    severity: 'warning',
    summary: 'Most of what a room gives goes to processing.',
    find: roomsUnsold,
  },
];
