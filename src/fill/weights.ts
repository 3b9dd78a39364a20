/**
 * What a fill costs, in places of an empty room. The aims stand in order: a bin left over outweighs all else, then
 * growers kept together where asked, rooms used and partly filled, then fruit of unlike keeping in a room, split lots, slow filling, waiting, growers.
 */
export const weights = {
  /** A bin that goes to no room. */
  unplacedBin: 1000,
  /** Each room beyond the first that holds fruit of a grower who is to be kept together. */
  growerRoom: 400,
  /** A room used, and each place of it that stays empty. */
  room: 200,
  emptyPlace: 1,
  /** A room filled less than `wellFilled`. */
  partlyFilled: 150,
  /** By place of the room: each step between the storage terms of its lots. */
  termStep: 0.1,
  /** By place of the room: each week beyond `likeWeeks` between the last weeks of its lots. */
  weekApart: 0.03,
  /** Each room of a lot beyond its first. */
  split: 60,
  /** Each day of filling beyond `easyFillingDays`, and what is added for each beyond `usualFillingDays`. */
  fillingDay: 5,
  slowFillingDay: 55,
  /** A day by which the sealing of a fill of the plan is put off, by bin it holds: of a hundred bins, as a bin left over. */
  sealingDayABin: 10,
  /** A bin that waits a day for its room. */
  waitingBinDay: 1,
  /** Each grower in a room. */
  grower: 2,
  /** A room that could be sealed and is kept in air. */
  sealableInAir: 20,
  /** A lime room not held low in carbon dioxide, or one that is, without lime while the plan has lime rooms. */
  limeElsewhere: 40,
} as const;

/** Per cent below which carbon beds take up little and lime is the better scrubber; common practice. */
export const lowCarbonDioxide = 1;

/** Share of its places from which a room counts as filled; common practice. */
export const wellFilled = 0.9;
/** Weeks between the last weeks of two lots within which they may leave together: the same month. */
export const likeWeeks = 4;
/**
 * Days from first bin to last: what is wished for, what is usual at most, and what is never gone beyond. A day or two
 * too many is better than fruit without a room. Common practice of 7 to 10 days.
 */
export const easyFillingDays = 7;
export const usualFillingDays = 10;
export const mostFillingDays = 14;
/**
 * Days a picked bin may wait for its room where more come than may go in. A day in the warmth costs a week of keeping;
 * a bin without a room costs more. Common practice: in the cold within a day, two at most.
 */
export const mostWaitingDays = 2;
/** Days from the last bin to sealing, for the fruit to cool; common practice. */
export const daysToSealing = 2;

/** Days from the first bin to sealing beyond which gas comes late; the older practice of slow CA, Lau (Washington State University, N3I1C). */
export const mostDaysToSeal = 14;

/** By bin: each week of keeping lost against the lot's best regime; less for fruit that is sold early anyway. */
export const weekLostABin = { long: 0.05, short: 0.02, air: 0 } as const;
/** By bin: fruit fit for air only that takes up a sealed room. */
export const airFruitSealed = 0.3;
