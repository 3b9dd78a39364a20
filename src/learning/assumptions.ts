import { sources } from '../fruit/sources';
import { normalQuantile } from '../keeping/normal';
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

export const dailySwing = referenceFigure(
  'swing of a leak with the hour of the day that is allowed for, as a share of it',
  '1',
  0.3,
  commonPractice(
    'Days are windier and warmer than nights: a leak is taken to swing by so much about its mean',
  ),
);

/** The chance with which a stated interval holds the truth. */
export const STATED_CHANCE = 0.95;

/** Standard deviations of a normal distribution to its stated interval. */
export const STATED_DEVIATIONS = normalQuantile(1 - (1 - STATED_CHANCE) / 2);

export const fruitSpread = referenceFigure(
  'spread of firmness from fruit to fruit',
  'N',
  6.3,
  commonPractice(
    'Standard deviation within a sample of one lot; with that between bins it makes the 2.5 N of ten fruit',
  ),
);

export const spreadBetweenBins = referenceFigure(
  'spread of firmness between bins of a lot',
  'N',
  1.5,
  commonPractice(
    'A sample comes from a few bins: hypot(6.3 / sqrt(10), 1.5) is the 2.5 N that windows reckon with',
  ),
);

export const binsOfPlan = referenceFigure(
  "bins that the plan's packout counts as much as",
  'bins',
  25,
  commonPractice(
    'A lot differs from its variety by some 10 points; the fruit of one bin are alike and count as one witness',
  ),
);

export const partsOfCrop = referenceFigure(
  'parts by which a crop comes out other than estimated: season, variety, grower, block',
  '1',
  4,
  commonPractice('None is known to matter more than another: each has the same variance'),
);

export const ofLotAlone = referenceFigure(
  "spread of a lot's receipts against its estimate that no other lot shares, as a share",
  '1',
  0.06,
  commonPractice('Bins of a lot are counted from sample trees, good to some 5 to 8 %'),
);
