import type { ComputedSeason, Finding } from '../findings/types';
import type { Week } from '../plan/dates';
import type { DisplayUnits } from '../plan/display';
import { showFigure } from '../plan/display';
import type { Entry, Room } from '../plan/model';
import type { FilledRoom } from '../room/types';
import { latestText, type ToldWindow, type ToldWindows } from './by-confidence';
import { countFindings, varietiesOf } from './parts';
import { roomNames } from './room-names';
import { marksOf } from './timeline-marks';
import { openingOf, pinFor, stagesOf } from './timeline-room';
import { cellsOf, columns, describeRoom, findingsText } from './timeline-room-text';
import type { ConfidenceStep, TimelineRow } from './timeline-types';
import type { TimeAxis } from './timeline-weeks';

const byRoomName = new Intl.Collator('en', { numeric: true, sensitivity: 'variant' });

/**
 * A row for each fill and for each room that nothing fills, in the natural order of the rooms' names. `thisWeek` is
 * today's week.
 */
export function timelineRows(
  season: ComputedSeason,
  findings: readonly Finding[],
  axis: TimeAxis,
  units: DisplayUnits,
  windows: ToldWindows,
  thisWeek?: Week,
): TimelineRow[] {
  const used = new Set([...season.filled.values()].map(({ room }) => room.id));
  const idle = [...season.plan.rooms.values()].filter(({ id }) => !used.has(id));
  const rows = [
    ...[...season.filled.values()].map((filled) =>
      filledRow(season, filled, findings, axis, units, windows, thisWeek),
    ),
    ...idle.map((room) => idleRow(room, findings)),
  ];
  const start = (row: TimelineRow) => row.filling?.from ?? Number.POSITIVE_INFINITY;
  const sorted = rows.sort(
    (a, b) =>
      byRoomName.compare(a.room, b.room) || compare(start(a), start(b)) || byRoomName.compare(a.key, b.key),
  );
  return used.size === season.filled.size ? sorted : withFills(sorted);
}

/** Rows of a room that is filled more than once bear their fill's name with the room's, as in every report. */
function withFills(rows: readonly TimelineRow[]): TimelineRow[] {
  const name = roomNames(rows.map(({ room, key }) => ({ room, fill: key })));
  return rows.map((row) => {
    const room = name({ room: row.room, fill: row.key });
    const [, ...others] = row.cells;
    return room === row.room ? row : { ...row, room, cells: [room, ...others] };
  });
}

function filledRow(
  season: ComputedSeason,
  filled: FilledRoom,
  findings: readonly Finding[],
  axis: TimeAxis,
  units: DisplayUnits,
  windows: ToldWindows,
  thisWeek: Week | undefined,
): TimelineRow {
  const { fill, room } = filled;
  const opening = openingOf(season, filled, thisWeek);
  const pin = pinFor(season, filled, opening);
  const within = findingsIn(findings, [fill, room]);
  const marks = marksOf(within, axis);
  const keeping = season.keeping.get(fill.id);
  const byConfidence = keeping && windows.of(season.plan, keeping);
  const told = {
    filled,
    window: keeping?.window,
    byConfidence,
    opening,
    findings: countFindings(within),
  };
  return {
    key: fill.id,
    room: room.id,
    varieties: varietiesOf(filled).join(', '),
    bins: filled.bins ? showFigure(filled.bins, units) : '',
    regime: fill.regime?.value ?? '',
    target: fill.at,
    ...stagesOf(season, filled, opening, axis),
    ...(byConfidence && { byConfidence: stepsOn(byConfidence, room.id, axis) }),
    ...(pin !== undefined && { pin }),
    findings: told.findings,
    ...(marks.length > 0 && { marks }),
    description: describeRoom(told, season, units),
    cells: cellsOf(told, units),
  };
}

function stepsOn(told: ToldWindow, room: string, { firstWeek }: TimeAxis): ConfidenceStep[] {
  return told.latest.map((one) => ({
    confidence: one.confidence,
    ...(one.isPlans && { isPlans: true }),
    latest: one.week - firstWeek,
    text: latestText(room, told, one),
  }));
}

function idleRow(room: Room, findings: readonly Finding[]): TimelineRow {
  const found = findingsWithin(findings, [room]);
  const text = findingsText(found);
  return {
    key: `room:${room.id}`,
    room: room.id,
    varieties: 'not filled',
    bins: '',
    regime: '',
    target: room.at,
    findings: found,
    description: `Room ${room.id}: nothing fills it in this plan.${text === '' ? '' : ` ${text}.`}`,
    cells: columns.map((_, at) => {
      if (at === 0) return room.id;
      return at === columns.length - 1 ? text : '';
    }),
  };
}

/** How many findings stand in the text of the entries. */
export function findingsWithin(
  findings: readonly Finding[],
  entries: readonly Entry[],
): TimelineRow['findings'] {
  return countFindings(findingsIn(findings, entries));
}

/** The findings that stand in the text of the entries. */
export function findingsIn(findings: readonly Finding[], entries: readonly Entry[]): Finding[] {
  return findings.filter(({ at }) =>
    entries.some(
      (entry) =>
        at.file === entry.at.file &&
        at.start >= entry.at.start &&
        at.start < Math.max(entry.at.end, entry.places.span.end),
    ),
  );
}

/** Infinities too: two rooms without dates stand as equal. */
function compare(a: number, b: number): number {
  return a === b ? 0 : a < b ? -1 : 1;
}
