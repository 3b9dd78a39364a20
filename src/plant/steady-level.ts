import { carbonDioxideDensity } from '../fruit/conversions';
import { compute, type Figure } from '../plan/figure';
import type { Scrubber } from '../plan/model';
import { finite } from '../room/figures';
import type { FilledRoom } from '../room/types';
import { removalPerLevel, settlingLevel, worksAgainst } from './scrubber';

/** How a room's carbon dioxide comes to rest with its scrubber running for it alone. */
export interface SteadyLevel {
  /** Where removal balances what the fruit gives off in store. */
  readonly level?: Figure<'%'> | undefined;
  /** Hours in which the distance from that level falls to 1/e; three of them are 95 % of the way. */
  readonly timeConstant?: Figure<'h'> | undefined;
}

/** Undefined parts where the plan lacks what they need, or the scrubber's removal does not grow with the level. */
export function steadyLevel(filled: FilledRoom, scrubber: Scrubber | undefined): SteadyLevel {
  const perLevel = scrubber && removalPerLevel(scrubber);
  if (!perLevel || !(perLevel.value > 0)) return {};
  const { carbonDioxideInStore: load, freeGasVolume: gasVolume, regime } = filled;
  return {
    level: load && settlingLevel(load, perLevel, worksAgainst(scrubber)),
    timeConstant:
      gasVolume &&
      regime &&
      finite(
        compute(
          'time constant of carbon dioxide with the scrubber',
          'h',
          'gasVolume * density / 100 / perLevel * 24',
          { gasVolume, density: carbonDioxideDensity(regime.temperature), perLevel },
          (v) => ((v.gasVolume * v.density) / 100 / v.perLevel) * 24,
        ),
      ),
  };
}
