import { it } from 'vitest';
import { specificHeats } from '../../src/fruit/varieties/bulk';
import { parseQuantity, toUnit } from '../../src/plan/quantity';
import {
  airChangeHeat,
  fanHeatOfMotors,
  heatOfCooling,
  specificHeatOfMaterial,
  transmissionHeat,
} from '../../src/room/cooling';
import { heatOfVehicle, lightHeat, peopleHeat, vehicleHeat } from '../../src/room/loading-heat';
import { figure } from '../room/orchard';
import { check } from './published';

const HANDBOOK =
  'USDA Agriculture Handbook 66, "Heat Load Calculation", https://www.scribd.com/doc/259945372';
const A_DAY_IN_SECONDS = 86_400;

const surface = figure('m2', 720);
/** 1.1 kJ/h·m2·°C. */
const heatTransfer = figure('W/m2K', 1.1 / 3.6);
const volume = figure('m3', 908);
const store = figure('degC', -1.1);
const fruitADay = figure('kg', 100_000);
const binsADay = figure('kg', 200 * 63.5);
// What the tool takes for pears and wood where a plan says nothing: the handbook's 0.86 and 0.5 kcal/kgK.
const fruitHeat = specificHeats.pear;
const woodHeat = specificHeatOfMaterial.wood;

function line(id: string, what: string, expected: number, kilowatts: number, tolerance = 0.5): number {
  const kilojoules = kilowatts * A_DAY_IN_SECONDS;
  check({ id, what, source: HANDBOOK, known: 'published', expected, unit: 'kJ/24 h', tolerance }, kilojoules);
  return kilojoules;
}

function cooled(mass: typeof fruitADay, heat: typeof fruitHeat, start: number, end: number): number {
  return heatOfCooling('heat', mass, heat, figure('degC', start), figure('degC', end)).value;
}

it("works the handbook's example of 600 bins of pears loaded in three days", () => {
  const transmission = transmissionHeat(surface, heatTransfer, figure('degC', 30), store);
  const air = airChangeHeat(volume, figure('1', 6), figure('kJ/m3', 74.5));
  const six = [
    line('heat-load-transmission', 'Transmission, loading', 591_148.8, transmission.value, 0.05),
    line('heat-load-air', 'Air change, loading', 405_876, air.value),
    line(
      'heat-load-fruit-1',
      'Fruit, first day, 21 to 4.5 °C',
      5_939_934,
      cooled(fruitADay, fruitHeat, 21, 4.5),
    ),
    line('heat-load-bins-1', 'Bins, first day', 438_588, cooled(binsADay, woodHeat, 21, 4.5)),
    line(
      'heat-load-fruit-2',
      'Fruit, second day, 4.5 to -1.1 °C',
      2_015_978,
      cooled(fruitADay, fruitHeat, 4.5, -1.1),
    ),
    line('heat-load-bins-2', 'Bins, second day', 148_854, cooled(binsADay, woodHeat, 4.5, -1.1)),
  ];
  const sum = six.reduce((total, one) => total + one, 0);
  const kilowatts = sum / A_DAY_IN_SECONDS;
  line('heat-load-sum', 'Sum of the six', 9_540_379, kilowatts);
  check(
    {
      id: 'heat-load-kilowatts',
      what: 'The same as cooling',
      source: HANDBOOK,
      known: 'published',
      expected: 110.4,
      unit: 'kW',
      tolerance: 0.05,
    },
    kilowatts,
  );
  check(
    {
      id: 'heat-load-tons',
      what: 'The same in tons of refrigeration',
      source: HANDBOOK,
      known: 'published',
      expected: 31.4,
      unit: 'TR',
      tolerance: 0.05,
    },
    toUnit(kilowatts, 'power', 'TR'),
  );
});

it("works the example's lines for holding", () => {
  const transmission = transmissionHeat(surface, heatTransfer, figure('degC', 7.2), store);
  const air = airChangeHeat(volume, figure('1', 1.8), figure('kJ/m3', 15.3));
  line(
    'heat-load-transmission-holding',
    'Transmission, holding, 7.2 °C outside',
    157_766,
    transmission.value,
  );
  line('heat-load-air-holding', 'Air change, holding', 25_006, air.value);
});

it("works the example's miscellaneous heat, each as the handbook states it", () => {
  const aDay = (kilowatts: number) => kilowatts * A_DAY_IN_SECONDS;
  const misc = (id: string, what: string, expected: number, unit: string, actual: number) =>
    check({ id, what, source: HANDBOOK, known: 'published', expected, unit, tolerance: 0.5 }, actual);
  const anHour = figure('h', 1);
  misc(
    'heat-load-lights',
    'Lights of 2,400 W in an hour, 3.6 kJ for each watt',
    2400 * 3.6,
    'kJ',
    aDay(lightHeat(figure('kW', 2.4), anHour).value),
  );
  misc(
    'heat-load-forklift',
    'An electric forklift in 8 h',
    36_920,
    'kJ',
    aDay(vehicleHeat(figure('1', 1), heatOfVehicle, figure('h', 8)).value),
  );
  misc('heat-load-worker', 'A worker in an hour', 1000, 'kJ', aDay(peopleHeat(figure('1', 1), anHour).value));
  misc(
    'heat-load-fans',
    'Fans of a horsepower in an hour',
    3112,
    'kJ',
    fanHeatOfMotors(figure('kW', toKilowatts('1 hp'))).value * 3600,
  );
});

it('adds them to the six terms of the day of filling', () => {
  // The page's numbers of lights, forklifts, workers and fans; how many of each it counts was not read.
  const shift = figure('h', 8);
  const kilowatts = [
    lightHeat(figure('kW', 2.4), shift),
    vehicleHeat(figure('1', 2), heatOfVehicle, shift),
    peopleHeat(figure('1', 2), shift),
    fanHeatOfMotors(figure('kW', toKilowatts('3 hp'))),
  ].map(({ value }) => value);
  const expected = 2400 * 3.6 * 8 + 2 * 36_920 + 2 * 1000 * 8 + 3 * 3112 * 24;
  check(
    {
      id: 'heat-load-miscellaneous',
      what: '2,400 W of lights, two forklifts and two workers for 8 h, fans of 3 HP all day',
      source: `${HANDBOOK}: rates as published, numbers and hours chosen here`,
      known: 'published',
      expected,
      unit: 'kJ/24 h',
      tolerance: 0.5,
    },
    kilowatts.reduce((sum, one) => sum + one, 0) * A_DAY_IN_SECONDS,
  );
});

function toKilowatts(power: string): number {
  const parsed = parseQuantity(power, 'power');
  if (!parsed) throw new Error(`${power} is no power`);
  return parsed.value;
}
