import { mostDaysToSeal } from '../../fill/weights';
import { formatDay, formatWeek } from '../../plan/dates';
import { figureWith } from '../../plan/figure';
import type { Fill, Scrubber } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import type { Steps } from '../../plan/steps';
import { counted, listed } from '../../plan/wording';
import { daysInUse } from '../../plant/out-of-use';
import { type LoadRemedies, loadRemediesSteps, shareIn } from '../../plant/scrubber-load-remedies';
import { type ScrubberRemedy, scrubberRemediesSteps, worstAboveLimit } from '../../plant/scrubber-remedies';
import type { RoomTurns } from '../../plant/scrubber-turns';
import type { ScrubberSeason, ScrubberWeek } from '../../plant/types';
import { dayOf } from '../../room/course/room-course';
import { opensIn } from '../compute';
import { onceInSteps } from '../courses';
import { weeksToCome } from '../happened';
import { daysSealedLate, inBrackets, isSealableOn, priceOfWaiting } from '../later-sealing';
import { apartShower, neededShower, perCent, perCentAbove, shower } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { KEPT } from '../without-scrubber';
import { atRegime, knownFrom, strictest } from './low-oxygen';

/** Carbon dioxide that scrubbers do not take away: above what the fruit bears, or more than they can remove. */

/**
 * Days on which carbon dioxide may be above what the fruit bears before it is taken to be injured: it comes high for a few
 * days after sealing while fruit is warm. Rule of thumb, no publication gives the days.
 */
const MOST_DAYS_ABOVE = 7;

function* carbonDioxideAboveLimit(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const filled of season.filled.values()) {
    const level = filled.regime?.carbonDioxide;
    const lot = strictest(filled.lots, ({ variety }) => -variety.mostCarbonDioxide.value);
    if (!level || !lot || level.value <= lot.variety.mostCarbonDioxide.value) continue;
    yield {
      code: 'carbon-dioxide-above-limit',
      message: `${filled.fill.id}: ${show(level)} carbon dioxide is above the ${show(lot.variety.mostCarbonDioxide)} that ${lot.variety.name} bears (${knownFrom(lot.variety.mostCarbonDioxide)}). Injury comes mostly in the first months. Lower the set-point to ${show(lot.variety.mostCarbonDioxide)}, or choose another regime.`,
      at: atRegime(filled.fill),
      related: level.origin.kind === 'plan' ? [{ at: level.origin.at, message: 'The set-point' }] : [],
      about: filled.fill.id,
    };
  }
  yield* carbonDioxideRises(season);
}

/** Rooms whose level passes the limit though their set-point keeps it, on scrubbers that no other finding is about. */
function* carbonDioxideRises(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  const most = season.plan.policy.mostScrubberLoad.value;
  for (const { scrubber, rooms } of season.courses?.scrubbers ?? []) {
    const peak = season.plant?.scrubbers.find((one) => one.scrubber.id === scrubber.id)?.peak?.share;
    if (peak && peak.value > most) continue;
    for (const { course, limit, aboveLimit } of rooms) {
      const filled = season.filled.get(course.fill);
      const from = dayOf(course, 'carbon-dioxide-above-limit');
      const setPoint = filled?.regime?.carbonDioxide;
      if (!filled || limit === undefined || from === undefined || aboveLimit <= KEPT) continue;
      if (setPoint && setPoint.value > limit) continue;
      yield {
        code: 'carbon-dioxide-above-limit',
        message: `${course.fill}: carbon dioxide passes the ${limit} % its fruit bears on ${formatDay(from)} and comes to ${show(course.highestCarbonDioxide)} before ${scrubber.id} has brought it down.${remediesFor(season, scrubber.id)}`,
        at: atRegime(filled.fill),
        related: filled.fill.sealed ? [{ at: filled.fill.sealed.at, message: 'Sealed' }] : [],
        about: course.fill,
      };
    }
  }
}

/** The least changes that keep a scrubber's rooms within their limits, each reckoned again. */
function remediesFor(season: ComputedSeason, id: string): string {
  const { courses } = season;
  const turns = courses?.scrubbers.find(({ scrubber }) => scrubber.id === id);
  const remedies = onceInSteps(courses, `remedies of ${id}`, () => triedRemedies(season, id)) ?? [];
  const cures = remedies.filter(({ cures }) => cures);
  if (cures.length > 0)
    return ` It would keep all its rooms within their limits if you ${orOf(season, cures)}.`;
  const [best] = remedies;
  if (!best || !turns) return '';
  const points = (above: number) => above.toFixed(2);
  return ` No single change keeps every room within its limit; most would help to ${orOf(season, [best])}. The worst room is then ${points(best.aboveLimit)} points above its limit instead of ${points(worstAboveLimit(turns))}.`;
}

function* triedRemedies(season: ComputedSeason, id: string): Steps<ScrubberRemedy[]> {
  const { courses } = season;
  const turns = courses?.scrubbers.find(({ scrubber }) => scrubber.id === id);
  if (!turns) return [];
  return yield* scrubberRemediesSteps(turns, courses?.served.get(id) ?? [], (fill, day) =>
    isSealableInTime(season, fill, day),
  );
}

/** On a day on which people can seal it, and no later than fruit should wait for its gas. */
function isSealableInTime(season: ComputedSeason, fill: Fill, day: number): boolean {
  return daysOfWait(season, fill) >= day - (fill.sealed?.value ?? day) && isSealableOn(season, fill, day);
}

/** Days by which a fill may be sealed later before that is late. */
function daysOfWait(season: ComputedSeason, fill: Fill): number {
  return fill.firstBin ? -daysSealedLate(fill, season.filled.get(fill.id)?.regime) : mostDaysToSeal;
}

function orOf(season: ComputedSeason, remedies: readonly ScrubberRemedy[]): string {
  return remedies
    .slice(0, 3)
    .map(({ change, later }) => `${change}${later ? priceOf(season, later) : ''}`)
    .join(', or ');
}

/** Fruit of a room that is sealed later waits longer for its gas. */
function priceOf(
  season: ComputedSeason,
  { fill: id, days }: { readonly fill: string; readonly days: number },
) {
  const fill = season.filled.get(id)?.fill;
  if (!fill?.sealed) return '';
  const sealed = { ...fill.sealed, value: fill.sealed.value + days };
  return inBrackets(priceOfWaiting(season, { ...fill, sealed }));
}

function turnsOf({ courses }: ComputedSeason, id: string): readonly RoomTurns[] {
  return courses?.scrubbers.find(({ scrubber }) => scrubber.id === id)?.rooms ?? [];
}

/** How high the rooms come by their courses, and what the fruit of the one nearest to its limit, or past it, bears. */
function levelsOf(
  season: ComputedSeason,
  { scrubber, settlesAt }: ScrubberSeason,
  peak: ScrubberWeek,
): string {
  const show = shower(season);
  const worst = turnsOf(season, scrubber.id).reduce<RoomTurns | undefined>(
    (most, one) => (most && most.aboveLimit >= one.aboveLimit ? most : one),
    undefined,
  );
  const lot = worst && strictest(worst.room.lots, ({ variety }) => -variety.mostCarbonDioxide.value);
  if (worst && lot)
    return ` By the course of ${worst.course.fill}, the nearest to its limit, its carbon dioxide comes to ${show(worst.highest)} at most, and ${lot.variety.name} bears ${show(lot.variety.mostCarbonDioxide)} (${knownFrom(lot.variety.mostCarbonDioxide)}).`;
  // Where it stands still in that week nothing settles meanwhile.
  return settlesAt && !isOutIn(scrubber, peak)
    ? ` Were the load of that week to last, the rooms' carbon dioxide would settle near ${show(settlesAt)}.`
    : '';
}

/** Rooms of an overloaded scrubber that pass their limits, the first to do so first. */
function roomsAbove(season: ComputedSeason, id: string): string {
  const above = turnsOf(season, id).flatMap(({ course, limit, highest, aboveLimit }) => {
    const from = dayOf(course, 'carbon-dioxide-above-limit');
    if (from === undefined || limit === undefined || aboveLimit <= KEPT) return [];
    return [{ from, text: `${course.fill} on ${formatDay(from)} (${highest.value.toFixed(1)} %)` }];
  });
  if (above.length === 0) return '';
  const inOrder = above.sort((a, b) => a.from - b.from).map(({ text }) => text);
  return ` Above what its fruit bears ${above.length === 1 ? 'comes' : 'come'} ${listed(inOrder)}.`;
}

/** The room that is above what its fruit bears on most days, where they are too many. */
function injuredRoom(
  season: ComputedSeason,
  id: string,
): { readonly fill: string; readonly days: number } | undefined {
  return turnsOf(season, id)
    .map(({ course, limit = Number.POSITIVE_INFINITY }) => ({
      fill: course.fill,
      days: course.course.points.filter(
        ({ hours, carbonDioxide }) => hours % 24 === 0 && carbonDioxide > limit + KEPT,
      ).length,
    }))
    .filter(({ days }) => days > MOST_DAYS_ABOVE)
    .sort((a, b) => b.days - a.days)[0];
}

/** What it can remove is in proportion to its rated removal and to its hours, so the load says what would carry it. */
function removalThatDoes(season: ComputedSeason, scrubber: Scrubber, times: number): string {
  const { removal, atLevel, hoursADay } = scrubber;
  if (!removal || !atLevel) return '';
  const show = shower(season);
  const needed = figureWith(removal, { value: removal.value * times });
  const hours = Math.ceil(hoursADay.value * times - 1e-9);
  const longer = hours <= 24 ? ` So would ${hours} hours a day instead of ${hoursADay.value}.` : '';
  return ` A removal of ${neededShower(season)(needed)} at ${show(atLevel)} instead of ${show(removal)} would carry its load.${longer}`;
}

/** Another scrubber for a room, and a later seal, with what either leaves: tried on the weekly loads. */
function movesTried(season: ComputedSeason, own: ScrubberSeason): string {
  const { plan, plant, courses } = season;
  const most = plan.policy.mostScrubberLoad.value;
  const { id } = own.scrubber;
  const asked = {
    own,
    all: plant?.scrubbers ?? [],
    most,
    opens: opensIn(season),
    weeksToCome: (weeks: readonly ScrubberWeek[]) => weeksToCome(plan, weeks),
    sealableOn: (fill: Fill, day: number) => isSealableInTime(season, fill, day),
    daysLeft: ({ fill }: { readonly fill: Fill }) => daysOfWait(season, fill),
  };
  const key = `load of ${id} to ${most} % from ${plan.stand ?? ''}`;
  const remedies = onceInSteps(courses, key, () => loadRemediesSteps(asked));
  return remedies ? remediesText(season, id, remedies, most) : '';
}

function remediesText(
  season: ComputedSeason,
  id: string,
  { moved, later }: LoadRemedies,
  most: number,
): string {
  const verdict = (own: number) => (own <= most ? 'that is enough' : 'that helps, but is not enough');
  const left = (own: number) => (own <= most ? perCent(own) : perCentAbove(own, most));
  const onOther = moved
    ? ` With ${moved.room.room.id} on ${moved.to} instead, ${id} comes to ${left(moved.own)} and ${moved.to} to ${perCent(moved.other)}: ${verdict(moved.own)}.`
    : '';
  const change = later
    ? `seal ${later.room.fill.id} on ${formatDay(later.on)}, ${counted(later.days, 'day')} later${priceOf(season, { fill: later.room.fill.id, days: later.days })}`
    : '';
  const sealed = later ? ` If you ${change}, ${id} comes to ${left(later.own)}: ${verdict(later.own)}.` : '';
  return `${onOther}${sealed}`;
}

function heaviest(weeks: readonly ScrubberWeek[]): ScrubberWeek | undefined {
  return weeks.reduce<ScrubberWeek | undefined>(
    (worst, one) => (!worst || shareIn(one) > shareIn(worst) ? one : worst),
    undefined,
  );
}

function isOutIn({ outOfUse }: Scrubber, { week }: ScrubberWeek): boolean {
  return daysInUse(outOfUse, week) < 7;
}

/** What would carry the load: more removal, but only in weeks in which the scrubber runs every day. */
function carriedBy(season: ComputedSeason, own: ScrubberSeason, over: readonly ScrubberWeek[]): string {
  const { scrubber } = own;
  const most = season.plan.policy.mostScrubberLoad.value;
  const stands = heaviest(over.filter((one) => isOutIn(scrubber, one)));
  const runs = heaviest(over.filter((one) => !isOutIn(scrubber, one)));
  const removal = runs ? removalThatDoes(season, scrubber, shareIn(runs) / most) : '';
  if (!stands) return `${removal}${movesTried(season, own)}`;
  const days = 7 - daysInUse(scrubber.outOfUse, stands.week);
  const inOthers = runs ? ` In weeks in which it runs every day:${removal}` : '';
  return ` In ${formatWeek(stands.week)} it is out of use for ${counted(days, 'day')}, and while it stands still no removal of its own carries the load: move that to another date, or have another scrubber, or lime in a box outside the rooms, do its work meanwhile.${inOthers}`;
}

function* scrubbersOverloaded(season: ComputedSeason): Iterable<Problem> {
  const apart = apartShower(season);
  const most = season.plan.policy.mostScrubberLoad;
  for (const own of season.plant?.scrubbers ?? []) {
    const { scrubber, rooms, weeks, capacity } = own;
    const over = weeksToCome(season.plan, weeks).filter((one) => shareIn(one) > most.value);
    const first = over[0];
    const peak = heaviest(over);
    if (!first || !peak || !capacity) continue;
    const [load, can] = apart(peak.load, peak.capacity ?? capacity);
    const share = peak.share ? ` (${perCentAbove(peak.share.value, most.value)})` : '';
    const injured = injuredRoom(season, scrubber.id);
    const days = injured
      ? ` ${injured.fill} stays above it for ${counted(injured.days, 'day')}: beyond ${MOST_DAYS_ABOVE} days its fruit is taken to be injured (common practice).`
      : '';
    yield {
      code: 'scrubber-overloaded',
      ...(injured ? { severity: 'error' as const } : {}),
      message: `${scrubber.id} is loaded above ${perCent(most.value)} of what it can remove in ${counted(over.length, 'week')} from ${formatWeek(first.week)}; at most ${load} against ${can}${share} in ${formatWeek(peak.week)}.${levelsOf(season, own, peak)}${roomsAbove(season, scrubber.id)}${days}${remediesFor(season, scrubber.id)}${carriedBy(season, own, over)}`,
      at: scrubber.at,
      related: rooms
        .slice(0, 12)
        .map(({ room }) => ({ at: room.at, message: `${room.id} is on ${scrubber.id}` })),
      about: scrubber.id,
    };
  }
}

export const scrubberRules: readonly Rule[] = [
  {
    code: 'carbon-dioxide-above-limit',
    family: 'gas',
    severity: 'warning',
    summary: 'Carbon dioxide above what a variety bears.',
    find: carbonDioxideAboveLimit,
  },
  {
    code: 'scrubber-overloaded',
    family: 'gas',
    severity: 'warning',
    summary: 'A scrubber has more to remove than it can.',
    find: scrubbersOverloaded,
  },
];
