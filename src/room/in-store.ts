import { carbonDioxideDensity } from '../fruit/conversions';
import { carbonDioxideAtRegime, fermentationAtRegime } from '../fruit/fermentation';
import { type RespirationCase, respirationAtRegime, respirationInAir } from '../fruit/respiration';
import type { Regime, Variety } from '../fruit/types';
import { compute, type Figure, type Unit } from '../plan/figure';
import { finite, type Keyed, sumById } from './figures';
import { carbonDioxideOf, oxygenUseOf } from './gas';
import type { VarietyInRoom } from './types';

/** What the fruit of a room gives off and uses, each variety at its own rate. */

/** Carbon dioxide a day of all fruit, at a rate for each variety; undefined of no fruit. */
function carbonDioxideOfAll(
  name: string,
  varieties: readonly VarietyInRoom[],
  rateOf: (variety: Variety) => Figure<'mg/kg/h'>,
): Figure<'kg/day'> | undefined {
  if (varieties.length === 0) return undefined;
  return finite(
    sumById(
      name,
      'kg/day',
      'variety',
      keyed(varieties, ({ variety, fruit }) =>
        carbonDioxideOf(`carbon dioxide of ${variety.name}`, fruit, rateOf(variety)),
      ),
    ),
  );
}

function keyed<U extends Unit, V extends VarietyInRoom>(
  varieties: readonly V[],
  figureOf: (variety: V) => Figure<U>,
): Keyed<U>[] {
  return varieties.map((each) => [each.variety.name, figureOf(each)] as const);
}

/** In air at a temperature: the rate before the gas is set. */
export function carbonDioxideInAir(
  name: string,
  varieties: readonly VarietyInRoom[],
  temperature: Figure<'degC'>,
): Figure<'kg/day'> | undefined {
  return carbonDioxideOfAll(name, varieties, (variety) => respirationInAir(variety, temperature));
}

/** At the regime: expected, or one end of the sources' range. */
export function carbonDioxideInStore(
  varieties: readonly VarietyInRoom[],
  regime: Regime,
  which: RespirationCase,
): Figure<'kg/day'> | undefined {
  const range = which === 'expected' ? '' : `, ${which} end of the range`;
  return carbonDioxideOfAll(`carbon dioxide given off in store${range}`, varieties, (variety) =>
    carbonDioxideAtRegime(variety, regime, which),
  );
}

/** The part of it that fermentation makes; undefined where oxygen is far enough above every breakpoint. */
export function fermentedInStore(
  varieties: readonly VarietyInRoom[],
  regime: Regime,
): Figure<'kg/day'> | undefined {
  const fermenting = varieties.flatMap(({ variety, fruit }) => {
    const rate = fermentationAtRegime(variety, regime);
    return rate ? [{ variety, fruit, rate }] : [];
  });
  if (fermenting.length === 0) return undefined;
  return finite(
    sumById(
      'carbon dioxide made by fermentation in store',
      'kg/day',
      'variety',
      keyed(fermenting, ({ variety, fruit, rate }) =>
        carbonDioxideOf(`carbon dioxide of fermentation, ${variety.name}`, fruit, rate),
      ),
    ),
  );
}

/** Oxygen the fruit uses at the regime, for respiration alone; undefined of no fruit. */
export function oxygenUse(varieties: readonly VarietyInRoom[], regime: Regime): Figure<'m3/h'> | undefined {
  if (varieties.length === 0) return undefined;
  const density = carbonDioxideDensity(regime.temperature);
  return finite(
    sumById(
      'oxygen the fruit uses',
      'm3/h',
      'variety',
      keyed(varieties, ({ variety, fruit }) =>
        oxygenUseOf(
          carbonDioxideOf(
            `carbon dioxide of ${variety.name}`,
            fruit,
            respirationAtRegime(variety, regime, 'expected'),
          ),
          variety.respiratoryQuotient,
          density,
        ),
      ),
    ),
  );
}

/** Mean respiration of a room's fruit, from what all of it gives off; the same of a part of that. */
export function meanRespiration(
  carbonDioxide: Figure<'kg/day'>,
  varieties: readonly VarietyInRoom[],
  name = 'mean respiration in store',
): Figure<'mg/kg/h'> | undefined {
  const fruit = sumById(
    'fruit of known variety',
    'kg',
    'variety',
    keyed(varieties, (variety) => variety.fruit),
  );
  return finite(
    compute(
      name,
      'mg/kg/h',
      'carbonDioxide / fruit / 24 * 1000000',
      { carbonDioxide, fruit },
      (v) => (v.carbonDioxide / v.fruit / 24) * 1_000_000,
    ),
  );
}
