import { formatDay, formatWeek } from '../../plan/dates';
import { type Figure, figureWith } from '../../plan/figure';
import type { Problem } from '../../plan/problem';
import { placeAt } from '../../plan/span';
import { counted, listed } from '../../plan/wording';
import { openingWeek } from '../../plant/weeks';
import { cautionInShort } from '../../room/caution';
import type { RoomCourse } from '../../room/course/types';
import { coilDifference, driestHumidity, humidityOfRoom, lossToBins, waterOfBins } from '../../room/humidity';
import { transpirationOf } from '../../room/transpiration';
import type { FilledRoom } from '../../room/types';
import { opensIn } from '../compute';
import { perCent, shower } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { coursesOf } from './course';
import { atRegime } from './low-oxygen';

/** Water that the fruit loses: over its whole stay, to a cooler that dries the room, and to dry bins. */

/** Mass that fruit should have lost at most when it leaves the store; published: Linke and others 2023, Sensors 23(3):1739. */
const MOST_WEIGHT_LOST = 3.5;
/** The moistest air that stores are held at, per cent: 90 to 96 is usual (published, see `humidStores`). */
const MOISTEST = 96;

function* weightLost(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  const schedule = opensIn(season);
  for (const { filled, course } of coursesOf(season)) {
    const { fill, regime } = filled;
    const opens = openingWeek(filled, schedule);
    const lost = course.weightLost.value;
    if (opens === undefined || !regime || !(lost > MOST_WEIGHT_LOST)) continue;
    const { day, share } = passes(filled, course);
    yield {
      code: 'weight-loss-high',
      message: `${fill.id} loses ${lost.toFixed(1)} % of its weight from sealing to ${formatWeek(opens)}, when it opens; more than ${MOST_WEIGHT_LOST} % from ${formatDay(day)} on (Linke and others 2023). ${perCent(100 * share)} of it is water given off at ${show(regime.humidity)} relative humidity.${moister(filled, course, share)} Or open it by ${formatDay(day)}. ${cautionInShort}`,
      at: atRegime(fill),
      related: fill.open ? [{ at: fill.open.at, message: 'Opened' }] : [],
      about: fill.id,
    };
  }
}

/** The day on which too much is lost, and water's share of all that is lost. */
function passes(filled: FilledRoom, { course, sealed }: RoomCourse) {
  const fruit = filled.varieties.reduce((sum, { fruit: one }) => sum + one.value, 0);
  const lostAt = ({ dryMatterLostKg, ethanolKg, waterLostKg }: (typeof course.points)[number]) =>
    (100 * (dryMatterLostKg - ethanolKg + waterLostKg)) / fruit;
  const last = course.points.at(-1);
  const at = course.points.find((point) => lostAt(point) > MOST_WEIGHT_LOST) ?? last;
  const share = last ? (100 * last.waterLostKg) / fruit / lostAt(last) : 0;
  return { day: sealed + Math.floor((at?.hours ?? 0) / 24), share };
}

/** What fruit gives off goes with how far the air is from saturation. */
function moister({ regime, assumptions }: FilledRoom, course: RoomCourse, share: number): string {
  if (!regime) return '';
  const water = course.weightLost.value * share;
  const borne = MOST_WEIGHT_LOST - (course.weightLost.value - water);
  const atFruit = assumptions.humidityAtFruit.value;
  const humidity = Math.ceil(10 * (atFruit - ((atFruit - regime.humidity.value) * borne) / water)) / 10;
  return borne > 0 && humidity <= MOISTEST
    ? ` Held at ${humidity} % it would stay within that.`
    : ` No humidity up to the ${MOISTEST} % that stores hold keeps it within that.`;
}

function* roomsTooDry(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const filled of season.filled.values()) {
    const { fill, room, regime, fruit, holdingCooling } = filled;
    const difference = room.coilDifference;
    if (!difference || !regime || !fruit || !holdingCooling) continue;
    // Up to that difference stores are held moist enough, whatever the balance of fruit and coil alone would say.
    if (difference.value <= coilDifference.value) continue;
    const transpiration = transpirationOf(filled.varieties);
    const atFruit = filled.assumptions.humidityAtFruit;
    const comesTo = (one: Figure<'K'>) =>
      humidityOfRoom(regime.temperature, fruit, holdingCooling, one, transpiration, atFruit);
    const humidity = comesTo(difference);
    if (humidity.value >= regime.humidity.value) continue;
    const times = (atFruit.value - humidity.value) / (atFruit.value - regime.humidity.value);
    yield {
      code: 'room-too-dry',
      message: `${room.id}: with a coil ${show(difference)} colder than the air, ${fill.id} comes to ${show(humidity)} relative humidity instead of ${show(regime.humidity)} where nothing else gives water, and its fruit gives off ${times.toFixed(1)} times as much. Air that has all passed the coil has ${show(driestHumidity(regime.temperature, difference))}. A coil large enough for ${show(coilDifference)}, the most that is usual, brings it to ${show(comesTo(coilDifference))}; fans that rest while holding, or a humidifier, do the rest.`,
      at: difference.origin.kind === 'plan' ? difference.origin.at : room.at,
      related: [{ at: atRegime(fill), message: 'The regime it is filled for' }],
      about: room.id,
    };
  }
}

function* dryBins(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const [id, binType] of season.plan.binTypes) {
    const { material } = binType;
    if (material !== 'wood') continue;
    const soaked = [...season.filled.values()].flatMap(({ room, bins, fruit }) =>
      room.binType?.value === id && bins && fruit && fruit.value > 0
        ? [{ room: room.id, bins, water: waterOfBins(bins, material), fruit }]
        : [],
    );
    const worst = soaked
      .map(({ water, fruit }) => lossToBins(water, fruit))
      .reduce<Figure<'%'> | undefined>(
        (most, one) => (most && most.value >= one.value ? most : one),
        undefined,
      );
    const [first] = soaked;
    if (!first || !worst) continue;
    const all = soaked.reduce((sum, { water }) => sum + water.value, 0);
    const bins = soaked.reduce((sum, one) => sum + one.bins.value, 0);
    yield {
      code: 'dry-bins',
      message: `${counted(bins, 'wooden bin')} of type ${id} in ${listed(soaked.map(({ room }) => room))} soak up ${show(figureWith(first.water, { value: all }))} of water in their first weeks if they come in dry, up to ${show(worst)} of the fruit's weight. Wet them before they are filled, or wet the floor before the room is sealed: once it is, nobody goes in for it.`,
      at: placeAt(binType.places, ['material']).span,
      about: id,
    };
  }
}

export const humidityRules: readonly Rule[] = [
  {
    code: 'weight-loss-high',
    family: 'keeping',
    severity: 'warning',
    summary: 'Fruit loses more weight than it should before its room opens.',
    find: weightLost,
  },
  {
    code: 'room-too-dry',
    family: 'cooling',
    severity: 'warning',
    summary: "A cooler dries its room below the regime's humidity.",
    find: roomsTooDry,
  },
  {
    code: 'dry-bins',
    family: 'keeping',
    severity: 'notice',
    summary: "Dry wooden bins soak up the fruit's water.",
    find: dryBins,
  },
];
