import type { ComputedSeason } from '../findings/types';
import type { DisplayUnits } from '../plan/display';
import { fixed } from '../plan/display';
import { counted } from '../plan/wording';
import { LEAST_AMOUNT } from './amounts';
import { openingOf, stagesOf } from './timeline-room';
import { supplySeries } from './timeline-supply';
import type { OtherState, SupplySeries, TimelineRow, TimelineView } from './timeline-types';
import type { TimeAxis } from './timeline-weeks';

/** Another state of the plan, computed by the same functions, and what it is called. */
export interface OtherPlan {
  readonly label: string;
  readonly season: ComputedSeason;
}

/** Headings of the cells that the other state adds to each row. */
const COLUMNS = ['Other state: opens', 'Other state: window'];

/** The view with the other state beside each row and each supply, on the weeks of this one. */
export function withOther(
  view: TimelineView,
  { label, season }: OtherPlan,
  axis: TimeAxis,
  units: DisplayUnits,
): TimelineView {
  const rows = view.rows.map((row) => besideRow(row, season, axis, view.weeks));
  const supplies = new Map(supplySeries(season, axis).map((series) => [series.name, series]));
  const supply = view.supply.map((series) => besideSupply(series, supplies.get(series.name)));
  const known = new Set(view.rows.map(({ key }) => key));
  const gone = [...season.filled.keys()].filter((fill) => !known.has(fill));
  return {
    ...view,
    columns: [...view.columns, ...COLUMNS],
    rows,
    supply,
    against: { label, note: noteOf(label, rows, gone, view, season, units) },
  };
}

function besideRow(
  row: TimelineRow,
  season: ComputedSeason,
  axis: TimeAxis,
  weeks: readonly string[],
): TimelineRow {
  const filled = season.filled.get(row.key);
  if (!filled) {
    const difference = row.key.startsWith('room:') ? '' : 'Not in the other state.';
    return { ...row, ...told(row, difference), cells: [...row.cells, '', ''] };
  }
  const stages = stagesOf(season, filled, openingOf(season, filled), axis);
  const { window, opens, emptying } = stages;
  const difference = differenceOf(row, stages, weeks);
  const other: OtherState = {
    ...(window && { window: { earliest: window.earliest, latest: window.latest } }),
    ...(opens && { opens: opens.week }),
    ...(emptying && { emptying }),
    difference,
  };
  return {
    ...row,
    other,
    ...told(row, difference),
    cells: [...row.cells, labelOf(opens?.week, weeks), windowText(window, weeks)],
  };
}

function told({ description }: TimelineRow, difference: string): { readonly description: string } {
  return { description: difference === '' ? description : `${description} ${difference}` };
}

type Stages = ReturnType<typeof stagesOf>;

function differenceOf(row: TimelineRow, { opens, window }: Stages, weeks: readonly string[]): string {
  const parts: string[] = [];
  if (opens?.week !== row.opens?.week)
    parts.push(opens ? `opens ${labelOf(opens.week, weeks)}` : 'does not open');
  if (window?.earliest !== row.window?.earliest || window?.latest !== row.window?.latest)
    parts.push(window ? `window ${windowText(window, weeks)}` : 'has no window');
  return parts.length === 0 ? '' : `In the other state it ${parts.join(', ')}.`;
}

function windowText(window: Stages['window'], weeks: readonly string[]): string {
  return window ? `${labelOf(window.earliest, weeks)} to ${labelOf(window.latest, weeks)}` : '';
}

/** A week off the axis has no label. */
function labelOf(week: number | undefined, weeks: readonly string[]): string {
  if (week === undefined) return '';
  return weeks[week] ?? (week < 0 ? 'before the season' : 'after the season');
}

function besideSupply(series: SupplySeries, other: SupplySeries | undefined): SupplySeries {
  if (!other || other.supply.length === 0) return series;
  const [here, there] = [total(series.supply), total(other.supply)];
  const difference =
    Math.abs(here - there) < LEAST_AMOUNT
      ? 'The other state supplies as much.'
      : `The other state supplies ${fixed(there, 0)}, ${fixed(Math.abs(there - here), 0)} ${there > here ? 'more' : 'less'}.`;
  return { ...series, other: other.supply, description: `${series.description} ${difference}` };
}

function total(cartons: readonly number[]): number {
  return cartons.reduce((sum, one) => sum + one, 0);
}

function noteOf(
  label: string,
  rows: readonly TimelineRow[],
  gone: readonly string[],
  view: TimelineView,
  season: ComputedSeason,
  units: DisplayUnits,
): string {
  const moved = rows.filter(({ other }) => other !== undefined && other.difference !== '').length;
  const fresh = rows.filter(({ key, other }) => other === undefined && !key.startsWith('room:')).length;
  const parts = [
    moved > 0 ? `${counted(moved, 'room')} ${moved === 1 ? 'differs' : 'differ'}` : '',
    fresh > 0 ? `${counted(fresh, 'fill')} only here` : '',
    gone.length > 0 ? `${counted(gone.length, 'fill')} only there` : '',
  ].filter((part) => part !== '');
  const value = season.release?.result.schedule.value;
  const worth =
    value === undefined ? '' : ` Its quick schedule is worth ${units.currency} ${fixed(value, 0)}.`;
  const differs = parts.length === 0 ? 'no room differs' : parts.join(', ');
  return `Against ${label}: ${differs}.${view.supply.length > 0 ? worth : ''}`;
}
