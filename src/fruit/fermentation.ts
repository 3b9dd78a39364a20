import { compute, type Figure, referenceFigure } from '../plan/figure';
import { michaelisConstant, respirationAtOxygen } from './conversions';
import { type RespirationCase, respirationAtRegime, respirationHeat, respirationInAir } from './respiration';
import { commonPractice, remark, sources } from './sources';
import type { Regime, Variety } from './types';

/**
 * What fruit does where oxygen runs short. Two reactions:
 *
 *     respiration    C6H12O6 + 6 O2 -> 6 CO2 + 6 H2O
 *     fermentation   C6H12O6        -> 2 C2H5OH + 2 CO2
 *
 * Respiration alone takes up oxygen. The carbon dioxide of fermentation, as a share of that of respiration in air, is
 *
 *     greatest / (1 + steep * (oxygen / breakpoint)^8),  steep = greatest / (0.1 * respiration at the breakpoint) - 1
 *
 * so that the respiratory quotient is a tenth above its value in plenty of oxygen at the variety's breakpoint, which is
 * how Deng and others (1997) define it, and the fruit still gives off carbon dioxide where there is no oxygen at all.
 */

/** Rise of the respiratory quotient at the breakpoint: its definition. */
const riseAtBreakpoint = referenceFigure(
  'rise of the respiratory quotient at the breakpoint, as a share',
  '1',
  0.1,
  sources.deng,
);

const pearTissue = (name: string, value: number) => referenceFigure(name, '1', value, sources.ho);

/** Carbon dioxide of fermentation without oxygen, of that of respiration in air at the same temperature. */
export const greatestFermentation = compute(
  'carbon dioxide of fermentation without oxygen, of that of respiration in air',
  '1',
  'fermentation / (oxygenUptake * quotient * 20.9 / (halfAt + 20.9))',
  {
    fermentation: pearTissue('greatest fermentation of pear tissue, 10^-4 mol CO2/(m3 s)', 1.61),
    oxygenUptake: pearTissue('greatest uptake of oxygen of pear tissue, 10^-4 mol/(m3 s)', 2.39),
    quotient: pearTissue('respiratory quotient of pear tissue', 0.97),
    halfAt: pearTissue('oxygen at half the greatest uptake, kPa', 1),
  },
  (v) => v.fermentation / ((v.oxygenUptake * v.quotient * 20.9) / (v.halfAt + 20.9)),
);

/** How steeply fermentation comes as oxygen falls: its power of oxygen. */
const STEEPNESS = 8;
const steepness = referenceFigure(
  'power of oxygen by which fermentation falls',
  '1',
  STEEPNESS,
  commonPractice(
    'Assumption: as steep as it takes for the respiratory quotient to be level from 1.5 % oxygen on, as Deng and others 1997 found it',
  ),
);

/** Times the breakpoint from which on fermentation is less than a third of a per cent of all carbon dioxide. */
const FERMENTS_UP_TO = 1.5;

/** Carbon dioxide of fermentation in plain numbers, for the many times that a course asks; shares of that in air. */
export function fermentationCurve(
  breakpoint: number,
  respirationAtBreakpoint: number,
  shareWithPlenty: number,
): (oxygen: number) => number {
  const greatest = greatestFermentation.value * shareWithPlenty;
  // Below one only for numbers that no fruit has; a curve that falls is kept all the same.
  const steep = Math.max(1, greatest / (riseAtBreakpoint.value * respirationAtBreakpoint) - 1);
  return (oxygen) => {
    const squared = (Math.max(0, oxygen) / breakpoint) ** 2;
    return greatest / (1 + steep * squared ** (STEEPNESS / 2));
  };
}

type Fermenting = Pick<Variety, 'name' | 'respiration' | 'respirationInStore' | 'oxygenBreakpoint'>;

/**
 * Carbon dioxide of fermentation at a regime's oxygen, beside that of respiration; undefined in air and where oxygen
 * is so far above the variety's breakpoint that nothing comes of it.
 */
export function fermentationAtRegime(
  variety: Fermenting,
  { temperature, oxygen }: Pick<Regime, 'temperature' | 'oxygen'>,
  which: RespirationCase = 'expected',
): Figure<'mg/kg/h'> | undefined {
  const breakpoint = variety.oxygenBreakpoint;
  if (!oxygen || !(oxygen.value < FERMENTS_UP_TO * breakpoint.value)) return undefined;
  const share = variety.respirationInStore[which];
  const steep = compute(
    'how far fermentation at the breakpoint is below its greatest',
    '1',
    'max(1, greatest * share / (rise * atBreakpoint) - 1)',
    {
      greatest: greatestFermentation,
      share,
      rise: riseAtBreakpoint,
      atBreakpoint: respirationAtBreakpoint(breakpoint, oxygen, share),
    },
    (v) => Math.max(1, (v.greatest * v.share) / (v.rise * v.atBreakpoint) - 1),
  );
  return compute(
    `carbon dioxide that ${variety.name} makes by fermentation`,
    'mg/kg/h',
    'inAir * share * greatest / (1 + steep * (oxygen / breakpoint) ^ steepness)',
    {
      inAir: respirationInAir(variety, temperature),
      share,
      greatest: greatestFermentation,
      steep,
      oxygen,
      breakpoint,
      steepness,
    },
    (v) => (v.inAir * v.share * v.greatest) / (1 + v.steep * (v.oxygen / v.breakpoint) ** v.steepness),
    sources.deng,
  );
}

/** Respiration at the breakpoint by the curve that is the long-term share at the regime's oxygen, and 1 in air. */
function respirationAtBreakpoint(
  breakpoint: Figure<'%'>,
  oxygen: Figure<'%'>,
  share: Figure<'1'>,
): Figure<'1'> {
  const name = 'respiration at the breakpoint, of that in air';
  const inputs = {
    share,
    there: respirationAtOxygen(breakpoint, michaelisConstant),
    here: respirationAtOxygen(oxygen, michaelisConstant),
  };
  return breakpoint.value <= oxygen.value
    ? compute(name, '1', 'share * there / here', inputs, (v) => (v.share * v.there) / v.here)
    : compute(
        name,
        '1',
        'share + (1 - share) * (there - here) / (1 - here)',
        inputs,
        (v) => v.share + ((1 - v.share) * (v.there - v.here)) / (1 - v.here),
      );
}

/** All carbon dioxide of a variety at its regime: of respiration, and of fermentation where oxygen is that low. */
export function carbonDioxideAtRegime(
  variety: Fermenting,
  regime: Pick<Regime, 'temperature' | 'oxygen'>,
  which: RespirationCase = 'expected',
): Figure<'mg/kg/h'> {
  const respiration = respirationAtRegime(variety, regime, which);
  const fermentation = fermentationAtRegime(variety, regime, which);
  if (!fermentation) return respiration;
  return compute(
    `carbon dioxide of ${variety.name} in store`,
    'mg/kg/h',
    'respiration + fermentation',
    { respiration, fermentation },
    (v) => v.respiration + v.fermentation,
  );
}

/** Carbon dioxide given off over oxygen taken up, moles of each, at a regime. */
export function quotientAtRegime(
  variety: Fermenting & Pick<Variety, 'respiratoryQuotient'>,
  regime: Pick<Regime, 'temperature' | 'oxygen'>,
): Figure<'1'> {
  const fermentation = fermentationAtRegime(variety, regime);
  if (!fermentation) return variety.respiratoryQuotient;
  return compute(
    `respiratory quotient of ${variety.name} at its oxygen`,
    '1',
    'quotient * (1 + fermentation / respiration)',
    {
      quotient: variety.respiratoryQuotient,
      fermentation,
      respiration: respirationAtRegime(variety, regime),
    },
    (v) => v.quotient * (1 + v.fermentation / v.respiration),
  );
}

const heatOf = (what: string, value: number) =>
  referenceFigure(`heat of combustion of ${what}, kJ/mol`, '1', value, sources.heatsOfCombustion);

/** By Hess: glucose burnt, less two of ethanol burnt; over two of carbon dioxide. */
export const heatOfFermentation = compute(
  'heat of fermentation, J per mg CO2',
  '1',
  '(glucose - 2 * ethanol) / (2 * carbonDioxide)',
  {
    glucose: heatOf('glucose', 2803),
    ethanol: heatOf('ethanol', 1367),
    carbonDioxide: referenceFigure('molar mass of carbon dioxide, g/mol', '1', 44.0095, sources.gasLaw),
  },
  (v) => (v.glucose - 2 * v.ethanol) / (2 * v.carbonDioxide),
);

/** Heat that a variety gives off at its regime, of both reactions, watts per tonne. */
export function heatAtRegime(
  variety: Fermenting & Pick<Variety, 'heatPerMilligram'>,
  regime: Pick<Regime, 'temperature' | 'oxygen'>,
  which: RespirationCase = 'expected',
): Figure<'W/t'> {
  const respired = respirationHeat(respirationAtRegime(variety, regime, which), variety.heatPerMilligram);
  const fermentation = fermentationAtRegime(variety, regime, which);
  if (!fermentation) return respired;
  return compute(
    'heat of respiration and fermentation',
    'W/t',
    'respired + fermentation * heatOfFermentation * 1000 / 3600',
    { respired, fermentation, heatOfFermentation },
    (v) => v.respired + (v.fermentation * v.heatOfFermentation * 1000) / 3600,
  );
}

const molarMass = (what: string, value: number) =>
  referenceFigure(
    `molar mass of ${what}, g/mol`,
    '1',
    value,
    remark(sources.gasLaw, 'atomic masses by IUPAC'),
  );

/** Kilograms of sugar used up, and of ethanol left in the fruit, for each kilogram of carbon dioxide of fermentation. */
export const sugarFermented = compute(
  'sugar fermented for each kg of carbon dioxide',
  '1',
  'glucose / (2 * carbonDioxide)',
  { glucose: molarMass('glucose', 180.156), carbonDioxide: molarMass('carbon dioxide', 44.0095) },
  (v) => v.glucose / (2 * v.carbonDioxide),
);
export const ethanolMade = compute(
  'ethanol left in the fruit for each kg of carbon dioxide',
  '1',
  'ethanol / carbonDioxide',
  { ethanol: molarMass('ethanol', 46.068), carbonDioxide: molarMass('carbon dioxide', 44.0095) },
  (v) => v.ethanol / v.carbonDioxide,
);
