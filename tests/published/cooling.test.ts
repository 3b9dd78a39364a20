import { expect, it } from 'vitest';
import { specificHeats } from '../../src/fruit/varieties/bulk';
import { airHeat } from '../../src/room/air';
import { coolingHalfTime, heatOfCooling, sevenEighthsTime, temperatureAfter } from '../../src/room/cooling';
import { aFill, aPlan, figure, known, onlyRoom } from '../room/orchard';
import { check } from './published';

const COMMODITY_MANUAL =
  'World Food Logistics Organization, Commodity Storage Manual, Apples, 2008, https://www.scribd.com/document/579136178';
const COOLING_LAW =
  'Half-cooling law (T - Ta) / (T0 - Ta) = 2^(-t/Z), Indian cold-chain standard, https://ja.scribd.com/document/251316994';
const HANDBOOK =
  'USDA Agriculture Handbook 66, "Heat Load Calculation", https://www.scribd.com/doc/259945372';
const celsius = (value: number) => figure('degC', value);

it('takes the field heat out of a tonne of apples', () => {
  const heat = heatOfCooling('field heat', figure('kg', 1000), specificHeats.apple, celsius(20), celsius(1));
  const tonne = { source: `${COMMODITY_MANUAL}: 3.81 kJ/kgK`, known: 'published' as const };
  const megajoules = (heat.value * 86_400) / 1000;
  check(
    {
      id: 'cooling-tonne-heat',
      what: 'Heat of 1 t cooled from 20 to 1 °C',
      ...tonne,
      expected: 72.39,
      unit: 'MJ',
      tolerance: 0.005,
    },
    megajoules,
  );
  check(
    {
      id: 'cooling-tonne-energy',
      what: 'The same in kilowatt hours',
      ...tonne,
      expected: 20.11,
      unit: 'kWh',
      tolerance: 0.005,
    },
    heat.value * 24,
  );
  check(
    {
      id: 'cooling-tonne-power',
      what: 'The same as a mean over 24 h',
      ...tonne,
      expected: 0.838,
      unit: 'kW/t',
      tolerance: 0.0005,
    },
    heat.value,
  );
});

it('cools by halves', () => {
  const halfTime = figure('h', 8);
  const after = (hours: number) =>
    temperatureAfter(celsius(20), celsius(0), figure('h', hours), halfTime).value;
  const law = { source: COOLING_LAW, known: 'published' as const };
  check(
    {
      id: 'cooling-law-24-h',
      what: 'From 20 °C in a room at 0 °C, half-time 8 h, after 24 h',
      ...law,
      expected: 2.5,
      unit: '°C',
      tolerance: 0.0005,
    },
    after(24),
  );
  check(
    {
      id: 'cooling-law-2-degrees',
      what: 'The same after 26.575 h',
      ...law,
      expected: 2,
      unit: '°C',
      tolerance: 0.0005,
    },
    after(26.575),
  );
  check(
    {
      id: 'cooling-seven-eighths',
      what: 'Seven-eighths cooling time, half-time 8 h',
      ...law,
      expected: 24,
      unit: 'h',
      tolerance: 0,
    },
    sevenEighthsTime(halfTime).value,
  );
  check(
    {
      id: 'cooling-seven-eighths-lag',
      what: 'The same with a lag factor of 1.2: ln(8 j) / C',
      source: `${COOLING_LAW}; its form with a lag from memory`,
      known: 'from memory',
      expected: (Math.log(8 * 1.2) / Math.LN2) * 8,
      unit: 'h',
      tolerance: 1e-9,
    },
    sevenEighthsTime(halfTime, figure('1', 1.2)).value,
  );
  check(
    {
      id: 'cooling-half-lag',
      what: 'Half the way with a lag factor of 1.2, after Z = ln(2 j) / C',
      source: `${COOLING_LAW}; its form with a lag from memory`,
      known: 'from memory',
      expected: 10,
      unit: '°C',
      tolerance: 1e-9,
    },
    temperatureAfter(
      celsius(20),
      celsius(0),
      figure('h', Math.log(2.4) / (Math.LN2 / 8)),
      halfTime,
      figure('1', 1.2),
    ).value,
  );
  check(
    {
      id: 'cooling-handbook-first-day',
      what: 'Pears from 21 °C after a day in a room at -1.1 °C',
      source: HANDBOOK,
      known: 'published',
      expected: 4.5,
      unit: '°C',
      tolerance: 0.05,
    },
    temperatureAfter(celsius(21), celsius(-1.1), figure('h', 24), coolingHalfTime).value,
  );
});

it('finds the heat of outside air that the handbook tabulates', () => {
  // The example's page gives no humidities; 50 and 70 % outside are those of the handbooks' tables, from memory.
  const inside = { temperature: celsius(-1.1), humidity: figure('%', 90) };
  check(
    {
      id: 'cooling-air-heat-loading',
      what: 'Heat in outside air at 30 °C (50 % humidity), room at -1.1 °C',
      source: HANDBOOK,
      known: 'published',
      expected: 74.5,
      unit: 'kJ/m3',
      tolerance: 1.5,
    },
    airHeat({ temperature: celsius(30), humidity: figure('%', 50) }, inside).value,
  );
  check(
    {
      id: 'cooling-air-heat-holding',
      what: 'Heat in outside air at 7.2 °C (70 % humidity), room at -1.1 °C',
      source: HANDBOOK,
      known: 'published',
      expected: 15.3,
      unit: 'kJ/m3',
      tolerance: 0.5,
    },
    airHeat({ temperature: celsius(7.2), humidity: figure('%', 70) }, inside).value,
  );
});

it('lies within the rules of thumb for refrigeration', () => {
  const room = onlyRoom(aPlan({ fills: [aFill({ lots: { L1: 400, L2: 490 } })] }));
  check(
    {
      id: 'cooling-holding-rule',
      what: 'Cooling of a full room when holding',
      source: 'ASHRAE and extension rules of thumb: 0.02 to 0.05 kW/t',
      known: 'from memory',
      expected: 0.035,
      unit: 'kW/t',
      tolerance: 0.015,
    },
    known(room.holdingCooling) / known(room.fruit),
  );
  expect(known(room.peakCooling)).toBeGreaterThan(known(room.holdingCooling));
});
