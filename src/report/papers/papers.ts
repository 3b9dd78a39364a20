import { type SeasonAccount, TASK_KINDS } from './account';
import { coldStorePaper } from './cold-store';
import { allLotsTable, growerPaper, growersOf } from './growers';
import { labPaper } from './lab';
import { packhousePaper, packTasks } from './packhouse';
import type { Paper, Reader } from './paper';
import { salesPaper, sellTasks, shortTasks } from './sales';
import { tasksOfKinds } from './told';
import { cartonColumns, packingColumns, taskColumns, weeksTable } from './weeks-table';

/** The papers of a reader: one, or one for each grower. */
export function papersFor(account: SeasonAccount, reader: Reader): Paper[] {
  const papers =
    reader === 'growers'
      ? growersOf(account).map((grower) => growerPaper(account, grower))
      : [PAPERS[reader](account)];
  const { notRead } = account;
  return notRead === undefined
    ? papers
    : papers.map((paper) => ({ ...paper, cautions: [...paper.cautions, notRead] }));
}

const PAPERS: Readonly<Record<Exclude<Reader, 'growers'>, (account: SeasonAccount) => Paper>> = {
  packhouse: packhousePaper,
  sales: salesPaper,
  'cold-store': coldStorePaper,
  lab: labPaper,
  everyone: everyonePaper,
};

/** The whole schedule on one page, and each room. */
function everyonePaper(account: SeasonAccount): Paper {
  const columns = [
    ...taskColumns(['seal', 'set-point', 'lime', 'sample', 'open', 'empty']),
    ...packingColumns.slice(0, 1),
    ...cartonColumns,
  ];
  const others = [packhousePaper(account), salesPaper(account), coldStorePaper(account), labPaper(account)];
  return {
    reader: 'everyone',
    title: 'The release schedule',
    account,
    tables: [
      weeksTable(account, columns, true),
      ...others.flatMap(({ tables }) => tables.slice(1)),
      allLotsTable(account),
    ],
    tasks: [
      ...tasksOfKinds(account, TASK_KINDS),
      ...packTasks(account),
      ...sellTasks(account),
      ...shortTasks(account),
    ],
    rooms: account.rooms,
    cautions: [...new Set(others.flatMap(({ cautions }) => cautions))],
  };
}
