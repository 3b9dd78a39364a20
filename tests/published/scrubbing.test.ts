import { expect, it } from 'vitest';
import { parseQuantity } from '../../src/plan/quantity';
import { oxygenAtChange, oxygenInADay, removalPerLevel, settlingLevel } from '../../src/plant/scrubber';
import { carbonDioxideOf } from '../../src/room/gas';
import {
  carbonatePerLime,
  carbonDioxidePerLime,
  carbonDioxideTakenUp,
  limeFor,
  limePerCarbonDioxide,
  waterPerLime,
} from '../../src/room/lime';
import { aScrubber, figure, known } from '../room/orchard';
import { check } from './published';

const REACTION = 'Ca(OH)2 + CO2 -> CaCO3 + H2O with the molar masses of IUPAC';
const RULE_A =
  'Bartsch, Cornell: half a pound of lime a bushel for three months, https://tr.scribd.com/document/409280233';
const RULE_B =
  'Koelet 1992 in Thompson 2010, p. 32: 7.5 kg/t every 6 to 10 weeks, https://www.yumpu.com/en/document/view/43259624';
const kilograms = (text: string) => parseQuantity(text, 'mass')?.value ?? Number.NaN;
/** United States trade statistics; some states use 48 lb. */
const BUSHEL_KG = kilograms('42 lb');

it('reacts lime with carbon dioxide', () => {
  const reaction = { source: REACTION, known: 'published' as const, unit: 'kg/kg', tolerance: 0.0005 };
  const rows = [
    ['lime-carbon-dioxide', 'Carbon dioxide for each kg of lime', 0.594, carbonDioxidePerLime],
    ['lime-needed', 'Lime for each kg of carbon dioxide', 1.684, limePerCarbonDioxide],
    ['lime-carbonate', 'Calcium carbonate from each kg of lime', 1.351, carbonatePerLime],
    ['lime-water', 'Water from each kg of lime', 0.243, waterPerLime],
  ] as const;
  for (const [id, what, expected, ratio] of rows) {
    check({ id: `scrubbing-${id}`, what, ...reaction, expected }, ratio.value);
  }
});

it('needs ten bags of lime for a thousand bushels, as the extension rule says', () => {
  check(
    {
      id: 'scrubbing-rule-a-mass',
      what: 'The rule, for a tonne of fruit at 42 lb a bushel',
      source: RULE_A,
      known: 'published',
      expected: 11.905,
      unit: 'kg/t',
      tolerance: 0.0005,
    },
    (kilograms('0.5 lb') * 1000) / BUSHEL_KG,
  );
  const given = carbonDioxideOf('given off', figure('kg', 1000 * BUSHEL_KG), figure('mg/kg/h', 1.96));
  check(
    {
      id: 'scrubbing-rule-a-bags',
      what: 'Bags of 50 lb for 1,000 bushels over 3 months at 1.96 mg/kg/h, 60 % of the lime used',
      source: RULE_A,
      known: 'published',
      expected: 10,
      unit: 'bags',
      tolerance: 0.05,
    },
    limeFor(given, figure('days', 90)).value / kilograms('50 lb'),
  );
});

it('draws from the rules of thumb what carbon dioxide they reckon with', () => {
  const all = figure('%', 100);
  const perTonne = (lime: number, days: number, used = all) =>
    carbonDioxideTakenUp(figure('kg', lime), figure('days', days), used).value;
  const rows = [
    ['rule-a', RULE_A, 0.0786, perTonne(11.905, 90), 0.00005],
    ['rule-b-6-weeks', RULE_B, 0.106, perTonne(7.5, 42), 0.0005],
    ['rule-b-10-weeks', RULE_B, 0.0636, perTonne(7.5, 70), 0.00005],
  ] as const;
  for (const [id, source, expected, actual, tolerance] of rows) {
    check(
      {
        id: `scrubbing-${id}`,
        what: 'Carbon dioxide the rule reckons with, all lime used',
        source,
        known: 'published',
        expected,
        unit: 'kg/t/day',
        tolerance,
      },
      actual,
    );
  }
  check(
    {
      id: 'scrubbing-rule-a-respiration-all',
      what: 'Respiration that the first rule serves, all lime used',
      source: RULE_A,
      known: 'published',
      expected: 3.27,
      unit: 'mg/kg/h',
      tolerance: 0.005,
    },
    perTonne(11.905, 90) / 0.024,
  );
  check(
    {
      id: 'scrubbing-rule-a-respiration',
      what: 'Respiration that the first rule serves at 60 % use',
      source: RULE_A,
      known: 'published',
      expected: 1.96,
      unit: 'mg/kg/h',
      tolerance: 0.006,
    },
    perTonne(11.905, 90, figure('%', 60)) / 0.024,
  );
});

it('carries oxygen in with every change of beds', () => {
  const atChange = oxygenAtChange(figure('m3', 0.5), figure('%', 2));
  const carbon = {
    source: 'Void of bed and ducts times (20.9 - oxygen of the room) / 100',
    known: 'from memory' as const,
    unit: 'm3',
  };
  check(
    {
      id: 'scrubbing-oxygen-at-change',
      what: 'Oxygen carried in at a change, void 0.5 m3, room at 2 %',
      ...carbon,
      expected: 0.0945,
      tolerance: 0.00005,
    },
    atChange.value,
  );
  check(
    {
      id: 'scrubbing-oxygen-in-a-day',
      what: 'The same over 48 changes a day',
      ...carbon,
      expected: 4.54,
      tolerance: 0.005,
    },
    oxygenInADay(atChange, figure('1', 48)).value,
  );
});

const AT = { file: 'test', start: 0, end: 0 };
function beds(number: number, adsorb: number, regenerate: number) {
  return aScrubber({
    beds: {
      at: AT,
      number,
      carbon: figure('kg', 140),
      adsorb: figure('min', adsorb),
      regenerate: figure('min', regenerate),
      voidVolume: undefined,
    },
  });
}

it('runs two beds in turns without a break when regeneration is no longer than saturation', () => {
  const rated = 260 / 3;
  const practice = {
    source:
      'Common practice: two carbon beds take turns, one adsorbing until saturated while the other is regenerated with outside air',
    known: 'common practice' as const,
    unit: 'kg/day per %',
    tolerance: 0.005,
  };
  check(
    {
      id: 'scrubbing-two-beds',
      what: 'Two beds, 8 min each way: removal of 260 kg/day at 3 % for each per cent',
      ...practice,
      expected: rated,
    },
    known(removalPerLevel(beds(2, 8, 8))),
  );
  check(
    {
      id: 'scrubbing-two-beds-slow',
      what: 'Two beds that take twice as long to regenerate remove half',
      ...practice,
      expected: rated / 2,
    },
    known(removalPerLevel(beds(2, 8, 16))),
  );
  check(
    {
      id: 'scrubbing-one-bed',
      what: 'One bed rests while it is regenerated',
      ...practice,
      expected: rated / 2,
    },
    known(removalPerLevel(beds(1, 8, 8))),
  );
});

it('settles where removal and load balance', () => {
  const perLevel = removalPerLevel(aScrubber());
  expect(perLevel && settlingLevel(figure('kg/day', 130), perLevel)?.value).toBeCloseTo(1.5, 10);
});
