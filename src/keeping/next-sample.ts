import { commonPractice } from '../fruit/sources';
import { type Day, firstDayOfWeek, type Week } from '../plan/dates';
import { countedFigure, referenceFigure } from '../plan/figure';
import type { Lot, OwnFirmness, Plan } from '../plan/model';
import type { FilledRoom, LotInRoom } from '../room/types';
import { softeningSpread } from './assumptions';
import { firmnessAfter, firmnessCourse, firmnessSpread } from './firmness';
import { latestEdge } from './latest';
import { type LotTime, lotTime } from './lot-keeping';
import { confidenceOf } from './room-keeping';

/** From fruit to fruit of a lot, where no sample says. */
export const fruitToFruit = referenceFigure(
  'spread of firmness from fruit to fruit',
  'N',
  6,
  commonPractice('Planning assumption: standard deviation within a lot, as for samples that do not give it'),
);

/** What a firmness test of a lot could do to the last week in which its room may be opened. */
export interface SampleWorth {
  readonly lot: string;
  readonly day: Day;
  readonly fruit: number;
  /** Expected on that day, N, how far the lot may be from it, and the mean of the sample with it. */
  readonly expected: number;
  readonly spread: number;
  readonly sampleSpread: number;
  /** The room's latest opening week now, and after a sample as expected, or a standard deviation low or high. */
  readonly latest: Week;
  readonly ifLow: Week;
  readonly ifExpected: Week;
  readonly ifHigh: Week;
  /** Weeks between low and high, times the room's bins. */
  readonly binWeeks: number;
}

/** A sample's worth, and the lot as it would be known after one that comes in as expected. */
export interface NextSample {
  readonly worth: SampleWorth;
  readonly after: Lot;
}

/**
 * Of a room, what a sample of a lot on a day could change. The latest week is worked out again for a sample that comes in
 * low, as expected and high. What is known of the lot (its firmness and its doubt on that day) and the sample (the spread
 * from fruit to fruit over the root of their number) are weighed by their variances, as normal distributions are. `of` is
 * undefined where the lot's firmness or the window is not known, and before picking and after the latest week.
 */
export class SampledRoom {
  private readonly times: ReadonlyMap<string, LotTime>;
  private readonly confidence: number;

  constructor(
    private readonly plan: Plan,
    private readonly filled: FilledRoom,
  ) {
    this.confidence = confidenceOf(plan);
    this.times = new Map(
      filled.lots.flatMap((inRoom) => this.timeOf(inRoom) ?? []).map((time) => [time.keeping.lot.id, time]),
    );
  }

  of(lotId: string, day: Day, fruit: number): NextSample | undefined {
    const { filled, times } = this;
    const { fill, regime, bins } = filled;
    const time = times.get(lotId);
    if (!time || !regime || !(fruit > 0)) return undefined;
    const { inRoom } = time.keeping;
    const course = firmnessCourse(inRoom.lot, inRoom.variety, fill, regime, time.start);
    const latest = latestEdge(this.plan, fill, [...times.values()], this.confidence)?.week;
    if (!course || latest === undefined || day > firstDayOfWeek(latest) + 6) return undefined;
    const expected = firmnessAfter(course, day - time.start);
    const lost = course.atHarvest.value - expected;
    const known = firmnessSpread(course, expected);
    if (day <= time.start || !(lost > 0 && known > 0)) return undefined;

    const ofSample = fruitToFruit.value / Math.sqrt(fruit);
    const all = Math.hypot(known, ofSample);
    /** How far the lot is taken to be from what was expected after a sample that is a standard deviation off. */
    const moved = known ** 2 / all;
    const ofStart = course.known ? 0 : 1 - ((softeningSpread.value * lost) / known) ** 2;
    const lotAfter = (off: number): Lot => ({
      ...inRoom.lot,
      ownFirmness: ownAfter(inRoom.lot, {
        atHarvest: course.atHarvest.value + ofStart * off,
        softens: Math.max(0.01, 1 - ((1 - ofStart) * off) / lost),
        day,
        spread: (known * ofSample) / all,
      }),
    });
    const after = (off: number) => this.latestWith(lotAfter(off)) ?? latest;
    const [ifLow, ifExpected, ifHigh] = [after(-moved), after(0), after(moved)];
    return {
      worth: {
        lot: lotId,
        day,
        fruit,
        expected,
        spread: known,
        sampleSpread: ofSample,
        latest,
        ifLow,
        ifExpected,
        ifHigh,
        binWeeks: Math.max(0, ifHigh - ifLow) * (bins?.value ?? 0),
      },
      after: lotAfter(0),
    };
  }

  /** The room with lots as they would be known. */
  with(lots: readonly Lot[]): SampledRoom {
    const known = new Map(lots.map((lot) => [lot.id, lot]));
    return new SampledRoom(this.plan, {
      ...this.filled,
      lots: this.filled.lots.map((one) => ({ ...one, lot: known.get(one.lot.id) ?? one.lot })),
    });
  }

  private latestWith(lot: Lot): Week | undefined {
    const inRoom = this.filled.lots.find((one) => one.lot.id === lot.id);
    const time = inRoom && this.timeOf({ ...inRoom, lot });
    if (!time) return undefined;
    const times = [...this.times].map(([id, one]) => (id === lot.id ? time : one));
    return latestEdge(this.plan, this.filled.fill, times, this.confidence)?.week;
  }

  private timeOf(inRoom: LotInRoom): LotTime | undefined {
    const { fill, regime } = this.filled;
    return regime && lotTime(inRoom, fill, regime, this.confidence);
  }
}

/** The lot's own course as it would be known; `softens` is its softening as a share of what is known of it now. */
function ownAfter(
  lot: Lot,
  {
    atHarvest,
    softens,
    day,
    spread,
  }: { readonly atHarvest: number; readonly softens: number; readonly day: Day; readonly spread: number },
): OwnFirmness {
  const { at } = lot;
  const told = 'after a sample that is supposed';
  const softening = (lot.ownFirmness?.softening.value ?? 1) * softens;
  return {
    at,
    atHarvest: countedFigure('firmness its course starts from', 'N', atHarvest, told, [at]),
    softening: countedFigure('softening as a share of the usual', '1', softening, told, [at]),
    knownBest: { value: day, at },
    spread: countedFigure('spread on the day it is known best', 'N', spread, told, [at]),
    softeningSpread:
      lot.ownFirmness?.softeningSpread ??
      countedFigure('spread of what is lost from then on', '%', 100 * softeningSpread.value, told, [at]),
  };
}
