import { formatWeek, type Week } from '../plan/dates';
import type { Given, Span } from '../plan/span';
import { SIMPLE_BOUND_RESTS_ON } from '../release/simple-bound';
import { Standing } from '../release/standing';
import type { JudgedSeason, NotJudged } from './types';
import { type Show, showerOf } from './words';

/** A season while its promises are held against it: what several of them ask for is made once. */
export interface Context {
  readonly season: JudgedSeason;
  readonly show: Show;
  /** What the planner's currency is called. */
  readonly currency: string;
  /** `the quick schedule` or `the schedule found`. */
  readonly schedule: string;
  /** The week each fill is opened in; without a schedule as pinned. A room left closed is in none. */
  readonly opens: ReadonlyMap<string, Week>;
  /** The schedule ready to be asked what another week would cost; undefined where that is not to be worked out. */
  standing(): Standing | undefined;
}

/** `thorough`: cures are worked out by valuing the schedule anew, which takes a while. */
export function contextOf(season: JudgedSeason, thorough: boolean): Context {
  const { plan, release } = season;
  let standing: Standing | undefined;
  return {
    season,
    show: showerOf(plan),
    currency: plan.season?.currency ?? 'money',
    schedule:
      release?.result.boundRestsOn === SIMPLE_BOUND_RESTS_ON ? 'the quick schedule' : 'the schedule found',
    opens: opensBySchedule(season),
    standing: () => {
      if (thorough && release) standing ??= new Standing(release.problem, release.result.schedule);
      return standing;
    },
  };
}

export function notJudged(at: Span, why: string): NotJudged {
  return { state: 'not judged', why, at };
}

export const NO_SCHEDULE =
  'No release schedule can be computed yet: it needs a room with fruit, a packout, the packhouse and an order.';

export const OUTSIDE_SEASON = 'No week of the season is among those it is promised for.';

/** Weeks that a promise is made for, inclusive; undefined where no week of the season is among them. */
export function promisedWeeks(
  { plant, release }: JudgedSeason,
  { from, before }: { readonly from: Given<Week> | undefined; readonly before: Given<Week> | undefined },
): { readonly first: Week; readonly last: Week } | undefined {
  const season = release
    ? { first: release.problem.firstWeek, last: release.problem.firstWeek + release.problem.weeks - 1 }
    : plant && { first: plant.firstWeek, last: plant.lastWeek };
  if (!season) return undefined;
  const first = Math.max(season.first, from?.value ?? season.first);
  const last = Math.min(season.last, (before?.value ?? season.last + 1) - 1);
  return first <= last ? { first, last } : undefined;
}

function opensBySchedule({ plan, release }: JudgedSeason): ReadonlyMap<string, Week> {
  const fills = [...plan.fills.values()];
  if (!release) return new Map(fills.flatMap(({ id, open }) => (open ? [[id, open.value] as const] : [])));
  const { problem, result } = release;
  return new Map(
    problem.rooms.flatMap(({ fill, fromField }, index) => {
      const week = result.schedule.opens[index] ?? null;
      return week === null || fromField ? [] : [[fill, problem.firstWeek + week] as const];
    }),
  );
}

/** The room's place in the release problem, by fill. */
export function roomIndex({ release }: JudgedSeason, fill: string): number {
  return release?.problem.rooms.findIndex((room) => room.fill === fill && !room.fromField) ?? -1;
}

export function sum(values: ArrayLike<number> | undefined): number {
  let total = 0;
  for (let at = 0; at < (values?.length ?? 0); at += 1) total += values?.[at] ?? 0;
  return total;
}

/** `in 2027-W09`, or that a room stays shut. */
export function openedText(week: Week | null | undefined): string {
  return week === null || week === undefined ? 'stays shut' : `opens in ${formatWeek(week)}`;
}
