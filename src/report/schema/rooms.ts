import { z } from 'zod';
import { day, findingCounts, header, measure, place } from './parts';

const roomRow = z.strictObject({
  room: z.string(),
  fill: z.string().optional(),
  varieties: z.array(z.string()),
  regime: z.string().optional(),
  place,
  firstBin: day.optional(),
  lastBin: day.optional(),
  sealed: day.optional(),
  volume: measure.optional(),
  places: measure.optional(),
  placesByGeometry: measure.optional(),
  bins: measure.optional(),
  utilisation: measure.optional(),
  fruit: measure.optional(),
  freeGasVolume: measure.optional(),
  peakCooling: measure.optional(),
  peakCoolingTerms: z
    .strictObject({
      day,
      fieldHeat: measure.optional(),
      binHeat: measure.optional(),
      respirationHeat: measure.optional(),
      transmissionHeat: measure.optional(),
      airChangeHeat: measure.optional(),
      fanHeat: measure.optional(),
      lightHeat: measure.optional(),
      vehicleHeat: measure.optional(),
      peopleHeat: measure.optional(),
    })
    .optional()
    .meta({ description: 'What the heat of the busiest day of filling is made of.' }),
  holdingCooling: measure.optional(),
  coolerCapacity: measure.optional(),
});

export const roomsReport = z
  .strictObject({
    ...header('rooms'),
    counts: findingCounts,
    rooms: z.array(roomRow).meta({ description: 'One for each fill, and one for each room without a fill.' }),
    totals: z.strictObject({
      rooms: z.int(),
      filledRooms: z.int(),
      places: measure.optional(),
      bins: measure.optional(),
      fruit: measure.optional(),
    }),
    varieties: z.array(
      z.strictObject({
        variety: z.string(),
        rooms: z.int(),
        bins: measure.optional(),
        fruit: measure.optional(),
      }),
    ),
  })
  .meta({ title: 'Lotwright rooms report', description: 'Printed by `lotwright rooms --format json`.' });
