import { type Figure, referenceFigure } from '../../plan/figure';
import { remark, sources } from '../sources';
import type { Variety } from '../types';

/** Heat and space of the fruit itself, the same for every variety of a fruit. */

export const specificHeats: Readonly<Record<Variety['fruit'], Figure<'kJ/kgK'>>> = {
  apple: referenceFigure('specific heat of apples above freezing', 'kJ/kgK', 3.81, sources.wflo),
  // The handbook's own kilocalorie, so that its example of a heat load comes out to the kilojoule.
  pear: referenceFigure(
    'specific heat of pears above freezing',
    'kJ/kgK',
    0.86 * 4.186,
    remark(sources.handbook66HeatLoad, '0.86 kcal/kgK for pears, 4.186 kJ to the kilocalorie'),
  ),
};

/** Of apples; no source at hand gives pears a density of their own. */
export const usualDensity = referenceFigure('true density of fruit', 'kg/m3', 840, sources.fruitDensity);
