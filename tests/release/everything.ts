import { findConflicts } from '../../src/release/conflicts';
import { seededRandom } from '../../src/release/random';
import type { ReleaseProblem } from '../../src/release/types';
import { withEvenWork, withFruitFromField, withPartWeeks, withProductsApart } from './features';
import { type Made, madeProblem } from './generate';

/** Seasons of three rooms and six weeks, small enough to try every choice of opening weeks. */
export const tiny: Made = { rooms: 3, weeks: 6, varieties: 2, weeksToEmpty: 2 };

/** Two seasons of five have rooms in order, two others a published schedule to keep to. */
export function withWishes(problem: ReleaseProblem, seed: number): ReleaseProblem {
  if (seed % 5 < 2) {
    const ordered: ReleaseProblem = { ...problem, opensBefore: seed % 5 === 0 ? [[2, 0]] : [[1, 0]] };
    // An order that the windows do not allow is a conflict, with a test of its own.
    const reversed: ReleaseProblem = { ...problem, opensBefore: seed % 5 === 0 ? [[0, 2]] : [[0, 1]] };
    return findConflicts(ordered).messages.length === 0 ? ordered : reversed;
  }
  if (seed % 5 < 4)
    return {
      ...problem,
      rooms: problem.rooms.map((room, index) => ({
        ...room,
        published: { week: (seed + 2 * index) % 6, price: seed % 5 === 2 ? 300 : 9000 },
      })),
    };
  return problem;
}

/** Every season has something of everything that can be wished, drawn at random. */
export function seasonOfEverything(seed: number): ReleaseProblem {
  const random = seededRandom(seed);
  const on = () => random() < 0.5;
  const made = madeProblem(
    {
      ...tiny,
      varieties: on() ? 1 : 2,
      weeksToEmpty: on() ? 1 : 2,
      packhouse: on() ? 1.3 : 2.5,
      roomsOpenAtOnce: on() ? 1 : null,
    },
    seed,
  );
  let problem = withWishes({ ...made, packedWaitWeeks: Math.floor(random() * 3) }, seed);
  if (random() < 0.7) problem = withProductsApart(problem, random);
  if (on()) problem = withPartWeeks(problem, random);
  if (on()) problem = withEvenWork(problem, on() ? 0.5 : 6);
  for (let more = 0; more < 2; more++) if (on()) problem = withFruitFromField(problem, random);
  return problem;
}
