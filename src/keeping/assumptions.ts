import { commonPractice, remark, sources } from '../fruit/sources';
import { referenceFigure } from '../plan/figure';

/**
 * What keeping is reckoned with where neither the plan nor a publication on the variety says more. Rules of thumb,
 * shown as such wherever they are used.
 */

/** A twelfth of the mean Gregorian year. */
export const daysPerMonth = referenceFigure('days in a month', 'days', 365.2425 / 12, {
  citation: 'A twelfth of the mean Gregorian year of 365.2425 days',
  known: 'published',
});

/** Length of storage that fruit of a term can be kept for in any regime, and its share of a longer regime's life. */
export const terms = {
  mid: {
    share: referenceFigure(
      'share of a long life for fruit of mid-term maturity',
      '1',
      0.8,
      commonPractice('Fruit picked for mid-term storage reaches about four fifths of the longest life'),
    ),
    length: referenceFigure(
      'mid-term storage',
      'days',
      183,
      commonPractice('Mid-term storage is reckoned to about six months'),
    ),
  },
  short: {
    share: referenceFigure(
      'share of a long life for fruit of short-term maturity',
      '1',
      0.6,
      commonPractice('Fruit picked for short-term storage reaches about three fifths of the longest life'),
    ),
    length: referenceFigure(
      'short-term storage',
      'days',
      122,
      commonPractice('Short-term storage is reckoned to about four months'),
    ),
  },
  air: {
    share: referenceFigure(
      'share of a long life for over-mature fruit',
      '1',
      0.4,
      commonPractice('Fruit past storage maturity reaches about two fifths of the longest life'),
    ),
    length: referenceFigure(
      'storage of over-mature fruit',
      'days',
      61,
      commonPractice('Fruit past storage maturity is sold within about two months'),
    ),
  },
} as const;

/** What a day at 21 °C takes from life at 0 °C: the middle of the range. */
export const lifeLostADay = referenceFigure(
  'storage life lost by a day at 21 °C',
  'days',
  8.5,
  remark(sources.delayInHandbook, 'the middle of the range'),
);

export const warmReference = referenceFigure(
  'temperature at which the loss is stated',
  'degC',
  21,
  sources.delayInHandbook,
);

export const allowedWait = referenceFigure(
  'days in orchard and yard that storage lives already allow for',
  'days',
  1,
  commonPractice('Fruit is in the cold room the day after picking'),
);

export const allowedFilling = referenceFigure(
  'days from cold room to sealed door that storage lives already allow for',
  'days',
  7,
  commonPractice(
    'Loading and cooling within 5 days (AHDB and NIAB guides) and the door sealed within the next two',
  ),
);

export const treatedLife = referenceFigure(
  'factor on storage life by 1-MCP',
  '1',
  1.1,
  commonPractice('A modest gain; it depends on variety and on how ripe the fruit was when treated'),
);

export const treatedSoftening = referenceFigure(
  'factor on softening by 1-MCP',
  '1',
  0.7,
  commonPractice('Treated fruit softens more slowly; it depends on variety and on how ripe it was'),
);

export const usualSpread = referenceFigure(
  'spread of storage life between lots, as a share of it',
  '1',
  0.11,
  commonPractice('Standard deviation of 10 to 12 % where no source gives a range'),
);

export const softeningInAir = referenceFigure(
  'softening in cold air against softening in store',
  '1',
  2,
  commonPractice('Fruit softens about twice as fast in cold air as in controlled atmosphere'),
);

export const firmnessTestSpread = referenceFigure(
  'spread of the mean of a firmness test',
  'N',
  2.5,
  commonPractice('Standard deviation of a ten-fruit mean against the lot it stands for'),
);

export const softeningSpread = referenceFigure(
  'spread of the firmness lost, as a share of it',
  '1',
  0.2,
  commonPractice('The ranges published for Cox are about this wide; the spread grows as fruit softens'),
);

/** Days from sealing to the regime's gas. */
export const daysToGas = referenceFigure(
  'days from sealing to the holding atmosphere, assumed of every room',
  'days',
  3,
  {
    citation:
      'Lau, Rapid CA, Washington State University Tree Fruit Research and Extension Center, https://postharvest.tfrec.wsu.edu/pages/N3I1C (oxygen down in 2 to 3 days)',
    known: 'published',
  },
);

export const airRoomSettles = referenceFigure(
  'days from the last bin of an air room to the first packing',
  'days',
  1,
  commonPractice('The last bins cool overnight'),
);

export const usualDaysToEmpty = referenceFigure(
  'days to empty an opened room',
  'days',
  14,
  commonPractice('An opened room is emptied in two to four weeks; the plan names no packhouse'),
);
