import { describe, it } from 'vitest';
import { equilibriumLoading } from '../../src/plant/carbon';
import { balanceLevel, hoursByFruit } from '../../src/room/course/closed/levels';
import { chargeTakesUp, limeLasts } from '../../src/room/course/closed/lime';
import { driestHumidity, waterOfBins } from '../../src/room/humidity';
import { aCourseRoom, eventAt, feedOf, integrate } from '../room/course/rooms';
import { figure } from '../room/orchard';
import { check } from './published';

const PURGE =
  'Purging by dilution at perfect mixing, ln((C0 - Cp) / (Ct - Cp)), SIGTTO/IGC, https://staging.shipcalculators.com/docs/formulas/lng-purge-dilution';
const HUMID_STORES =
  'Umidade relativa na câmara frigorífica, https://friomilia.com.br/umidade-relativa-na-camara-frigorifica';
const CARBON = 'Equilibrium isotherms of activated carbons of the common kinds near 20 to 25 °C';
const LEAKLESS = { leakM3h: 0, weatherM3h: 0 };

describe('the integrated course', () => {
  it.each([
    [0, 5, 1.43],
    [0, 2, 2.347],
    [0.5, 5, 1.511],
    [0.5, 2, 2.61],
    [1, 5, 1.604],
    [1, 2.5, 2.585],
    [2, 5, 1.841],
    [2, 3, 2.939],
  ])(
    'of an empty room flushed with %s per cent oxygen in the nitrogen to %s per cent',
    (inGas, to, expected) => {
      const course = integrate(
        aCourseRoom({ ...LEAKLESS, kg: 0, untilHours: 60, feed: feedOf(inGas, 80, to) }),
      );
      check(
        {
          id: `course-flush-${inGas}-to-${to}`,
          what: `Volumes of nitrogen with ${inGas} % oxygen to ${to} %, integrated`,
          source: PURGE,
          known: 'published',
          expected,
          unit: 'volumes',
          tolerance: 0.0005,
        },
        (eventAt(course, 'feed-stops') * 80) / 800,
      );
    },
  );

  it('of a room whose fruit alone takes the oxygen', () => {
    // dO2/dt = -100 m r / (RQ 1e6 rho) / Vg: 250 t at 3 mg/kg/h, 1.9563 mg/mL at 1 °C, 800 m3.
    const room = aCourseRoom({ ...LEAKLESS, quotient: 1, law: { kind: 'air' }, untilHours: 900 });
    const { points } = integrate(room);
    const [first, later] = [points[0], points.find(({ hours }) => hours === 200)];
    check(
      {
        id: 'course-respiration-fall',
        what: 'Oxygen used in an hour by 250 t at 3 mg/kg/h in 800 m3 at 1 °C, integrated',
        source: 'Mass of carbon dioxide at 1 °C and 101.325 kPa, 1.9563 mg/mL, as an ideal gas',
        known: 'published',
        expected: 0.047922,
        unit: '%/h',
        tolerance: 0.000005,
      },
      ((first?.oxygen ?? 0) - (later?.oxygen ?? 0)) / 200,
    );
  });
});

describe('stores', () => {
  it.each([
    [1, 4, 1],
    [3, 11.5, 2.5],
    [5, 17, 3],
    [15, 42.5, 7.5],
    [100, 97.5, 12.5],
  ])('load activated carbon at %s kPa with %s g/kg', (level, expected, tolerance) => {
    check(
      {
        id: `carbon-loading-${level}`,
        what: `Carbon dioxide on activated carbon at ${level} kPa, middle of the range`,
        source: CARBON,
        known: 'from memory',
        expected,
        unit: 'g/kg',
        tolerance,
      },
      equilibriumLoading(figure('%', level)).value,
    );
  });

  it('soak dry wooden bins', () => {
    check(
      {
        id: 'bins-water-room',
        what: 'Water that the wooden bins of a 500 t room take up, at 346 kg of fruit to the bin',
        source: HUMID_STORES,
        known: 'published',
        expected: 6500,
        unit: 'L',
        tolerance: 50,
      },
      waterOfBins(figure('bins', 500_000 / 346), 'wood').value,
    );
  });

  it('are dry where all air passes a coil 5 K colder', () => {
    check(
      {
        id: 'coil-driest-air',
        what: 'Relative humidity at 5 °C of air saturated at 0 °C: 611.2 of 872.4 Pa',
        source: 'Buck 1981, 1996 form, https://en.wikipedia.org/wiki/Arden_Buck_equation',
        known: 'published',
        expected: 70.06,
        unit: '%',
        tolerance: 0.01,
      },
      driestHumidity(figure('degC', 5), figure('K', 5)).value,
    );
  });
});

const KOELET = 'Koelet 1992 in Thompson 2010, p. 32: 7.5 kg of lime a tonne every 6 to 10 weeks';
const BARTSCH =
  'Bartsch, Cornell: half a pound of lime a bushel for three months, 11.905 kg/t, https://tr.scribd.com/document/409280233';

describe('closed forms beside the course', () => {
  // 250 t at 3 mg/kg/h use 250,000 * 3 / 1e6 / 1.9563 = 0.38337 m3/h of oxygen.
  const use = figure('m3/h', (250_000 * 3) / 1e6 / 1.9563);

  it('of oxygen that the fruit alone takes', () => {
    const hours = hoursByFruit(figure('%', 5), figure('%', 3), use, figure('m3/h', 0), figure('m3', 800));
    check(
      {
        id: 'closed-respiration-fall',
        what: 'Hours in which 250 t at 3 mg/kg/h bring 800 m3 at 1 °C from 5 to 3 % oxygen: 2 / 0.047922',
        source: 'Mass of carbon dioxide at 1 °C and 101.325 kPa, 1.9563 mg/mL, as an ideal gas',
        known: 'published',
        expected: 41.734,
        unit: 'h',
        tolerance: 0.005,
      },
      hours?.value ?? Number.NaN,
    );
  });

  it('of the leak at which oxygen stays at 2 per cent', () => {
    const leak = figure('m3/h', use.value / ((20.9 - 2) / 100));
    check(
      {
        id: 'closed-leak-balance',
        what: 'Oxygen at which a leak of m r / (RQ 1e6 rho) / ((20.9 - 2) / 100) balances the fruit',
        source: 'Oxygen balance of a room: the leak that just matches respiration',
        known: 'published',
        expected: 2,
        unit: '%',
        tolerance: 1e-9,
      },
      balanceLevel(use, leak).value,
    );
  });

  it.each([
    ['six-weeks', 7.5, 0.106, 42, 0.2, KOELET],
    ['ten-weeks', 7.5, 0.0636, 70, 0.3, KOELET],
    ['three-months', 11.905, 0.0786, 90, 0.3, BARTSCH],
  ])('of the days a charge of lime lasts, %s', (id, charge, load, expected, tolerance, source) => {
    const takesUp = chargeTakesUp(figure('kg', charge), figure('%', 100));
    check(
      {
        id: `closed-lime-${id}`,
        what: `Days for which ${charge} kg of lime, all of it used, take up ${load} kg of carbon dioxide a day`,
        source,
        known: 'published',
        expected,
        unit: 'days',
        tolerance,
      },
      limeLasts(takesUp, figure('kg/day', load))?.value ?? Number.NaN,
    );
  });
});
