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
  /** Cartons of the weeks that are over. */
  readonly weeks: Map<Week, { wanted: number; sold: number }>;
  wantedLater: number;
}

/**
 * Sold against wanted by market, variety and class, in the weeks that are over at the end of a day. Week by week: what one
 * week was short of, no other week's surplus makes good.
 */
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
      .map(({ weeks, ...line }) => {
        const counts = [...weeks.values()];
        const wanted = sum(counts.map((week) => week.wanted));
        const sold = sum(counts.map((week) => week.sold));
        const met = sum(counts.map((week) => Math.min(week.wanted, week.sold)));
        return present({
          ...line,
          wanted,
          ...(salesRecorded && { sold, met, short: wanted - met, beyond: sold - met }),
        });
      }),
  });
}

function sum(counts: readonly number[]): number {
  return counts.reduce((total, count) => total + count, 0);
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
    const line = lines.get(key) ?? { market, variety, packClass, weeks: new Map(), wantedLater: 0 };
    lines.set(key, line);
    return line;
  };
  const inWeek = ({ weeks }: Line, week: Week) => {
    const counts = weeks.get(week) ?? { wanted: 0, sold: 0 };
    weeks.set(week, counts);
    return counts;
  };
  for (const { market, variety, packClass, weeks, byWeek, cartons } of plan.demand.values()) {
    if (!weeks) continue;
    const line = at(market?.value, variety?.value, packClass?.value);
    const { first, last } = weeks.value;
    for (let week = first; week <= Math.min(last, first + MOST_WEEKS); week++) {
      const wanted = (byWeek.get(week) ?? cartons)?.value ?? 0;
      if (week <= through) inWeek(line, week).wanted += wanted;
      else line.wantedLater += wanted;
    }
  }
  for (const { market, variety, packClass, week, cartons } of plan.sales.values())
    if (week && week.value <= through)
      inWeek(at(market?.value, variety?.value, packClass?.value), week.value).sold += cartons?.value ?? 0;
  return lines;
}
