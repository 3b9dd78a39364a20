import type { CourseFruit, RoomTemperature } from './types';

/** Half-times after which a batch is as cold as the room to a ten-thousandth of a degree. */
const SETTLED_HALF_TIMES = 18;

export function roomCelsius({ knots }: RoomTemperature, hours: number): number {
  const end = knots[knots.length - 1];
  if (end && hours >= end.hours) return end.celsius;
  const after = knots.findIndex((knot) => knot.hours > hours);
  if (after === 0) return knots[0]?.celsius ?? 0;
  const [before, next] = [knots[after === -1 ? knots.length - 1 : after - 1], knots[after]];
  if (!before) return 0;
  if (!next || after === -1) return before.celsius;
  return (
    before.celsius + ((next.celsius - before.celsius) * (hours - before.hours)) / (next.hours - before.hours)
  );
}

/** How fast the room's temperature changes, K/h. */
export function roomSlope({ knots }: RoomTemperature, hours: number): number {
  if (hours >= (knots[knots.length - 1]?.hours ?? 0)) return 0;
  const after = knots.findIndex((knot) => knot.hours > hours);
  const [before, next] = [knots[after - 1], knots[after]];
  return before && next ? (next.celsius - before.celsius) / (next.hours - before.hours) : 0;
}

/** A batch where the room's line bends: its temperature there follows from the line before. */
interface Knot {
  readonly hours: number;
  readonly fruit: number;
  readonly room: number;
  readonly slope: number;
}

/** Temperature of the fruit of one day of the intake, for any hour; exact, whatever steps are taken. */
export type BatchTemperature = (hours: number) => number;

/**
 * First-order cooling: dT/dt = -C (T - room), C = ln 2 / half-time, solved over each straight piece of the room's
 * temperature. A lag factor j above 1 is a wait of ln(j) / C before the fruit follows, which is what the factor means:
 * later the difference is j 2^(-t / half-time) of that at the start.
 */
export function batchTemperature(
  loadedAtHours: number,
  fieldCelsius: number,
  temperature: RoomTemperature,
  halfTimeHours: number,
  lag = 1,
): BatchTemperature {
  const rate = Math.LN2 / halfTimeHours;
  const begins = loadedAtHours + Math.log(Math.max(lag, 1)) / rate;
  const bends = temperature.knots.map(({ hours }) => hours).filter((hours) => hours > begins);
  const knots: Knot[] = [];
  let fruit = fieldCelsius;
  for (const hours of [begins, ...bends]) {
    const last = knots.at(-1);
    if (last) fruit = along(last, hours, rate);
    knots.push({
      hours,
      fruit,
      room: roomCelsius(temperature, hours),
      slope: roomSlope(temperature, hours),
    });
  }
  const [only] = knots;
  return (hours) => {
    if (hours <= begins) return fieldCelsius;
    if (only && knots.length === 1) return along(only, hours, rate);
    let index = knots.length - 1;
    while (index > 0 && (knots[index]?.hours ?? 0) > hours) index--;
    const knot = knots[index];
    return knot ? along(knot, hours, rate) : fieldCelsius;
  };
}

function along({ hours: from, fruit, room, slope }: Knot, hours: number, rate: number): number {
  const since = hours - from;
  const behind = slope / rate;
  return room + slope * since - behind + (fruit - room + behind) * Math.exp(-rate * since);
}

/** The hour from which every batch is as cold as a room that has come to its last temperature. */
export function settledAt(fruit: CourseFruit, { knots }: RoomTemperature): number {
  const wait = (Math.log(Math.max(fruit.lag, 1)) / Math.LN2) * fruit.halfTimeHours;
  const last = Math.max(
    ...fruit.batches.map(({ loadedAtHours }) => loadedAtHours + wait),
    ...knots.map(({ hours }) => hours),
  );
  return last + SETTLED_HALF_TIMES * fruit.halfTimeHours;
}
