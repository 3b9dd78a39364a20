import { type FirmnessCourse, firmnessAfter, usualCourse } from '../keeping/firmness';
import { type Day, formatDay } from '../plan/dates';
import type { Lot, Plan, Sample } from '../plan/model';
import type { FilledRoom } from '../room/types';
import { type FirmnessSample, type FittedFirmness, fitFirmness } from './firmness';
import { digitsFor, type Learned, type Lesson, type NotLearned } from './lesson';

/** Fruit of a sample that does not say how many it had. */
const USUAL_FRUIT = 10;
const LONGEST_DAYS = 500;
/** Where the fit says that fruit hardly softens or grows firmer, the samples say something else. */
const LEAST_SOFTENING = 0.05;

/** What a lot's samples are laid over: the course of its variety, and the day it counts from. */
interface LotCourse {
  readonly lot: Lot;
  readonly start: Day;
  readonly course: FirmnessCourse;
}

/** The firmness of each lot that has samples out of store. */
export function firmnessLessons(plan: Plan, filled: ReadonlyMap<string, FilledRoom>): Learned {
  const byLot = new Map<string, Sample[]>();
  for (const sample of plan.samples.values())
    if (sample.lot && sample.taken && sample.firmness)
      byLot.set(sample.lot.value, [...(byLot.get(sample.lot.value) ?? []), sample]);
  const lessons: Lesson[] = [];
  const not: NotLearned[] = [];
  for (const [id, samples] of byLot) {
    const lot = plan.lots.get(id);
    const made = lot && lessonOf(lot, samples, filled);
    if (typeof made === 'string') not.push({ kind: 'firmness', entry: id, reason: made });
    else if (made) lessons.push(made);
  }
  return { lessons, not };
}

function lessonOf(
  lot: Lot,
  samples: readonly Sample[],
  filled: ReadonlyMap<string, FilledRoom>,
): Lesson | string {
  const placed = samples.flatMap((sample) => {
    const course = courseOf(lot, sample, filled);
    return course ? [{ sample, course }] : [];
  });
  const [first] = placed;
  if (!first) return 'It is in no room whose regime is known.';
  const tested = lot.maturity?.firmness?.value;
  const fit = fitFirmness(
    { atHarvest: tested },
    placed.map(({ sample, course }) => sampleOf(sample, course)),
  );
  if (!fit) return 'It has no samples.';
  if (fit.softening.value < LEAST_SOFTENING)
    return 'Its samples are as firm as fruit at harvest, or firmer: see whether they are of this lot, warm, and in the right unit.';
  return lessonFrom(
    lot,
    fit,
    placed.map(({ sample }) => sample),
    first.course,
    tested,
  );
}

function courseOf(lot: Lot, sample: Sample, filled: ReadonlyMap<string, FilledRoom>): LotCourse | undefined {
  const rooms = sample.fill ? [filled.get(sample.fill.value)] : [...filled.values()];
  for (const room of rooms) {
    const inRoom = room?.lots.find((one) => one.lot.id === lot.id);
    const start = lot.picked?.value.first ?? room?.fill.firstBin?.value;
    if (!room?.regime || !inRoom || start === undefined || !sample.firmness) continue;
    const atHarvest = lot.maturity?.firmness ?? sample.firmness;
    return { lot, start, course: usualCourse(atHarvest, lot, inRoom.variety, room.fill, room.regime, start) };
  }
  return undefined;
}

function lostBy({ course, start }: LotCourse, day: Day): number {
  return course.atHarvest.value - firmnessAfter(course, day - start);
}

function sampleOf(sample: Sample, course: LotCourse): FirmnessSample {
  const day = sample.taken?.value ?? course.start;
  return {
    days: day - course.start,
    firmness: sample.firmness?.value ?? 0,
    fruit: sample.fruit?.value ?? USUAL_FRUIT,
    spread: sample.firmnessSpread?.value,
    lost: lostBy(course, day),
  };
}

function lessonFrom(
  lot: Lot,
  fit: FittedFirmness,
  samples: readonly Sample[],
  course: LotCourse,
  tested: number | undefined,
): Lesson {
  const own = lot.ownFirmness;
  const days = samples.flatMap(({ taken }) => taken?.value ?? []).sort((a, b) => a - b);
  const [firstDay = course.start, lastDay = course.start] = [days[0], days.at(-1)];
  const knownBest = dayLost(course, fit.knownBestAt);
  const there = fit.firmnessOnceLost(lostBy(course, knownBest));
  const spread = (there.high - there.low) / 2 / HALF_WIDTH;
  const points = samples.flatMap(({ id, taken, firmness }) =>
    taken
      ? [
          {
            from: taken.value,
            to: taken.value,
            about: id,
            seen: firmness?.value,
            fitted: fit.firmnessOnceLost(lostBy(course, taken.value)),
          },
        ]
      : [],
  );
  const ahead = [30, 60, 90].map((more) => ({
    from: lastDay + more,
    to: lastDay + more,
    fitted: fit.firmnessOnceLost(lostBy(course, lastDay + more)),
  }));
  const { low, high } = fit.softening;
  return {
    id: `firmness/${lot.id}`,
    kind: 'firmness',
    section: 'lots',
    entry: lot.id,
    values: [
      {
        name: 'firmness at harvest',
        unit: 'N',
        before: own?.atHarvest.value ?? tested,
        fitted: fit.atHarvest,
      },
      {
        name: 'firmness lost, as a share of what the variety loses',
        unit: '1',
        before: own?.softening.value ?? 1,
        fitted: fit.softening,
      },
    ],
    series: [{ name: 'firmness', unit: 'N', points: [...points, ...ahead] }],
    key: 'firmness',
    written: [
      ['at-harvest', `${digitsFor(fit.atHarvest.value, fit.atHarvest)} N`],
      ['softening', digitsFor(fit.softening.value, fit.softening)],
      ['known-best', formatDay(knownBest)],
      ['spread', `${spread.toFixed(1)} N`],
      ['softening-spread', `${(100 * fit.softeningSpread).toFixed(0)} %`],
    ],
    source: `fitted to ${samples.length} ${samples.length === 1 ? 'sample' : 'samples'}, ${formatDay(firstDay)} to ${formatDay(lastDay)}, softening 95 %: ${low.toFixed(2)} to ${high.toFixed(2)}`,
    remarks: [
      tested === undefined
        ? 'There is no test of firmness at harvest: the samples alone say where the course starts.'
        : 'The test at harvest and the softening of the variety count beside the samples: the fewer these are, the more.',
    ],
  };
}

const HALF_WIDTH = 1.959964;

/** The day by which the variety would have lost so much. */
function dayLost(course: LotCourse, lost: number): Day {
  let [low, high] = [0, LONGEST_DAYS];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (lostBy(course, course.start + middle) < lost) low = middle;
    else high = middle;
  }
  return course.start + high;
}
