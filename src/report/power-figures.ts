import { opensIn } from '../findings/compute';
import { onceFor } from '../findings/courses';
import type { ComputedSeason } from '../findings/types';
import { formatWeek, weekOfDay } from '../plan/dates';
import type { Figure, Unit } from '../plan/figure';
import { plantCalendar } from '../plant/calendar';
import type { PlantPeriod } from '../plant/period';
import { formulaKeys, sumOf } from '../room/figures';
import { type NamedFigure, named } from './named-figures';

/** Power of the shared plant over the season and by week, and its cost where the plan has a price. */
export function powerFigures(season: ComputedSeason): NamedFigure[] {
  const { plan, filled, courses } = season;
  const calendar = onceFor(
    courses,
    'calendar',
    () => courses && plantCalendar(plan, filled, courses, opensIn(season)),
  );
  const weeks = calendar?.weeks ?? [];
  return [
    ...named('season', {
      power: overSeason('power over the season, kWh', weeks, ({ power }) => power),
      'power-cost': overSeason('cost of power over the season', weeks, ({ cost }) => cost),
    }),
    ...weeks.flatMap(({ from, power, cost }) => {
      const week = formatWeek(weekOfDay(from));
      return named('season', { [`power-${week}`]: power, [`power-cost-${week}`]: cost }, true);
    }),
  ];
}

function overSeason<U extends Unit>(
  name: string,
  weeks: readonly PlantPeriod[],
  of: (week: PlantPeriod) => Figure<U> | undefined,
): Figure<U> | undefined {
  const parts = weeks.flatMap((week) => {
    const figure = of(week);
    return figure && figure.value > 0 ? [{ label: formatWeek(weekOfDay(week.from)), figure }] : [];
  });
  const [first] = parts;
  const keys = formulaKeys(
    'week',
    parts.map(({ label }) => label),
  );
  return (
    first &&
    sumOf(
      name,
      first.figure.unit,
      parts.map(({ figure }, index) => [keys[index] ?? '', figure] as const),
    )
  );
}
