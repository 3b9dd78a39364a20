import { referenceFigure, type Source } from '../figure';

/** What holds where a plan leaves a key out, each with why. The schema's `default` texts say the same to the reader. */

function practice(citation: string): Source {
  return { citation: `common practice: ${citation}`, known: 'common practice' };
}

function published(citation: string): Source {
  return { citation, known: 'published' };
}

const TRAUTMANN = published(
  'Trautmann 1985, International Institute of Refrigeration, record 1986-0745: daily intake of 7 to 10 % of the store',
);
const GAP = published(
  'AHDB Apple Best Practice Guide, post-harvest section 7, https://apples.ahdb.org.uk/post-harvest-section7-link7.asp: at least 50 mm between bin tiers and rows',
);

export const defaults = {
  wallClearance: referenceFigure(
    'clearance at walls',
    'm',
    0.2,
    practice('20 to 30 cm along each wall for the air to pass'),
  ),
  ceilingClearance: referenceFigure(
    'clearance under the ceiling',
    'm',
    0.8,
    practice('80 cm above the stack for the air to pass'),
  ),
  binGap: referenceFigure('gap between bins', 'm', 0.05, GAP),
  lostPlaces: referenceFigure(
    'lost places',
    'places',
    0,
    practice('no place is counted as lost unless the plan says so'),
  ),
  heatTransfer: referenceFigure(
    'heat transfer of walls, ceiling and floor',
    'W/m2K',
    0.2,
    practice('U-value of a sandwich panel some years old; new ones have 0.15 to 0.18 W/m2K'),
  ),
  scrubberHours: referenceFigure(
    'hours a day the scrubber runs',
    'h',
    24,
    practice('scrubbers may run day and night'),
  ),
  performance: referenceFigure(
    'cooling for each kilowatt of power',
    '1',
    3,
    practice('a plant at 0 °C gives some 3 kW of cooling for each kW of compressors, pumps and fans'),
  ),
  fieldTemperature: referenceFigure(
    'field temperature',
    'degC',
    20,
    practice('fruit of a mild harvest day, where none was measured'),
  ),
  outsideTemperature: referenceFigure(
    'outside temperature in harvest',
    'degC',
    20,
    practice('mean outside air of mild harvest weeks'),
  ),
  daysToEmpty: referenceFigure(
    'days to empty a room',
    'days',
    14,
    practice('an opened room is packed out within about two weeks'),
  ),
  packedWait: referenceFigure(
    'days packed cartons may wait',
    'days',
    14,
    practice('packed fruit is shipped within about two weeks'),
  ),
  costOfWaiting: referenceFigure(
    'cost of waiting',
    'money',
    0,
    practice('waiting costs nothing unless the plan says so'),
  ),
  processingPrice: referenceFigure(
    'processing price',
    'money',
    0,
    practice('fruit packed and not sold brings nothing unless the plan says so'),
  ),
  packoutLoss: referenceFigure(
    'packout lost a month',
    '%',
    1,
    practice('about a hundredth of each class is lost a month in store'),
  ),
  confidence: referenceFigure(
    'confidence of windows',
    '%',
    90,
    practice('windows hold in nine seasons of ten'),
  ),
  intakeADay: referenceFigure('intake a day', '%', 10, TRAUTMANN),
  mostScrubberLoad: referenceFigure(
    'scrubber load at most',
    '%',
    100,
    practice('a scrubber may be used to its full capacity'),
  ),
  cropRange: referenceFigure(
    'range of the crop',
    '%',
    8,
    practice('an estimate before harvest is mostly within a twelfth of what comes in'),
  ),
  storageLifeRange: referenceFigure(
    'range of storage life',
    '%',
    10,
    practice('seasons differ by some three weeks in seven months of storage'),
  ),
  packoutRange: referenceFigure(
    'range of packout',
    '%',
    4,
    practice('packout differs by a few hundredths from what is expected'),
  ),
  demandRange: referenceFigure(
    'range of demand',
    '%',
    10,
    practice('customers call off about a tenth more or less than they announced'),
  ),
} as const;

export const DAYS_A_WEEK = 5;
export const SHORTAGE_SOURCE: Source = practice(
  'a missed carton costs half its price in goodwill, where the plan does not say',
);
