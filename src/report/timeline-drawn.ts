import { type DisplayUnits, fixed } from '../plan/display';
import type { ReleaseProblem, ReleaseSchedule } from '../release/types';
import type { RoomRisk, ShortRisk } from '../release/uncertainty';
import type { DrawnReport } from './across-json';
import { ALL_VARIETIES } from './timeline-supply';
import type { SupplySeries, TimelineRow, TimelineView } from './timeline-types';
import type { TimeAxis } from './timeline-weeks';

/** Seasons drawn for a schedule, with the problem that it answers. */
export interface DrawnSeasons extends DrawnReport {
  readonly problem: ReleaseProblem;
  readonly schedule: ReleaseSchedule;
}

/** The seasons, and whether the plan or its schedule has changed since they were drawn. */
export interface DrawnBeside {
  readonly seasons: DrawnSeasons;
  readonly older: boolean;
}

/** Heading of the cell that seasons drawn add to each row. */
const COLUMN = 'Costs if it alone does badly';
/** A room counts as one that the season hangs on where it costs this share of what the worst one does. */
const HANGS_SHARE = 1 / 3;
const MOST_HUNG = 8;
/** A chance below this share is not worth a word. */
const LEAST_CHANCE = 0.005;

/** The view with the chance of being short in each week, and with the rooms that the schedule hangs on. */
export function withDrawn(
  view: TimelineView,
  { seasons, older }: DrawnBeside,
  axis: TimeAxis,
  units: DisplayUnits,
): TimelineView {
  const { problem, drawn } = seasons;
  const shift = problem.firstWeek - axis.firstWeek;
  const risks = new Map<string, ShortRisk>(drawn.varieties.map((one) => [one.variety, one]));
  risks.set(ALL_VARIETIES, drawn.all);
  const [worst] = drawn.rooms;
  const least = HANGS_SHARE * (worst?.cost ?? 0);
  const hung = drawn.rooms.filter(({ cost }) => cost > 0 && cost >= least).slice(0, MOST_HUNG);
  const ofRoom = new Map(drawn.rooms.map((risk) => [problem.rooms[risk.room]?.fill ?? '', risk]));
  return {
    ...view,
    columns: [...view.columns, COLUMN],
    rows: view.rows.map((row) => {
      const risk = ofRoom.get(row.key);
      return besideRow(row, risk, risk ? hung.indexOf(risk) : -1, units, older);
    }),
    supply: view.supply.map((series) => {
      const risk = risks.get(series.name);
      return risk ? besideSupply(series, risk, shift, view.weeks, older) : series;
    }),
    drawn: { older, note: noteOf(seasons, units, older) },
  };
}

function besideRow(
  row: TimelineRow,
  risk: RoomRisk | undefined,
  rank: number,
  units: DisplayUnits,
  older: boolean,
): TimelineRow {
  if (!risk) return { ...row, cells: [...row.cells, ''] };
  const cost = `${units.currency} ${fixed(Math.max(0, risk.cost), 0)}`;
  const cells = [...row.cells, fixed(Math.max(0, risk.cost), 0)];
  if (rank < 0) return { ...row, cells };
  const soft =
    risk.softChance >= LEAST_CHANCE ? `; some of it soft in ${percent(risk.softChance)} of seasons` : '';
  const text = `The schedule hangs on it${rank === 0 ? ' most' : ''}: if it alone does badly that costs ${cost}${soft}${older ? ', by seasons drawn before the last change' : ''}.`;
  return { ...row, cells, hangs: { rank: rank + 1, text }, description: `${row.description} ${text}` };
}

function besideSupply(
  series: SupplySeries,
  risk: ShortRisk,
  shift: number,
  weeks: readonly string[],
  older: boolean,
): SupplySeries {
  const chance = weeks.map((_, week) => risk.weeks[week - shift]?.chance ?? 0);
  const most = chance.reduce((a, one, week) => (one > (chance[a] ?? 0) ? week : a), 0);
  const highest = chance[most] ?? 0;
  const when =
    highest < LEAST_CHANCE
      ? 'no week is short in the seasons drawn'
      : `some week is short in ${percent(risk.chance)} of the seasons drawn, most often ${weeks[most] ?? ''}, in ${percent(highest)}`;
  const text = `${older ? 'Before the last change ' : ''}${older ? when : capital(when)}.`;
  return { ...series, chance, description: `${series.description} ${text}` };
}

/** What the seasons came to, in a sentence or two. */
function noteOf({ drawn, comparison }: DrawnSeasons, { currency }: DisplayUnits, older: boolean): string {
  const money = (value: number) => `${currency} ${fixed(value, 0)}`;
  const worth = `${drawn.draws} seasons drawn: worth ${money(drawn.mean)} on average, ${money(drawn.low)} to ${money(drawn.high)} in eight of ten; some week is short in ${percent(drawn.all.chance)}.`;
  const gain = comparison && drawn.mean - comparison.expected.mean;
  const more =
    gain === undefined
      ? ''
      : ` Sought to be good across seasons: ${money(Math.abs(gain))} ${gain < 0 ? 'less' : 'more'} on average than the weeks that are best if all comes as planned.`;
  const age = older ? ' The plan has changed since: draw seasons again.' : '';
  return `${worth}${more}${age}`;
}

/** Below one in a hundred is told as such: nothing drawn is ever certain. */
export function percent(share: number): string {
  return share > 0 && share < 0.01 ? 'less than 1 %' : `${fixed(100 * share, 0)} %`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
