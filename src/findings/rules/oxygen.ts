import { formatDay } from '../../plan/dates';
import { type Figure, figureWith } from '../../plan/figure';
import type { Scrubber } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { counted, listed } from '../../plan/wording';
import { oxygenBalance } from '../../plant/oxygen-balance';
import { type OxygenClimb, oxygenClimbs } from '../../room/course/climbs';
import type { RoomCourse } from '../../room/course/types';
import { deliveriesOf, flushVolumes, leastOxygenInNitrogen } from '../../room/nitrogen';
import type { FilledRoom } from '../../room/types';
import { binsIn, binsThatHold } from '../more-fruit';
import { neededShower, shower } from '../say';
import { minutesThatHold } from '../tight-enough';
import type { ComputedSeason, Rule } from '../types';
import { coursesOf } from './course';

/**
 * From here on a rise that is over before the room opens is worth a word: half a point, or a third of the set-point where
 * that is less; rule of thumb, no publication gives it. The first is what readings are told at, too.
 */
const [MOST_POINTS, MOST_SHARE] = [0.5, 1 / 3];
const RULE_OF_THUMB = 'half a point, or a third of the set-point where that is less';

function* climbs(season: ComputedSeason): Iterable<Problem> {
  for (const { filled, course } of coursesOf(season)) {
    const climbing = oxygenClimbs(course);
    if (!filled.regime?.oxygen || climbing.length === 0) continue;
    const atEnd = climbing.find(({ until }) => until === undefined);
    const problem = atEnd
      ? climbsToTheEnd(season, filled, course, atEnd)
      : comesBack(season, filled, climbing);
    if (problem) yield problem;
  }
}

function climbsToTheEnd(
  season: ComputedSeason,
  filled: FilledRoom,
  course: RoomCourse,
  { from, setPoint, highest, highestOn }: OxygenClimb,
): Problem {
  const show = shower(season);
  const { oxygenAtEnd: end } = course;
  const level = figureWith(end, { value: setPoint });
  const higher =
    highest - end.value >= 0.1
      ? `, at most to ${show(figureWith(end, { value: highest }))} on ${formatDay(highestOn)}, and is at ${showAbove(show, end, level)} when the room opens`
      : `, to ${showAbove(show, end, level)} when the room opens`;
  return {
    code: 'oxygen-climbs',
    message: `${filled.fill.id}: from ${formatDay(from)} oxygen climbs above its ${show(level)}${higher}: more comes in than the fruit uses.${oxygenCures(season, filled)}`,
    ...placesOf(filled),
  };
}

/** A rise that the fruit has used up again before the room opens: the highest of them, where it is worth a word. */
function comesBack(
  season: ComputedSeason,
  filled: FilledRoom,
  climbing: readonly OxygenClimb[],
): Problem | undefined {
  const [first] = climbing;
  const atSetPoint = filled.regime?.oxygen;
  if (!first || !atSetPoint) return undefined;
  const worst = climbing.reduce((most, one) => (riseOf(one) > riseOf(most) ? one : most), first);
  if (riseOf(worst) <= Math.min(MOST_POINTS, MOST_SHARE * worst.setPoint)) return undefined;
  const { from, until = from, setPoint, highest, highestOn } = worst;
  const show = shower(season);
  const level = (value: number) => show(figureWith(atSetPoint, { value }));
  const others = climbing.length > 1 ? ` It climbs ${climbing.length} times; this is the highest.` : '';
  return {
    code: 'oxygen-climbs',
    severity: 'notice',
    message: `${filled.fill.id}: from ${formatDay(from)} oxygen climbs above its ${level(setPoint)}, at most to ${level(highest)} on ${formatDay(highestOn)}, and is back by ${formatDay(until)}, before the room opens.${others} More than ${RULE_OF_THUMB}, is worth holding down (common practice).${feedThatHolds(season, filled, worst)}`,
    ...placesOf(filled),
  };
}

function riseOf({ highest, setPoint }: OxygenClimb): number {
  return highest - setPoint;
}

/** Nitrogen that brings the highest level back, or what to do where the room's source cannot. */
function feedThatHolds(season: ComputedSeason, filled: FilledRoom, climb: OxygenClimb): string {
  const { room, freeGasVolume } = filled;
  const { setPoint, highest, from, until = from } = climb;
  const scrubber = room.scrubber && season.plan.scrubbers.get(room.scrubber.value);
  const rinse =
    scrubber?.beds && (oxygenBalance(filled, scrubber)?.atBeds.value ?? 0) > 0
      ? ` Or rinse the beds of ${scrubber.id} before they turn.`
      : '';
  const source = room.nitrogen && season.plan.nitrogenSources.get(room.nitrogen.value);
  const purest = source && leastOxygenInNitrogen(deliveriesOf(source));
  if (!source || !purest || purest.value >= setPoint || !freeGasVolume)
    return rinse === ''
      ? ' It needs purer nitrogen, or a tighter room, on these days.'
      : rinse.replace(' Or rinse', ' Rinse');
  const percent = (value: number) => figureWith(purest, { value });
  const volumes = flushVolumes(percent(highest), percent(setPoint), purest);
  const needed = figureWith(freeGasVolume, { value: volumes.value * freeGasVolume.value });
  return ` Plan nitrogen from ${source.id} between ${formatDay(from)} and ${formatDay(until)}: ${neededShower(season)(needed)} of its purest gas bring the highest level down again.${rinse}`;
}

function placesOf({ fill, room }: FilledRoom): Pick<Problem, 'at' | 'related' | 'about'> {
  return {
    at: room.scrubber?.at ?? fill.at,
    related: [
      ...(room.tightness ? [{ at: room.tightness.at, message: `Pressure test of ${room.id}` }] : []),
      ...(fill.sealed ? [{ at: fill.sealed.at, message: 'Sealed' }] : []),
    ],
    about: fill.id,
  };
}

/** A level that is above another, in tenths where they tell the two apart, else in hundredths. */
function showAbove(show: (figure: Figure) => string, level: Figure, other: Figure): string {
  return level.value - other.value < 0.1 ? `${level.value.toFixed(2)} %` : show(level);
}

/** The least change of each kind with which the fruit keeps up. */
function oxygenCures(season: ComputedSeason, filled: FilledRoom): string {
  const { plan } = season;
  const show = shower(season);
  const { room, regime, capacity, freeGasVolume, oxygenUse: use } = filled;
  const scrubber = room.scrubber && plan.scrubbers.get(room.scrubber.value);
  const balance = oxygenBalance(filled, scrubber);
  if (!balance || !regime?.oxygen || !freeGasVolume || !use || !capacity.volume)
    return ' Rinse the beds of its scrubber before they turn, or have the leak found before the room is filled again.';
  const cures: string[] = [];
  const { atBeds, bedAirBorne } = balance;
  if (scrubber?.beds && atBeds.value > 0 && bedAirBorne.value > 0) {
    const rinsed = scrubber.beds.rinsed?.value ?? 0;
    const needed = 100 - ((100 - rinsed) * bedAirBorne.value) / atBeds.value;
    cures.push(
      `rinse the beds of ${scrubber.id} to ${Math.ceil(needed)} % instead of ${rinsed} % (\`rinsed\`; ${show(bedAirBorne)} of outside air is all that may come with them, now ${show(atBeds)})`,
    );
  }
  const selective = scrubber && selectivityNeeded(filled, scrubber);
  if (scrubber?.selectivity && selective !== undefined)
    cures.push(
      `give ${scrubber.id} a membrane ${selective.toFixed(1)} times as open to carbon dioxide as to oxygen instead of ${scrubber.selectivity.overOxygen.value}`,
    );
  const minutes = minutesThatHold(season, filled);
  if (typeof minutes === 'number') cures.push(`make the room tight to a half-life of ${minutes} min`);
  if (minutes === undefined && cures.length === 0) return '';
  if (cures.length > 0) return ` It would hold if you ${listed(cures).replace(' and ', ', or ')}.`;
  return otherCures(season, filled, scrubber);
}

/** Where no single change to scrubber or tightness does: a bag with tightness, or more fruit, each tried on the course. */
function otherCures(season: ComputedSeason, filled: FilledRoom, scrubber: Scrubber | undefined): string {
  const { room, capacity } = filled;
  const minutes = minutesThatHold(season, filled, true);
  const bins = binsThatHold(season, filled);
  if (minutes === undefined || bins === undefined) return '';
  const neither = scrubber?.selectivity
    ? ' Neither another membrane nor a tighter room alone holds it'
    : scrubber?.beds
      ? ' Neither rinsed beds nor a tighter room alone holds it'
      : ' No tightness alone holds it';
  const cures: string[] = [];
  const bag = room.breatherBag ? 'a larger breather bag' : 'a breather bag';
  if (minutes !== null) {
    const isTight = minutes <= Math.ceil(capacity.pressureHalfLife?.value ?? 0);
    cures.push(
      isTight
        ? `give the room ${bag} that takes up the weather`
        : `give the room ${bag} that takes up the weather, with a half-life of ${minutes} min`,
    );
  }
  if (bins !== null)
    cures.push(`put ${counted(bins, 'bin')} of its fruit into it instead of ${binsIn(filled)}`);
  return cures.length > 0
    ? `${neither}. It would hold if you ${cures.join(', or ')}.`
    : `${neither}, nor does a breather bag or a full room: choose a regime with more oxygen.`;
}

/** No membrane at hand is more selective. */
const MOST_SELECTIVE = 100;

/** The least selectivity over oxygen, in tenths, at which the fruit keeps up, found by halving. */
function selectivityNeeded(filled: FilledRoom, scrubber: Scrubber): number | undefined {
  const { selectivity } = scrubber;
  if (!selectivity) return undefined;
  const keepsUp = (tenths: number) => {
    const overOxygen = figureWith(selectivity.overOxygen, { value: tenths / 10 });
    const balance = oxygenBalance(filled, { ...scrubber, selectivity: { ...selectivity, overOxygen } });
    return !!balance && balance.surplus.value <= 0;
  };
  let [low, high] = [10, 10 * MOST_SELECTIVE];
  if (!keepsUp(high)) return undefined;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (keepsUp(middle)) high = middle;
    else low = middle;
  }
  return high / 10;
}

export const oxygenRules: readonly Rule[] = [
  {
    code: 'oxygen-climbs',
    family: 'gas',
    severity: 'warning',
    summary: 'More oxygen comes in than the fruit uses.',
    find: climbs,
  },
];
