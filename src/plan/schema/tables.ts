import { z } from 'zod';
import { oneOf, text } from './values';

const FIELD = /^[a-z][a-z-]*$/;
const cell = z.string().min(1);

const layout = {
  separator: oneOf(['comma', 'semicolon', 'tab'], {
    meaning: 'What stands between two cells.',
    example: 'semicolon',
    default: 'comma',
  }).optional(),
  decimal: oneOf(['point', 'comma'], {
    meaning: 'The mark before decimals.',
    example: 'comma',
    default: 'point',
  }).optional(),
  dates: oneOf(['year-month-day', 'day-month-year', 'month-day-year'], {
    meaning: 'The order of a date.',
    example: 'day-month-year',
    default: 'year-month-day',
  }).optional(),
  names: z
    .record(z.string().regex(FIELD), z.record(z.string().min(1), cell))
    .meta({
      description: 'Of a column, what the file calls by another name than the plan: its word first.',
      examples: [{ lot: { 'GA-01': 'L1' } }],
      'x-key-kind': 'field',
    })
    .optional(),
} as const;

function columns(description: string, example: Record<string, string>) {
  return z
    .record(z.string().regex(FIELD), cell)
    .meta({ description, examples: [example], 'x-key-kind': 'field' });
}

/** How a file of comma-separated values is laid out that `lotwright take-in` reads. */
export const tableLayout = z.strictObject({
  holds: oneOf(['receipts', 'maturity', 'demand', 'progress', 'samples', 'packed', 'sales'], {
    meaning: 'What its rows are about.',
    example: 'receipts',
  }),
  columns: columns(
    'What the columns are called in the file. Of receipts: `lot`, `day`, `bins`, and `field-temperature` if it is there. ' +
      'Of maturity: `lot`, `tested`, and `starch`, `firmness`, `soluble-solids`, `ethylene` where they are there. ' +
      'Of demand: `market`, `variety`, `class`, `week`, `cartons`. ' +
      'Of progress: `fill` (or its room), and `step` with `day`, or a column a step (`sealed`, `opened`), and `lot` with `bins`. ' +
      'Of samples: `lot`, `taken`, and `sample`, `fill`, `fruit`, `firmness`, `firmness-spread`, `soluble-solids`, `ethylene`, `scald` and the other disorders. ' +
      'Of packed: `lot`, `day`, `bins`, and `run`, `fill`, and a column a class (`cartons-first`), or `class` and `cartons`. ' +
      'Of sales: `market`, `variety`, `class`, `week`, `cartons`, and `price`.',
    { lot: 'Lot no', day: 'Date', bins: 'Bins' },
  ),
  ...layout,
  units: columns(
    'The unit of a column whose numbers have none. Without it: °C for `field-temperature`, N for `firmness`, % for `soluble-solids` and disorders, ppm for `ethylene`.',
    { firmness: 'lbf' },
  ).optional(),
});

const heading = (meaning: string, example: string) => text({ meaning, example });

/** A file of readings that stays beside the plan. Its fields are all named here: one by a name of its own would not be read. */
export const readingsLayout = z.strictObject({
  file: text({
    meaning: 'The file, from the folder of the plan file it is named in.',
    example: 'readings/cold-store.csv',
  }),
  columns: z
    .strictObject({
      time: heading('The heading of the column with the time of a reading.', 'Time'),
      room: heading('The heading of the column with the room.', 'Room'),
      oxygen: heading('The heading of the column with oxygen.', 'O2').optional(),
      'carbon-dioxide': heading('The heading of the column with carbon dioxide.', 'CO2').optional(),
      temperature: heading('The heading of the column with the temperature of the air.', 'Air').optional(),
      humidity: heading('The heading of the column with the humidity of the air.', 'RH').optional(),
    })
    .meta({
      description:
        'What the columns are called in the file: `time`, `room`, and those of `oxygen`, `carbon-dioxide`, `temperature`, `humidity` that are there.',
      examples: [{ time: 'Time', room: 'Room', oxygen: 'O2', 'carbon-dioxide': 'CO2', temperature: 'Air' }],
    }),
  ...layout,
  names: z
    .strictObject({
      room: z
        .record(z.string().min(1), cell)
        .meta({
          description: 'Rooms by what the file calls them: its word first.',
          examples: [{ 'Cold room 1': 'R1' }],
        })
        .optional(),
    })
    .meta({
      description: 'Of the rooms, what the file calls by another name than the plan: its word first.',
      examples: [{ room: { 'Cold room 1': 'R1' } }],
    })
    .optional(),
  units: z
    .strictObject({
      oxygen: perCent('oxygen').optional(),
      'carbon-dioxide': perCent('carbon dioxide').optional(),
      temperature: oneOf(['°C', 'C', '°F', 'F'], {
        meaning: 'The unit of the temperatures.',
        example: '°F',
      }).optional(),
      humidity: perCent('humidity').optional(),
    })
    .meta({
      description: 'The unit of a column. Without it: °C for `temperature`, % for the others.',
      examples: [{ temperature: '°F' }],
    })
    .optional(),
});

function perCent(what: string) {
  return oneOf(['%'], { meaning: `The unit of ${what}: per cent.`, example: '%' });
}
