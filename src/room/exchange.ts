import { compute, type Figure } from '../plan/figure';
import type { Assumptions } from './assumptions';
import { leakInService, weatherFlow } from './tightness';
import type { RoomCapacity } from './types';

/**
 * Air that a sealed room exchanges by leaks and weather: as measured in service, else from its pressure test and what
 * the barometer does. Undefined where the plan has neither, or no gas volume.
 */
export function airExchanged(
  { room, leakFlow }: RoomCapacity,
  freeGasVolume: Figure<'m3'> | undefined,
  { servicePressure, barometerRise }: Assumptions,
): Figure<'m3/h'> | undefined {
  const name = 'air that leaks and weather exchange';
  if (room.leakInService)
    return compute(name, 'm3/h', 'measured', { measured: room.leakInService }, (v) => v.measured);
  if (!leakFlow || !room.tightness || !freeGasVolume) return undefined;
  return compute(
    name,
    'm3/h',
    'leak + weather',
    {
      leak: leakInService(leakFlow, room.tightness.from, servicePressure),
      weather: weatherFlow(freeGasVolume, barometerRise, room.breatherBag),
    },
    (v) => v.leak + v.weather,
  );
}
