import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import { airHeat, saturationPressure } from '../../src/room/air';
import { driestHumidity, humidityOfRoom, lossToBins, waterOfBins } from '../../src/room/humidity';
import { waterLoss } from '../../src/room/weight-loss';
import { figure } from './orchard';

psychrolib.SetUnitSystem(psychrolib.SI);
const celsius = (value: number) => figure('degC', value);

/** PsychroLib follows the ASHRAE Handbook, Fundamentals; ours is Buck's equation, written out in every explanation. */
describe('humid air, held against a library', () => {
  it('is saturated at the same pressure, to 0.1 %, from 0.1 to 30 °C', () => {
    for (let at = 0.1; at <= 30; at += 0.5) {
      const ratio = saturationPressure(celsius(at)).value / psychrolib.GetSatVapPres(at);
      expect(Math.abs(ratio - 1)).toBeLessThan(0.001);
    }
  });

  it('brings the same heat in with each cubic metre, to 0.5 %', () => {
    for (const [outside, humidity, inside] of [
      [30, 50, 1],
      [20, 60, 0.5],
      [12, 80, 3],
    ] as const) {
      const heat = airHeat(
        { temperature: celsius(outside), humidity: figure('%', humidity) },
        { temperature: celsius(inside), humidity: figure('%', 93) },
      );
      const enthalpy = (at: number, share: number) =>
        psychrolib.GetMoistAirEnthalpy(at, psychrolib.GetHumRatioFromRelHum(at, share, 101_325));
      const perKg = (enthalpy(outside, humidity / 100) - enthalpy(inside, 0.93)) / 1000;
      // Cubic metres of the room's air, reckoned dry.
      const volume = psychrolib.GetMoistAirVolume(inside, 0, 101_325);
      expect(Math.abs(heat.value / (perKg / volume) - 1)).toBeLessThan(0.005);
    }
  });
});

describe('the humidity a room comes to', () => {
  const room = (fruit: number, cooling: number, difference = 5) =>
    humidityOfRoom(celsius(1), figure('t', fruit), figure('kW', cooling), figure('K', difference)).value;

  it('lies between the air at the coil and saturation', () => {
    const driest = driestHumidity(celsius(1), figure('K', 5)).value;
    // Buck: 454.8 Pa at -4 °C over water, 657.1 at 1 °C.
    expect(driest).toBeCloseTo(69.2, 0);
    expect(room(250, 10)).toBeGreaterThan(driest);
    expect(room(250, 10)).toBeLessThan(100);
    expect(room(0, 10)).toBeCloseTo(driest, 9);
  });

  it('balances what the fruit gives off and the coil takes out', () => {
    const humidity = room(250, 10);
    const saturation = saturationPressure(celsius(1)).value;
    const deficit = saturation * (1 - humidity / 100);
    const givesPercent = waterLoss(figure('Pa', deficit), figure('days', 1)).value;
    const gives = (givesPercent / 100) * 250_000;
    // Air through the coil: 10 kW / (1.005 * 5 K) = 1.99 kg/s, each kilogram 0.622 (p - p_coil) / P lighter.
    const pressure = (saturation * humidity) / 100;
    const air = 10 / (1.005 * 5);
    const takes = air * 86_400 * ((0.622 * (pressure - saturationPressure(celsius(-4)).value)) / 101_325);
    expect(gives / takes).toBeCloseTo(1, 6);
  });

  it('is higher with more fruit, less cooling or a larger coil', () => {
    expect(room(300, 10)).toBeGreaterThan(room(250, 10));
    expect(room(250, 8)).toBeGreaterThan(room(250, 10));
    expect(room(250, 10, 3)).toBeGreaterThan(room(250, 10));
  });
});

describe('dry bins', () => {
  it('of wood take up 4.5 kg each, plastic ones none', () => {
    // 500 t at 346 kg to the bin: about 6,500 L in all.
    const water = waterOfBins(figure('bins', 1445), 'wood');
    expect(water.value).toBeCloseTo(6502.5, 6);
    expect(lossToBins(water, figure('t', 500)).value).toBeCloseTo(1.3005, 4);
    expect(waterOfBins(figure('bins', 1445), 'plastic').value).toBe(0);
  });
});
