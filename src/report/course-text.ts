import type { Measure } from '../plan/display';
import { counted } from '../plan/wording';
import { coldWords } from './cold-words';
import { commandToCopy } from './command-to-copy';
import { noPaint, type Paint } from './paint';
import type { CourseReport } from './schemas';
import { type Column, PAGE_WIDTH, table, wrap } from './table';
import { cell, columnUnit } from './text-cells';

type Told = CourseReport['courses'][number];

/** A room's course as text: what it comes to, what happens when, then its levels by day and by week. */
export function courseText(report: CourseReport, paint: Paint = noPaint, folder?: string): string {
  const bodies = report.courses.flatMap((one) => [...courseLines(one, paint, folder), '']);
  const nothing =
    report.courses.length > 0
      ? []
      : [
          ...wrap(
            `${report.room} has no course: it is kept in air, or the plan lacks its size, dates, regime or fruit.`,
            PAGE_WIDTH,
          ),
          '',
        ];
  return [...nothing, ...bodies, ...wrap(report.caution, PAGE_WIDTH)].join('\n');
}

function courseLines(told: Told, paint: Paint, folder: string | undefined): string[] {
  const { cases, events, assumptions, points } = told;
  return [
    paint.bold(
      `${told.fill}: sealed ${told.sealed}, ${told.staysShut ? `opened in no week, counted to ${told.opens}` : `opens ${told.opens}`}`,
    ),
    '',
    ...caseLines(cases),
    ...coldLines(cases),
    '',
    ...table(
      [{ title: 'Day' }, { title: 'Hours', align: 'right' }, { title: 'What happens' }],
      events.map(({ day, hours, what }) => [day, hours.toFixed(0), what]),
    ),
    '',
    ...table(
      pointColumns(points),
      points.map((point) => [
        point.day,
        String(point.daysSealed),
        cell(point.oxygen, 2),
        cell(point.carbonDioxide, 2),
        cell(point.temperature, 1),
        cell(point.carbonDioxideMade),
        cell(point.scrubbed),
        cell(point.nitrogenFed),
      ]),
    ),
    ...assumptions.flatMap((text) => wrap(`Assumed: ${text}.`, PAGE_WIDTH, '  ')),
    ...wrap(
      `Totals count from sealing. N2 fed is gas at the temperature the room had then; \`${commandToCopy('gas', folder)}\` tells more, for there the fruit's own use of oxygen is not counted. ${counted(points.length, 'point')}.`,
      PAGE_WIDTH,
    ),
  ];
}

/** When the fruit is cold; of a room with a warm hold, when it is at that and when at storage temperature. */
function coldLines({ daysToCold, daysToStorage }: Told['cases']): string[] {
  if (!daysToCold) return [];
  return wrap(coldWords(cell(daysToCold, 1), daysToStorage && cell(daysToStorage, 1)), PAGE_WIDTH);
}

function pointColumns(points: Told['points']): Column[] {
  const unit = (key: keyof Told['points'][number]) => columnUnit(points.map((point) => point[key]));
  return [
    { title: 'Day' },
    { title: 'Sealed', unit: 'days', align: 'right' },
    { title: 'O2', unit: '%', align: 'right' },
    { title: 'CO2', unit: '%', align: 'right' },
    { title: 'Fruit', unit: unit('temperature'), align: 'right' },
    { title: 'CO2 made', unit: unit('carbonDioxideMade'), align: 'right' },
    { title: 'Scrubbed', unit: unit('scrubbed'), align: 'right' },
    { title: 'N2 fed', unit: unit('nitrogenFed'), align: 'right' },
  ];
}

/** A line for each figure, with the range of the sources. */
function caseLines({ low, expected, high }: Told['cases']): string[] {
  const lines = [
    ['from sealing to 5 % oxygen', 'hoursToFivePercent'],
    ['from sealing to the set-point', 'hoursToSetPoint'],
    ['lowest oxygen', 'lowestOxygen'],
    ['highest carbon dioxide', 'highestCarbonDioxide'],
    ['oxygen at opening', 'oxygenAtEnd'],
    ['points above the set-point then', 'oxygenRise'],
    ['carbon dioxide the fruit makes', 'carbonDioxideMade'],
    ['nitrogen fed', 'nitrogenFed'],
    ...(low?.ethanolMade || expected?.ethanolMade || high?.ethanolMade
      ? ([['ethanol left in the fruit', 'ethanolMade']] as const)
      : []),
    ['weight lost', 'weightLost'],
  ] as const;
  return table(
    [
      { title: 'Figure' },
      { title: 'Low', align: 'right' },
      { title: 'Expected', align: 'right' },
      { title: 'High', align: 'right' },
      { title: 'Unit' },
    ],
    lines.map(([title, key]) => [
      title,
      levelCell(low?.[key]),
      levelCell(expected?.[key]),
      levelCell(high?.[key]),
      columnUnit([expected?.[key], low?.[key], high?.[key]]),
    ]),
  );
}

/** Levels are held to the hundredth of a point. */
function levelCell(value: Measure | undefined): string {
  return value?.unit === '%' ? cell(value, 2) : cell(value);
}
