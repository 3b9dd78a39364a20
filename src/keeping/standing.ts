import { type Day, firstDayOfWeek, type Week } from '../plan/dates';
import { type Standard, standardChance, type Wanted } from './chance';
import { type FirmnessCourse, type PlainCourse, plainCourse, plainFirmness } from './firmness';
import { type Lasting, lasting } from './lasts';
import type { LotKeeping } from './types';

/** The numbers that a lot's time in its room follows from. */
export interface StandingOf {
  /** First day of picking: what its days count from. */
  readonly start: Day;
  /** Median storage life and its standard deviation, days. */
  readonly life: number;
  readonly spread: number;
  readonly course: FirmnessCourse | undefined;
  /** Least firmness that may be sold, N. */
  readonly least: number;
  /** Days from picking by which a disorder has it packed first. */
  readonly packedBy: number | undefined;
}

/** How long a lot lasts, as far as plain numbers tell: lots with the same numbers share it, and it is found once. */
export class Standing {
  readonly standard: Standard;
  readonly #start: Day;
  readonly #packedBy: number | undefined;
  /** What was asked last. */
  #wanted: Wanted | undefined;
  #lasts: Lasting | undefined;

  constructor({ start, life, spread, course, least, packedBy }: StandingOf) {
    const plain = course && plainCourse(course);
    this.standard = { life, spread, firmness: plain && { course: plain, least } };
    this.#start = start;
    this.#packedBy = packedBy;
  }

  // Functions are made for those who ask: held for each, they would take as much as all the numbers.
  get firmnessOn(): LotKeeping['firmnessOn'] {
    return firmnessFrom(this.standard.firmness?.course, this.#start);
  }

  get withinStandard(): LotKeeping['withinStandard'] {
    return chanceFrom(this.standard, this.#packedBy, this.#start);
  }

  isOf({ start, life, spread, course, least, packedBy }: StandingOf): boolean {
    const { standard } = this;
    const { firmness } = standard;
    return (
      this.#start === start &&
      standard.life === life &&
      standard.spread === spread &&
      this.#packedBy === packedBy &&
      (firmness === undefined || course === undefined
        ? firmness === course
        : firmness.least === least && isSameCourse(firmness.course, course))
    );
  }

  /** How long it lasts with a chance. */
  lasts(wanted: Wanted): Lasting {
    if (this.#wanted !== wanted || !this.#lasts) {
      this.#wanted = wanted;
      this.#lasts = this.#lastsWith(wanted);
    }
    return this.#lasts;
  }

  /** Nobody will ask again soon. */
  forget(): void {
    this.#wanted = undefined;
    this.#lasts = undefined;
  }

  #lastsWith(wanted: Wanted): Lasting {
    const lasts = lasting(this.standard, wanted);
    const days = this.#packedBy;
    return days !== undefined && days < lasts.days ? { days, setBy: 'disorder' } : lasts;
  }
}

/** A course that was fitted to samples is one lot's own. */
function isSameCourse(plain: PlainCourse, course: FirmnessCourse): boolean {
  return (
    plain.atHarvest === course.atHarvest.value &&
    plain.lossWhileFilling === course.lossWhileFilling.value &&
    plain.softening === course.softening.value &&
    plain.softeningBeforeSealing === course.softeningBeforeSealing.value &&
    plain.filledAfter === course.filledAfter &&
    plain.sealedAfter === course.sealedAfter &&
    plain.known === undefined &&
    course.known === undefined
  );
}

// These hold what they need and no more: a function made elsewhere would hold all that was made there.

function firmnessFrom(course: PlainCourse | undefined, start: Day): LotKeeping['firmnessOn'] {
  return (day) => course && plainFirmness(course, day - start);
}

function chanceFrom(
  standard: Standard,
  packedBy: number | undefined,
  start: Day,
): LotKeeping['withinStandard'] {
  return (week) => {
    const days = lastDayOfWeek(week) - start;
    return packedBy !== undefined && days > packedBy + 1e-6 ? 0 : standardChance(standard, days);
  };
}

export function lastDayOfWeek(week: Week): Day {
  return firstDayOfWeek(week) + 6;
}
