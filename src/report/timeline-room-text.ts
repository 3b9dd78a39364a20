import type { ComputedSeason } from '../findings/types';
import type { OpeningWindow, WindowEdge } from '../keeping/types';
import { formatDay, formatWeek } from '../plan/dates';
import type { DisplayUnits } from '../plan/display';
import { showFigure } from '../plan/display';
import { counted } from '../plan/wording';
import type { FilledRoom } from '../room/types';
import { confidenceCells, confidenceColumns, confidenceText, type ToldWindow } from './by-confidence';
import { varietiesOf } from './parts';
import type { RoomOpening } from './timeline-room';
import type { TimelineRow } from './timeline-types';

type Counts = TimelineRow['findings'];

/** Headings of a room's cells in the table twin. */
export const columns: readonly string[] = [
  'Room',
  'Variety',
  'Opens',
  'Window from',
  'Best before',
  'Latest',
  ...confidenceColumns,
  'Empty by',
  'Bins',
  'Regime',
  'First bin',
  'Last bin',
  'Sealed',
  'Findings',
];

export interface RoomTold {
  readonly filled: FilledRoom;
  readonly window: OpeningWindow | undefined;
  readonly byConfidence: ToldWindow | undefined;
  readonly opening: RoomOpening | undefined;
  readonly findings: Counts;
}

/** The row's figures, a cell for each of `columns`; empty where the plan does not tell. */
export function cellsOf(
  { filled, window, byConfidence, opening, findings }: RoomTold,
  units: DisplayUnits,
): string[] {
  const { fill } = filled;
  const day = (given: typeof fill.firstBin) => (given ? formatDay(given.value) : '');
  const week = (edge: WindowEdge | undefined) => (edge ? formatWeek(edge.week) : '');
  return [
    filled.room.id,
    varietiesOf(filled).join(', '),
    opening ? `${formatWeek(opening.week)}${mark(opening)}` : '',
    week(window?.earliest),
    week(window?.bestBefore),
    week(window?.latest),
    ...confidenceCells(byConfidence),
    opening?.emptyBy === undefined ? '' : formatWeek(opening.emptyBy),
    filled.bins ? showFigure(filled.bins, units).replace(/ bins$/, '') : '',
    fill.regime?.value ?? '',
    day(fill.firstBin),
    day(fill.lastBin),
    day(fill.sealed),
    findingsText(findings),
  ];
}

function mark({ pinned, passed }: RoomOpening): string {
  if (passed) return ' (week has passed)';
  return pinned ? ' (pinned)' : '';
}

/** The row in sentences. */
export function describeRoom(told: RoomTold, season: ComputedSeason, units: DisplayUnits): string {
  return [
    contents(told.filled, units),
    filling(told.filled),
    windowText(told.window),
    told.byConfidence ? confidenceText(told.byConfidence) : '',
    openingText(told, season.release !== undefined),
    findingsText(told.findings),
  ]
    .filter((sentence) => sentence !== '')
    .map((sentence) => `${sentence}.`)
    .join(' ');
}

function contents(filled: FilledRoom, units: DisplayUnits): string {
  const fruit = varietiesOf(filled).join(', ') || 'no lots yet';
  const bins = filled.bins ? `, ${showFigure(filled.bins, units)}` : '';
  const regime = filled.fill.regime ? `, in ${filled.fill.regime.value}` : '';
  return `Room ${filled.room.id}: ${fruit}${bins}${regime}`;
}

function filling({ fill }: FilledRoom): string {
  const [first, last] = [fill.firstBin, fill.lastBin];
  const filled =
    first && last
      ? `Filled ${formatDay(first.value)} to ${formatDay(last.value)}`
      : first || last
        ? `Filled ${formatDay((first ?? last)?.value ?? 0)}`
        : 'No filling dates';
  return `${filled}, ${fill.sealed ? `sealed ${formatDay(fill.sealed.value)}` : 'kept in air, not sealed'}`;
}

function windowText(window: OpeningWindow | undefined): string {
  if (!window) return 'No opening window: the plan lacks what it needs';
  const { earliest, bestBefore, latest } = window;
  if (latest.week < earliest.week)
    return `No opening week fits: ${limitText(earliest)} allows none before ${formatWeek(earliest.week)}, ${limitText(latest)} none after ${formatWeek(latest.week)}`;
  return `Opening window ${formatWeek(earliest.week)} to ${formatWeek(latest.week)}, best before ${formatWeek(bestBefore.week)}; ${limitText(latest)} sets the latest`;
}

function limitText({ limit, lot }: WindowEdge): string {
  return lot ? `${limit} of lot ${lot.id}` : limit;
}

function openingText({ filled, window, opening }: RoomTold, scheduled: boolean): string {
  const pin = filled.fill.open && formatWeek(filled.fill.open.value);
  if (!opening && pin) return `Pinned to ${pin}, which cannot be kept: stays shut in this schedule`;
  if (!opening) return scheduled ? 'Stays shut in this schedule' : 'No opening week yet';
  if (opening.opened) {
    const out = opening.emptyBy === undefined ? '' : `, packed out by ${formatWeek(opening.emptyBy)}`;
    return `Was opened in ${formatWeek(opening.week)}${lateness(opening, window)}${out}`;
  }
  const pinned = opening.pinned ? ', pinned' : opening.passed ? ' (week has passed)' : '';
  const emptied =
    opening.emptyBy === undefined ? '' : `, and is packed out by ${formatWeek(opening.emptyBy)}`;
  const moved = pin && !opening.pinned ? `, though pinned to ${pin}` : '';
  return `Opens ${formatWeek(opening.week)}${pinned}${moved}${lateness(opening, window)}${emptied}`;
}

function lateness({ week }: RoomOpening, window: OpeningWindow | undefined): string {
  if (!window) return '';
  const { earliest, bestBefore, latest } = window;
  if (week < earliest.week) return `, ${counted(earliest.week - week, 'week')} before it may`;
  if (week > latest.week) return `, ${counted(week - latest.week, 'week')} after the latest`;
  return week > bestBefore.week ? `, ${counted(week - bestBefore.week, 'week')} after best before` : '';
}

/** `1 error, 2 warnings`; empty where there are none. */
export function findingsText({ errors, warnings, notices }: Counts): string {
  return [
    errors > 0 ? counted(errors, 'error') : '',
    warnings > 0 ? counted(warnings, 'warning') : '',
    notices > 0 ? counted(notices, 'notice') : '',
  ]
    .filter((text) => text !== '')
    .join(', ');
}
