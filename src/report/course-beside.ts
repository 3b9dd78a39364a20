import type { ComputedSeason } from '../findings/types';
import { type Day, formatDay } from '../plan/dates';
import { closedForm, type Figure, terms, withBeside } from '../plan/figure';
import type { Scrubber } from '../plan/model';
import {
  carbonDioxideByLeak,
  carbonDioxideInTurn,
  oxygenAtOpening,
  scrubbedClosed,
  timeNeeded,
} from '../plant/closed-levels';
import { hoursToScrubbing } from '../plant/closed-scrubbing';
import { type OxygenBalance, oxygenBalance } from '../plant/oxygen-balance';
import {
  carbonDioxideOfDay,
  carbonDioxideTable,
  oxygenOfDay,
  oxygenTable,
} from '../room/course/closed/balances';
import { dryMatterClosed, waterLostClosed } from '../room/course/closed/losses';
import {
  type ClosedPullDown,
  carbonDioxideMadeClosed,
  closedPullDown,
} from '../room/course/closed/pull-down';
import { fivePerCent, lowestSetPoint, scrubbingBegins } from '../room/course/closed/set-points';
import type { RoomCourse } from '../room/course/types';
import type { FilledRoom } from '../room/types';
import { oxygenRise } from './course-report';
import { type NamedFigure, namedLater, slugOf } from './named-figures';

/** Everything that the closed forms of one course follow from. */
interface Closed {
  readonly filled: FilledRoom;
  readonly course: RoomCourse;
  readonly waits: Figure<'h'>;
  readonly pullDown: ClosedPullDown | undefined;
  readonly balance: OxygenBalance | undefined;
  readonly made: Figure<'kg'> | undefined;
  /** Hours from sealing to scrubbing. */
  readonly begins: Figure<'h'> | undefined;
  readonly needed: ReadonlyMap<number, number> | undefined;
}

const PULL_DOWN =
  "The formula takes one rate of the fruit for each stretch, at its mean oxygen and at the fruit's temperature when it begins; the integration lets both change all the way.";

/** A course's figures by slug, each with the same by a closed form or with the terms that are in it. */
export function courseBeside(
  season: ComputedSeason,
  filled: FilledRoom,
  course: RoomCourse,
  waits: Figure<'h'>,
): Readonly<Record<string, Figure | undefined>> {
  const scrubber = filled.room.scrubber && season.plan.scrubbers.get(filled.room.scrubber.value);
  const closed = closedOf(season, filled, course, waits, scrubber);
  const scrubbing = scrubbingBegins(filled, course);
  return Object.fromEntries([
    ...Object.entries({ ...pullDownFigures(closed), ...gasFigures(closed), ...lossFigures(closed) }).map(
      ([key, figure]) => [slugOf(key), figure],
    ),
    ['oxygen-rise', oxygenRise(season, course)],
    [
      'hours-to-scrubbing',
      scrubbing &&
        withBeside(
          scrubbing,
          closedForm(
            closed.begins,
            'The formula takes the rate in store from the end of the nitrogen on; the integration has it fall with oxygen and with the fruit still cooling, and is read between points two hours apart.',
          ),
        ),
    ],
    ['oxygen-balance', oxygenTable(course)],
    ['carbon-dioxide-balance', carbonDioxideTable(course)],
  ]);
}

function closedOf(
  { courses }: ComputedSeason,
  filled: FilledRoom,
  course: RoomCourse,
  waits: Figure<'h'>,
  scrubber: Scrubber | undefined,
): Closed {
  const { regime, carbonDioxideInStore: inStore } = filled;
  const pullDown = regime?.oxygen && closedPullDown(filled, course.room, waits, regime.oxygen);
  return {
    filled,
    course,
    waits,
    pullDown,
    balance: oxygenBalance(filled, scrubber),
    begins: pullDown && hoursToScrubbing(filled, course, pullDown),
    made: pullDown && inStore && carbonDioxideMadeClosed(pullDown, inStore, course.room),
    needed: scrubber && courses?.scrubbers.find((one) => one.scrubber.id === scrubber.id)?.needed,
  };
}

function pullDownFigures({ filled, course, waits, pullDown }: Closed) {
  const { hoursToFivePercent, hoursToSetPoint, nitrogenFed } = course;
  const toFive = hoursToFivePercent && closedPullDown(filled, course.room, waits, fivePerCent);
  return {
    hoursToFivePercent:
      hoursToFivePercent && withBeside(hoursToFivePercent, closedForm(toFive?.hours, PULL_DOWN)),
    hoursToSetPoint: hoursToSetPoint && withBeside(hoursToSetPoint, closedForm(pullDown?.hours, PULL_DOWN)),
    nitrogenFed: withBeside(
      nitrogenFed,
      closedForm(nitrogenFed.value > 0 ? pullDown?.nitrogen : undefined, PULL_DOWN),
    ),
  };
}

function gasFigures(closed: Closed) {
  const { filled, course, pullDown, balance, needed } = closed;
  const { lowestOxygen, highestCarbonDioxide, oxygenAtEnd, carbonDioxideAtEnd } = course;
  const setPoint = filled.regime?.carbonDioxide;
  const time = needed && timeNeeded(needed, course);
  const inTurn = (share: Figure<'%'> | undefined) =>
    setPoint && share
      ? carbonDioxideInTurn(setPoint, share)
      : course.room.scrubbing
        ? undefined
        : carbonDioxideByLeak(filled, course);
  const lag =
    "The formula has every room rise at once by the same factor over its set-point when its scrubber's rooms need more time than there is. In the integration the level follows later, by the room's time constant, and a room's first day of scrubbing can pass its set-point because turns are set a day at a time.";
  return {
    lowestOxygen: withBeside(
      lowestOxygen,
      closedForm(
        course.hoursToSetPoint && lowestSetPoint(filled),
        'Once there, air is let in to hold the set-point, so oxygen falls no lower.',
      ),
      terms(
        oxygenOfDay(course, dayOf(course, course.course.lowestOxygen.hours)),
        'what came in and what went out on the day it was lowest',
      ),
    ),
    highestCarbonDioxide: withBeside(
      highestCarbonDioxide,
      closedForm(inTurn(time?.most), lag),
      terms(
        carbonDioxideOfDay(course, dayOf(course, course.course.highestCarbonDioxide.hours)),
        'what came in and what went out on the day it was highest',
      ),
    ),
    oxygenAtEnd: withBeside(
      oxygenAtEnd,
      closedForm(
        balance && pullDown && oxygenAtOpening(filled, course, balance, pullDown),
        "The formula keeps the fruit's rate where it is at the set-point; in the integration it rises and falls with oxygen.",
      ),
      terms(
        oxygenOfDay(course, dayOf(course, course.room.untilHours - 1)),
        'what came in and what went out on the last day',
      ),
    ),
    carbonDioxideAtEnd: withBeside(
      carbonDioxideAtEnd,
      closedForm(inTurn(time?.last), lag),
      terms(
        carbonDioxideOfDay(course, dayOf(course, course.room.untilHours - 1)),
        'what came in and what went out on the last day',
      ),
    ),
    scrubbed: withBeside(
      course.scrubbed,
      closedForm(
        balance && closed.begins && scrubbedClosed(filled, course, balance, closed.begins),
        'The formula takes the rate in store and the set-point from the hour scrubbing begins; in the integration the fruit is still cooling then, and the level can stand beside its set-point.',
      ),
      terms(carbonDioxideTable(course), 'what came in and what went out from sealing to opening'),
    ),
  };
}

/** The day of an hour of the course; the last one for its end. */
function dayOf({ sealed, room }: RoomCourse, hours: number): Day {
  return sealed + Math.floor(Math.min(hours, room.untilHours - 1) / 24);
}

/** Days told one by one after sealing; from then on one a week. */
const DAYS_TOLD = 21;

/** The balances of single days, worked out when they are asked for. */
export function balancesByDay(owner: string, course: RoomCourse): NamedFigure[] {
  const last = Math.ceil(course.room.untilHours / 24) - 1;
  const days = Array.from({ length: last + 1 }, (_, index) => index).filter(
    (index) => index <= DAYS_TOLD || index % 7 === 0 || index === last,
  );
  return days.flatMap((index) => {
    const day = course.sealed + index;
    return [
      namedLater(
        owner,
        `oxygen-balance-${formatDay(day)}`,
        () => oxygenOfDay(course, day) ?? oxygenTable(course),
      ),
      namedLater(
        owner,
        `carbon-dioxide-balance-${formatDay(day)}`,
        () => carbonDioxideOfDay(course, day) ?? carbonDioxideTable(course),
      ),
    ];
  });
}

function lossFigures({ filled, course, made }: Closed) {
  const { carbonDioxideMade, dryMatterLost, waterLost, weightLost, ethanolMade } = course;
  const madeBeside = withBeside(
    carbonDioxideMade,
    closedForm(
      made,
      'The formula adds stretch by stretch of the pull-down, then the rate in store; the integration also has the fruit that is still warm then, and the later stages of the regime.',
    ),
  );
  const dryMatter = withBeside(
    dryMatterLost,
    closedForm(
      dryMatterClosed(madeBeside, course),
      'So much sugar for each kilogram of carbon dioxide, more for that of fermentation.',
    ),
  );
  const water = withBeside(
    waterLost,
    closedForm(
      waterLostClosed(filled, course),
      'The formula takes all fruit as cold; the integration has the warmer fruit of the last days give off more at first.',
    ),
  );
  return {
    carbonDioxideMade: madeBeside,
    dryMatterLost: dryMatter,
    waterLost: water,
    ethanolMade,
    weightLost: withInputs(weightLost, { dryMatter, water }),
  };
}

/** A computed figure with some of its inputs as they stand with their closed forms. */
function withInputs<F extends Figure>(figure: F, better: Readonly<Record<string, Figure>>): F {
  const { origin } = figure;
  if (origin.kind !== 'computed') return figure;
  const inputs = Object.fromEntries(
    Object.entries(origin.inputs).map(([key, input]) => [key, better[key] ?? input]),
  );
  const { kind, formula, source } = origin;
  return { ...figure, origin: { kind, formula, inputs, ...(source && { source }) } };
}
