import { firstDayOfWeek, type Week } from '../../plan/dates';
import { counted } from '../../plan/wording';
import { caution } from '../../room/caution';
import { FROM_FIELD, type RoomAccount, type SeasonAccount, type SetBy, type WeekBins } from './account';
import { setByNames } from './basis';
import { byName } from './by-name';
import { fillColumns, weekColumns } from './columns';
import { type CalendarTask, names, number, type Paper, type PaperTable, paperTable, text } from './paper';
import { isTold, tasksOfKinds } from './told';
import { packingColumns, taskColumns, weeksTable } from './weeks-table';

/** What arrives, when, and how many bins. */
export function packhousePaper(account: SeasonAccount): Paper {
  const columns = [...taskColumns(['open', 'empty']), ...packingColumns];
  return {
    reader: 'packhouse',
    title: 'What the packhouse gets',
    account,
    tables: [weeksTable(account, columns, true), arrivalsTable(account)],
    tasks: [...packTasks(account), ...tasksOfKinds(account, ['open', 'empty'])],
    rooms: account.rooms,
    cautions: [caution],
  };
}

function arrivalsTable(account: SeasonAccount): PaperTable {
  const rows = arrivalsOf(account)
    .filter(({ week: at }) => isTold(account, at))
    .sort((a, b) => a.week - b.week || byName(a.room, b.room));
  return paperTable(
    'arrivals',
    'What arrives',
    rows,
    [
      ...weekColumns<(typeof rows)[number]>(),
      text('room', 'Room', ({ room }) => room),
      ...fillColumns(account, rows, ({ about }) => about),
      names('varieties', 'Varieties', ({ varieties }) => varieties),
      names('lots', 'Lots', ({ lots }) => lots),
      number('bins', 'Bins', ({ bins }) => bins),
      text('stage', 'Stage', ({ stage }) => stage),
      text('set', 'Opening set by', ({ setBy }) => setBy && setByNames[setBy]),
    ],
    true,
  );
}

interface Arrival extends WeekBins {
  readonly room: string;
  readonly about: string;
  /** Counted from 1. */
  readonly number: number;
  readonly varieties: readonly string[];
  readonly lots: readonly string[];
  readonly stage: string;
  readonly setBy: SetBy | undefined;
}

/** Of each room and each lot from the field what arrives in each week. */
function arrivalsOf({ rooms, fromField }: SeasonAccount): Arrival[] {
  return [
    ...rooms.flatMap((room) =>
      room.packing.map((one, index) => ({
        ...one,
        room: room.room,
        about: room.fill,
        number: index + 1,
        varieties: room.varieties,
        lots: room.lots.map(({ lot }) => lot),
        stage: stageWords(one.week, room),
        setBy: room.setBy,
      })),
    ),
    ...fromField.flatMap(({ lot, variety, packing }) =>
      packing.map((one, index) => ({
        ...one,
        room: FROM_FIELD,
        about: `field:${lot}`,
        number: index + 1,
        varieties: [variety],
        lots: [lot],
        stage: 'packed at harvest',
        setBy: undefined,
      })),
    ),
  ];
}

function stageWords(at: Week, { opens, packing }: RoomAccount): string {
  const isLast = packing.at(-1)?.week === at;
  if (at === opens) return isLast ? 'opens and is emptied' : 'opens';
  return isLast ? 'is emptied' : 'goes on';
}

export function packTasks(account: SeasonAccount): CalendarTask[] {
  return arrivalsOf(account).map(({ week, bins, room, about, number: which, varieties, lots, stage }) => ({
    kind: 'pack',
    about,
    which: String(which),
    first: firstDayOfWeek(week),
    last: firstDayOfWeek(week) + 4,
    rooms: room === FROM_FIELD ? [] : [room],
    title: `Pack ${counted(bins, 'bin')} ${room === FROM_FIELD ? room : `of ${room}`}: ${varieties.join(', ')}`,
    detail: `Lots ${lots.join(', ')}. ${room === FROM_FIELD ? 'Packed at harvest' : `The room ${stage}`}.`,
  }));
}
