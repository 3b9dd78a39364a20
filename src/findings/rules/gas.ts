import { mostDaysToSeal } from '../../fill/weights';
import { formatDay, formatWeek } from '../../plan/dates';
import { figureWith } from '../../plan/figure';
import type { Scrubber } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import type { Steps } from '../../plan/steps';
import { daysInUse } from '../../plant/out-of-use';
import { type ScrubberRemedy, scrubberRemediesSteps } from '../../plant/scrubber-remedies';
import type { ScrubberWeek } from '../../plant/types';
import { dayOf } from '../../room/course/room-course';
import type { FilledRoom } from '../../room/types';
import { onceInSteps } from '../courses';
import { weeksToCome } from '../happened';
import { inBrackets, isSealableOn, priceOfWaiting } from '../later-sealing';
import { binsIn, binsThatKeepUp } from '../more-fruit';
import { counted, listed, perCent, shower } from '../say';
import { climbsToItsEnd, keepsUpFrom, MOST_HALF_LIFE_MIN, minutesThatHold } from '../tight-enough';
import type { ComputedSeason, Rule } from '../types';
import { isFruitKnown } from '../unknown-fruit';
import { aboveWithoutScrubber, KEPT } from '../without-scrubber';
import { bedRules } from './beds';
import { atRegime, knownFrom, lowOxygenRules, strictest } from './low-oxygen';
import { pressureTestRules } from './pressure-tests';

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
  const remedies = onceInSteps(courses, `remedies of ${id}`, () => triedRemedies(season, id)) ?? [];
  const cures = remedies.filter(({ cures }) => cures);
  if (cures.length > 0)
    return ` It would keep all its rooms within their limits if you ${orOf(season, cures)}.`;
  const [best] = remedies;
  if (!best) return '';
  return ` No single change keeps every room within its limit; most would help to ${orOf(season, [best])}.`;
}

function* triedRemedies(season: ComputedSeason, id: string): Steps<ScrubberRemedy[]> {
  const { courses } = season;
  const turns = courses?.scrubbers.find(({ scrubber }) => scrubber.id === id);
  if (!turns) return [];
  return yield* scrubberRemediesSteps(turns, courses?.served.get(id) ?? [], (fill, day) =>
    isSealableOn(season, fill, day),
  );
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

/** Rooms of an overloaded scrubber that pass their limits, the first to do so first. */
function roomsAbove({ courses }: ComputedSeason, id: string): string {
  const turns = courses?.scrubbers.find(({ scrubber }) => scrubber.id === id);
  const above = (turns?.rooms ?? []).flatMap(({ course, limit, highest, aboveLimit }) => {
    const from = dayOf(course, 'carbon-dioxide-above-limit');
    if (from === undefined || limit === undefined || aboveLimit <= KEPT) return [];
    return [{ from, text: `${course.fill} on ${formatDay(from)} (${highest.value.toFixed(1)} %)` }];
  });
  if (above.length === 0) return '';
  const inOrder = above.sort((a, b) => a.from - b.from).map(({ text }) => text);
  return ` Above what its fruit bears ${above.length === 1 ? 'comes' : 'come'} ${listed(inOrder)}.`;
}

/** What it can remove is in proportion to its rated removal, so the load says what removal would carry it. */
function removalThatDoes(season: ComputedSeason, { removal, atLevel }: Scrubber, times: number): string {
  if (!removal || !atLevel)
    return ` Move a room to another scrubber, add hours or a bed, or seal one later, within ${counted(mostDaysToSeal, 'day')} of its first bin.`;
  const show = shower(season);
  // Rounded up to what is shown, so that what is shown does.
  const needed = figureWith(removal, { value: Math.ceil(10 * removal.value * times) / 10 });
  return ` A removal of ${show(needed)} at ${show(atLevel)} instead of ${show(removal)} would carry its load; else move a room to another scrubber, or seal one later, within ${counted(mostDaysToSeal, 'day')} of its first bin.`;
}

/** A week's load, per cent of what the scrubber can remove in it: without end where it stands still for all of it. */
function shareIn({ load, capacity, share }: ScrubberWeek): number {
  return share?.value ?? (capacity?.value === 0 && load.value > 0 ? Number.POSITIVE_INFINITY : 0);
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
function carriedBy(season: ComputedSeason, scrubber: Scrubber, over: readonly ScrubberWeek[]): string {
  const most = season.plan.policy.mostScrubberLoad.value;
  const stands = heaviest(over.filter((one) => isOutIn(scrubber, one)));
  const runs = heaviest(over.filter((one) => !isOutIn(scrubber, one)));
  const removal = runs ? removalThatDoes(season, scrubber, shareIn(runs) / most) : '';
  if (!stands) return removal;
  const days = 7 - daysInUse(scrubber.outOfUse, stands.week);
  const inOthers = runs ? ` In weeks in which it runs every day:${removal}` : '';
  return ` In ${formatWeek(stands.week)} it is out of use for ${counted(days, 'day')}, and while it stands still no removal of its own carries the load: move that to another date, or have another scrubber, or lime in a box outside the rooms, do its work meanwhile.${inOthers}`;
}

function* scrubbersOverloaded(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  const most = season.plan.policy.mostScrubberLoad;
  for (const { scrubber, rooms, weeks, capacity, settlesAt } of season.plant?.scrubbers ?? []) {
    const over = weeksToCome(season.plan, weeks).filter((one) => shareIn(one) > most.value);
    const first = over[0];
    const peak = heaviest(over);
    if (!first || !peak || !capacity) continue;
    // Where it stands still in that week nothing settles meanwhile.
    const settles =
      settlesAt && !isOutIn(scrubber, peak)
        ? ` Left as it is, the rooms' carbon dioxide settles near ${show(settlesAt)}.`
        : '';
    yield {
      code: 'scrubber-overloaded',
      message: `${scrubber.id} is loaded above ${perCent(most.value)} of what it can remove in ${counted(over.length, 'week')} from ${formatWeek(first.week)}; at most ${show(peak.load)} against ${show(peak.capacity ?? capacity)}${peak.share ? ` (${perCent(peak.share.value)})` : ''} in ${formatWeek(peak.week)}.${settles}${roomsAbove(season, scrubber.id)}${remediesFor(season, scrubber.id)}${carriedBy(season, scrubber, over)}`,
      at: scrubber.at,
      related: rooms
        .slice(0, 12)
        .map(({ room }) => ({ at: room.at, message: `${room.id} is on ${scrubber.id}` })),
      about: scrubber.id,
    };
  }
}

/** Pressure half-life asked of a room: ordinary and low-oxygen (below this oxygen, per cent). From memory: Bartsch and Blanpied, NRAES-22, 1984. */
const LEAST_HALF_LIFE_MIN = 20;
const LEAST_HALF_LIFE_LOW_OXYGEN_MIN = 30;
const LOW_OXYGEN_PER_CENT = 1.5;

function* roomsTooLeaky(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const filled of season.filled.values()) {
    const { fill, room, capacity, regime, leakShareOfFruitUse } = filled;
    if (!fill.sealed || !regime?.oxygen || !room.tightness || !capacity.pressureHalfLife) continue;
    const low = regime.oxygen.value < LOW_OXYGEN_PER_CENT;
    const least = low ? LEAST_HALF_LIFE_LOW_OXYGEN_MIN : LEAST_HALF_LIFE_MIN;
    // Of fruit that is not all known nothing can be said that is set against its use; the minutes asked stand without it.
    const fruitIsKnown = isFruitKnown(filled);
    const needed = fruitIsKnown ? keepsUpFrom(filled) : undefined;
    if (capacity.pressureHalfLife.value >= Math.max(least, needed?.value ?? 0)) continue;
    const use =
      leakShareOfFruitUse && fruitIsKnown
        ? ` In service, wind and weather then let in about ${perCent(leakShareOfFruitUse.value)} of the oxygen the fruit uses.`
        : '';
    const cure = fruitIsKnown ? tightnessCure(season, filled, least) : '';
    yield {
      code: 'room-too-leaky',
      message: `${room.id} loses half its test pressure in ${show(capacity.pressureHalfLife)}; for ${show(regime.oxygen)} oxygen at least ${least} min are asked (from memory, NRAES-22).${use}${cure} Find the leak and test again before the room is filled; nobody goes into a sealed room for it.`,
      at: room.tightness.at,
      related: [{ at: atRegime(fill), message: 'The regime it is filled for' }],
      about: room.id,
    };
  }
}

/** The minutes that are enough, as the fruit and the room's course have it; else what is left where none are. */
function tightnessCure(season: ComputedSeason, filled: FilledRoom, least: number): string {
  const { capacity, freeGasVolume, oxygenUse } = filled;
  const needed = keepsUpFrom(filled);
  const known = !!capacity.volume && !!freeGasVolume && !!oxygenUse;
  if (known && !(needed && needed.value <= MOST_HALF_LIFE_MIN)) return noTightnessDoes(season, filled, least);
  // What scrubbing draws in comes on top of the leak, and the room's course has it.
  const held = climbsToItsEnd(season, filled) ? minutesThatHold(season, filled) : undefined;
  const from = Math.max(Math.ceil(needed?.value ?? 0), held ?? 0);
  const keepsUp = from > 0 ? ` Its fruit keeps up with the leak from ${from} min on.` : '';
  return `${keepsUp} Brought to ${Math.max(least, from)} min it is tight enough.`;
}

function noTightnessDoes(season: ComputedSeason, filled: FilledRoom, least: number): string {
  const withBag = climbsToItsEnd(season, filled)
    ? minutesThatHold(season, filled, true)
    : keepsUpFrom(filled, true)?.value;
  const bag = filled.room.breatherBag ? 'a larger breather bag' : 'a breather bag';
  const orBag =
    typeof withBag === 'number' && withBag <= MOST_HALF_LIFE_MIN
      ? ` Or give it ${bag} that takes up the weather, and ${Math.max(least, Math.ceil(withBag))} min.`
      : '';
  return ` No tightness alone does it: rooms are brought to ${MOST_HALF_LIFE_MIN} min at most (common practice), and even then more oxygen comes in than its fruit uses.${moreFruit(season, filled, least)}${orBag}`;
}

/** More of its fruit, tried: with the tightness that it takes then, or that a full room does not do either. */
function moreFruit(season: ComputedSeason, filled: FilledRoom, least: number): string {
  const fuller = binsThatKeepUp(season, filled);
  if (fuller === undefined) return ' Choose a regime with more oxygen.';
  if (fuller === null) return ' Nor does a full room of it: choose a regime with more oxygen.';
  const minutes = Math.max(least, fuller.minutes);
  return ` With ${counted(fuller.bins, 'bin')} of its fruit instead of ${binsIn(filled)}, and brought to ${minutes} min, it is tight enough; else choose a regime with more oxygen.`;
}

function* sealedWithoutScrubber(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const filled of season.filled.values()) {
    const { fill, room, regime } = filled;
    if (!fill.sealed || !regime?.carbonDioxide || room.scrubber) continue;
    const above = aboveWithoutScrubber(season, filled);
    const passes = above
      ? ` The ${show(above.limit)} that it bears is passed on ${formatDay(above.from)}, and carbon dioxide comes to ${show(above.highest)} before the room opens: its fruit is likely to be injured.`
      : '';
    yield {
      code: 'sealed-without-scrubber',
      // What its course shows is no longer a risk.
      ...(above ? { severity: 'error' as const } : {}),
      message: `${fill.id} is sealed, but ${room.id} has no scrubber: nothing takes away the carbon dioxide of its fruit.${passes} Name one under \`scrubber\`.`,
      at: fill.sealed.at,
      related: [{ at: room.at, message: `${room.id} is defined here` }],
      about: fill.id,
    };
  }
}

function* sealedForAir({ filled }: ComputedSeason): Iterable<Problem> {
  for (const { fill, regime } of filled.values()) {
    if (!fill.regime || !regime || !!fill.sealed === !!regime.oxygen) continue;
    yield {
      code: 'sealing-and-regime-disagree',
      message: fill.sealed
        ? `${fill.id} has a sealing day, but the regime \`${regime.name}\` keeps the room in air. Take out \`sealed\`, or choose a regime with oxygen.`
        : `${fill.id}: the regime \`${regime.name}\` holds ${regime.oxygen?.value} % oxygen, but no sealing day is given. Add \`sealed\`.`,
      at: fill.sealed?.at ?? fill.regime.at,
      about: fill.id,
    };
  }
}

export const gasRules: readonly Rule[] = [
  ...lowOxygenRules,
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
  {
    code: 'room-too-leaky',
    family: 'gas',
    severity: 'warning',
    summary: 'A room leaks too much for its regime.',
    find: roomsTooLeaky,
  },
  ...pressureTestRules,
  {
    code: 'sealed-without-scrubber',
    family: 'gas',
    severity: 'warning',
    summary: 'A sealed room without a scrubber.',
    find: sealedWithoutScrubber,
  },
  {
    code: 'sealing-and-regime-disagree',
    family: 'gas',
    severity: 'error',
    summary: 'A sealing day and an air regime, or neither.',
    find: sealedForAir,
  },
  ...bedRules,
];
