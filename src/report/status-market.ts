import { type Day, firstDayOfWeek, formatWeek, type Week, weekOfDay } from '../plan/dates';
import type { Plan } from '../plan/model';
import { byName } from './papers/by-name';
import { present } from './parts';
import type { StatusReport } from './schemas';

type MarketPart = StatusReport['market'];

interface Line {
  readonly market: string;
  readonly variety: string;
  readonly packClass: string;
  wanted: number;
  wantedLater: number;
  sold: number;
}

/** Sold against wanted by market, variety and class, in the weeks that are over at the end of a day. */
export function marketPart(plan: Plan, stand: Day): MarketPart {
  const through = lastWeekOver(stand);
  const lines = linesOf(plan, through);
  const salesRecorded = plan.sales.size > 0;
  return present({
    through: formatWeek(through),
    salesRecorded,
    lines: [...lines.values()]
      .sort(
        (a, b) =>
          byName(a.market, b.market) || byName(a.variety, b.variety) || byName(a.packClass, b.packClass),
      )
      .map(({ sold, ...line }) =>
        present({
          ...line,
          sold: salesRecorded ? sold : undefined,
          short: salesRecorded ? Math.max(0, line.wanted - sold) : undefined,
        }),
      ),
  });
}

/** Longer spans are slips of the keyboard. */
const MOST_WEEKS = 520;

/** The last week whose Sunday is not after the day. */
function lastWeekOver(stand: Day): Week {
  const week = weekOfDay(stand);
  return stand === firstDayOfWeek(week) + 6 ? week : week - 1;
}

function linesOf(plan: Plan, through: Week): Map<string, Line> {
  const lines = new Map<string, Line>();
  const at = (market = '', variety = '', packClass = ''): Line => {
    const key = JSON.stringify([market, variety, packClass]);
    const line = lines.get(key) ?? { market, variety, packClass, wanted: 0, wantedLater: 0, sold: 0 };
    lines.set(key, line);
    return line;
  };
  for (const { market, variety, packClass, weeks, byWeek, cartons } of plan.demand.values()) {
    if (!weeks) continue;
    const line = at(market?.value, variety?.value, packClass?.value);
    const { first, last } = weeks.value;
    for (let week = first; week <= Math.min(last, first + MOST_WEEKS); week++) {
      const wanted = (byWeek.get(week) ?? cartons)?.value ?? 0;
      if (week <= through) line.wanted += wanted;
      else line.wantedLater += wanted;
    }
  }
  for (const { market, variety, packClass, week, cartons } of plan.sales.values())
    if (week && week.value <= through)
      at(market?.value, variety?.value, packClass?.value).sold += cartons?.value ?? 0;
  return lines;
}
