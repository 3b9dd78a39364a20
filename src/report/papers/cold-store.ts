import { weekOfDay } from '../../plan/dates';
import { caution, limeCaution } from '../../room/caution';
import { type SeasonAccount, TASK_KINDS, type TaskKind } from './account';
import { fillColumns, roomColumns } from './columns';
import {
  type CalendarTask,
  day,
  names,
  number,
  type Paper,
  type PaperTable,
  paperTable,
  type Told,
  text,
  week,
} from './paper';
import { isTold, tasksOfKinds } from './told';
import { taskColumns, weeksTable } from './weeks-table';

/** What to seal, purge, scrub, sample, ventilate and open, by week and by day. */
export function coldStorePaper(account: SeasonAccount): Paper {
  const overview: readonly TaskKind[] = [
    'seal',
    'purge',
    'set-point',
    'scrub',
    'lime',
    'sample',
    'ventilate',
    'open',
    'empty',
  ];
  return {
    reader: 'cold-store',
    title: 'What the cold-store crew does',
    account,
    tables: [
      weeksTable(account, taskColumns(overview), true),
      tasksTable(account, TASK_KINDS),
      paperTable('rooms', 'Room by room', account.rooms, roomColumns(account), true),
      scrubbingTable(account),
    ],
    tasks: tasksOfKinds(account, TASK_KINDS),
    rooms: account.rooms,
    cautions: [caution, ...(account.tasks.some(({ kind }) => kind === 'lime') ? [limeCaution] : [])],
  };
}

function tasksTable(account: SeasonAccount, kinds: readonly TaskKind[]): PaperTable {
  const rows = tasksOfKinds(account, kinds).filter(({ last }) => isTold(account, weekOfDay(last)));
  return paperTable('tasks', 'Day by day', rows, taskColumnsInFull(account, rows), true);
}

function taskColumnsInFull(account: SeasonAccount, rows: readonly CalendarTask[]): Told<CalendarTask>[] {
  return [
    week('week', 'Week', ({ first }) => weekOfDay(first)),
    day('first', 'From', ({ first }) => first),
    day('last', 'To', ({ last }) => last),
    text('task', 'Task', ({ kind }) => kind),
    names('rooms', 'Rooms', ({ rooms }) => rooms),
    ...fillColumns(account, rows, ({ about, kind }) => (kind === 'lime' ? undefined : about)),
    text('what', 'What', ({ title }) => title),
    text('detail', 'In detail', ({ detail }) => detail),
  ];
}

function scrubbingTable(account: SeasonAccount): PaperTable {
  const { scrubbing } = account;
  return paperTable(
    'scrubbing',
    'Scrubbers, hours a day at each room',
    scrubbing,
    [
      text('scrubber', 'Scrubber', ({ scrubber }) => scrubber),
      text('room', 'Room', ({ room }) => room),
      ...fillColumns(account, scrubbing, ({ fill }) => fill),
      week('first', 'From', ({ first }) => first),
      week('last', 'To', ({ last }) => last),
      number('hours-a-day', 'At most', ({ hoursADay }) => hoursADay, { unit: 'h/day', decimals: 1 }),
    ],
    false,
  );
}
