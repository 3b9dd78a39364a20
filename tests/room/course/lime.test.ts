import { expect, it } from 'vitest';
import { limeChanges } from '../../../src/room/course/lime';
import { roomCourse } from '../../../src/room/course/room-course';
import { aFill, aPlan, day, figure, known, onlyRoom } from '../orchard';
import { scrubbing } from './rooms';

it('lime is changed each time it has taken up what it can', () => {
  const room = onlyRoom(aPlan({ fills: [aFill({ lots: { L1: 900 } })] }));
  const course = roomCourse(room, day('2027-04-01'), { scrubbing: scrubbing(40) });
  if (!course) throw new Error('no course');
  const changes = limeChanges(course, figure('kg', 500));
  // 500 kg at 60 % take up 500 * 0.594 * 0.6 = 178 kg of carbon dioxide.
  expect(changes).toHaveLength(Math.floor(course.scrubbed.value / 178.2));
  const steady = (changes.at(-1) ?? 0) - (changes.at(-2) ?? 0);
  expect(steady).toBeGreaterThan((0.9 * 178.2) / known(room.carbonDioxideInStore));
  expect(steady).toBeLessThan((1.25 * 178.2) / known(room.carbonDioxideInStore));
  expect(limeChanges(course, figure('kg', 100_000))).toEqual([]);
  expect(limeChanges(course, figure('kg', 0))).toEqual([]);
});
