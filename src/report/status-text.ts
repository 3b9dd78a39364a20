import { shortened } from '../plan/shortened';
import { withFolderTyped } from './command-to-copy';
import { inMarkdown } from './in-markdown';
import { noPaint, type Paint } from './paint';
import type { StatusReport } from './schemas';
import { statusHeadlines } from './status-report';
import { type StatusTable, statusTables } from './status-tables';
import { PAGE_WIDTH, table, wrap } from './table';

/** Where the season stands, for people; `folder` is the plan's, as it was typed. */
export function statusText(report: StatusReport, paint: Paint = noPaint, folder?: string): string {
  return [
    ...wrap(paint.bold(titleOf(report)), PAGE_WIDTH),
    ...statusHeadlines(report).flatMap((line) => wrap(withFolderTyped(line, folder), PAGE_WIDTH, '  ')),
    ...statusTables(report).flatMap((part) => ['', paint.bold(part.title), ...partText(part, folder)]),
    '',
    ...wrap(report.caution, PAGE_WIDTH),
  ].join('\n');
}

function titleOf({ plan, asOf }: StatusReport): string {
  return `${shortened(plan.season ?? 'The season')} at the end of ${asOf}`;
}

function partText({ columns, rows, none, after, keys }: StatusTable, folder: string | undefined): string[] {
  return [
    ...(rows.length > 0 ? table(columns, rows, keys === undefined ? {} : { keys }) : none ? [none] : []),
    ...after.flatMap((line) => wrap(withFolderTyped(line, folder), PAGE_WIDTH, '  ')),
  ];
}

/** The same as Markdown. */
export function statusMarkdown(report: StatusReport, folder?: string): string {
  return `${[
    `# ${inMarkdown(titleOf(report))}`,
    '',
    ...statusHeadlines(report).map((line) => `- ${inMarkdown(withFolderTyped(line, folder))}`),
    ...statusTables(report).flatMap((part) => [
      '',
      `## ${inMarkdown(part.title)}`,
      '',
      ...partMarkdown(part, folder),
    ]),
    '',
    `> ${inMarkdown(report.caution)}`,
  ].join('\n')}\n`;
}

function partMarkdown({ columns, rows, none, after }: StatusTable, folder: string | undefined): string[] {
  const line = (cells: readonly string[]) => `| ${cells.map(inMarkdown).join(' | ')} |`;
  const head = [
    line(columns.map(({ title, unit }) => (unit ? `${title}, ${unit}` : title))),
    `| ${columns.map(({ align }) => (align === 'right' ? '--:' : '---')).join(' | ')} |`,
  ];
  const body = rows.length > 0 ? [...head, ...rows.map(line)] : none ? [inMarkdown(none)] : [];
  const notes = after.map((note) => `- ${inMarkdown(withFolderTyped(note, folder))}`);
  return [...body, ...(body.length > 0 && notes.length > 0 ? [''] : []), ...notes];
}
