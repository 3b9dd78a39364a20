import { describe, expect, it } from 'vitest';
import { offerAround, pinnedTo } from '../../src/release/around';
import { checkSchedule } from '../../src/release/checker';
import { packedIn } from '../../src/release/placing';
import { quickRelease } from '../../src/release/quick';
import { reviseOpening, stateOf } from '../../src/release/revise';
import { settledSchedule } from '../../src/release/settle';
import { aroundText } from '../../src/report/around-text';
import { madeProblem, sizes } from './generate';

const problem = madeProblem({ ...sizes.S, packhouse: 1.2 }, 7);
const { schedule } = quickRelease(problem, { seed: 1, moves: 20_000 });

/** Every week of every room's window but its own. */
const drags = problem.rooms.flatMap(({ earliest, latest }, room) =>
  Array.from({ length: latest - earliest + 1 }, (_, at) => ({ room, week: earliest + at })).filter(
    ({ week }) => week !== schedule.opens[room],
  ),
);

describe('a better plan around an opening that is moved', () => {
  const offers = drags.flatMap((drag) => {
    const offer = offerAround(problem, schedule, drag.room, drag.week);
    return offer ? [{ ...drag, offer }] : [];
  });

  it('is offered where there is something to win, and holds', () => {
    expect(offers.length).toBeGreaterThan(3);
    for (const { room, week, offer } of offers) {
      const held = pinnedTo(problem, room, week);
      expect(offer.problem).toEqual(held);
      expect(checkSchedule(held, offer.schedule)).toEqual([]);
      expect(offer.schedule.opens[room]).toBe(week);
      expect(offer.moved.length).toBeGreaterThan(0);
      const still = problem.rooms.flatMap((_, at) =>
        at !== room && !offer.moved.some((one) => one.room === at) ? [at] : [],
      );
      for (const at of still) expect(offer.schedule.opens[at]).toBe(schedule.opens[at]);
    }
  });

  it('tells exactly what it wins beside the one opening moved alone', () => {
    for (const { room, week, offer } of offers.slice(0, 20)) {
      const held = pinnedTo(problem, room, week);
      const state = stateOf(held, schedule);
      expect(reviseOpening(state, room, week)).toBeDefined();
      const alone = settledSchedule(held, { opens: state.opens.slice(), packed: packedIn(state) });
      expect(offer.gain).toBeCloseTo(offer.schedule.value - alone.value, 4);
      expect(offer.aloneCosts).toBeCloseTo(schedule.value - alone.value, 4);
      expect(offer.gain).toBeGreaterThan(0);
    }
  });

  it('is the same each time, and none where the room may not open', () => {
    const [first] = offers;
    expect(first && offerAround(problem, schedule, first.room, first.week)).toEqual(first?.offer);
    expect(offerAround(problem, schedule, 0, (problem.rooms[0]?.latest ?? 0) + 1)).toBeUndefined();
  });

  it('is told with its rooms and weeks', () => {
    const [first] = offers;
    const text = first && aroundText(first.offer, 'EUR');
    expect(text).toMatch(
      /^\d+ rooms? moved along would (win back EUR [\d,]+|bring EUR [\d,]+ more): .* to \d{4}-W\d{2}/,
    );
  });
});
