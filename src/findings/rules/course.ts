import { daysToGas } from '../../keeping/assumptions';
import { type Day, formatDay } from '../../plan/dates';
import { roundedUp } from '../../plan/display';
import { compute, countedFigure, figureWith } from '../../plan/figure';
import type { Problem } from '../../plan/problem';
import { counted, listed } from '../../plan/wording';
import { leastWhole } from '../../plant/try';
import { utilisationOf } from '../../room/assumptions';
import { type CoolingCourse, coolingCourse } from '../../room/cooling-course';
import { limeChanges } from '../../room/course/lime';
import type { RoomCourse } from '../../room/course/types';
import type { FilledRoom } from '../../room/types';
import { onceFor } from '../courses';
import { neededShower, shower } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { isFruitKnown, moreThanTold } from '../unknown-fruit';

/** What a room's course from sealing to opening shows. Found only where courses were asked for. */

/** Every course with the fill it is of, as the plan stands now; not of one whose fruit is not all known. */
export function* coursesOf(
  season: ComputedSeason,
): Iterable<{ readonly filled: FilledRoom; readonly course: RoomCourse }> {
  for (const course of season.courses?.courses.values() ?? []) {
    const filled = season.filled.get(course.fill);
    if (filled?.fill.sealed && isFruitKnown(filled)) yield { filled, course };
  }
}

/**
 * Days from sealing beyond which the gas of a room comes late: nitrogen is to bring oxygen to 3 % within four days
 * (ARC 2019) and fruit takes some days more for the rest; common practice.
 */
const MOST_DAYS_TO_SET_POINT = 10;

function* setPointLate(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const { filled, course } of coursesOf(season)) {
    const { fill, regime, nitrogenShortfall } = filled;
    const days = (course.hoursToSetPoint?.value ?? Number.POSITIVE_INFINITY) / 24;
    // Where the gas is not pure enough, that finding tells how long the fruit takes.
    if (days <= MOST_DAYS_TO_SET_POINT || nitrogenShortfall || !regime?.oxygen || !fill.sealed) continue;
    const when = Number.isFinite(days)
      ? `reaches its ${show(regime.oxygen)} oxygen on ${formatDay(course.sealed + Math.floor(days))}, ${Math.round(days)} days after it is sealed`
      : `never reaches its ${show(regime.oxygen)} oxygen: the lowest is ${show(course.lowestOxygen)}`;
    yield {
      code: 'set-point-late',
      message: `${fill.id} ${when}; within ${MOST_DAYS_TO_SET_POINT} days is usual, and the room's window counts ${daysToGas.value}.${setPointCure(season, filled, days)}`,
      at: fill.sealed.at,
      related: filled.room.nitrogen ? [{ at: filled.room.nitrogen.at, message: 'Its nitrogen' }] : [],
      about: fill.id,
    };
  }
}

function setPointCure(season: ComputedSeason, filled: FilledRoom, days: number): string {
  const show = shower(season);
  if (!filled.room.nitrogen) {
    const use = filled.oxygenUse ? ` (the fruit alone uses ${show(filled.oxygenUse)})` : '';
    return ` It has no nitrogen${use}: name a source under \`nitrogen\`.`;
  }
  const turn = season.courses?.queues
    .flatMap(({ turns }) => turns)
    .find(({ room }) => room.fill.id === filled.fill.id);
  if (turn && turn.waits.value > 24)
    return ` It waits ${show(turn.waits)} for nitrogen; flushed first it would be ${Math.round(turn.waits.value / 24)} days sooner.`;
  if (turn && Number.isFinite(days)) {
    const factor = days / MOST_DAYS_TO_SET_POINT;
    return ` Its flush takes ${show(turn.flush)}: a flow ${roundedUp(factor, 1).toFixed(1)} times as large would do, or purer gas.`;
  }
  return ' Raise the set-point, give the room a larger flow or purer gas, or have the leak found before it is filled.';
}

/** Both states' rules; hours. */
const LAW_HOURS = 20 * 24;

/** Oxygen of 99 % nitrogen, and what the law and outside air have; per cent. */
const [LEAN, LAW_OXYGEN, AIR_OXYGEN] = [1, 5, 20.9];

/** What would bring a room to 5 % oxygen in time: its turn sooner, more flow, or nitrogen at all. */
function claimCure(season: ComputedSeason, filled: FilledRoom, hours: number | undefined): string {
  const show = shower(season);
  const turn = season.courses?.queues
    .flatMap(({ turns }) => turns)
    .find(({ room }) => room.fill.id === filled.fill.id);
  if (!turn) {
    const { freeGasVolume } = filled;
    if (!freeGasVolume) return ' Give the room nitrogen.';
    // What the fruit uses meanwhile is left out, so that this much is enough.
    const volumes = Math.log((AIR_OXYGEN - LEAN) / (LAW_OXYGEN - LEAN));
    const flow = compute(
      'flow that brings a room to 5 % oxygen in time',
      'm3/h',
      'volumes * freeGasVolume / hours',
      {
        volumes: countedFigure(
          'volumes',
          '1',
          volumes,
          'the logarithm of (20.9 - 1) / (5 - 1), at 99 % nitrogen',
        ),
        freeGasVolume,
        hours: countedFigure('hours', 'h', LAW_HOURS, 'twenty days'),
      },
      (v) => (v.volumes * v.freeGasVolume) / v.hours,
    );
    return ` ${neededShower(season)(flow)} of 99 % nitrogen from its sealing would do.`;
  }
  if (hours === undefined) return ' Purer nitrogen, or a tighter room, must bring it there.';
  const late = hours - LAW_HOURS;
  const wait = turn.waits.value;
  if (wait >= late)
    return ` It waits ${show(turn.waits)} for nitrogen; a turn ${Math.ceil(late / 24)} days sooner would do.`;
  if (wait >= LAW_HOURS)
    return ` It waits ${show(turn.waits)} for nitrogen: it must have both a turn sooner and more flow.`;
  const factor = (hours - wait) / (LAW_HOURS - wait);
  return ` A flow ${roundedUp(factor, 1).toFixed(1)} times as large would do.`;
}

function* fivePercentLate(season: ComputedSeason): Iterable<Problem> {
  for (const { filled, course } of coursesOf(season)) {
    const { fill, room } = filled;
    if (room.law === 'none' || !fill.sealed) continue;
    const hours = course.hoursToFivePercent?.value;
    if (hours !== undefined && hours <= LAW_HOURS) continue;
    const reached =
      hours === undefined
        ? 'does not come to 5 % oxygen before it opens'
        : `comes to 5 % oxygen on ${formatDay(course.sealed + Math.floor(hours / 24))}, ${Math.ceil((hours - LAW_HOURS) / 24)} days too late`;
    yield {
      code: 'claim-not-supported',
      message: `${fill.id} ${reached}: the rule of ${room.law === 'new-york' ? 'New York' : 'Washington'} asks for it by ${formatDay(course.sealed + 20)}, 20 days after sealing. Its fruit may not be called "CA" then.${claimCure(season, filled, hours)} Else write \`law: none\`. Check the text in force.`,
      at: fill.sealed.at,
      related: [{ at: room.at, message: `${room.id} follows the rule` }],
      about: fill.id,
    };
  }
}

function* limeShort(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const { scrubber, rooms } of season.courses?.scrubbers ?? []) {
    const now = season.plan.scrubbers.get(scrubber.id);
    const { charge } = now ?? {};
    if (!now || !charge || now.kind !== 'lime') continue;
    // One room's lime, or a box that several rooms share: each uses its part up.
    const scrubbed = rooms.reduce((sum, { course }) => sum + course.scrubbed.value, 0);
    for (const { course } of rooms) {
      const part = figureWith(charge, { value: (charge.value * course.scrubbed.value) / scrubbed });
      const changes = limeChanges(course, part, utilisationOf(season.plan, now));
      const [first] = changes;
      if (first === undefined || course !== rooms[0]?.course) continue;
      const times = counted(changes.length, 'time');
      const more = moreThanTold(rooms.map(({ room }) => room));
      const enough = figureWith(charge, { value: charge.value * (changes.length + 1) });
      yield {
        code: 'lime-short',
        message: more
          ? `${scrubber.id}: its charge of ${show(charge)} is used up by ${formatDay(first)} at the latest and has to be changed at least ${times} before its rooms open.${more}`
          : `${scrubber.id}: its charge of ${show(charge)} is used up on ${formatDay(first)} and has to be changed ${times} before its rooms open (${listed(changes.map(formatDay))}). ${show(enough)} would last, and lime for ${show({ ...course.scrubbed, value: scrubbed })} of carbon dioxide in all has to be at hand.`,
        at: now.at,
        related: rooms.flatMap(({ room: { fill } }) => {
          const at = season.plan.fills.get(fill.id)?.at;
          return at ? [{ at, message: `${fill.id} is on ${scrubber.id}` }] : [];
        }),
        about: scrubber.id,
      };
    }
  }
}

/** Days by which fruit may come cold after the seal: gas takes a day or more to come down; common practice. */
const MOST_DAYS_WARM = 1;

function* sealedBeforeCold(season: ComputedSeason): Iterable<Problem> {
  for (const [id, cooling] of season.courses?.cooling ?? []) {
    const filled = season.filled.get(id);
    const sealed = filled?.fill.sealed;
    // Fruit that is not known would come cold later than is told, and the day to seal on with it.
    if (!filled || !sealed || !isFruitKnown(filled)) continue;
    const message =
      sealedInHold(filled, sealed.value, cooling) ?? sealedWarm(season, filled, sealed.value, cooling);
    if (message === undefined) continue;
    yield {
      code: 'sealed-before-cold',
      message,
      at: sealed.at,
      related: filled.fill.lastBin ? [{ at: filled.fill.lastBin.at, message: 'Last bin' }] : [],
      about: id,
    };
  }
}

/**
 * A warm hold is in air; gas is set when it is over (Michigan State University: two days longer where CA follows, well
 * ventilated, with an eye on carbon dioxide). While the room then steps down it may be sealed.
 */
function sealedInHold(
  { fill, stepDown }: FilledRoom,
  sealed: Day,
  { canBeSealed }: CoolingCourse,
): string | undefined {
  if (!stepDown || sealed >= stepDown.first) return undefined;
  const sealOn = Math.max(stepDown.first, canBeSealed ?? stepDown.first);
  return `${fill.id} is sealed on ${formatDay(sealed)}, in its warm hold, which lasts until ${formatDay(stepDown.first - 1)}. The hold is in ventilated air whose carbon dioxide stays low; gas is set when it is over, also while the room steps down. Seal it on ${formatDay(sealOn)}.`;
}

function sealedWarm(
  season: ComputedSeason,
  filled: FilledRoom,
  sealed: Day,
  { canBeSealed, shortOfCooling }: CoolingCourse,
): string | undefined {
  const days = (canBeSealed ?? Number.POSITIVE_INFINITY) - sealed;
  if (days <= MOST_DAYS_WARM) return undefined;
  // Of a room with a warm hold fruit is counted to the hold: it steps down from there behind the closed door.
  const cold = filled.stepDown ? 'down to its warm hold' : 'cold';
  const short = shortOfCooling.value;
  const why =
    short > 0
      ? ` Its cooler, or the group behind it, is short for ${counted(short, 'hour')}.`
      : ` Its cooler is never short: its last fruit comes in too late to be ${cold} by then.`;
  const later = canBeSealed === undefined ? ' Take in less a day' : ` Seal it on ${formatDay(canBeSealed)}`;
  const when =
    canBeSealed === undefined
      ? `all fruit is ${cold} only after more than two months`
      : `all fruit is ${cold} on ${formatDay(canBeSealed)}, ${counted(days, 'day')} later`;
  return `${filled.fill.id} is sealed on ${formatDay(sealed)} and ${when}. Warm fruit gives off several times the carbon dioxide of cold, behind a closed door.${why}${later}${coolerThatDoes(season, filled, canBeSealed)}.`;
}

/** More than any cooler of one room gives. */
const LARGEST_COOLER_KW = 2000;

/** The least cooler, in whole kilowatts, behind which the fruit is cold in time; none where it is not what is short. */
function coolerThatDoes(season: ComputedSeason, filled: FilledRoom, coldOn: Day | undefined): string {
  const { plan, courses } = season;
  const { fill, room } = filled;
  const { coolerCapacity: own } = room;
  const sealed = fill.sealed?.value;
  if (!own || sealed === undefined || coolingCourse(plan, filled)?.canBeSealed !== coldOn) return '';
  const inTime = (kilowatts: number) => {
    const cold = coolingCourse(plan, filled, { capacityKw: () => kilowatts })?.canBeSealed;
    return cold !== undefined && cold - sealed <= MOST_DAYS_WARM;
  };
  const least = onceFor(courses, `cooler of ${fill.id}`, () =>
    leastWhole(Math.floor(own.value), LARGEST_COOLER_KW, inTime),
  );
  if (least === undefined) return '';
  const show = shower(season);
  return `, or give ${room.id} a cooler of ${neededShower(season)(figureWith(own, { value: least }))} instead of ${show(own)}`;
}

export const courseRules: readonly Rule[] = [
  {
    code: 'set-point-late',
    family: 'gas',
    severity: 'warning',
    summary: 'Oxygen reaches its set-point late or never.',
    find: setPointLate,
  },
  {
    code: 'claim-not-supported',
    family: 'keeping',
    severity: 'warning',
    summary: 'Oxygen comes to 5 % later than a CA claim asks.',
    find: fivePercentLate,
  },
  {
    code: 'lime-short',
    family: 'gas',
    severity: 'warning',
    summary: 'A charge of lime is used up before its rooms open.',
    find: limeShort,
  },
  {
    code: 'sealed-before-cold',
    family: 'cooling',
    severity: 'notice',
    summary: 'Sealed while fruit is still warm.',
    find: sealedBeforeCold,
  },
];
