import { type Day, firstDayOfWeek, formatDay, isoWeekday, parseDay } from '../../plan/dates';
import { type Figure, referenceFigure, type Source } from '../../plan/figure';
import type { RoomAccount, Sample } from './account';

function published(citation: string): Source {
  return { citation, known: 'published' };
}

const doorSource = published(
  'Washington State University, order of opening by test: about 80 fruit of each lot held near the door, each lot tested twice before opening (for a June room in February and in April), warmed and tested again, https://postharvest.tfrec.wsu.edu/pages/N2I4A; half the fruit each time, at half and three quarters of the stay: common practice',
);
const hatchSource = published(
  'NIAB, fruit assessment: 20 fruit of each orchard for each planned month after October, one from every tenth bin, netted under the hatch; examined monthly, firmness on 10 fruit, https://applegrowing.niab.com/post-harvest-section12',
);
const gradingSource = published(
  'NIAB, pre-grading assessment: on opening 100 fruit from at least 20 bins of each orchard, sized in bands of 5 mm, https://niab.com/pre-grading-assessment',
);

/** How fruit is taken from the hatch of a sealed room; from the same page as the monthly samples. */
export const hatchRule =
  'Never enter a sealed room for a sample: two people, a long hook through the hatch, no part of the body inside.';

const fruitByDoor = referenceFigure('fruit of each lot held by the door', '1', 80, doorSource);
const doorTests = referenceFigure('tests of each lot before opening', '1', 2, doorSource);
const fruitUnderHatch = referenceFigure('fruit of each orchard and month', '1', 20, hatchSource);
const fruitForFirmness = referenceFigure('fruit of it pressed for firmness', '1', 10, hatchSource);
const fruitForGrading = referenceFigure('fruit of each orchard on opening', '1', 100, gradingSource);

export const samplingFigures: readonly Figure[] = [
  fruitByDoor,
  doorTests,
  fruitUnderHatch,
  fruitForFirmness,
  fruitForGrading,
];

/**
 * February and April are half and three quarters of the stay of a room that is sealed in October and opened in June:
 * other stays are divided alike.
 */
const SHARES_OF_STAY = [1 / 2, 3 / 4];
/** Shorter stays are over before two tests would tell anything. */
const LEAST_STAY_DAYS = 28;

const OCTOBER = 10;
/** Harvest months for which "after October" means from November on. */
const JULY = 7;

/** What the lab samples of a room, and when; nothing of a room that has no day to count from. */
export function samplesOf(room: RoomAccount): Sample[] {
  const from = room.sealed ?? room.lastBin;
  if (from === undefined || room.lots.length === 0) return [];
  const opens = room.opens === undefined ? undefined : firstDayOfWeek(room.opens);
  const until = opens ?? (room.latest === undefined ? undefined : firstDayOfWeek(room.latest));
  const months = until === undefined ? [] : sampleMonths(from, until);
  return [
    setAside(room, from, months.length),
    ...doorSamples(room, from, until),
    ...months.map((day) => monthSample(room, day)),
    ...(opens === undefined ? [] : [gradingSample(room, opens)]),
  ];
}

function setAside(room: RoomAccount, from: Day, months: number): Sample {
  const under = months > 0 ? `; ${fruitUnderHatch.value * months} of each orchard under the hatch` : '';
  return {
    ...basics(room, 'set-aside', room.firstBin ?? from, room.lastBin ?? from),
    what: `Hold ${fruitByDoor.value} fruit of each lot near the door${under}`,
    of: lotsOf(room),
    fruitEach: fruitByDoor.value,
    tests: 'set aside while the room is filled, one from every tenth bin',
    source: doorSource.citation,
  };
}

function doorSamples(room: RoomAccount, from: Day, until: Day | undefined): Sample[] {
  if (until === undefined || until - from < LEAST_STAY_DAYS) return [];
  return SHARES_OF_STAY.slice(0, doorTests.value).map((share, index) => {
    const day = workday(from + Math.round(share * (until - from)));
    return {
      ...basics(room, `test-${index + 1}`, day, day),
      what: `Test ${index + 1} of ${doorTests.value} of the fruit held near the door`,
      of: lotsOf(room),
      fruitEach: fruitByDoor.value / doorTests.value,
      tests: 'firmness, then again after warming; half the fruit each time',
      source: doorSource.citation,
    };
  });
}

function monthSample(room: RoomAccount, day: Day): Sample {
  return {
    ...basics(room, `month-${formatDay(day).slice(0, 7)}`, day, day),
    what: 'Sample of the month from under the hatch',
    of: orchardsOf(room),
    fruitEach: fruitUnderHatch.value,
    tests: `looked at; firmness on ${fruitForFirmness.value} fruit`,
    source: hatchSource.citation,
  };
}

function gradingSample(room: RoomAccount, opens: Day): Sample {
  return {
    ...basics(room, 'grade', opens, opens),
    what: 'Sample for grading, on opening',
    of: orchardsOf(room),
    fruitEach: fruitForGrading.value,
    tests: 'from at least 20 bins; sized in bands of 5 mm',
    source: gradingSource.citation,
  };
}

function basics(room: RoomAccount, which: string, first: Day, last: Day) {
  return { room: room.room, fill: room.fill, which, first, last: Math.max(first, last) };
}

/** The first Monday of each month that is wholly after filling and begins before the opening. */
function sampleMonths(from: Day, until: Day): Day[] {
  const days: Day[] = [];
  let [year = 0, month = 0] = formatDay(from).split('-').map(Number);
  if (month >= JULY && month < OCTOBER) month = OCTOBER;
  for (;;) {
    [year, month] = month === 12 ? [year + 1, 1] : [year, month + 1];
    const first = parseDay(`${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-01`);
    if (first === undefined) return days;
    const monday = first + ((8 - isoWeekday(first)) % 7);
    if (monday >= until) return days;
    days.push(monday);
  }
}

/** Whether it is a test of the fruit held near the door, by lot. */
export function isDoorTest({ which }: Pick<Sample, 'which'>): boolean {
  return which.startsWith('test-');
}

/** The day itself, or the Friday before a weekend. */
export function workday(day: Day): Day {
  return day - Math.max(0, isoWeekday(day) - 5);
}

function lotsOf({ lots }: RoomAccount): string[] {
  return lots.map(({ lot }) => lot);
}

/** A grower's block; a lot without a block stands for itself. */
function orchardsOf({ lots }: RoomAccount): string[] {
  const names = lots.map(({ lot, grower, block }) =>
    block === undefined ? lot : grower === undefined ? block : `${grower}, ${block}`,
  );
  return [...new Set(names)];
}
