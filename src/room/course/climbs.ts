import type { Day } from '../../plan/dates';
import type { CoursePoint, GasStage, RoomCourse } from './types';

/** A time in which oxygen, once at its set-point, is above it. Levels in per cent; to the day where points are. */
export interface OxygenClimb {
  /** The day on which it is said to climb, and that on which it is back; absent where it is not back at the end. */
  readonly from: Day;
  readonly until?: Day;
  readonly setPoint: number;
  readonly highest: number;
  readonly highestOn: Day;
}

/** Per cent by which a level may lie above its set-point and still be told as on it. */
const BACK = 0.005;

/** Each time that oxygen climbs in a room's course, in order. Empty where it never does. */
export function oxygenClimbs({ course, room, sealed }: RoomCourse): readonly OxygenClimb[] {
  const climbs: OxygenClimb[] = [];
  const dayAt = (hours: number): Day => sealed + Math.floor(hours / 24);
  let after = Number.NEGATIVE_INFINITY;
  for (const { kind, hours } of course.events) {
    if (kind !== 'oxygen-climbs' || hours < after) continue;
    const stage = stageAt(room.stages, hours);
    if (!stage) continue;
    const ends = endOfStage(room.stages, stage);
    const { highest, back } = follow(course.points, hours, ends, stage.oxygen);
    after = back ?? ends;
    climbs.push({
      from: dayAt(hours),
      setPoint: stage.oxygen,
      highest: highest?.oxygen ?? stage.oxygen,
      highestOn: dayAt(highest?.hours ?? hours),
      ...(Number.isFinite(after) && { until: dayAt(after) }),
    });
  }
  return climbs;
}

function stageAt(stages: readonly GasStage[], hours: number): GasStage | undefined {
  return stages.findLast(({ fromHours }) => fromHours <= hours + 1e-9);
}

/** A stage with a higher set-point begins a new story; on the way to a lower one the level passes its own again. */
function endOfStage(stages: readonly GasStage[], stage: GasStage): number {
  const next = stages.find(({ fromHours, oxygen }) => fromHours > stage.fromHours && oxygen > stage.oxygen);
  return next?.fromHours ?? Number.POSITIVE_INFINITY;
}

function follow(points: readonly CoursePoint[], from: number, ends: number, setPoint: number) {
  let highest: CoursePoint | undefined;
  for (const point of points) {
    if (point.hours < from) continue;
    if (point.hours > ends) return { highest, back: ends };
    if (point.oxygen <= setPoint + BACK) return { highest, back: point.hours };
    if (!highest || point.oxygen > highest.oxygen) highest = point;
  }
  return { highest, back: undefined };
}
