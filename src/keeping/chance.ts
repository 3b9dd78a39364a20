import { type PlainCourse, plainFirmness, plainSpread, softensOn, spreadGrows } from './firmness';
import { normalChance, normalQuantile, ROOT_OF_TWO_PI } from './normal';

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

/** A chance that is wanted (a share), and what it stands for on the normal distribution. */
export interface Wanted {
  readonly confidence: number;
  /** Standard deviations below the mean at which one limit alone has that chance. */
  readonly deviations: number;
  /** The same at which each of two limits must be for both together to have it at least. */
  readonly deviationsOfEach: number;
}

export function wantedChance(confidence: number): Wanted {
  return {
    confidence,
    deviations: deviationsBelow(confidence),
    deviationsOfEach: deviationsBelow(Math.sqrt(confidence)),
  };
}

/** Standard deviations by which the mean must be above a limit that is to hold with a chance. */
export function deviationsBelow(chance: number): number {
  return -normalQuantile(1 - chance);
}

/** No storage life is longer, whatever a plan says. */
export const MOST_DAYS = 4096;

/** Days until the chance of the storage life alone has fallen to what is wanted; 0 where it never was as high. */
export function daysOfLife({ life, spread }: Standard, { deviations }: Wanted): number {
  return Math.min(MOST_DAYS, Math.max(0, spread > 0 ? life - deviations * spread : life));
}

/** Whether firmness alone still has the chance that is wanted after so many days. */
export function firmnessHolds({ firmness }: Standard, days: number, deviations: number): boolean {
  if (!firmness) return true;
  const expected = plainFirmness(firmness.course, days);
  return !(expected - firmness.least < deviations * plainSpread(firmness.course, expected));
}

/** Whether both surely have the chance that is wanted after so many days; where not, they may have it all the same. */
export function surelyHolds(standard: Standard, days: number, { deviationsOfEach }: Wanted): boolean {
  return (
    days <= standard.life - deviationsOfEach * Math.max(0, standard.spread) &&
    firmnessHolds(standard, days, deviationsOfEach)
  );
}

/**
 * Days until the chance that both hold, which falls with time, has fallen to what is wanted; 0 where it never was as
 * high. `ofLife` is `daysOfLife`, which it cannot be longer than. Newton's steps on its logarithm, kept within what is
 * known: the logarithm is hollow downwards but where softening bends.
 */
export function daysOfBoth(standard: Standard, { confidence }: Wanted, ofLife: number): number {
  if (!standard.firmness) return ofLife;
  // Below nothing: not even the first day is known to have the chance yet.
  let [low, high, days] = [-1, ofLife, ofLife];
  const falling = { chance: 1, by: 0 };
  for (let step = 0; step < MOST_STEPS && high - low > CLOSE_DAYS; step++) {
    fallOn(standard, standard.firmness, days, falling);
    const { chance, by } = falling;
    if (chance >= confidence) low = days;
    else high = days;
    if (high === 0) return 0;
    const next = days + Math.log(chance / confidence) / by;
    if (Math.abs(next - days) < CLOSE_DAYS) return Math.min(ofLife, Math.max(0, next));
    days = next > low && next < high ? Math.max(0, next) : Math.max(0, (low + high) / 2);
  }
  return Math.max(0, low);
}

const MOST_STEPS = 100;
const CLOSE_DAYS = 1e-10;

/** The chance that both hold after so many days, and by how much its logarithm falls in a day. */
function fallOn(
  { life, spread }: Standard,
  { course, least }: NonNullable<Standard['firmness']>,
  days: number,
  falling: { chance: number; by: number },
): void {
  const expected = plainFirmness(course, days);
  const doubt = plainSpread(course, expected);
  const softens = softensOn(course, days);
  const more = spreadGrows(course, expected, softens);
  const firm = (expected - least) / doubt;
  const chanceFirm = normalChance(firm);
  const byFirmness = (hazard(firm, chanceFirm) * (softens + firm * more)) / doubt;
  if (spread > 0) {
    const z = (life - days) / spread;
    const chanceAlive = normalChance(z);
    falling.chance = chanceAlive * chanceFirm;
    falling.by = hazard(z, chanceAlive) / spread + byFirmness;
  } else {
    falling.chance = (days <= life ? 1 : 0) * chanceFirm;
    falling.by = byFirmness;
  }
}

/** Density over chance of being at or below so many standard deviations. */
function hazard(z: number, chance: number): number {
  return Math.exp((-z * z) / 2) / (ROOT_OF_TWO_PI * chance);
}
