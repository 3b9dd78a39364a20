import type { ComputedSeason, Finding } from '../findings/types';
import { type Day, weekOfDay } from '../plan/dates';
import { shortened } from '../plan/shortened';
import { caution } from '../room/caution';
import { ToldWindows } from './by-confidence';
import { displayUnits } from './explain';
import { type DrawnBeside, withDrawn } from './timeline-drawn';
import { loadBands } from './timeline-loads';
import { scheduleNote } from './timeline-note';
import { type OtherPlan, withOther } from './timeline-other';
import { columns } from './timeline-room-text';
import { timelineRows } from './timeline-rows';
import { scrubberSeries } from './timeline-scrubbers';
import { supplySeries } from './timeline-supply';
import type { TimelineView } from './timeline-types';
import { monthLabels, timeAxis, todayOn, weekLabels } from './timeline-weeks';

export interface TimelineOptions {
  readonly revision: number;
  readonly today?: Day;
  /** Tells the plans, and the runs that count revisions, apart. */
  readonly plan?: string;
  /** Another state to hold the plan against. */
  readonly against?: OtherPlan;
  /** Seasons drawn for the schedule, now or before the last change. */
  readonly drawn?: DrawnBeside;
  /** Windows by confidence that were worked out before; all are worked out anew without. */
  readonly windows?: ToldWindows;
}

/** The room timeline's view model: plain data, ready to draw. Never throws, whatever the plan lacks. */
export function timelineView(
  season: ComputedSeason,
  findings: readonly Finding[],
  options: TimelineOptions,
): TimelineView {
  const { revision, plan } = options;
  const which = plan === undefined ? {} : { plan };
  const title = shortened(season.plan.season?.name?.value ?? 'Room timeline');
  const axis = timeAxis(season);
  const reason = whyEmpty(season) ?? (axis ? undefined : NO_DATES);
  if (!axis || reason !== undefined) {
    const nothing = { weeks: [], months: [], columns, rows: [], supply: [], scrubbers: [], scheduleNote: '' };
    return { ...which, revision, title, ...nothing, empty: reason ?? NO_DATES, caution };
  }
  const units = displayUnits(season.plan);
  const today = todayOn(axis, options.today);
  const thisWeek = options.today === undefined ? undefined : weekOfDay(options.today);
  const rows = timelineRows(season, findings, axis, units, options.windows ?? new ToldWindows(), thisWeek);
  const passed = rows.filter(({ opens }) => opens?.passed).length;
  const view: TimelineView = {
    ...which,
    revision,
    title,
    weeks: weekLabels(axis),
    months: monthLabels(axis),
    ...(today === undefined ? {} : { today }),
    columns,
    rows,
    supply: supplySeries(season, axis),
    scrubbers: scrubberSeries(season, axis, units),
    loads: loadBands(season, axis, units),
    scheduleNote: scheduleNote(season, units, passed),
    caution,
  };
  const beside = options.against ? withOther(view, options.against, axis, units) : view;
  return options.drawn ? withDrawn(beside, options.drawn, axis, units) : beside;
}

const NO_DATES =
  'The plan has no dates to draw. Give the season `starts` and `ends`, and each fill `first-bin` and `last-bin`.';

function whyEmpty({ plan, filled }: ComputedSeason): string | undefined {
  if (filled.size > 0) return undefined;
  if (plan.rooms.size === 0)
    return 'This plan has no rooms yet. Write them under `rooms`, then say under `fills` which lots go into them.';
  if (plan.fills.size === 0)
    return 'No room is filled in this plan. Write under `fills` which lots go to which room, and when.';
  return 'No fill names a room that the plan has. Check `room` in each fill against the names under `rooms`.';
}
