import { counted } from '../plan/wording';
import { inMarkdown } from './in-markdown';
import type { TakeInReport } from './schemas';

/** What taking in a file would change, as a page of the editor: the rows that are not taken first. */
export function takeInMarkdown(report: TakeInReport): string {
  const { source, table, holds, rows, changes, faults, alreadyThere } = report;
  const counts = [
    `${counted(rows, 'row')} read`,
    counted(changes.length, 'change'),
    ...(alreadyThere > 0 ? [`${counted(alreadyThere, 'value')} there already`] : []),
    ...(faults.length > 0 ? [`${counted(faults.length, 'row or entry', 'rows or entries')} not taken`] : []),
  ];
  return [
    `# ${inMarkdown(source)} into the plan`,
    `By the table ${inMarkdown(table)}, which holds ${holds}: ${counts.join(', ')}. ${
      changes.length > 0 ? 'Nothing is changed yet.' : 'There is nothing to change.'
    }`,
    ...(report.caution === undefined ? [] : [`> **${report.caution}**`]),
    ...faultsPart(report),
    ...changesPart(report),
    '',
  ].join('\n\n');
}

function faultsPart({ faults, source }: TakeInReport): string[] {
  if (faults.length === 0) return [];
  const lines = faults.map(({ line, reason }) => `- ${inMarkdown(source)}:${line} ${inMarkdown(reason)}`);
  return ['## Not taken', lines.join('\n')];
}

function changesPart({ changes }: TakeInReport): string[] {
  if (changes.length === 0) return [];
  const row = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [
    '## What changes',
    [
      row(['Entry', 'Key', 'Before', 'After', 'Lines of the file']),
      row(['---', '---', '---', '---', '---']),
      ...changes.map(({ entry, key, before, after, lines }) =>
        row([entry, key, before ?? '-', after, linesText(lines)].map(inMarkdown)),
      ),
    ].join('\n'),
  ];
}

function linesText(lines: readonly number[]): string {
  return lines.length > 4 ? `${lines.slice(0, 3).join(', ')} and ${lines.length - 3} more` : lines.join(', ');
}
