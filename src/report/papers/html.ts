import { shortened } from '../../plan/shortened';
import { type PaperSize, printStyle } from './html-style';
import { htmlTable } from './html-table';
import { NOTHING_OF_KIND, writtenFor } from './marks';
import { pageHead } from './page-head';
import { beforeTables, type Paper, type PaperTable } from './paper';
import { roomPage } from './room-page';
import { xmlText } from './xml';

export type { PaperSize } from './html-style';

/**
 * A paper to print: the season week by week on the first page, then a page for each room, or the reader's other tables
 * where rooms have none. It has no script and takes nothing from a network; black and white lose nothing.
 */
export function htmlText(paper: Paper, size: PaperSize): string {
  const [overview, ...others] = paper.tables;
  const pages = [
    ...(overview ? [overviewPage(paper, overview, paper.rooms.length > 0 ? [] : others)] : []),
    ...paper.rooms.map((room) => roomPage(room, paper)),
  ];
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta name="generator" content="${writtenFor(paper.reader)}">`,
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    '<meta name="viewport" content="width=device-width">',
    `<title>${xmlText(`${paper.title}: ${shortened(paper.account.title)}`)}</title>`,
    `<style>${printStyle(size)}</style>`,
    '</head>',
    '<body>',
    ...pages,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function overviewPage(paper: Paper, overview: PaperTable, others: readonly PaperTable[]): string {
  const { account } = paper;
  return [
    '<section class="page overview">',
    pageHead(paper, paper.title),
    ...beforeTables(paper).map((line) => `<p>${xmlText(line)}</p>`),
    ...account.conflicts.map((conflict) => `<p class="conflict">${xmlText(conflict)}</p>`),
    htmlTable(overview),
    ...others.map(
      (table) =>
        `<h2>${xmlText(table.title)}</h2>\n${table.rows.length === 0 ? `<p>${NOTHING_OF_KIND}</p>` : htmlTable(table)}`,
    ),
    '</section>',
  ].join('\n');
}
