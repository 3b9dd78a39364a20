import { formatDay } from '../../plan/dates';
import { shortened } from '../../plan/shortened';
import { cellText, heading } from './cell-text';
import { NOTHING_OF_KIND, writtenFor } from './marks';
import { beforeTables, type Paper, type PaperTable } from './paper';

/** A paper as Markdown: the cautions above all else, then its tables. */
export function markdownText(paper: Paper): string {
  const { account } = paper;
  const intro = [
    `<!-- ${writtenFor(paper.reader)} -->`,
    '',
    `# ${escaped(paper.title)}: ${escaped(shortened(account.title))}`,
    '',
    ...(account.issued === undefined ? [] : [`Issued ${formatDay(account.issued)}.`, '']),
    ...beforeTables(paper).flatMap((line) => [line, '']),
    ...account.conflicts.flatMap((conflict) => [`- ${escaped(conflict)}`]),
    ...(account.conflicts.length > 0 ? [''] : []),
    ...paper.cautions.flatMap((caution) => [`> **${caution}**`, '']),
  ];
  return `${[...intro, ...paper.tables.flatMap(section)].join('\n').trimEnd()}\n`;
}

function section({ title, columns, rows }: PaperTable): string[] {
  if (rows.length === 0) return [`## ${title}`, '', NOTHING_OF_KIND, ''];
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [
    `## ${title}`,
    '',
    line(columns.map((column) => escaped(heading(column)))),
    line(columns.map(({ kind }) => (kind === 'number' ? '--:' : '---'))),
    ...rows.map((row) => line(columns.map((column, index) => escaped(cellText(column, row[index] ?? null))))),
    '',
  ];
}

/** Text that Markdown would read as marks of its own, kept as it is; line ends as spaces. */
function escaped(text: string): string {
  return text.replace(/[\\`*_[\]<>|#&~]/g, '\\$&').replace(/\s*[\r\n]+\s*/g, ' ');
}
