import { compute, countedFigure, type Figure } from '../../../plan/figure';
import { roomCelsius } from '../fruit-temperature';
import { AIR, CARBON_DIOXIDE_KG, molesPerCubicMetre, STATE } from '../state';
import type { RoomCourse } from '../types';

/** What came in and what went out from sealing to opening: tables that add up to the change of the room's gas. */

const HOW = 'integrated from sealing to opening';

/** Oxygen in cubic metres at the room's last temperature; what is left over is how far the integration is off. */
export function oxygenTable({ course, room }: RoomCourse): Figure<'m3'> {
  const { first, last } = course;
  const perM3 = molesPerCubicMetre(roomCelsius(room.temperature, room.untilHours));
  const of = (array: Float64Array, index: number) => (array[index] ?? 0) / perM3;
  const term = (name: string, value: number) => countedFigure(name, 'm3', value, HOW);
  const air = (name: string, index: number) => term(name, AIR.oxygen * of(last, index));
  const name = 'oxygen in the room at opening';
  const inputs = {
    atSealing: term('oxygen in the room at sealing', of(first, STATE.oxygen)),
    withNitrogen: term('oxygen in the nitrogen fed', of(last, STATE.oxygenFed)),
    withLeaks: air('oxygen let in by leaks and weather', STATE.airLeaked),
    atBeds: air('oxygen carried in by changes of beds', STATE.airAtBeds),
    letIn: air('oxygen let in to hold its set-point', STATE.airLetIn),
    used: term('oxygen used by the fruit', of(last, STATE.oxygenUsed)),
    out: term('oxygen that went out with the gas', of(last, STATE.oxygenOut)),
  };
  if (room.scrubbing?.membrane) {
    const passed = term('oxygen let in through the membrane', of(last, STATE.oxygenThroughMembrane));
    return compute(
      name,
      'm3',
      'atSealing + withNitrogen + withLeaks + atBeds + letIn + passed - used - out',
      { ...inputs, passed },
      (v) => v.atSealing + v.withNitrogen + v.withLeaks + v.atBeds + v.letIn + v.passed - v.used - v.out,
    );
  }
  return compute(
    name,
    'm3',
    'atSealing + withNitrogen + withLeaks + atBeds + letIn - used - out',
    inputs,
    (v) => v.atSealing + v.withNitrogen + v.withLeaks + v.atBeds + v.letIn - v.used - v.out,
  );
}

/** Carbon dioxide in kilograms. */
export function carbonDioxideTable({ course }: RoomCourse): Figure<'kg'> {
  const { first, last } = course;
  const term = (name: string, moles: number) => countedFigure(name, 'kg', moles * CARBON_DIOXIDE_KG, HOW);
  const air = (last[STATE.airLeaked] ?? 0) + (last[STATE.airAtBeds] ?? 0) + (last[STATE.airLetIn] ?? 0);
  return compute(
    'carbon dioxide in the room at opening',
    'kg',
    'atSealing + made + withAir - scrubbed - out',
    {
      atSealing: term('carbon dioxide in the room at sealing', first[STATE.carbonDioxide] ?? 0),
      made: term('carbon dioxide the fruit made', last[STATE.carbonDioxideMade] ?? 0),
      withAir: term('carbon dioxide in the air that came in', AIR.carbonDioxide * air),
      scrubbed: term('carbon dioxide scrubbed', last[STATE.scrubbed] ?? 0),
      out: term('carbon dioxide that went out with the gas', last[STATE.carbonDioxideOut] ?? 0),
    },
    (v) => v.atSealing + v.made + v.withAir - v.scrubbed - v.out,
  );
}
