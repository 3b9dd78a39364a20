import type { Source } from '../plan/figure';
import { compute, countedFigure, type Figure, referenceFigure } from '../plan/figure';
import type { CarbonLoading, Scrubber, ScrubberBeds } from '../plan/model';
import { finite } from '../room/figures';
import { commonPractice } from '../room/sources';

/** What the carbon in a bed can take up, from the carbon itself: a second opinion on what the maker states. */

const isotherm: Source = {
  citation:
    'Equilibrium loading of activated carbon with carbon dioxide near 20 to 25 °C, middle of the ranges of common coconut and coal carbons: 3 to 5 g/kg at 1 kPa, 9 to 14 at 3, 14 to 20 at 5, 35 to 50 at 15, 85 to 110 at 100',
  known: 'from memory',
};

/** Grams for each kilogram of carbon at a partial pressure in kPa, which is per cent at sea level. */
const LOADINGS: readonly CarbonLoading[] = [
  [1, 4],
  [3, 11.5],
  [5, 17],
  [15, 42.5],
  [100, 97.5],
].map(([level = 0, grams = 0]) => ({
  level: referenceFigure('carbon dioxide of a point of the isotherm', '%', level, isotherm),
  grams: referenceFigure('loading at that point, g/kg', '1', grams, isotherm),
}));

export const dynamicUse = referenceFigure(
  'share of the equilibrium loading that is used',
  '%',
  60,
  commonPractice('50 to 70 % of the equilibrium loading is used before a bed breaks through'),
);

/**
 * Equilibrium loading, g of carbon dioxide to the kg of carbon: logarithms run straight between the points of its
 * maker, or those of common carbons, which stand in order of the level.
 */
export function equilibriumLoading(
  level: Figure<'%'>,
  points: readonly CarbonLoading[] = LOADINGS,
): Figure<'1'> {
  const source = points === LOADINGS ? isotherm : undefined;
  const above = points.findIndex((point) => point.level.value >= level.value);
  const upper = Math.max(1, above === -1 ? points.length - 1 : above);
  const [low, high] = [points[upper - 1], points[upper]];
  if (!low) throw new RangeError('the isotherm has a point at least');
  // Below the first point, and of a single one, the loading is in proportion to the level (Henry's law).
  if (!high || level.value <= low.level.value) {
    return compute(
      'equilibrium loading, g/kg',
      '1',
      'low * level / lowAt',
      { low: low.grams, level, lowAt: low.level },
      (v) => (v.low * v.level) / v.lowAt,
      source,
    );
  }
  return compute(
    'equilibrium loading, g/kg',
    '1',
    'low * (level / lowAt) ^ (log(high / low) / log(highAt / lowAt))',
    { low: low.grams, level, lowAt: low.level, high: high.grams, highAt: high.level },
    (v) => v.low * (v.level / v.lowAt) ** (Math.log(v.high / v.low) / Math.log(v.highAt / v.lowAt)),
    source,
  );
}

/** Carbon dioxide that one bed takes up before it breaks through. */
export function uptakeOfBed(beds: ScrubberBeds, level: Figure<'%'>): Figure<'kg'> {
  return compute(
    'carbon dioxide one bed takes up',
    'kg',
    'carbon * loading / 1000 * used / 100',
    { carbon: beds.carbon, loading: equilibriumLoading(level, beds.loading), used: beds.used ?? dynamicUse },
    (v) => ((v.carbon * v.loading) / 1000) * (v.used / 100),
  );
}

/** Minutes until a bed breaks through at the rate the scrubber is said to remove at that level. */
export function breakthroughTime(scrubber: Scrubber, level: Figure<'%'>): Figure<'min'> | undefined {
  const { beds, removal, atLevel } = scrubber;
  if (!beds || !removal || !atLevel) return undefined;
  const rate = compute(
    'removal while a bed adsorbs',
    'kg/day',
    'removal * level / atLevel',
    { removal, level, atLevel },
    (v) => (v.removal * v.level) / v.atLevel,
  );
  return finite(
    compute(
      'time until a bed breaks through',
      'min',
      'uptake / rate * 24 * 60',
      { uptake: uptakeOfBed(beds, level), rate },
      (v) => (v.uptake / v.rate) * 24 * 60,
    ),
  );
}

/** Removal in a day that the carbon itself allows: each bed's uptake once a turn. */
export function removalByCarbon(scrubber: Scrubber, level: Figure<'%'>): Figure<'kg/day'> | undefined {
  const { beds, hoursADay } = scrubber;
  if (!beds) return undefined;
  const turn = turnMinutes(beds);
  return finite(
    compute(
      'carbon dioxide its carbon can remove',
      'kg/day',
      'uptake * hoursADay * 60 / turn',
      { uptake: uptakeOfBed(beds, level), hoursADay, turn },
      (v) => (v.uptake * v.hoursADay * 60) / v.turn,
    ),
  );
}

/** Minutes from one bed's start to the next's: the longer of the two times, or both where one bed has no second. */
function turnMinutes({ number, adsorb, regenerate }: ScrubberBeds): Figure<'min'> {
  const inputs = { adsorb, regenerate };
  return number >= 2
    ? compute('time of a turn', 'min', 'max(adsorb, regenerate)', inputs, (v) =>
        Math.max(v.adsorb, v.regenerate),
      )
    : compute('time of a turn', 'min', 'adsorb + regenerate', inputs, (v) => v.adsorb + v.regenerate);
}

/** Whether removal goes on without a break: two beds, and regeneration no longer than saturation. */
export function runsWithoutBreak({ number, adsorb, regenerate }: ScrubberBeds): boolean {
  return number >= 2 && regenerate.value <= adsorb.value;
}

/** A bed's changes while the scrubber runs, each carrying its void's air into the room. */
export function bedAir(beds: ScrubberBeds | undefined): Figure<'m3/h'> {
  if (!beds?.voidVolume)
    return countedFigure('air carried in by changes of beds', 'm3/h', 0, 'no void stated');
  const inputs = { voidVolume: beds.voidVolume, turn: turnMinutes(beds) };
  const name = 'air carried in by changes of beds while it runs';
  const { rinsed } = beds;
  if (!rinsed)
    return compute(name, 'm3/h', 'voidVolume * 60 / turn', inputs, (v) => (v.voidVolume * 60) / v.turn);
  return compute(
    name,
    'm3/h',
    'voidVolume * (1 - rinsed / 100) * 60 / turn',
    { ...inputs, rinsed },
    (v) => (v.voidVolume * (1 - v.rinsed / 100) * 60) / v.turn,
  );
}
