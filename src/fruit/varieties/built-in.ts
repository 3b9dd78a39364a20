import { referenceFigure } from '../../plan/figure';
import { daysRange, expected, one, type Printed } from '../printed';
import { builtInRegimeRows } from '../regimes';
import { remembered } from '../remembered';
import { usualHeatPerMilligram } from '../respiration';
import { commonPractice, remark, sources } from '../sources';
import type { MaturityByTerm, Variety } from '../types';
import { specificHeats, usualDensity } from './bulk';
import { disordersOf } from './disorders';
import { leastExitFirmness, lossWhileFilling, softening } from './firmness';
import { harvestMaturity } from './harvest-maturity';
import { CHILLING_SENSITIVE_ABOVE, holdingTemperatures } from './holding-temperatures';
import {
  freezesAt,
  leastOxygen,
  leastTemperature,
  mostCarbonDioxide,
  oxygenBreakpoint,
  usualBreakpoint,
} from './limits';
import { type VarietyName, varietyNames } from './names';
import { averageLateApple } from './respiration-tables';
import { lifeInAir, lifeInStore } from './storage-lives';

/** Share of the respiration in air that is left in controlled atmosphere, the same for every variety. */
export const respirationInStore: Variety['respirationInStore'] = {
  low: share('lowest', 0.3, remark(sources.bohlingHansen, 'cut by 60 to 70 %')),
  expected: share('expected', 0.35, remark(sources.bohlingHansen, 'cut by 60 to 70 %, the middle of it')),
  high: share('highest', 0.5, remark(sources.containerHandbook, 'respiration roughly halves')),
};

const respiratoryQuotient = referenceFigure(
  'respiratory quotient',
  '1',
  1.05,
  commonPractice(
    'Chosen within the 1.03 to 1.15 that Bohling and Hansen 1983, Acta Horticulturae 138:93-106, measured in CA',
  ),
);

const named: ReadonlyMap<string, VarietyName> = new Map(varietyNames.map((each) => [each.name, each]));

/** The names of the built-in varieties. */
export const builtInVarietyNames: readonly string[] = [...named.keys()];

/** The built-in variety of a name. A plan has few of them, so each is made when it is asked for. */
export const builtInVariety = remembered((name): Variety | undefined => {
  const one = named.get(name);
  return one && varietyOf(one);
});

/** What stands in for a variety of which the plan and the reference data know nothing but the name. */
export function averageApple(name: string): Variety {
  const usual = (value: number, unit: string): Printed =>
    one(value, unit, commonPractice('An average late apple: the plan says nothing else of this variety'));
  return {
    name,
    fruit: 'apple',
    respiration: averageLateApple,
    respirationInStore,
    respiratoryQuotient,
    specificHeat: specificHeats.apple,
    density: usualDensity,
    heatPerMilligram: usualHeatPerMilligram,
    storageLifeInAir: expected('storage life in air', 'days', usual(3.5, 'months')),
    storageLife: expected('storage life', 'days', usual(8, 'months')),
    leastTemperature: expected('least temperature', 'degC', usual(0, '°C')),
    freezesAt: expected('freezing point', 'degC', usual(-1.7, '°C')),
    leastOxygen: expected('least oxygen', '%', usual(1, '%')),
    oxygenBreakpoint: expected('breakpoint of oxygen', '%', usualBreakpoint),
    mostCarbonDioxide: expected('most carbon dioxide', '%', usual(2, '%')),
    leastExitFirmness: expected('least firmness out of store', 'N', usual(11, 'lbf')),
    softening: expected('firmness lost a month', 'N/month', usual(1.5, 'N')),
    firmnessLossWhileFilling: expected('firmness lost while filling', 'N', usual(0.25, 'kgf')),
    regimes: [],
    disorders: [],
  };
}

function varietyOf({ name, fruit, ripens, respiration }: VarietyName): Variety {
  const air = lifeInAir(name, ripens);
  const store = lifeInStore(name, ripens);
  const airRange = daysRange('storage life in air', air);
  const storeRange = daysRange('storage life', store);
  const maturityByTerm = maturityOf(name);
  return {
    name,
    fruit,
    respiration,
    respirationInStore,
    respiratoryQuotient,
    specificHeat: specificHeats[fruit],
    density: usualDensity,
    heatPerMilligram: usualHeatPerMilligram,
    storageLifeInAir: expected('storage life in air', 'days', air),
    ...(airRange && { storageLifeInAirRange: airRange }),
    storageLife: expected('storage life', 'days', store),
    ...(storeRange && { storageLifeRange: storeRange }),
    leastTemperature: expected('least temperature', 'degC', leastTemperature(name)),
    freezesAt: expected('freezing point', 'degC', freezesAt(name, fruit)),
    leastOxygen: expected('least oxygen', '%', leastOxygen(name)),
    oxygenBreakpoint: expected('breakpoint of oxygen', '%', oxygenBreakpoint(name)),
    mostCarbonDioxide: expected('most carbon dioxide', '%', mostCarbonDioxide(name)),
    leastExitFirmness: expected('least firmness out of store', 'N', leastExitFirmness(name, ripens)),
    softening: expected('firmness lost a month', 'N/month', softening(name, ripens)),
    firmnessLossWhileFilling: expected('firmness lost while filling', 'N', lossWhileFilling(name, ripens)),
    ...(maturityByTerm && { maturityByTerm }),
    regimes: builtInRegimeRows.filter(({ varieties }) => varieties.includes(name)).map((row) => row.name),
    disorders: disordersOf(name, (holdingTemperatures[name]?.mean ?? 0) > CHILLING_SENSITIVE_ABOVE),
  };
}

function maturityOf(name: string): MaturityByTerm | undefined {
  const row = harvestMaturity[name];
  if (!row) return undefined;
  const source = sources.michiganMaturity;
  const firmness = (term: 'short' | 'mid' | 'long') =>
    expected(`harvest firmness for ${term} storage`, 'N', one(row[term], 'lbf', source));
  return {
    firmness: { short: firmness('short'), mid: firmness('mid'), long: firmness('long') },
    starch: {
      mature: referenceFigure('starch up to which fruit suits long storage', '1', row.mature, source),
      overMature: referenceFigure('starch from which fruit suits short storage', '1', row.overMature, source),
    },
    source,
  };
}

function share(which: string, value: number, source: typeof sources.bohlingHansen) {
  return referenceFigure(`respiration in store as a share of that in air, ${which}`, '1', value, source);
}
