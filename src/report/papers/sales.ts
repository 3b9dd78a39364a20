import { firstDayOfWeek, formatWeek } from '../../plan/dates';
import { counted } from '../../plan/wording';
import { caution } from '../../room/caution';
import type { SeasonAccount } from './account';
import { weekColumns } from './columns';
import { type CalendarTask, names, number, type Paper, type PaperTable, paperTable, text } from './paper';
import { isTold } from './told';
import { cartonColumns, stockColumn, weeksTable } from './weeks-table';

/** Cartons by week, market, variety and class, and the weeks that are short. What it says of the schedule speaks of opening. */
export function salesPaper(account: SeasonAccount): Paper {
  return {
    reader: 'sales',
    title: 'What there is to sell',
    account,
    tables: [
      weeksTable(account, [...cartonColumns, stockColumn], false),
      marketTable(account, 'cartons', 'Cartons by market', () => true),
      marketTable(account, 'short', 'Short weeks', ({ short }) => short > 0),
      productsTable(account),
    ],
    tasks: [...sellTasks(account), ...shortTasks(account)],
    rooms: [],
    cautions: [caution],
  };
}

type Line = SeasonAccount['market'][number];

function marketTable(
  account: SeasonAccount,
  key: string,
  title: string,
  keep: (line: Line) => boolean,
): PaperTable {
  return paperTable(
    key,
    title,
    account.market.filter((line) => isTold(account, line.week) && keep(line)),
    [
      ...weekColumns<Line>(),
      text('market', 'Market', ({ market }) => market),
      text('variety', 'Variety', ({ variety }) => variety),
      text('class', 'Class', ({ packClass }) => packClass),
      names('demands', 'Demands', ({ demands }) => demands),
      number('cartons-wanted', 'Cartons wanted', ({ wanted }) => wanted),
      number('cartons-sold', 'Sold', ({ sold }) => sold),
      number('cartons-short', 'Short', ({ short }) => short),
    ],
    false,
  );
}

function productsTable(account: SeasonAccount): PaperTable {
  const rows = account.products.filter((line) => isTold(account, line.week));
  return paperTable(
    'products',
    'Cartons by variety and class',
    rows,
    [
      ...weekColumns<(typeof rows)[number]>(),
      text('variety', 'Variety', ({ variety }) => variety),
      text('class', 'Class', ({ packClass }) => packClass),
      number('cartons-packed', 'Packed', ({ packed }) => packed),
      number('cartons-sold', 'Sold', ({ sold }) => sold),
      number('cartons-unsold', 'Unsold', ({ unsold }) => unsold),
    ],
    false,
  );
}

/** What there is for all markets together, a week each. */
export function sellTasks({ weeks, market }: SeasonAccount): CalendarTask[] {
  return weeks
    .filter(({ cartonsSold }) => cartonsSold > 0)
    .map(({ week: at, cartonsSold, cartonsWanted }) => ({
      kind: 'sell',
      about: 'all',
      which: formatWeek(at),
      first: firstDayOfWeek(at),
      last: firstDayOfWeek(at) + 4,
      rooms: [],
      title: `${counted(cartonsSold, 'carton')} to sell of ${cartonsWanted} wanted`,
      detail: market
        .filter((line) => line.week === at)
        .map(
          ({ market: to, variety, packClass, sold, wanted }) =>
            `${to}: ${variety}, ${packClass}: ${sold} of ${wanted}`,
        )
        .join('\n'),
    }));
}

export function shortTasks(account: SeasonAccount): CalendarTask[] {
  return account.market
    .filter(({ short }) => short > 0)
    .map(({ week: at, market, variety, packClass, short, wanted }) => ({
      kind: 'short',
      about: [market, variety, packClass].join(' '),
      which: formatWeek(at),
      first: firstDayOfWeek(at),
      last: firstDayOfWeek(at) + 4,
      rooms: [],
      title: `Short of ${counted(short, 'carton')}: ${variety}, ${packClass}, ${market}`,
      detail: `${wanted} are wanted in ${formatWeek(at)}.`,
    }));
}
