import { expect, it } from 'vitest';
import {
  carbonDioxidePlanned,
  freshAirForCarbonDioxide,
  freshAirForOxygen,
  freshAirVolumes,
  oxygenPlanned,
} from '../../src/room/ventilation';
import { figure } from '../room/orchard';
import { check } from './published';

const MIXING =
  'Perfect mixing with fresh air of 20.9 % oxygen and 0.04 % carbon dioxide (physics, no publication needed)';
const percent = (value: number) => figure('%', value);
const mixing = { source: MIXING, known: 'published' as const, unit: 'volumes', tolerance: 0.0005 };

it('plans fresh air for oxygen', () => {
  for (const [room, to195, to205] of [
    [1, 2.654, 3.907],
    [2, 2.603, 3.855],
    [3, 2.548, 3.801],
  ] as const) {
    check(
      {
        id: `ventilation-oxygen-${room}-to-19.5`,
        what: `Fresh air from ${room} % oxygen to 19.5 %`,
        ...mixing,
        expected: to195,
      },
      freshAirForOxygen(percent(room), percent(19.5)).value,
    );
    check(
      {
        id: `ventilation-oxygen-${room}-to-20.5`,
        what: `Fresh air from ${room} % oxygen to 20.5 %`,
        ...mixing,
        expected: to205,
      },
      freshAirForOxygen(percent(room)).value,
    );
  }
});

it('plans fresh air for carbon dioxide', () => {
  for (const [room, expected] of [
    [3, 1.862],
    [5, 2.378],
  ] as const) {
    check(
      {
        id: `ventilation-carbon-dioxide-${room}`,
        what: `Fresh air from ${room} % carbon dioxide to 0.5 %`,
        ...mixing,
        expected,
      },
      freshAirForCarbonDioxide(percent(room)).value,
    );
  }
});

it('plans for levels that the rules do not call hazardous', () => {
  check(
    {
      id: 'ventilation-carbon-dioxide-limit',
      what: 'Carbon dioxide planned to, against the exposure limit of 5,000 ppm over 8 h',
      source: 'OSHA permissible exposure limit, as others quote it',
      known: 'from memory',
      expected: 0.5,
      unit: '%',
      tolerance: 0,
    },
    carbonDioxidePlanned.value,
  );
  // 29 CFR 1910.134(d)(2)(iii): below 19.5 % is oxygen-deficient and immediately dangerous.
  expect(oxygenPlanned.value).toBeGreaterThan(19.5);
  // A room at 2 % carbon dioxide holds four times the limit even at full oxygen.
  expect(2 / carbonDioxidePlanned.value).toBe(4);
});

it('lets the slower gas decide', () => {
  expect(freshAirVolumes(percent(2), percent(3)).value).toBe(freshAirForOxygen(percent(2)).value);
  expect(freshAirVolumes(percent(20), percent(5)).value).toBe(freshAirForCarbonDioxide(percent(5)).value);
  expect(freshAirVolumes(percent(2), percent(0)).value).toBe(freshAirForOxygen(percent(2)).value);
});
