import { formatWeek, type Week } from '../../plan/dates';
import type { Problem } from '../../plan/problem';
import { counted, listed } from '../../plan/wording';
import { salesOfRooms } from '../../release/room-sales';
import { sourcesOf } from '../../release/sources';
import { perCent } from '../say';
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
    const last = result.schedule.packed[index]?.findLastIndex((bins) => bins > 0) ?? -1;
    const first = unsoldFrom ?? last;
    const weeks = spanOf(problem.firstWeek + first, problem.firstWeek + last);
    const why = whyUnsold(release, index, first, last);
    const enough = Math.ceil(unsold - MOST * packed);
    const reach = `which brings it just under half, and for up to ${counted(unsold, 'carton')} to sell all`;
    const cure =
      markets.length > 0
        ? `Plan orders of ${listed(markets)} for ${counted(enough, 'carton')} more in these weeks, ${reach}, or let other markets have it too`
        : `Plan orders for ${counted(enough, 'carton')} more in the weeks in which it can be sold, ${reach}`;
    yield {
      code: 'room-mostly-unsold',
      message: `${fill.id} ${kept === '' ? '' : `${kept}, and `}gives ${counted(packed, 'packed carton')}, of which the schedule sends ${counted(unsold, 'carton')} (${perCent((unsold / packed) * 100)}) to processing, packed in ${weeks}: ${why}. ${cure}; or fill the room with what is wanted.`,
      at: fill.forMarkets?.[0]?.at ?? fill.at,
      about: fill.id,
    };
  }
}

function spanOf(first: Week, last: Week): string {
  return first === last ? formatWeek(first) : `${formatWeek(first)} to ${formatWeek(last)}`;
}

/** Why nobody buys what is packed of a room in these weeks, as far as orders, windows and the schedule tell. */
function whyUnsold(
  { problem, result }: NonNullable<ComputedSeason['release']>,
  index: number,
  first: number,
  last: number,
): string {
  const room = problem.rooms[index];
  const gives = (product: number) => room?.cartonsABin.some((week) => (week[product] ?? 0) > 0) ?? false;
  const wanted = problem.demands
    .filter((demand) => sourcesOf(problem, demand).some(({ product }) => gives(product)))
    .flatMap(({ cartons }) => cartons.flatMap((one, week) => (one > 0 ? [week] : [])));
  const told = (week: number) => formatWeek(problem.firstWeek + week);
  if (wanted.length === 0) return 'no order may take fruit of its varieties and classes';
  const until = last + problem.packedWaitWeeks;
  const lastWanted = Math.max(...wanted);
  if (lastWanted < first) return `no order that may take them asks for any after ${told(lastWanted)}`;
  const later = Math.min(...wanted.filter((week) => week >= first));
  if (later > until) {
    const opens = result.schedule.opens[index] ?? 0;
    const latest = room?.latest ?? opens;
    const waits = latest + (room?.weeksToEmpty ?? 1) - 1 + problem.packedWaitWeeks;
    return later > waits
      ? `the next order asks for them in ${told(later)}, and the room is to be opened by ${told(latest)}`
      : `the next order asks for them in ${told(later)}, when they have waited too long`;
  }
  return 'orders of these weeks take no more of them';
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
