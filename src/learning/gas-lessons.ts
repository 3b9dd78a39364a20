import { formatDay } from '../plan/dates';
import type { Plan } from '../plan/model';
import type { Progress } from '../plan/record-model';
import type { Steps } from '../plan/steps';
import type { RoomReadings } from '../readings/types';
import { FruitRate } from '../room/course/fruit-rate';
import { roomCelsius } from '../room/course/fruit-temperature';
import { courseRoom } from '../room/course/of-plan';
import { molesPerCubicMetre } from '../room/course/state';
import type { FilledRoom } from '../room/types';
import { slopesOf } from './fit-gas';
import { digitsFor, type Learned, type Lesson, type LessonPoint, type NotLearned } from './lesson';
import { type FittedGas, fitRoomGas, type NotFitted, type RoomGas } from './room-gas';

/** From sealing until the fruit is cold and the gas is set, where no record says when that was. */
const DAYS_TO_SETTLE = 7;
/** A fit is shown in so many stretches at most. */
const MOST_STRETCHES = 8;
const LONGEST_DAYS = 700;

/** What was fitted to the readings of a room, for whoever learns again of a plan in which nothing of it has changed. */
export class GasFits {
  private readonly kept = new WeakMap<RoomReadings, Map<string, KeptFit>>();

  of(plan: Plan, filled: FilledRoom, read: RoomReadings): KeptFit | undefined {
    const progress = plan.progress.get(filled.fill.id);
    const byFill = this.kept.get(read) ?? new Map<string, KeptFit>();
    this.kept.set(read, byFill);
    const known = byFill.get(filled.fill.id);
    if (known && known.filled === filled && known.progress === progress) return known;
    const room = roomGasOf(plan, filled);
    if (!room) return undefined;
    const made = { filled, progress, room, fit: fitRoomGas(read, room) };
    byFill.set(filled.fill.id, made);
    return made;
  }
}

interface KeptFit {
  readonly filled: FilledRoom;
  readonly progress: Progress | undefined;
  readonly room: RoomGas;
  readonly fit: FittedGas | NotFitted;
}

/** Respiration and leakage of each sealed room that has readings. */
export function* gasLessonsSteps(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  readings: ReadonlyMap<string, RoomReadings>,
  fits: GasFits,
): Steps<Learned> {
  const lessons = new Map<string, Lesson>();
  const not: NotLearned[] = [];
  const inOrder = [...filled.values()].sort(
    (a, b) => (a.fill.sealed?.value ?? 0) - (b.fill.sealed?.value ?? 0),
  );
  for (const one of inOrder) {
    const read = readings.get(one.room.id);
    yield;
    const kept = read && fits.of(plan, one, read);
    if (!kept) continue;
    const { fit, room } = kept;
    if (typeof fit === 'string') {
      not.push({ kind: 'respiration', entry: one.fill.id, reason: REASONS[fit] });
      continue;
    }
    for (const lesson of lessonsOf(one, room, fit)) lessons.set(lesson.id, lesson);
    if (fit.whyNoExchange)
      not.push({ kind: 'leakage', entry: one.room.id, reason: NO_LEAK[fit.whyNoExchange] });
  }
  return { lessons: [...lessons.values()], not };
}

const REASONS: Readonly<Record<NotFitted, string>> = {
  'no carbon dioxide': 'There are no readings of carbon dioxide while the room held its gas.',
  'nothing rests':
    'Carbon dioxide never climbs as in a room left to itself. Let the scrubber rest for 12 hours or more on some nights, if carbon dioxide stays within its limit, and read it every hour.',
  'too few spans':
    'There are too few stretches of 6 hours or more in which nothing scrubs, feeds or lets air in.',
};

const NO_LEAK: Readonly<Record<NonNullable<FittedGas['whyNoExchange']>, string>> = {
  'no oxygen': 'There are too few readings of oxygen.',
  'oxygen held': 'A valve holds oxygen while carbon dioxide climbs, and what it lets in hides the leak.',
};

/** Undefined where the plan lacks what a room's balances need. */
function roomGasOf(plan: Plan, filled: FilledRoom): RoomGas | undefined {
  const { fill, freeGasVolume, regime, varieties } = filled;
  const sealed = fill.sealed?.value;
  if (sealed === undefined || !freeGasVolume || !regime?.oxygen) return undefined;
  const course = courseRoom(filled, sealed + LONGEST_DAYS);
  if (!course) return undefined;
  const { setPoint, opened } = plan.progress.get(fill.id) ?? {};
  const settled = Math.max(setPoint?.value ?? 0, sealed + DAYS_TO_SETTLE);
  const until = opened?.value ?? sealed + LONGEST_DAYS;
  const rate = new FruitRate(course.room.fruit, course.room.temperature);
  const now = { carbonDioxide: 0, fermented: 0, oxygen: 0, water: 0 };
  return {
    gasVolumeM3: freeGasVolume.value,
    from: settled * 1440,
    to: until * 1440,
    exchangeByTest: course.room.leakM3h + course.room.weatherM3h,
    oxygen: regime.oxygen.value,
    quotientMeasured: varieties.some(({ variety }) => variety.respiratoryQuotient.origin.kind === 'plan'),
    reference: (hours, oxygen, carbonDioxide) => {
      const since = hours - 24 * sealed;
      rate.at(since, oxygen, carbonDioxide, now);
      const perM3 = molesPerCubicMetre(roomCelsius(course.room.temperature, since));
      return { carbonDioxide: now.carbonDioxide / perM3, oxygen: now.oxygen / perM3 };
    },
  };
}

function lessonsOf(filled: FilledRoom, room: RoomGas, fit: FittedGas): Lesson[] {
  const { fill } = filled;
  const before = fill.respiration?.value ?? 1;
  const { first, last, count } = stretchOf(fit);
  const source = (interval: { low: number; high: number }, unit: string, digits: number) =>
    `fitted to ${count} rests in readings of ${filled.room.id}, ${formatDay(first)} to ${formatDay(last)}, 95 %: ${interval.low.toFixed(digits)} to ${interval.high.toFixed(digits)}${unit}`;
  const share = scaled(fit.respiration, before);
  const respiration: Lesson = {
    id: `respiration/${fill.id}`,
    kind: 'respiration',
    section: 'fills',
    entry: fill.id,
    values: [
      {
        name: 'respiration as a share of what the varieties give',
        unit: '1',
        before,
        fitted: share,
        parts: fit.respirationParts.map((part) => ({
          ...part,
          below: part.below * before,
          above: part.above * before,
        })),
      },
    ],
    series: seriesOf(fit, endsOf(fit)),
    key: 'respiration',
    written: [['share', digitsFor(share.value, share)]],
    source: source(share, '', 2),
    remarks: remarksOf(filled, fit),
  };
  if (!fit.exchange) return [respiration];
  return [
    respiration,
    {
      id: `leakage/${filled.room.id}`,
      kind: 'leakage',
      section: 'rooms',
      entry: filled.room.id,
      values: [
        {
          name: 'air that leaks and weather bring in',
          unit: 'm3/h',
          before: room.exchangeByTest,
          fitted: fit.exchange,
          parts: fit.exchangeParts,
        },
      ],
      series: seriesOf(fit, endsOf(fit, room.gasVolumeM3)).filter(({ name }) => name === OXYGEN_SERIES),
      key: 'leakage',
      written: [['in-service', `${digitsFor(fit.exchange.value, fit.exchange)} m3/h`]],
      source: source(fit.exchange, ' m3/h', 3),
      remarks: [
        ...remarksOf(filled, fit),
        ...(room.quotientMeasured
          ? []
          : [
              'It is fitted with the respiratory quotient in the middle of its range: the limits hold all of it.',
            ]),
      ],
    },
  ];
}

function scaled({ value, low, high }: FittedGas['respiration'], by: number) {
  return { value: value * by, low: low * by, high: high * by };
}

function stretchOf({ spans }: FittedGas): {
  readonly first: number;
  readonly last: number;
  readonly count: number;
} {
  const days = spans.flatMap(({ span }) => [Math.floor(span.from / 1440), Math.floor(span.to / 1440)]);
  return { first: Math.min(...days), last: Math.max(...days), count: spans.length };
}

function remarksOf(
  { capacity }: FilledRoom,
  { spans, stretches, spikes, whyNoExchange }: FittedGas,
): string[] {
  const hours = spans.reduce((sum, { span }) => sum + (span.to - span.from) / 60, 0);
  return [
    `${spans.length} rests of ${Math.round(hours / spans.length)} hours on average, in ${stretches} independent stretches; ${spikes === 1 ? '1 reading' : `${spikes} readings`} left out as spikes.`,
    ...(whyNoExchange === 'no oxygen' && capacity.leakFlow
      ? ['The leak is taken from the pressure test: what it may be otherwise is in the interval.']
      : []),
    'The free gas volume of the plan is taken as it is: an error in it is in the respiration too.',
  ];
}

/** Share of the reference and volumes of air an hour, as fitted and at either end of what is told of one of them. */
interface Ends {
  readonly fitted: readonly [share: number, exchange: number];
  readonly low: readonly [share: number, exchange: number];
  readonly high: readonly [share: number, exchange: number];
}

function endsOf(
  { fit: { share, exchange }, respiration, exchange: air }: FittedGas,
  gasVolumeM3?: number,
): Ends {
  const fitted = [share, exchange] as const;
  if (gasVolumeM3 === undefined || !air)
    return { fitted, low: [respiration.low, exchange], high: [respiration.high, exchange] };
  return { fitted, low: [share, air.low / gasVolumeM3], high: [share, air.high / gasVolumeM3] };
}

/** What a leak is told from: carbon dioxide climbs all but alike whatever comes in. */
const OXYGEN_SERIES = 'change of oxygen at rest, points a day';

/** Climb of carbon dioxide and change of oxygen in per cent a day, read and fitted, by stretches of the record. */
function seriesOf(fit: FittedGas, ends: Ends): Lesson['series'] {
  const { observed } = fit.fit;
  const of = (gas: 'carbon-dioxide' | 'oxygen', name: string) => {
    const mine = observed.filter((one) => one.gas === gas && one.weight > 0);
    const size = Math.max(1, Math.ceil(mine.length / MOST_STRETCHES));
    const points: LessonPoint[] = [];
    for (let from = 0; from < mine.length; from += size) {
      const part = mine.slice(from, from + size);
      const weight = part.reduce((sum, one) => sum + one.weight, 0);
      const mean = (value: (one: (typeof part)[number]) => number) =>
        (24 * part.reduce((sum, one) => sum + one.weight * value(one), 0)) / weight;
      const spans = part.map(({ reference }) => reference.span);
      const at = ([share, exchange]: Ends['fitted']) =>
        mean(({ reference }) => {
          const slopes = slopesOf(reference, share, exchange, fit.given.oxygenFactor);
          return gas === 'oxygen' ? slopes.oxygen : slopes.carbonDioxide;
        });
      const [low, high] = [at(ends.low), at(ends.high)];
      points.push({
        from: Math.floor((spans[0]?.from ?? 0) / 1440),
        to: Math.floor((spans.at(-1)?.to ?? 0) / 1440),
        seen: mean(({ slope }) => slope),
        fitted: { value: at(ends.fitted), low: Math.min(low, high), high: Math.max(low, high) },
      });
    }
    return { name, unit: '%' as const, points };
  };
  const series = [
    of('carbon-dioxide', 'climb of carbon dioxide at rest, points a day'),
    of('oxygen', OXYGEN_SERIES),
  ];
  return series.filter(({ points }) => points.length > 0);
}
