import { counted } from '../plan/wording';
import { byReason, fillSummary } from './fill-text';
import type { FillReport } from './schemas';
import { whole } from './text-cells';

type Row = FillReport['rooms'][number];

/** The fill proposal as a page of the editor; `gone` are rooms of it that are not left to accept. Names of the plan are escaped: they may hold what Markdown reads. */
export function fillMarkdown(report: FillReport, gone: readonly string[] = []): string {
  return [
    '# Fill proposal',
    ...fillSummary(report),
    ...goneText(report, gone),
    ...(report.rooms.length > 0
      ? [
          `${gone.length === 0 ? 'Nothing is written yet. ' : ''}*Accept All Fills* takes them all; *Accept This Room’s Fill* takes one, as does the light bulb over a room or a lot in the plan.`,
          roomTable(report.rooms),
        ]
      : []),
    ...report.rooms.flatMap(roomPart),
    ...listPart(
      'Without a room',
      byReason(report.unplaced).map(({ lots, reason }) => `${escaped(lots)}: ${escaped(reason)}`),
    ),
    ...listPart(
      'Not planned with',
      report.leftOut.map(
        ({ what, bins, reason }) =>
          `${escaped(what)}${bins > 0 ? `: ${counted(bins, 'bin')}` : ''}: ${reason}`,
      ),
    ),
    ...listPart(
      `Not topped up${report.today === undefined ? '' : ` (by ${report.today})`}`,
      (report.notToppedUp ?? []).map(
        ({ fill, room, reason }) => `${escaped(room)}, ${escaped(fill)}: ${escaped(reason)}`,
      ),
    ),
    `> ${report.caution}`,
    '',
  ].join('\n\n');
}

function goneText({ rooms }: FillReport, gone: readonly string[]): string[] {
  if (gone.length === 0) return [];
  const left = rooms.length === 0 ? 'Nothing of the proposal is left to accept.' : 'The others are left:';
  return [`In the plan already, or no longer possible: ${gone.map(escaped).join(', ')}. ${left}`];
}

function roomTable(rooms: readonly Row[]): string {
  const rows = rooms.map((row) =>
    [
      escaped(row.room),
      escaped(row.regime),
      whole(row.bins),
      whole(row.places),
      row.firstBin,
      row.lastBin,
      row.sealed ?? 'air',
      row.leavesBy?.first ?? '-',
    ].join(' | '),
  );
  return [
    '| Room | Regime | Bins | Places | First bin | Last bin | Sealed | Lasts to |',
    '| --- | --- | ---: | ---: | --- | --- | --- | --- |',
    ...rows.map((row) => `| ${row} |`),
  ].join('\n');
}

function roomPart(row: Row): string[] {
  const lots = row.lots.map(({ lot, variety, bins }) => `${escaped(lot)} ${escaped(variety)} ${whole(bins)}`);
  const before = row.binsBefore === undefined ? '' : `To the ${counted(row.binsBefore, 'bin')} it holds: `;
  const growers = row.growers.length === 0 ? '' : ` From ${row.growers.map(escaped).join(', ')}.`;
  return [
    `## ${escaped(row.room)}: ${escaped(row.fill)}`,
    `${before}${lots.join(', ')}.${growers}`,
    row.reasons.map((reason) => `- ${escaped(reason)}`).join('\n'),
  ];
}

function listPart(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [`## ${title}`, lines.map((line) => `- ${line}`).join('\n')];
}

function escaped(text: string): string {
  return text.replace(/[\\`*_[\]<>|#]/g, '\\$&');
}
