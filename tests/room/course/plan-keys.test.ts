import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../../src/findings/compute';
import { readPlan } from '../../../src/plan/read';
import { usualAssumptions } from '../../../src/room/assumptions';
import { coolingCourse } from '../../../src/room/cooling-course';
import { courseRoom } from '../../../src/room/course/of-plan';
import { pointAt, roomCourse } from '../../../src/room/course/room-course';
import { weatherFlow } from '../../../src/room/tightness';
import { sampleFiles } from '../../samples/sample';
import { figure } from '../orchard';

/** The first sample with something written into it. */
function filled(fill: string, changes: readonly (readonly [string, string])[]) {
  const files = sampleFiles('first-season').map(({ path, text }) => ({
    path,
    text: changes.reduce((all, [from, to]) => all.replace(from, to), text),
  }));
  const plan = readPlan(files);
  expect(plan.problems).toEqual([]);
  const room = computeSeason(plan, { release: 'none' }).filled.get(fill);
  if (!room?.fill.sealed) throw new Error(`${fill} is not sealed`);
  return { plan, room, until: room.fill.sealed.value + 100 };
}

const stagesOf = (stages: string): [string, string] => [
  '  gala-own:\n',
  `  gala-own:\n    stages: ${stages}\n`,
];

describe('stages of a regime', () => {
  const stages =
    '[{ from: 0 days, carbon-dioxide: 0.5 % }, { from: 4 weeks, temperature: 2.5 °C }, { from: 60 days, oxygen: 1.2 % }]';

  it('are the set-points of the course, those of the regime where a stage has none', () => {
    const { room, until } = filled('R2-gala', [stagesOf(stages)]);
    const planned = courseRoom(room, until);
    const { oxygen, carbonDioxide, temperature } = room.regime ?? {};
    expect(planned?.room.stages).toEqual([
      { fromHours: 0, oxygen: oxygen?.value, carbonDioxide: 0.5 },
      { fromHours: 672, oxygen: oxygen?.value, carbonDioxide: carbonDioxide?.value },
      { fromHours: 1440, oxygen: 1.2, carbonDioxide: carbonDioxide?.value },
    ]);
    const celsius = temperature?.value ?? Number.NaN;
    const knots = planned?.room.temperature.knots ?? [];
    expect(knots[0]?.celsius).toBe(celsius);
    expect(knots[2]?.celsius).toBe(2.5);
    // A kelvin a day.
    expect((knots[2]?.hours ?? 0) - 672).toBeCloseTo(24 * Math.abs(2.5 - celsius), 9);
    expect(knots.at(-1)?.celsius).toBe(celsius);
  });

  it('are kept in the integrated course', () => {
    const { room, until } = filled('R2-gala', [stagesOf('[{ from: 60 days, oxygen: 1.2 % }]')]);
    const course = roomCourse(room, until);
    const before = course && pointAt(course.course, 24 * 59)?.oxygen;
    expect(before).toBeCloseTo(room.regime?.oxygen?.value ?? 0, 6);
    expect(course?.oxygenAtEnd.value).toBeLessThan(before ?? 0);
  });
});

describe('a room as its owner measured it', () => {
  it('cools by its own half-time', () => {
    const usual = filled('R2-gala', []);
    const slow = filled('R2-gala', [
      ['{ capacity: 16 kW, group', '{ capacity: 16 kW, half-time: 24 h, group'],
    ]);
    const cold = ({ plan, room }: typeof usual) => coolingCourse(plan, room)?.allCold?.value ?? 0;
    // Three half-times to seven eighths: 36.3 h and 72 h after the last day's fruit where cooling is not short.
    expect(cold(slow)).toBeGreaterThan(cold(usual) + 1);
    expect(slow.room.intake[0]?.fieldHeat.value).toBeLessThan(usual.room.intake[0]?.fieldHeat.value ?? 0);
  });

  it('with a breather bag takes in only what the barometer presses in beyond it', () => {
    // 600 m3 breathe 600 * 500 / 101325 = 2.961 m3 in a day.
    const { barometerRise: rise } = usualAssumptions;
    expect(weatherFlow(figure('m3', 600), rise).value * 24).toBeCloseTo(2.961, 3);
    expect(weatherFlow(figure('m3', 600), rise, figure('m3', 1)).value * 24).toBeCloseTo(1.961, 3);
    expect(weatherFlow(figure('m3', 600), rise, figure('m3', 6)).value).toBe(0);
  });
});
