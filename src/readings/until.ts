import { type Minute, quantities, type RoomReadings } from './types';

/** The readings before a time. */
export function until({ room, times, values }: RoomReadings, end: Minute): RoomReadings {
  const after = times.findIndex((time) => time >= end);
  const count = after === -1 ? times.length : after;
  return {
    room,
    times: times.subarray(0, count),
    values: Object.fromEntries(
      quantities.map((quantity) => [quantity, values[quantity].subarray(0, count)]),
    ) as Record<(typeof quantities)[number], Float32Array>,
  };
}
