import { formatDay, formatWeek } from '../plan/dates';
import type { Plan } from '../plan/model';
import { counted } from '../plan/wording';
import { openingCost } from '../release/opening-cost';
import { openedIn } from '../release/reasons';
import { notRecorded } from '../release/season-whole';
import { Standing } from '../release/standing';
import type { ReleaseProblem, ReleaseSchedule } from '../release/types';
import { LEAST_AMOUNT, tidy } from './amounts';
import { present } from './parts';
import { otherWeekJson } from './reason-json';
import { otherText } from './reason-text';
import type { ReleaseReport } from './schemas';
import { whole } from './text-cells';

type StandingReport = NonNullable<ReleaseReport['standing']>;

/** Where the season stands that the schedule goes on from; undefined where nothing of it has happened. */
export function standingJson(plan: Plan, problem: ReleaseProblem): ReleaseReport['standing'] {
  const { firstWeek, standing } = problem;
  const unknown = notRecorded(problem, plan);
  if (!standing || plan.stand === undefined) return undefined;
  return {
    day: formatDay(plan.stand),
    week: formatWeek(firstWeek + standing.week),
    packingRecorded: standing.isPacked,
    ...(unknown && {
      notRecorded: { missing: unknown.missing, before: formatWeek(unknown.before) },
    }),
    cartonsInColdStore: tidy(standing.stock),
    cartonsFromColdStore: tidy(standing.fromStock),
    cartonsWantedBefore: tidy(sum(standing.settled.flat()) - standing.fromStock),
    cartonsSoldBefore: tidy(sum(standing.sold.flat()) - standing.fromStock),
    opened: standing.opened.map(({ fill, week }) => ({ fill, week: formatWeek(firstWeek + week) })),
  };
}

/** What the schedule leaves out because it is done. */
export function standingText({ standing }: ReleaseReport): string | undefined {
  if (!standing) return undefined;
  const { day, week, packingRecorded, opened, notRecorded: unknown } = standing;
  const rooms = `${counted(opened.length, 'fill has', 'fills have')} been opened`;
  const neither = unknown
    ? ` What was delivered before ${unknown.before} is not recorded, and told neither as sold nor as short.`
    : '';
  if (!packingRecorded)
    return `As of ${day}: ${rooms}, no other opens before ${week}. No packing is recorded: what opened rooms have given is counted as if it were still to come, in the value too.${neither}`;
  if (unknown)
    return `As of ${day}: ${rooms}, no other opens before ${week}. What was packed before is as it is recorded, and in none of these figures, the value included. No sale is recorded.${neither}`;
  const { cartonsWantedBefore: wanted, cartonsSoldBefore: sold } = standing;
  const short = Math.max(0, wanted - sold);
  return `As of ${day}: ${rooms}, no other opens before ${week}. What was packed and sold before is as it is recorded, and in none of these figures, the value included: of ${counted(wanted, 'carton')} wanted ${whole(sold)} were sold, ${whole(short)} were short.${stockText(standing)}`;
}

function stockText({ cartonsInColdStore: stock, cartonsFromColdStore: sold }: StandingReport): string {
  if (stock < LEAST_AMOUNT) return '';
  const left = stock - sold;
  const rest =
    left < LEAST_AMOUNT ? '' : `; for the other ${whole(left)} nobody has ordered in the weeks they may wait`;
  return ` ${counted(stock, 'carton')} wait in the cold store: ${whole(sold)} of them fill what is wanted from now on${rest}.`;
}

function sum(counts: readonly number[]): number {
  return counts.reduce((total, count) => total + count, 0);
}

/** What has moved from the schedule published last, what that counts, and why each does not keep its week. */
export function changesJson(problem: ReleaseProblem, schedule: ReleaseSchedule): ReleaseReport['changes'] {
  if (!problem.rooms.some(({ published }) => published)) return undefined;
  let cost = 0;
  let kept = 0;
  const now = new Standing(problem, schedule);
  const moved = problem.rooms.flatMap((room, at) => {
    const { published, riskCost } = room;
    const opens = schedule.opens[at] ?? null;
    if (!published) return [];
    cost += openingCost(room, opens) - (opens === null ? 0 : (riskCost[opens] ?? 0));
    const opened = openedWeek(problem, room.fill);
    if ((opened ?? opens) === published.week) {
      kept += 1;
      return [];
    }
    const [from, to] = [published.week, opened ?? opens].map(
      (week) => week !== null && formatWeek(problem.firstWeek + week),
    );
    if (!from || from === to) return [];
    return [
      {
        room: room.room,
        fill: room.fill,
        from,
        ...(to && { to }),
        ...(opened === undefined
          ? present({ kept: keptWeek(problem, now, at, published.week) })
          : { opened: true as const }),
      },
    ];
  });
  return { kept, cost: tidy(cost), moved };
}

/** What keeping the published week would have meant; undefined for a week that is past, or that the season has not. */
function keptWeek(problem: ReleaseProblem, now: Standing, room: number, week: number) {
  if (week < (problem.standing?.week ?? 0) || week >= problem.weeks) return undefined;
  return otherWeekJson(problem, openedIn(now, room, week));
}

export function changeTexts({ changes, currency, standing }: ReleaseReport): string[] {
  if (!changes) return [];
  const kept = `${counted(changes.kept, 'room opens', 'rooms open')} in the week published.`;
  if (changes.moved.length === 0) return [kept];
  return [
    `${kept} Moved, at ${currency} ${whole(changes.cost)} in all:`,
    ...changes.moved.map((move) => {
      const { room, from, to, kept: instead, opened } = move;
      const moves = `${room} ${from} to ${to ?? 'closed'}`;
      if (opened) return `${moves}, when it was opened`;
      if (instead) return `${moves}: ${otherText('the published week', instead, currency)}`;
      return standing && from < standing.week ? `${moves}: the published week has passed` : moves;
    }),
  ];
}

/** The week a fill was opened in, from the season's first. */
export function openedWeek({ standing }: ReleaseProblem, fill: string): number | undefined {
  return standing?.opened.find((one) => one.fill === fill)?.week;
}
