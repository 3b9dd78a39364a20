import { type PlainCourse, plainFirmness, plainSpread } from './firmness';
import { normalChance } from './normal';

/** What a lot's chance of being within standard depends on. Days count from the first picking. */
export interface Standard {
  /** Median storage life and its standard deviation, days. */
  readonly life: number;
  readonly spread: number;
  /** Absent where firmness at harvest is not known. */
  readonly firmness?: { readonly course: PlainCourse; readonly least: number } | undefined;
}

/** Chance that storage life lasts so many days: it is taken to be spread normally around its median. */
export function lifeChance({ life, spread }: Standard, days: number): number {
  if (spread <= 0) return days <= life ? 1 : 0;
  return normalChance((life - days) / spread);
}

/** Chance that firmness is still at the least that may be sold after so many days; certain where it is not known. */
export function firmnessChance({ firmness }: Standard, days: number): number {
  if (!firmness) return 1;
  const expected = plainFirmness(firmness.course, days);
  return normalChance((expected - firmness.least) / plainSpread(firmness.course, expected));
}

/** Chance that both hold. They are taken as independent of each other. */
export function standardChance(standard: Standard, days: number): number {
  return lifeChance(standard, days) * firmnessChance(standard, days);
}

/** Days until a chance that falls with time has fallen to `confidence`; 0 where it never was as high. */
export function daysUntil(chance: (days: number) => number, confidence: number): number {
  let [low, high] = [0, 4096];
  if (chance(low) < confidence) return 0;
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (chance(middle) >= confidence) low = middle;
    else high = middle;
  }
  return low;
}
