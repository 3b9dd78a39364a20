import type { ComputedSeason } from '../findings/types';
import { formatDay } from '../plan/dates';
import { type DisplayUnits, fixed } from '../plan/display';
import type { CardLine, CardTable } from './card-types';
import { cropPart } from './status-crop';
import { marketPart } from './status-market';
import { isLateNow, roomsPart } from './status-rooms';
import { stockPart } from './status-stock';

/** Where the season stands, in a few lines with what there is in all; nothing for a plan without records. */
export function standTable(season: ComputedSeason, units: DisplayUnits): CardTable[] {
  const { stand } = season.plan;
  if (stand === undefined) return [];
  const crop = cropPart(season);
  const rooms = roomsPart(season, stand);
  const stock = stockPart(season, units);
  const market = marketPart(season.plan, stand);
  const [received, expected] = [
    total(crop.varieties.map((line) => line.received)),
    total(crop.varieties.map((line) => line.expected)),
  ];
  const isIn = rooms.filter(({ state }) => state !== 'to come' && state !== 'filling').length;
  const lines: CardLine[] = [
    line('Bins received', received, expected),
    line('Rooms whose last bin is in', isIn, rooms.length),
    line('Rooms with something overdue', rooms.filter(isLateNow).length, rooms.length),
    line(
      'Bins still in filled rooms',
      total(stock.rooms.map(({ binsThere }) => binsThere)),
      total(stock.rooms.map(({ binsIn }) => binsIn)),
    ),
    ...(stock.cartons.length === 0
      ? []
      : [
          line(
            'Cartons packed and not sold',
            total(stock.cartons.map(({ inStock }) => inStock)),
            total(stock.cartons.map(({ packed }) => packed)),
          ),
        ]),
    ...(market.salesRecorded
      ? [
          line(
            'Cartons sold, of those wanted so far',
            total(market.lines.map(({ met }) => met ?? 0)),
            total(market.lines.map(({ wanted }) => wanted)),
          ),
        ]
      : []),
  ];
  return [
    {
      title: `Where it stands on ${formatDay(stand)}`,
      columns: ['What', 'So far', 'Of'],
      lines,
      none: '',
    },
  ];
}

function line(what: string, count: number, of: number): CardLine {
  return { cells: [what, fixed(count, 0), fixed(of, 0)] };
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
