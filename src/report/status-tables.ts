import { counted } from '../plan/wording';
import type { StatusReport } from './schemas';
import { isLateNow, type StepStand } from './status-rooms';
import type { Column } from './table';
import { cell, whole } from './text-cells';

/** A part of the status: its title, sentences, and a table that may be empty. */
export interface StatusTable {
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
  /** Said where there are no rows; the part is left out where this is missing too. */
  readonly none?: string;
  readonly after: readonly string[];
  readonly keys?: number;
}

const right = (title: string, unit?: string): Column => ({ title, align: 'right', ...(unit && { unit }) });

/** The parts in the order in which people read them. */
export function statusTables(report: StatusReport): StatusTable[] {
  return [
    cropTable(report),
    fillsTable(report),
    roomsTable(report),
    stockTable(report),
    elsewhereTable(report),
    cartonsTable(report),
    marketTable(report),
    ...workTables(report),
  ].filter(({ rows, none, after }) => rows.length > 0 || none !== undefined || after.length > 0);
}

function signed(value: number): string {
  return value > 0 ? `+${whole(value)}` : whole(value);
}

function cropTable({ crop }: StatusReport): StatusTable {
  return {
    title: 'Crop, in bins',
    columns: [
      { title: 'Variety' },
      right('Lots in'),
      right('Estimate'),
      right('Received'),
      right('To come'),
      right('Expected'),
      right('Change'),
    ],
    rows: crop.varieties.map((line) => [
      line.variety,
      `${line.lotsIn} of ${line.lots}`,
      whole(line.estimate),
      whole(line.received),
      whole(line.toCome),
      whole(line.expected),
      signed(line.change),
    ]),
    none: 'The plan has no lots yet.',
    after: [],
  };
}

function fillsTable({ crop }: StatusReport): StatusTable {
  const { fillsToCome, withoutPlace } = crop;
  const changed = fillsToCome.filter((fill) => fill.willHold !== fill.planned || fill.moreOfItsLots > 0);
  const same = fillsToCome.length - changed.length;
  const homeless = withoutPlace.map(({ lot, bins }) => `${lot} ${whole(bins)}`).join(', ');
  return {
    title: 'What that does to fills that are not full yet, in bins',
    columns: [
      { title: 'Room' },
      { title: 'Fill' },
      right('Planned'),
      right('Of its lots'),
      right('And more of them'),
      right('Places left empty'),
    ],
    rows: changed.map((fill) => [
      fill.room,
      fill.fill,
      whole(fill.planned),
      whole(fill.willHold),
      fill.moreOfItsLots > 0 ? signed(fill.moreOfItsLots) : '',
      fill.placesEmpty === undefined ? '' : whole(fill.placesEmpty),
    ]),
    after: [
      ...(same > 0 ? [`${changed.length > 0 ? 'Others' : 'All'} (${same}) will hold what is planned.`] : []),
      ...(homeless === '' ? [] : [`Bins that no fill has a place for, by lot: ${homeless}.`]),
    ],
  };
}

const STEP_COLUMNS: readonly (readonly [StepStand['step'], string])[] = [
  ['last-bin', 'Last bin'],
  ['cool', 'Cool'],
  ['sealed', 'Sealed'],
  ['low-oxygen', '5 % oxygen'],
  ['set-point', 'Set-point'],
  ['opened', 'Opened'],
];

function roomsTable({ rooms, progressRecorded }: StatusReport): StatusTable {
  return {
    title: 'Rooms',
    columns: [{ title: 'Room' }, { title: 'State' }, ...STEP_COLUMNS.map(([, title]) => ({ title }))],
    rows: rooms.map(({ room, state, steps }) => [
      room,
      state,
      ...STEP_COLUMNS.map(([step]) => stepCell(steps.find((one) => one.step === step))),
    ]),
    after: [
      ...(rooms.some(({ steps }) => steps.some(isDue)) ? ['In brackets: due, not recorded yet.'] : []),
      ...coldBeforeLast(rooms),
      ...(progressRecorded || !rooms.some(isLateNow)
        ? []
        : ['The plan records no progress of its fills yet: what was due stands as overdue.']),
      ...openedUnrecorded(rooms),
      ...rooms.flatMap(({ room, steps }) => toldSteps(steps).flatMap((step) => lateWords(room, step))),
      ...rooms.flatMap(({ room, gasNotTold }) =>
        gasNotTold === undefined ? [] : [`${room}: no day of 5 % oxygen can be told: ${gasNotTold}.`],
      ),
    ],
    keys: 2,
  };
}

/** Rooms whose bins that are in, by what was received, are cold before the day on which the last is to come. */
function coldBeforeLast(rooms: StatusReport['rooms']): string[] {
  const early = rooms.filter(({ steps }) => {
    const due = (name: StepStand['step']) =>
      steps.find(({ step, happened }) => step === name && !happened)?.due;
    const [cool, last] = [due('cool'), due('last-bin')];
    return cool !== undefined && last !== undefined && cool < last;
  });
  if (early.length === 0) return [];
  return [
    `Cool before the last bin: the day by which the bins that were received are cold (${early.map(({ room }) => room).join(', ')}).`,
  ];
}

/** Rooms that were packed from without a record of their opening. */
function openedUnrecorded(rooms: StatusReport['rooms']): string[] {
  const names = rooms.flatMap(({ room, steps }) => (steps.some((step) => step.notRecorded) ? [room] : []));
  return names.length === 0
    ? []
    : [`By: no opening is recorded, and packing began on that day (${names.join(', ')}).`];
}

/** Whether the table tells it in brackets. */
function isDue({ step, due, happened }: StepStand): boolean {
  return !happened && due !== undefined && STEP_COLUMNS.some(([told]) => told === step);
}

function stepCell(step: StepStand | undefined): string {
  if (step?.happened) return `${step.notRecorded ? 'by ' : ''}${step.happened}`;
  return step?.due ? `(${step.due})` : '';
}

const STEP_WORDS: Readonly<Record<StepStand['step'], string>> = {
  'first-bin': 'first bin',
  'last-bin': 'last bin',
  cool: 'fruit cool',
  sealed: 'sealed',
  'low-oxygen': 'at 5 % oxygen',
  'set-point': 'at its set-point',
  opened: 'opened',
  emptied: 'emptied',
};

/** What was late, and the first thing that is overdue: what comes after it waits for it. */
function toldSteps(steps: readonly StepStand[]): StepStand[] {
  const overdue = steps.find(({ happened, daysLate }) => !happened && daysLate !== undefined);
  return steps.filter((step) => step.happened !== undefined || step === overdue);
}

/** `R2: sealed 2 days late, 2026-09-20 (planned 2026-09-18).` */
function lateWords(room: string, { step, due, dueFrom, happened, daysLate }: StepStand): string[] {
  if (daysLate === undefined || due === undefined) return [];
  const days = `${daysLate} ${daysLate === 1 ? 'day' : 'days'}`;
  const by =
    step === 'opened'
      ? `planned for the week of ${due}`
      : `${dueFrom === 'plan' ? 'planned by' : 'expected by'} ${due}`;
  return [
    happened
      ? `${room}: ${STEP_WORDS[step]} ${days} late, ${happened} (${by}).`
      : `${room}: ${STEP_WORDS[step]} overdue by ${days} (${by}).`,
  ];
}

function stockTable({ stock }: StatusReport): StatusTable {
  const hasRest = stock.rooms.some(({ binsNotRecorded }) => binsNotRecorded !== 0);
  const unit = stock.rooms.find(({ fruitThere }) => fruitThere)?.fruitThere?.unit;
  return {
    title: 'Stock in rooms whose last bin is in',
    columns: [
      { title: 'Room' },
      { title: 'Variety' },
      right('Bins in'),
      right('Packed'),
      right('Still there'),
      ...(hasRest ? [right('Not recorded')] : []),
      right('Fruit there', unit),
      { title: 'Cartons packed' },
    ],
    rows: stock.rooms.map((line) => [
      line.room,
      line.variety,
      whole(line.binsIn),
      whole(line.binsPacked),
      whole(line.binsThere),
      ...(hasRest ? [line.binsNotRecorded === 0 ? '' : whole(line.binsNotRecorded)] : []),
      cell(line.fruitThere),
      line.cartonsPacked.map(({ packClass, cartons }) => `${packClass} ${whole(cartons)}`).join(', '),
    ]),
    none: 'No room is recorded as filled.',
    after: [],
  };
}

function elsewhereTable({ stock }: StatusReport): StatusTable {
  return {
    title: 'Where what came in is, in bins',
    columns: [
      { title: 'Variety' },
      right('Received'),
      right('In filled rooms'),
      right('Packed from the field'),
      right('Being filled, or in the yard'),
    ],
    rows: stock.elsewhere.map((line) => [
      line.variety,
      whole(line.received),
      whole(line.inRooms),
      whole(line.packedFromField),
      whole(line.elsewhere),
    ]),
    after: stock.elsewhere.flatMap(({ variety, received, beyondReceived }) =>
      beyondReceived === undefined
        ? []
        : [
            `${variety}: rooms and the packhouse have ${counted(received + beyondReceived, 'bin')} of ${whole(received)} received, ${whole(beyondReceived)} more than came in by the records.`,
          ],
    ),
  };
}

function cartonsTable({ stock }: StatusReport): StatusTable {
  return {
    title: 'Packed cartons',
    columns: [{ title: 'Variety' }, { title: 'Class' }, right('Packed'), right('Sold'), right('In stock')],
    rows: stock.cartons.map((line) => [
      line.variety,
      line.packClass,
      whole(line.packed),
      whole(line.sold),
      whole(line.inStock),
    ]),
    after: stock.cartons.flatMap(({ variety, packClass, beyondPacked }) =>
      beyondPacked === undefined
        ? []
        : [`${variety} ${packClass}: ${whole(beyondPacked)} more are recorded as sold than as packed.`],
    ),
  };
}

function marketTable({ market }: StatusReport): StatusTable {
  const told = market.lines.filter(({ wanted, sold }) => wanted > 0 || (sold ?? 0) > 0);
  return {
    title: `Sold and wanted to the end of ${market.through}, in cartons`,
    columns: [
      { title: 'Market' },
      { title: 'Variety' },
      { title: 'Class' },
      right('Wanted'),
      right('Sold'),
      right('Short'),
      right('Beyond'),
      right('Wanted later'),
    ],
    rows: told.map((line) => [
      line.market,
      line.variety,
      line.packClass,
      whole(line.wanted),
      line.sold === undefined ? '' : whole(line.sold),
      line.short === undefined ? '' : whole(line.short),
      line.beyond === undefined ? '' : whole(line.beyond),
      whole(line.wantedLater),
    ]),
    after: market.salesRecorded || told.length === 0 ? [] : ['The plan records no sales.'],
  };
}

const READER_WORDS = {
  packhouse: 'Packhouse',
  sales: 'Sales',
  'cold-store': 'Cold-store crew',
  lab: 'Lab',
  growers: 'Growers',
} as const;

/** A table a reader; growers share one. */
function workTables({ work }: StatusReport): StatusTable[] {
  const dates = `${work.from} to ${work.to}`;
  return Object.entries(READER_WORDS).flatMap(([reader, words]) => {
    const own = work.readers.filter((one) => one.reader === reader);
    const isGrowers = reader === 'growers';
    const rows = own.flatMap(({ grower, tasks }) =>
      tasks.map(({ first, last, title }) => [first, last, ...(isGrowers ? [grower ?? ''] : []), title]),
    );
    if (rows.length === 0) return [];
    return [
      {
        title: `${words}, ${dates}`,
        columns: [
          { title: 'From' },
          { title: 'To' },
          ...(isGrowers ? [{ title: 'Grower' }] : []),
          { title: 'What', breaks: true },
        ],
        rows,
        after: [],
      },
    ];
  });
}
