import { counted } from '../plan/wording';
import { gasAssumedLines } from './gas-assumed';
import { noPaint, type Paint } from './paint';
import { notReadText, seasonBefore } from './parts';
import { countedRooms, namedRows } from './room-names';
import type { WindowsReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';
import { cell, whole } from './text-cells';
import { WEEK_PASSED, weekPassedLines } from './week-passed';
import { confidenceTable, roomConfidence } from './windows-confidence-text';
import { movesTable, risksTable, roomMoves, setBy } from './windows-moves-text';

type Row = WindowsReport['rooms'][number];

/** The windows report as text. `room`: it is about one room only, which is told in full. */
export function windowsText(computed: WindowsReport, paint: Paint = noPaint, room?: string): string {
  const report = { ...computed, rooms: namedRows(computed.rooms) };
  const season = seasonBefore(report.plan);
  // Opened rooms are told apart: nothing about them is left to decide. Asked for alone, one has its window all the same.
  const left =
    room === undefined ? computed.rooms.filter(({ opened }) => opened === undefined) : computed.rooms;
  const toOpen = namedRows(left, computed.rooms);
  const withStatus = toOpen.some((row) => row.status !== undefined);
  const columns = [
    { title: 'Room' },
    { title: 'Variety', breaks: true },
    { title: 'Bins', align: 'right' as const },
    { title: 'Earliest' },
    { title: 'Best before' },
    { title: 'Latest' },
    { title: 'Latest is set by', breaks: true },
    { title: 'Pinned' },
    ...(withStatus ? [{ title: 'Today', breaks: true }] : []),
  ];
  const lines = table(
    columns,
    toOpen.map((row) => [...windowCells(row), ...(withStatus ? [todayText(row)] : [])]),
  );
  const confidence = report.confidence ? ` at ${cell(report.confidence, 0)} % confidence` : '';
  return [
    paint.bold(
      `${season}${toOpen.length > 0 ? `opening windows of ${countedRooms(left, 'filled room')}${confidence}` : nothingToOpen(report)}`,
    ),
    ...[notReadText(report.plan)].flatMap((text) =>
      text === undefined ? [] : ['', ...wrap(text, PAGE_WIDTH)],
    ),
    ...(toOpen.length > 0 ? ['', ...lines] : []),
    ...openedLines(report),
    ...emptyLines(toOpen, paint),
    ...gasAssumedLines(toOpen),
    ...(room === undefined ? confidenceTable(toOpen) : toOpen.flatMap(roomConfidence)),
    ...(room === undefined ? movesTable(toOpen) : toOpen.flatMap(roomMoves)),
    ...risksTable(toOpen, room !== undefined),
    ...weekPassedLines(
      report.rooms.flatMap(({ room, chosen, weekPassed }) => (weekPassed ? [{ room, opens: chosen }] : [])),
      report.today,
      'by a quick schedule',
    ),
    ...(toOpen.length > 0 ? ['', ...wrap(aboutLatest(room), PAGE_WIDTH)] : []),
    '',
    ...wrap(report.caution, PAGE_WIDTH),
  ].join('\n');
}

function nothingToOpen({ rooms }: WindowsReport): string {
  return rooms.length > 0
    ? 'no room is left to be opened'
    : 'the plan has no filled room yet, and none to be opened';
}

function aboutLatest(room: string | undefined): string {
  const order = room === undefined ? ' Rooms are in the order in which they must be open.' : '';
  return `Latest is the last week in which opening still lets the room be packed out before its first lot falls below standard.${order}`;
}

function todayText({ status, weekPassed }: Row): string {
  return [status, weekPassed ? WEEK_PASSED : undefined].filter((text) => text !== undefined).join(', ');
}

function windowCells(row: Row): string[] {
  const { latest } = row;
  return [
    row.room,
    row.varieties.join(', '),
    cell(row.bins),
    row.earliest?.week ?? '-',
    row.bestBefore?.week ?? '-',
    latest?.week ?? 'not known',
    setBy(latest),
    row.pinned ?? '',
  ];
}

/** Of rooms that were opened. No word of them says that one may be entered. */
function openedLines({ rooms }: WindowsReport): string[] {
  const lines = rooms.flatMap(({ room, opened, emptied }) => {
    if (opened === undefined) return [];
    const since = emptied === undefined ? 'is being packed out' : `was empty on ${emptied}`;
    return wrap(`${room} was opened on ${opened} and ${since}.`, PAGE_WIDTH, '  ');
  });
  return lines.length > 0 ? ['', ...lines] : [];
}

function emptyLines(rooms: readonly Row[], paint: Paint): string[] {
  const lines = rooms.flatMap((row) => {
    if (row.opened !== undefined) return [];
    const why = emptyText(row) ?? tooLargeText(row);
    if (why === undefined) return [];
    return wrap(`${row.room} has no week to open in: ${why}.`, PAGE_WIDTH, '  ').map(paint.error);
  });
  return lines.length > 0 ? ['', ...lines] : [];
}

function emptyText({ empty, earliest, latest }: Row): string | undefined {
  if (!empty || !earliest || !latest) return undefined;
  return `not before ${earliest.week} (${earliest.limit}), not after ${latest.week} (${latest.limit})`;
}

function tooLargeText({ tooLarge, bins }: Row): string | undefined {
  if (!tooLarge) return undefined;
  return `it holds ${cell(bins)} bins, and the packhouse runs ${tooLarge.packableBins < 0.5 ? 'none' : `at most ${whole(tooLarge.packableBins)}`} in the ${counted(tooLarge.weeks, 'week')} it may take to empty a room`;
}
