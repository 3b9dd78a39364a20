import { formatWeek, type Week, weekOfDay } from '../plan/dates';
import type { Given, Span } from '../plan/span';
import { notRecorded, type WholeSeason, wholeSeasonOf } from '../release/season-whole';
import { isQuick } from '../release/simple-bound';
import { Standing } from '../release/standing';
import { releaseOfRecords } from './of-records';
import type { Cure, JudgedSeason, NotJudged } from './types';
import { type Show, showerOf } from './words';

/** A season while its promises are held against it: what several of them ask for is made once. */
export interface Context {
  readonly season: JudgedSeason;
  readonly show: Show;
  /** What the planner's currency is called. */
  readonly currency: string;
  /** `the quick schedule` or `the schedule found`; once every room is packed out `the season as recorded`. */
  readonly schedule: string;
  /** The week each fill is opened in, or was; without a schedule as pinned. A room left closed is in none. */
  readonly opens: ReadonlyMap<string, Week>;
  /** The week of each fill that has been opened in fact: nothing moves it any more. */
  readonly opened: ReadonlyMap<string, Week>;
  /** The first week that is still to come, or under way; undefined where nothing is recorded of the season. */
  readonly toCome: Week | undefined;
  /** What is wanted, sold and packed in the whole season: in weeks that are past as recorded. */
  readonly whole: WholeSeason | undefined;
  /** The schedule ready to be asked what another week would cost; undefined where that is not to be worked out. */
  standing(): Standing | undefined;
}

/** `thorough`: cures are worked out by valuing the schedule anew, which takes a while. */
export function contextOf(judged: JudgedSeason, thorough: boolean): Context {
  const isOver = !judged.release && allEmptied(judged);
  const season = isOver ? { ...judged, release: releaseOfRecords(judged) } : judged;
  const { plan, release } = season;
  let standing: Standing | undefined;
  const opened = openedInFact(season);
  const past = release?.problem.standing;
  return {
    season,
    show: showerOf(plan),
    currency: plan.season?.currency ?? 'money',
    schedule: isOver ? 'the season as recorded' : scheduleName(season),
    opens: new Map([...opensBySchedule(season), ...opened]),
    opened,
    toCome: past && release.problem.firstWeek + past.week,
    whole: wholeOf(season),
    standing: () => {
      if (thorough && release && !isOver) standing ??= new Standing(release.problem, release.result.schedule);
      return standing;
    },
  };
}

function scheduleName({ release }: JudgedSeason): string {
  return release && isQuick(release.result) ? 'the quick schedule' : 'the schedule found';
}

export function notJudged(at: Span, why: string): NotJudged {
  return { state: 'not judged', why, at };
}

const NO_SCHEDULE =
  'No release schedule can be computed yet: it needs a room with fruit, a packout, the packhouse and an order.';

const ALL_OUT =
  'Every room is packed out, and the records do not say what was packed, so that there is nothing to judge it by.';

/** Why nothing can be said that needs a schedule. */
export function noSchedule({ season }: Context): string {
  return allEmptied(season) ? ALL_OUT : NO_SCHEDULE;
}

/** Whether every room with fruit is recorded as emptied: then nothing of what it held is left to be planned. */
export function allEmptied({ plan, filled }: JudgedSeason): boolean {
  return filled.size > 0 && [...filled.keys()].every((id) => plan.fills.get(id)?.emptied !== undefined);
}

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

function openedInFact({ plan, release }: JudgedSeason): ReadonlyMap<string, Week> {
  const said = [...plan.fills.values()].flatMap(({ id, opened }) =>
    opened ? [[id, weekOfDay(opened.value)] as const] : [],
  );
  const { firstWeek = 0, standing } = release?.problem ?? {};
  return new Map([
    ...said,
    ...(standing?.opened ?? []).map(({ fill, week }) => [fill, firstWeek + week] as const),
  ]);
}

function wholeOf({ release, plan }: JudgedSeason): WholeSeason | undefined {
  return release && wholeSeasonOf(release.problem, release.result.schedule, plan);
}

/** The first week to come where what was delivered and sold before it counts as recorded; else undefined. */
export function recordedUntil({ season: { plan, release }, toCome }: Context): Week | undefined {
  const { firstWeek, standing } = release?.problem ?? {};
  if (!standing?.isPacked || plan.sales.size === 0) return undefined;
  return toCome === firstWeek ? undefined : toCome;
}

/** In the place of cures of what happened in a week that is past; undefined of a week that is not. */
export function pastCure({ toCome }: Context, week: Week): Cure[] | undefined {
  if (toCome === undefined || week >= toCome) return undefined;
  return [{ text: `${formatWeek(week)} is past and cannot be changed any more.`, fixes: [] }];
}

/** Says that deliveries of past weeks are left out, where they are not known; else empty. */
export function notRecordedText({ season, toCome }: Context): string {
  const { release, plan } = season;
  const unknown = release && notRecorded(release.problem, plan);
  if (!unknown || toCome === undefined) return '';
  return ` No ${unknown.missing} is recorded, so that what was delivered before ${formatWeek(toCome)} is not known and not counted.`;
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

/** `opens in 2027-W09`, that it was opened in fact, or that it stays shut. */
export function openedText({ opens, opened }: Context, fill: string): string {
  const week = opens.get(fill);
  if (week === undefined) return 'stays shut';
  return `${opened.has(fill) ? 'was opened' : 'opens'} in ${formatWeek(week)}`;
}
