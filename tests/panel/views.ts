import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { timelineView } from '../../src/report/timeline';
import type { TimelineRow, TimelineView } from '../../src/report/timeline-types';
import { sampleFiles } from '../samples/sample';

/** The view model of a sample plan, as the server makes it. */
export function sampleView(name: string, today = '2026-12-09'): TimelineView {
  const season = computeSeason(readPlan(sampleFiles(name)));
  const day = parseDay(today);
  return timelineView(season, findingsOf(season), {
    revision: 1,
    ...(day === undefined ? {} : { today: day }),
  });
}

/** The same rooms over and over, each time under new names. */
export function withRows(view: TimelineView, count: number): TimelineView {
  const rows = Array.from({ length: count }, (_, at) => {
    const row = view.rows[at % view.rows.length] as TimelineRow;
    return { ...row, key: `${row.key}-${at}`, room: `${row.room}-${at}` };
  });
  return { ...view, rows };
}
