/**
 * What wind and warmth of the day do to a leak: it swings about its mean once a day. Rests that stand at the same hours
 * each day see one side of that swing only; the fit therefore has the swing as two unknowns beside the mean.
 */

const RADIANS_AN_HOUR = (2 * Math.PI) / 24;

/** The parts of a daily wave, each a share of its own height, that the slope of a line over a span shows. */
export interface DailyPart {
  readonly cosine: number;
  readonly sine: number;
}

/**
 * What a line over a span makes of a wave in the rate at which a gas changes: the slope by least squares is the mean of
 * the rates weighted 1 - v^2, v from -1 at the span's beginning to 1 at its end; of cos(x v) that mean is
 * 3 (sin x - x cos x) / x^3.
 */
export function dailyPart(middleHours: number, hours: number): DailyPart {
  const x = (RADIANS_AN_HOUR * hours) / 2;
  const kept = x < 1e-3 ? 1 : (3 * (Math.sin(x) - x * Math.cos(x))) / x ** 3;
  const angle = RADIANS_AN_HOUR * (middleHours % 24);
  return { cosine: kept * Math.cos(angle), sine: kept * Math.sin(angle) };
}
