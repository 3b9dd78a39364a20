import { weekOfDay } from '../../plan/dates';
import { caution } from '../../room/caution';
import type { SeasonAccount } from './account';
import { byName } from './by-name';
import { fillColumns, measured } from './columns';
import { day, names, number, type Paper, type PaperTable, paperTable, text, week } from './paper';
import { hatchRule } from './sampling';
import { isTold, tasksOfKinds } from './told';
import { taskColumns, weeksTable } from './weeks-table';

/** What to sample when, each by the publication it follows. */
export function labPaper(account: SeasonAccount): Paper {
  return {
    reader: 'lab',
    title: 'What the lab samples',
    account,
    tables: [
      weeksTable(account, taskColumns(['sample', 'open']), true),
      samplesTable(account),
      lotsTable(account),
    ],
    tasks: tasksOfKinds(account, ['sample']),
    rooms: account.rooms,
    cautions: [caution, hatchRule],
  };
}

function samplesTable(account: SeasonAccount): PaperTable {
  const rows = account.samples
    .filter(({ last }) => isTold(account, weekOfDay(last)))
    .sort((a, b) => a.first - b.first || byName(a.room, b.room) || byName(a.which, b.which));
  return paperTable(
    'samples',
    'What to sample when',
    rows,
    [
      week('week', 'Week', ({ first }) => weekOfDay(first)),
      day('first', 'From', ({ first }) => first),
      day('last', 'To', ({ last }) => last),
      text('room', 'Room', ({ room }) => room),
      ...fillColumns(account, rows, ({ fill }) => fill),
      text('what', 'What', ({ what }) => what),
      names('of', 'Of each of', ({ of }) => of),
      number('fruit-each', 'Fruit each', ({ fruitEach }) => fruitEach),
      number('fruit', 'Fruit in all', ({ fruitEach, of }) => fruitEach * of.length),
      text('tests', 'Look at', ({ tests }) => tests),
      text('source', 'As in', ({ source }) => source),
    ],
    true,
  );
}

function lotsTable(account: SeasonAccount): PaperTable {
  const rows = account.rooms.flatMap((room) => room.lots.map((lot) => ({ ...lot, room })));
  type Row = (typeof rows)[number];
  return paperTable(
    'lots',
    'The lots of each room',
    rows,
    [
      text('room', 'Room', ({ room }) => room.room),
      ...fillColumns(account, rows, ({ room }) => room.fill),
      text('lot', 'Lot', ({ lot }) => lot),
      text('variety', 'Variety', ({ variety }) => variety),
      text('grower', 'Grower', ({ grower }) => grower),
      text('block', 'Block', ({ block }) => block),
      number('bins', 'Bins', ({ bins }) => bins),
      measured<Row>(
        'firmness',
        'Firmness at harvest',
        'N',
        account.units,
        ({ firmness }) => firmness,
        account.units.system === 'us' ? 1 : 0,
      ),
      week('opens', 'Opens', ({ room }) => room.opens),
    ],
    true,
  );
}
