import { formatDay, formatWeek } from '../../plan/dates';
import { fixed, type Measure } from '../../plan/display';
import { counted } from '../../plan/wording';
import type { LotInRoomAccount, RoomAccount, Sample, ScrubbingTurn, TaskKind, WeekBins } from './account';
import { setByWords } from './basis';
import { fruitColumn, measured, weekColumns } from './columns';
import { htmlTable } from './html-table';
import { pageHead } from './page-head';
import { type CalendarTask, day, number, type Paper, paperTable, type Reader, text, week } from './paper';
import { setPoints, withUnit } from './tasks';
import { xmlText } from './xml';

/** What each reader finds on a room's page. */
interface Parts {
  readonly kinds: readonly TaskKind[];
  readonly lots: boolean;
  readonly packing: boolean;
  readonly scrubbing: boolean;
  readonly samples: boolean;
}

const GAS: readonly TaskKind[] = ['seal', 'purge', 'five-per-cent', 'set-point', 'lime'];
const OPENING: readonly TaskKind[] = ['ventilate', 'open', 'empty'];

const PARTS: Readonly<Partial<Record<Reader, Parts>>> = {
  everyone: {
    kinds: ['fill', ...GAS, 'sample', ...OPENING],
    lots: true,
    packing: true,
    scrubbing: true,
    samples: false,
  },
  'cold-store': {
    kinds: ['fill', ...GAS, 'sample', ...OPENING],
    lots: false,
    packing: false,
    scrubbing: true,
    samples: false,
  },
  packhouse: { kinds: ['open', 'empty'], lots: true, packing: true, scrubbing: false, samples: false },
  lab: { kinds: ['open'], lots: true, packing: false, scrubbing: false, samples: true },
};

/** One page about one room: what it holds, how it is kept, and what is done to it on which day. */
export function roomPage(room: RoomAccount, paper: Paper): string {
  const { account } = paper;
  const parts = PARTS[paper.reader];
  if (!parts) return '';
  const tasks = account.tasks.filter(({ rooms, about, kind }) =>
    about === room.fill
      ? parts.kinds.includes(kind)
      : kind === 'lime' && parts.kinds.includes('lime') && rooms.includes(room.room),
  );
  const turns = account.scrubbing.filter(({ fill }) => fill === room.fill);
  const left = [
    facts(room),
    ...(parts.packing && room.packing.length > 0 ? ['<h2>Packed</h2>', packingTable(room.packing)] : []),
    ...(parts.scrubbing && turns.length > 0 ? ['<h2>Scrubber, at most</h2>', scrubbingTable(turns)] : []),
  ];
  const samples = account.samples.filter(({ fill }) => fill === room.fill).sort((a, b) => a.first - b.first);
  return [
    '<section class="page">',
    pageHead(paper, `Room ${room.room}: ${room.varieties.join(', ')}`),
    '<div class="sides">',
    `<div>${left.join('\n')}</div>`,
    `<div><h2>What is done</h2>\n${tasksTable(tasks)}</div>`,
    '</div>',
    ...(parts.samples ? ['<h2>Samples</h2>', samplesTable(samples)] : []),
    ...(parts.lots ? ['<h2>Lots</h2>', lotsTable(room, paper)] : []),
    '</section>',
  ].join('\n');
}

function facts(room: RoomAccount): string {
  const rows: readonly (readonly [string, string | undefined])[] = [
    ['Fill', room.fill],
    ['Holds', `${counted(room.bins, 'bin')}${amount(', ', room.fruit)}`],
    ['Growers', room.growers.length > 0 ? room.growers.join(', ') : undefined],
    ['Kept', setPoints(room) || room.regime],
    ['Window', window(room)],
    [
      'Opens',
      room.opens === undefined
        ? 'not by this schedule'
        : `${formatWeek(room.opens)}${room.setBy ? `, ${setByWords[room.setBy]}` : ''}`,
    ],
    ['Empty by', room.emptyBy === undefined ? undefined : `end of ${formatWeek(room.emptyBy)}`],
    ['Fresh air', freshAir(room)],
  ];
  const shown = rows.flatMap(([name, value]) =>
    value === undefined || value === '' ? [] : [`<dt>${name}</dt><dd>${xmlText(value)}</dd>`],
  );
  return `<dl>${shown.join('')}</dl>`;
}

function window({ earliest, bestBefore, latest }: RoomAccount): string | undefined {
  if (earliest === undefined || latest === undefined) return undefined;
  const best = bestBefore === undefined ? '' : `, best before ${formatWeek(bestBefore)}`;
  return `${formatWeek(earliest)} to ${formatWeek(latest)}${best}`;
}

function freshAir({ freshAirVolumes, freshAir: air }: RoomAccount): string | undefined {
  if (freshAirVolumes === undefined) return undefined;
  return `${fixed(freshAirVolumes, 1)} times its gas${amount(', ', air)} to plan for; only readings count`;
}

function amount(before: string, shown: Measure | undefined): string {
  return shown ? before + withUnit(shown) : '';
}

function tasksTable(tasks: readonly CalendarTask[]): string {
  return htmlTable(
    paperTable(
      '',
      '',
      tasks,
      [
        text('days', 'Day', ({ first, last }) =>
          first === last ? formatDay(first) : `${formatDay(first)} to ${formatDay(last).slice(5)}`,
        ),
        text('what', 'What', ({ title }) => title),
      ],
      true,
    ),
  );
}

function packingTable(packing: readonly WeekBins[]): string {
  return htmlTable(
    paperTable(
      '',
      '',
      packing,
      [...weekColumns<WeekBins>(), number('bins', 'Bins', ({ bins }) => bins)],
      true,
    ),
  );
}

function scrubbingTable(turns: readonly ScrubbingTurn[]): string {
  return htmlTable(
    paperTable(
      '',
      '',
      turns,
      [
        text('scrubber', 'Scrubber', ({ scrubber }) => scrubber),
        week('first', 'From', ({ first }) => first),
        week('last', 'To', ({ last }) => last),
        number('hours', 'h/day', ({ hoursADay }) => hoursADay, { decimals: 1 }),
      ],
      false,
    ),
  );
}

/** Samples of the fruit held near the door are of each lot, the others of each orchard. */
const BY_LOT = /^(?:set-aside|test-\d+)$/;

function samplesTable(samples: readonly Sample[]): string {
  return htmlTable(
    paperTable(
      '',
      '',
      samples,
      [
        day('first', 'Day', ({ first }) => first),
        text('what', 'What', ({ what }) => what),
        number('each', 'Fruit', ({ fruitEach }) => fruitEach),
        text(
          'of',
          'Of',
          ({ of, which }) => `each of ${counted(of.length, BY_LOT.test(which) ? 'lot' : 'orchard')}`,
        ),
        text('tests', 'Look at', ({ tests }) => tests),
      ],
      true,
    ),
  );
}

function lotsTable(room: RoomAccount, { account, reader }: Paper): string {
  const { units } = account;
  const decimals = units.system === 'us' ? 1 : 0;
  const firmness = measured<LotInRoomAccount>(
    'firmness',
    'Firmness',
    'N',
    units,
    (lot) => lot.firmness,
    decimals,
  );
  return htmlTable(
    paperTable(
      '',
      '',
      room.lots,
      [
        text('lot', 'Lot', ({ lot }) => lot),
        text('variety', 'Variety', ({ variety }) => variety),
        text('grower', 'Grower', ({ grower }) => grower),
        text('block', 'Block', ({ block }) => block),
        number('bins', 'Bins', ({ bins }) => bins),
        fruitColumn<LotInRoomAccount>(units),
        ...(reader === 'packhouse' ? [] : [firmness]),
      ],
      true,
    ),
  );
}
