import type { ComputedSeason } from '../findings/types';
import { type NextSample, SampledRoom, type SampleWorth } from '../keeping/next-sample';
import { type Day, firstDayOfWeek } from '../plan/dates';
import { referenceFigure } from '../plan/figure';
import { commonPractice } from '../room/sources';
import type { FilledRoom } from '../room/types';
import type { RoomAccount, Sample } from './papers/account';
import { isDoorTest, samplesOf, workday } from './papers/sampling';

const assumed = (name: string, unit: 'weeks' | 'days' | '1', value: number, why: string) =>
  referenceFigure(name, unit, value, commonPractice(`Planning assumption: ${why}`));

/** When a lot is tested a third time: its sample could still move the room's window by so much. */
export const decisive = {
  moves: assumed('move of a window that makes a further test worth its while', 'weeks', 2, 'low to high'),
  before: assumed('days from it to the opening', 'days', 28, 'two weeks to decide, two to call the crew'),
  after: assumed('days from the last test to it', 'days', 14, 'sooner, fruit has hardly softened'),
  fruit: assumed('fruit of it', '1', 20, 'as many as of a monthly sample'),
};

/** Of a recorded sample, how far from a planned day it stands for it. */
const DAYS_EARLY = 10;
const DAYS_LATE = 21;

/** A sample to be taken, and what those of its lots could change. */
export interface PlannedSample extends Sample {
  /** By lot, the most worth first; of tests of firmness by the door alone. */
  readonly worth: readonly SampleWorth[];
  /** It should have been taken by now, and nothing says that it was. */
  readonly isOverdue: boolean;
}

/**
 * What the lab samples of a room and when, the same for its paper and for `lotwright sampling`: by the publications, and
 * once more of the lots that could still move the room's window. Nothing of a room that is on record as open.
 */
export function roomSamples(season: ComputedSeason, filled: FilledRoom, room: RoomAccount): PlannedSample[] {
  const usual = samplesOf(room);
  const worth = new Map<string, SampleWorth[]>();
  let known = new SampledRoom(season.plan, filled);
  for (const test of usual.filter(isDoorTest)) {
    const tested = testsOf(known, test.of, test.first, test.fruitEach);
    worth.set(test.which, sorted(tested));
    known = known.with(tested.map(({ after }) => after));
  }
  const further = furtherTest(known, room, usual);
  return [...usual, ...(further ? [further.sample] : [])].map((sample) => ({
    ...sample,
    worth: sample === further?.sample ? further.worth : (worth.get(sample.which) ?? []),
    isOverdue: false,
  }));
}

/** What is still to be done from a day on, with what is overdue: samples on record are taken out, lot by lot. */
export function stillToDo(
  season: ComputedSeason,
  filled: FilledRoom,
  samples: readonly PlannedSample[],
  stand: Day | undefined,
): PlannedSample[] {
  if (stand === undefined) return [...samples];
  if (filled.fill.opened) return [];
  const taken = [...season.plan.samples.values()].flatMap(({ lot, fill, taken: day }) =>
    lot && day && (!fill || fill.value === filled.fill.id) ? [{ lot: lot.value, day: day.value }] : [],
  );
  return samples.flatMap((sample) => {
    const isDone = (lot: string) =>
      taken.some(
        (one) =>
          one.lot === lot && one.day >= sample.first - DAYS_EARLY && one.day <= sample.last + DAYS_LATE,
      );
    const of = isDoorTest(sample) ? sample.of.filter((lot) => !isDone(lot)) : sample.of;
    const isPast = sample.last < stand;
    const isOverdue = isPast && isDoorTest(sample) && stand - sample.last <= DAYS_LATE;
    if (of.length === 0 || (isPast && !isOverdue)) return [];
    return [{ ...sample, of, worth: sample.worth.filter(({ lot }) => of.includes(lot)), isOverdue }];
  });
}

function testsOf(room: SampledRoom, lots: readonly string[], day: Day, fruit: number): NextSample[] {
  return lots.flatMap((lot) => room.of(lot, day, fruit) ?? []);
}

function sorted(tests: readonly NextSample[]): SampleWorth[] {
  return tests.map(({ worth }) => worth).sort((a, b) => b.binWeeks - a.binWeeks || (a.lot < b.lot ? -1 : 1));
}

/** Once more, in time before the opening, of the lots that could still move the window. */
function furtherTest(
  known: SampledRoom,
  room: RoomAccount,
  usual: readonly Sample[],
): { readonly sample: Sample; readonly worth: readonly SampleWorth[] } | undefined {
  const opens = room.opens ?? room.latest;
  const last = Math.max(...usual.filter(isDoorTest).map((test) => test.last));
  if (opens === undefined || !Number.isFinite(last)) return undefined;
  const day = workday(firstDayOfWeek(opens) - decisive.before.value);
  if (day < last + decisive.after.value) return undefined;
  const lots = room.lots.map(({ lot }) => lot);
  const worth = sorted(testsOf(known, lots, day, decisive.fruit.value)).filter(
    ({ ifLow, ifHigh }) => ifHigh - ifLow >= decisive.moves.value,
  );
  if (worth.length === 0) return undefined;
  return {
    sample: {
      room: room.room,
      fill: room.fill,
      which: 'test-3',
      first: day,
      last: day,
      what: 'Once more, of lots that could still move the window',
      of: worth.map(({ lot }) => lot),
      fruitEach: decisive.fruit.value,
      tests: 'firmness, from the fruit held near the door or under the hatch',
      source: decisive.moves.origin.kind === 'reference' ? decisive.moves.origin.source.citation : '',
    },
    worth,
  };
}
