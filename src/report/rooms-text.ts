import { counted } from '../plan/wording';
import { noPaint, type Paint } from './paint';
import { seasonBefore } from './parts';
import { namedRows } from './room-names';
import type { RoomsReport } from './schemas';
import { type Column, PAGE_WIDTH, table, wrap } from './table';
import { cell, columnUnit, dayCell } from './text-cells';

type Row = RoomsReport['rooms'][number];

/** The rooms report as text. */
export function roomsText(report: RoomsReport, paint: Paint = noPaint): string {
  const { rooms, totals, varieties } = report;
  const unit = (key: keyof Row) => columnUnit(rooms.map((row) => row[key]));
  const columns: Column[] = [
    { title: 'Room' },
    { title: 'Variety', breaks: true },
    { title: 'Places', align: 'right' },
    { title: 'Bins', align: 'right' },
    { title: 'Full', unit: '%', align: 'right' },
    { title: 'Fruit', unit: unit('fruit'), align: 'right' },
    { title: 'Volume', unit: unit('volume'), align: 'right' },
    { title: 'Free gas', unit: unit('freeGasVolume'), align: 'right' },
    { title: 'Peak', unit: unit('peakCooling'), align: 'right' },
    { title: 'Hold', unit: unit('holdingCooling'), align: 'right' },
    { title: 'Cooler', unit: unit('coolerCapacity'), align: 'right' },
    { title: 'Sealed' },
  ];
  const lines = table(columns, rows(report), {
    totals: [['Total', '', cell(totals.places), cell(totals.bins), '', cell(totals.fruit)]],
  });
  const byVariety = table(
    [
      { title: 'Variety' },
      { title: 'Rooms', align: 'right' },
      { title: 'Bins', align: 'right' },
      { title: 'Fruit', unit: unit('fruit'), align: 'right' },
    ],
    varieties.map((row) => [row.variety, String(row.rooms), cell(row.bins), cell(row.fruit)]),
  );
  return [
    paint.bold(title(report)),
    '',
    ...lines,
    ...(varieties.length > 0 ? ['', ...byVariety] : []),
    '',
    ...wrap(
      'Peak and hold are the cooling load on the heaviest day of intake and with the fruit cold; cooler is what the room can give.',
      PAGE_WIDTH,
    ),
  ].join('\n');
}

function rows(report: RoomsReport): string[][] {
  return namedRows(report.rooms).map((row) => [
    row.room,
    row.fill === undefined ? '(not filled)' : row.varieties.join(', '),
    cell(row.places),
    cell(row.bins),
    cell(row.utilisation, 0),
    cell(row.fruit),
    cell(row.volume),
    cell(row.freeGasVolume),
    cell(row.peakCooling),
    cell(row.holdingCooling),
    cell(row.coolerCapacity),
    dayCell(row.sealed, row.fill === undefined ? '' : 'in air'),
  ]);
}

function title({ plan, totals, rooms }: RoomsReport): string {
  const fills = rooms.filter(({ fill }) => fill !== undefined).length;
  const again = fills > totals.filledRooms ? `, with ${counted(fills, 'fill')}` : '';
  return `${seasonBefore(plan)}${totals.filledRooms} of ${counted(totals.rooms, 'room')} filled${again}`;
}
