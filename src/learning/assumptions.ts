import { sources } from '../fruit/sources';
import { referenceFigure } from '../plan/figure';
import { commonPractice } from '../room/sources';

/** What the fits take for granted beside the readings. Each widens an interval by what it leaves open. */

export const lowestQuotient = referenceFigure(
  'respiratory quotient, lowest measured in store',
  '1',
  1.03,
  sources.bohlingHansen,
);

export const highestQuotient = referenceFigure(
  'respiratory quotient, highest measured in store',
  '1',
  1.15,
  sources.bohlingHansen,
);

export const sensorDriftAMonth = referenceFigure(
  "drift of a gas sensor's zero in a month that is allowed for, points",
  '%',
  0.1,
  commonPractice('Analysers checked against calibration gas once a month are found off by about so much'),
);

export const calibrationError = referenceFigure(
  'error of a gas reading by its calibration that is allowed for, as a share of it',
  '1',
  0.02,
  commonPractice('Calibration gases are certified to 1 or 2 % of their content'),
);

export const leakByTestFactor = referenceFigure(
  'factor by which the leak in service may differ from what the pressure test gives, either way',
  '1',
  3,
  commonPractice('The mean pressure in service is a planning assumption: 3 to 30 Pa where 10 Pa are assumed'),
);

/** The chance with which a stated interval holds the truth. */
export const STATED_CHANCE = 0.95;
