import type { Room, TightnessTest } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { placeAt } from '../../plan/span';
import { listed } from '../../plan/wording';
import { pressureHalfLife } from '../../room/tightness';
import { shower } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { testedAfterFilling } from './order';

/** Rooms whose leak is not known, for want of a pressure test that tells it. */

function* noTightnessTest(season: ComputedSeason): Iterable<Problem> {
  yield* testedAfterFilling(season);
  yield* testsWithoutHalfLife(season);
  yield* roomsNotTested(season);
}

/** Tests of which nothing follows: the pressure rose, stood still, or was gone before the end. */
function* testsWithoutHalfLife(season: ComputedSeason): Iterable<Problem> {
  for (const { id, tightness: test, places } of season.plan.rooms.values()) {
    if (!test || pressureHalfLife(test)) continue;
    yield {
      code: 'tightness-not-tested',
      // The plan says that the room was tested, and it was not, or it failed.
      severity: 'warning',
      message: `${id}: ${whatIsWrong(season, test)} Repeat the test while the room is empty, and write down the time after which half of the pressure was left. Until then ${id} counts as not tested: its leakage cannot be computed.`,
      at: placeAt(places, ['tightness', 'to']).span,
      related: [{ at: test.at, message: 'The test' }],
      about: `${id}/tightness`,
    };
  }
}

function whatIsWrong(season: ComputedSeason, { from, to, after }: TightnessTest): string {
  const show = shower(season);
  if (to.value > from.value)
    return `the pressure rises from ${show(from)} to ${show(to)} in its test, where it is expected to fall: the two are swapped, or the gauge or the test is wrong.`;
  if (to.value === from.value)
    return `the pressure stays at ${show(to)} in its test, where it is expected to fall: the gauge or the test is wrong.`;
  return `nothing is left of the ${show(from)} of its test after ${show(after)}, where some is expected to be left at the end: the room leaks too much for a test of that length, or was not closed.`;
}

function* roomsNotTested({ filled }: ComputedSeason): Iterable<Problem> {
  const untested = [...filled.values()].filter(({ fill, room }) => fill.sealed && !hasTest(room));
  const first = untested[0];
  if (!first) return;
  // One notice for all: what is not known yet is not many mistakes.
  yield {
    code: 'tightness-not-tested',
    message: `No pressure test is given for ${listed(
      untested.map(({ room }) => room.id),
      6,
    )}: leakage cannot be computed there. Add \`tightness\` once tested.`,
    at: first.room.at,
    about: 'plan',
  };
}

/** What is written of a test and could not be read has its own finding, and is not absent. */
function hasTest({ tightness, places }: Room): boolean {
  return !!tightness || !!places.entries?.has('tightness');
}

export const pressureTestRules: readonly Rule[] = [
  {
    code: 'tightness-not-tested',
    family: 'gas',
    severity: 'notice',
    summary:
      'Sealed rooms without a pressure test, tested with fruit in them, or with a test that tells no leak.',
    find: noTightnessTest,
  },
];
