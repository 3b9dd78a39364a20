import { inMarkdown } from './in-markdown';
import {
  changeCell,
  findingLines,
  gravest,
  loadCells,
  opensCell,
  totalRows,
  weeksText,
  whatIfTitle,
  windowCell,
} from './scenario-text';
import type { WhatIfReport } from './schemas';

/** The base beside a scenario as Markdown: what matters first, the tables folded away. */
export function whatIfMarkdown(report: WhatIfReport): string {
  const { broken, mended } = report.expectations;
  return [
    `**${inMarkdown(whatIfTitle(report))}**`,
    '',
    `> ${inMarkdown(report.caution)}`,
    '',
    inMarkdown(weeksText(report)),
    '',
    ...report.notApplied.map(
      ({ message, place }) =>
        `- does not fit (${inMarkdown(`${place.file}:${place.line}`)}): ${inMarkdown(message)}`,
    ),
    ...(report.notApplied.length > 0 ? [''] : []),
    ...rows(['', 'Base', 'Scenario', 'Change'], totalRows(report)),
    '',
    ...list(gravest(report)),
    ...list(broken.map(({ id, claim, why }) => `promise ${id} broken: ${claim}. ${why}`)),
    ...list(mended.map(({ id, claim }) => `promise ${id} mended: ${claim}`)),
    ...folded(
      `Windows and openings (${report.rooms.length})`,
      ['Room', 'Fill', 'Window, base', 'with the scenario', 'Opens, base', 'then'],
      report.rooms.map(({ room, fill, base, over }) => [
        room,
        fill,
        windowCell(base),
        windowCell(over),
        opensCell(base),
        opensCell(over),
      ]),
    ),
    ...folded(
      `Shared equipment (${report.machines.length})`,
      ['Equipment', 'Heaviest week, base', 'with the scenario'],
      report.machines.map(({ kind, id, base, over }) => [`${kind} ${id}`, ...loadCells(base, over)]),
    ),
    ...folded(
      `Cartons (${report.products.length})`,
      ['Cartons of', 'Sold', 'Short', 'To processing'],
      report.products.map(({ variety, packClass, base, over }) => [
        `${variety} ${packClass}`,
        changeCell(base, over, 'sold'),
        changeCell(base, over, 'short'),
        changeCell(base, over, 'unsold'),
      ]),
    ),
    ...folded(
      `Findings new and gone (${report.findings.new.length + report.findings.gone.length})`,
      ['', 'Finding'],
      [
        ...findingLines(report.findings.new).map((line) => ['new', line]),
        ...findingLines(report.findings.gone).map((line) => ['gone', line]),
      ],
    ),
  ]
    .join('\n')
    .trimEnd()
    .concat('\n');
}

function list(lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [...lines.map((line) => `- ${inMarkdown(line)}`), ''];
}

function rows(titles: readonly string[], cells: readonly (readonly string[])[]): string[] {
  return [
    `| ${titles.map(inMarkdown).join(' | ')} |`,
    `| ${titles.map(() => '---').join(' | ')} |`,
    ...cells.map((row) => `| ${row.map(inMarkdown).join(' | ')} |`),
  ];
}

function folded(title: string, titles: readonly string[], cells: readonly (readonly string[])[]): string[] {
  if (cells.length === 0) return [];
  return [
    `<details><summary>${inMarkdown(title)}</summary>`,
    '',
    ...rows(titles, cells),
    '',
    '</details>',
    '',
  ];
}
