import { compute, type Figure, referenceFigure } from '../plan/figure';
import type { Scrubber } from '../plan/model';
import { airExchanged } from '../room/exchange';
import { finite } from '../room/figures';
import { commonPractice } from '../room/sources';
import { oxygenInAir } from '../room/tightness';
import type { FilledRoom } from '../room/types';
import { bedAir } from './carbon';
import { type ThroughMembrane, throughMembrane } from './membrane';
import { removalPerLevel } from './scrubber';

/** What brings oxygen into a room that is held, and what the fruit makes of it. For a pocket calculator. */
export interface OxygenBalance {
  /** Oxygen the fruit uses at the rate in store. */
  readonly use: Figure<'m3/h'>;
  /** Air that leaks and weather exchange, and air that changes of beds carry in. */
  readonly exchanged: Figure<'m3/h'>;
  readonly atBeds: Figure<'m3/h'>;
  /** Gas the room loses to the fruit and the scrubber, which air replaces. */
  readonly drawn: Figure<'m3/h'>;
  /** Oxygen that a membrane of known selectivity lets in. */
  readonly throughMembrane?: Figure<'m3/h'>;
  /** All air that comes in. */
  readonly air: Figure<'m3/h'>;
  /** Oxygen that comes in above what keeps the level, less what the fruit uses: positive, and the level climbs. */
  readonly surplus: Figure<'m3/h'>;
  /** The level at which both are equal, the fruit's rate left as it is. */
  readonly settlesAt: Figure<'%'>;
  /** Air from changes of beds that the room would bear at its set-point. */
  readonly bedAirBorne: Figure<'m3/h'>;
}

const noBeds = referenceFigure(
  'air carried in by changes of beds',
  'm3/h',
  0,
  commonPractice('No beds on this room'),
);

/** Undefined for a room kept in air, and where the plan lacks the test, the volume or the fruit. */
export function oxygenBalance(filled: FilledRoom, scrubber: Scrubber | undefined): OxygenBalance | undefined {
  const { regime, oxygenUse: use, freeGasVolume, capacity, carbonDioxideInStore: made, assumptions } = filled;
  const exchanged = airExchanged(capacity, freeGasVolume, assumptions);
  if (!regime?.oxygen || !use || !freeGasVolume || !exchanged || !made) return undefined;
  const level = regime.carbonDioxide;
  const atBeds = (scrubber && level && airAtBeds(scrubber, made, level)) ?? noBeds;
  const passed =
    scrubber &&
    level &&
    throughMembrane(scrubber, made, { oxygen: regime.oxygen, carbonDioxide: level }, regime.temperature);
  const drawn = drawnIn(use, passed);
  const takenUp = passed ? usedBeyond(use, passed.oxygen) : use;
  const air = compute(
    'air that comes in',
    'm3/h',
    'abs(drawn) < 4 * exchanged ? (4 * exchanged + drawn) ^ 2 / (16 * exchanged) + atBeds : max(0, drawn) + atBeds',
    { exchanged, drawn, atBeds },
    (v) =>
      Math.abs(v.drawn) < 4 * v.exchanged
        ? (4 * v.exchanged + v.drawn) ** 2 / (16 * v.exchanged) + v.atBeds
        : Math.max(0, v.drawn) + v.atBeds,
  );
  const inputs = { air, drawn, use: takenUp, oxygenInAir, oxygen: regime.oxygen };
  const surplus = compute(
    'oxygen that comes in beyond what the fruit uses',
    'm3/h',
    '(air * oxygenInAir - (air - drawn) * oxygen) / 100 - use',
    inputs,
    (v) => (v.air * v.oxygenInAir - (v.air - v.drawn) * v.oxygen) / 100 - v.use,
  );
  const settlesAt = finite(
    compute(
      'oxygen at which the fruit keeps up',
      '%',
      '(air * oxygenInAir - 100 * use) / (air - drawn)',
      { air, drawn, use: takenUp, oxygenInAir },
      (v) => (v.air * v.oxygenInAir - 100 * v.use) / (v.air - v.drawn),
    ),
  );
  if (!settlesAt) return undefined;
  const bedAirBorne = compute(
    'air from changes of beds that the fruit can keep up with',
    'm3/h',
    'max(0, atBeds - 100 * surplus / (oxygenInAir - oxygen))',
    { atBeds, surplus, oxygenInAir, oxygen: regime.oxygen },
    (v) => Math.max(0, v.atBeds - (100 * v.surplus) / (v.oxygenInAir - v.oxygen)),
  );
  return {
    use,
    exchanged,
    atBeds,
    drawn,
    ...(passed ? { throughMembrane: passed.oxygen } : {}),
    air,
    surplus,
    settlesAt,
    bedAirBorne,
  };
}

/** The scrubber serves the room for as long as its carbon dioxide takes, and changes its beds as it does. */
function airAtBeds(
  scrubber: Scrubber,
  made: Figure<'kg/day'>,
  level: Figure<'%'>,
): Figure<'m3/h'> | undefined {
  const perLevel = removalPerLevel(scrubber);
  if (!perLevel) return undefined;
  const voidAir = bedAir(scrubber.beds);
  return finite(
    compute(
      'air that changes of beds carry into the room',
      'm3/h',
      'voidAir * made / (perLevel * level)',
      { voidAir, made, perLevel, level },
      (v) => (v.voidAir * v.made) / (v.perLevel * v.level),
    ),
  );
}

/** Oxygen that is left for air to bring in, beside a membrane. */
function usedBeyond(use: Figure<'m3/h'>, passed: Figure<'m3/h'>): Figure<'m3/h'> {
  return compute(
    'oxygen the fruit uses beyond what the membrane lets in',
    'm3/h',
    'use - passed',
    { use, passed },
    (v) => v.use - v.passed,
  );
}

/**
 * Where the scrubber takes out what the fruit makes, the room's gas shrinks by the oxygen that is used, less what a
 * membrane lets in.
 */
function drawnIn(use: Figure<'m3/h'>, passed: ThroughMembrane | undefined): Figure<'m3/h'> {
  if (passed) {
    return compute(
      'air drawn in for the oxygen that is used and what passes the membrane',
      'm3/h',
      'use - oxygen - nitrogen',
      { use, oxygen: passed.oxygen, nitrogen: passed.nitrogen },
      (v) => v.use - v.oxygen - v.nitrogen,
    );
  }
  return compute('air drawn in for the oxygen that is used', 'm3/h', 'use', { use }, (v) => v.use);
}
