import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Scrubber, ScrubberBeds } from '../plan/model';
import { finite } from '../room/figures';
import { oxygenInAir } from '../room/tightness';
import { carbonDioxideOutside, selectivityOf } from './membrane';

/** What a scrubber can remove. */

/**
 * Share of the time in which a bed adsorbs. Beds take turns, one adsorbing until saturated while another is
 * regenerated with outside air, one at a time; that runs without a break where regeneration takes no longer than
 * saturation. A single bed rests while it is regenerated.
 */
export function adsorbingShare(beds: ScrubberBeds): Figure<'1'> | undefined {
  const { adsorb, regenerate } = beds;
  if (!(adsorb.value > 0)) return undefined;
  const [name, unit, inputs] = ['share of the time a bed adsorbs', '1', { adsorb, regenerate }] as const;
  return beds.number >= 2
    ? compute(name, unit, 'min(1, adsorb / max(regenerate, adsorb))', inputs, (v) =>
        Math.min(1, v.adsorb / Math.max(v.regenerate, v.adsorb)),
      )
    : compute(
        name,
        unit,
        'adsorb / (adsorb + regenerate)',
        inputs,
        (v) => v.adsorb / (v.adsorb + v.regenerate),
      );
}

/** Carbon dioxide outside, for a membrane that works against it; undefined for what is rated in proportion to the level. */
export function worksAgainst(scrubber: Scrubber): Figure<'%'> | undefined {
  return selectivityOf(scrubber) && carbonDioxideOutside;
}

/**
 * Carbon dioxide removed in a day for each per cent in the room; of a membrane whose selectivity is known, for each
 * per cent above outside air. Below 5 % a carbon's uptake is nearly in proportion
 * to the level, so what was rated at one level scales to another.
 */
export function removalPerLevel(scrubber: Scrubber): Figure<'kg/day/%'> | undefined {
  const { removal, atLevel, hoursADay, beds } = scrubber;
  if (!removal || !atLevel) return undefined;
  const share = beds
    ? adsorbingShare(beds)
    : countedFigure('share of the time it removes', '1', 1, 'no beds stated');
  if (!share) return undefined;
  if (selectivityOf(scrubber)) {
    if (!(atLevel.value > carbonDioxideOutside.value)) return undefined;
    return finite(
      compute(
        'removal for each per cent of carbon dioxide above that of outside air',
        'kg/day/%',
        'removal / (atLevel - outside) * hoursADay / 24',
        { removal, atLevel, outside: carbonDioxideOutside, hoursADay },
        (v) => ((v.removal / (v.atLevel - v.outside)) * v.hoursADay) / 24,
      ),
    );
  }
  return finite(
    compute(
      'removal for each per cent of carbon dioxide',
      'kg/day/%',
      'removal / atLevel * hoursADay / 24 * adsorbing',
      { removal, atLevel, hoursADay, adsorbing: share },
      (v) => (((v.removal / v.atLevel) * v.hoursADay) / 24) * v.adsorbing,
    ),
  );
}

/** `outside`: the carbon dioxide of outside air, for a membrane that works against it. */
export function removalAt(
  perLevel: Figure<'kg/day/%'>,
  level: Figure<'%'>,
  outside?: Figure<'%'>,
): Figure<'kg/day'> {
  if (outside) {
    return compute(
      'carbon dioxide it can remove',
      'kg/day',
      'max(0, perLevel * (level - outside))',
      { perLevel, level, outside },
      (v) => Math.max(0, v.perLevel * (v.level - v.outside)),
    );
  }
  return compute(
    'carbon dioxide it can remove',
    'kg/day',
    'perLevel * level',
    { perLevel, level },
    (v) => v.perLevel * v.level,
  );
}

/** The level at which removal balances a load: it rises until the scrubber keeps up. */
export function settlingLevel(
  load: Figure<'kg/day'>,
  perLevel: Figure<'kg/day/%'>,
  outside?: Figure<'%'>,
): Figure<'%'> | undefined {
  if (outside) {
    return finite(
      compute(
        'carbon dioxide at which removal and load balance',
        '%',
        'load / perLevel + outside',
        { load, perLevel, outside },
        (v) => v.load / v.perLevel + v.outside,
      ),
    );
  }
  return finite(
    compute(
      'carbon dioxide at which removal and load balance',
      '%',
      'load / perLevel',
      { load, perLevel },
      (v) => v.load / v.perLevel,
    ),
  );
}

/** Oxygen that a bed's void carries into the room at one change, unless it is rinsed with low-oxygen gas first. */
export function oxygenAtChange(
  voidVolume: Figure<'m3'>,
  roomOxygen: Figure<'%'>,
  rinsed?: Figure<'%'>,
): Figure<'m3'> {
  const [name, inputs] = [
    'oxygen carried in at a change of beds',
    { voidVolume, oxygenInAir, roomOxygen },
  ] as const;
  if (!rinsed) {
    const formula = 'voidVolume * (oxygenInAir - roomOxygen) / 100';
    return compute(name, 'm3', formula, inputs, (v) => (v.voidVolume * (v.oxygenInAir - v.roomOxygen)) / 100);
  }
  return compute(
    name,
    'm3',
    'voidVolume * (1 - rinsed / 100) * (oxygenInAir - roomOxygen) / 100',
    { ...inputs, rinsed },
    (v) => (v.voidVolume * (1 - v.rinsed / 100) * (v.oxygenInAir - v.roomOxygen)) / 100,
  );
}

/** The same over a day of so many changes. */
export function oxygenInADay(atChange: Figure<'m3'>, changes: Figure<'1'>): Figure<'m3'> {
  return compute(
    'oxygen carried in over a day',
    'm3',
    'atChange * changes',
    { atChange, changes },
    (v) => v.atChange * v.changes,
  );
}

/** Changes of beds in a day: each bed adsorbs once in a turn. */
export function changesADay(beds: ScrubberBeds, hoursADay: Figure<'h'>, adsorbing: Figure<'1'>): Figure<'1'> {
  return compute(
    'changes of beds a day',
    '1',
    'hoursADay * 60 * adsorbing / adsorb',
    { hoursADay, adsorbing, adsorb: beds.adsorb },
    (v) => (v.hoursADay * 60 * v.adsorbing) / v.adsorb,
  );
}
