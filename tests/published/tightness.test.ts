import { it } from 'vitest';
import type { TightnessTest } from '../../src/plan/model';
import {
  leakFlow,
  oxygenRise,
  pressureHalfLife,
  temperatureShare,
  weatherShare,
} from '../../src/room/tightness';
import { figure, known } from '../room/orchard';
import { check } from './published';

const PHYSICS = 'Ideal gas at the standard atmosphere, 101,325 Pa (physics, no publication needed)';
const AT = { file: 'test', start: 0, end: 0 };

function tightnessTest(from: number, to: number, after: number): TightnessTest {
  return { at: AT, from: figure('Pa', from), to: figure('Pa', to), after: figure('min', after) };
}

it('turns the pressure test into a leak', () => {
  for (const [halfLife, expected] of [
    [7, 14.66],
    [12, 8.55],
    [20, 5.13],
    [30, 3.42],
  ] as const) {
    const time = pressureHalfLife(tightnessTest(250, 125, halfLife));
    check(
      {
        id: `tightness-leak-${halfLife}`,
        what: `Leak of 1,000 m3 at 250 Pa, half-life ${halfLife} min`,
        source: `${PHYSICS}: Q = V / Patm * P * ln 2 / half-life`,
        known: 'published',
        expected,
        unit: 'm3/h',
        tolerance: 0.005,
      },
      known(time && leakFlow(figure('m3', 1000), figure('Pa', 250), time)),
    );
  }
});

it('puts one criterion in terms of another', () => {
  check(
    {
      id: 'tightness-uk-half-life',
      what: 'Half-life of the criterion 187 to 125 Pa in 7 min',
      source: 'Sharples and Stow 1986, as quoted in Thompson 2010',
      known: 'from memory',
      expected: 12.05,
      unit: 'min',
      tolerance: 0.005,
    },
    known(pressureHalfLife(tightnessTest(187, 125, 7))),
  );
  check(
    {
      id: 'tightness-us-half-life',
      what: 'Half-life of the criterion 1 to 1/2 inch of water in 20 min',
      source: 'Bartsch and Blanpied, NRAES-22, 1984; Waelti and Bartsch 1990',
      known: 'from memory',
      expected: 20,
      unit: 'min',
      tolerance: 0.0005,
    },
    known(pressureHalfLife(tightnessTest(249.08891, 124.544455, 20))),
  );
});

it('lets the weather in', () => {
  const physics = { source: PHYSICS, known: 'published' as const };
  const rise = (pascal: number) => weatherShare(figure('Pa', pascal));
  check(
    {
      id: 'tightness-weather-share',
      what: 'Air pressed in by a rise of 1 kPa, of the gas volume',
      ...physics,
      expected: 0.987,
      unit: '%',
      tolerance: 0.0005,
    },
    rise(1000).value,
  );
  check(
    {
      id: 'tightness-weather-oxygen-2',
      what: 'Rise in oxygen by 1 kPa in a room at 2 %',
      ...physics,
      expected: 0.187,
      unit: 'points',
      tolerance: 0.0005,
    },
    oxygenRise(rise(1000), figure('%', 2)).value,
  );
  check(
    {
      id: 'tightness-weather-oxygen-1',
      what: 'Rise in oxygen by 2 kPa in a room at 1 %',
      ...physics,
      expected: 0.393,
      unit: 'points',
      tolerance: 0.0005,
    },
    oxygenRise(rise(2000), figure('%', 1)).value,
  );
  check(
    {
      id: 'tightness-temperature-share',
      what: 'Air drawn in by a fall of 0.5 K at 1 °C, of the gas volume',
      ...physics,
      expected: 0.182,
      unit: '%',
      tolerance: 0.0005,
    },
    temperatureShare(figure('K', 0.5), figure('degC', 1)).value,
  );
});
