import { type Day, firstDayOfWeek, type Week, weekOfDay } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Plan } from '../plan/model';
import { formulaKeys, sumOf } from '../room/figures';
import type { FilledRoom } from '../room/types';
import { coolingCourse, coolingOn } from './refrigeration-load';
import type { SeasonCourses } from './season-courses';
import { type Openings, seasonWeeks } from './weeks';

/** Shared equipment, and power with its price, over a day or a week. */
export interface PlantPeriod {
  /** A day, or a week's first. */
  readonly from: Day;
  readonly refrigeration: readonly EquipmentUse<'kW'>[];
  readonly nitrogen: readonly EquipmentUse<'h'>[];
  /** Time its rooms need, of the time it has. */
  readonly scrubbing: readonly EquipmentUse<'%'>[];
  /** Kilowatt-hours of refrigeration, and of nitrogen where its power is stated. */
  readonly power?: Figure<'1'>;
  readonly cost?: Figure<'money'>;
}

export interface EquipmentUse<U extends 'kW' | 'h' | '%'> {
  readonly id: string;
  readonly use: Figure<U>;
  /** Of what it can give. */
  readonly share?: number;
  /** Fills that ask most of it, most first. */
  readonly mostBy: readonly string[];
}

export interface PlantCalendar {
  readonly days: readonly PlantPeriod[];
  /** Of refrigeration its highest day, of nitrogen all hours, of scrubbing the mean, of power and cost the sum. */
  readonly weeks: readonly PlantPeriod[];
}

/** Every day and week of the season. Undefined where the plan does not say when it starts and ends. */
export function plantCalendar(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  courses: SeasonCourses,
  opens: Openings | undefined,
): PlantCalendar | undefined {
  const season = seasonWeeks(plan);
  if (!season) return undefined;
  const [first, last] = [firstDayOfWeek(season.firstWeek), firstDayOfWeek(season.lastWeek) + 6];
  const cooled = [...plan.refrigerationGroups.values()].map((group) => ({
    group,
    rooms: [...filled.values()]
      .filter(({ room }) => room.refrigerationGroup?.value === group.id)
      .map((room) => coolingCourse(plan, room, opens, last)),
  }));
  const days = Array.from({ length: last - first + 1 }, (_, index) => {
    const day = first + index;
    const refrigeration = cooled.map(({ group, rooms }) => coolingOfDay(day, group, rooms));
    const nitrogen = courses.queues.map((queue) => nitrogenOfDay(day, queue));
    const scrubbing = courses.scrubbers.map((turns) => scrubbingOfDay(day, turns));
    return withPower(plan, { from: day, refrigeration, nitrogen, scrubbing }, 1);
  });
  return { days, weeks: weeksFrom(days) };
}

function coolingOfDay(
  day: Day,
  group: { readonly id: string; readonly capacity: Figure<'kW'> | undefined },
  rooms: Parameters<typeof coolingOn>[0][],
): EquipmentUse<'kW'> {
  const parts = rooms.flatMap((room) => {
    const cooling = coolingOn(room, day);
    return cooling ? [{ fill: room.room.fill.id, cooling }] : [];
  });
  const keys = formulaKeys(
    'fill',
    parts.map(({ fill }) => fill),
  );
  const use = sumOf(
    `cooling of ${group.id}`,
    'kW',
    parts.map(({ cooling }, index) => [keys[index] ?? '', cooling] as const),
  );
  return {
    id: group.id,
    use,
    ...shareOf(use, group.capacity?.value),
    mostBy: most(parts.map(({ fill, cooling }) => [fill, cooling.value])),
  };
}

function nitrogenOfDay(day: Day, { source, turns }: SeasonCourses['queues'][number]): EquipmentUse<'h'> {
  const parts = turns.map(({ room, sealed, waits, flushed }): [string, number] => {
    const [begins, ends] = [24 * sealed + waits.value, 24 * sealed + flushed.value];
    return [room.fill.id, Math.max(0, Math.min(ends, 24 * day + 24) - Math.max(begins, 24 * day))];
  });
  const hours = parts.reduce((sum, [, one]) => sum + one, 0);
  const use = countedFigure(`nitrogen of ${source.id}`, 'h', hours, 'rooms flushed one after another');
  return { id: source.id, use, ...shareOf(use, 24), mostBy: most(parts) };
}

function scrubbingOfDay(day: Day, { scrubber, needed, weeks }: SeasonCourses['scrubbers'][number]) {
  const use = countedFigure(
    `time needed of ${scrubber.id}`,
    '%',
    100 * (needed.get(day) ?? 0),
    'carbon dioxide its rooms give off over what it removes at their set-points',
  );
  const hours = weeks.find(({ week }) => week === weekOfDay(day))?.hours ?? [];
  const mostBy = use.value > 0 ? most(hours.map(({ fill, hoursADay }) => [fill, hoursADay])) : [];
  return { id: scrubber.id, use, ...shareOf(use, 100), mostBy };
}

function shareOf({ value }: Figure, capacity: number | undefined): { share?: number } {
  return capacity !== undefined && capacity > 0 ? { share: (100 * value) / capacity } : {};
}

const NAMED = 3;

function most(parts: readonly (readonly [string, number])[]): string[] {
  return parts
    .filter(([, value]) => value > 0)
    .sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1))
    .slice(0, NAMED)
    .map(([fill]) => fill);
}

/** Kilowatt-hours of a day, and what they cost where the plan has a price. */
function withPower(plan: Plan, period: PlantPeriod, days: number): PlantPeriod {
  const hours = countedFigure('hours', 'h', 24 * days, 'a day');
  const parts = period.refrigeration.flatMap(({ id, use }) => {
    const performance = plan.refrigerationGroups.get(id)?.performance;
    if (!performance || use.value === 0) return [];
    return compute(
      `power of ${id}, kWh`,
      '1',
      'cooling * hours / performance',
      { cooling: use, hours, performance },
      (v) => (v.cooling * v.hours) / v.performance,
    );
  });
  const gas = period.nitrogen.flatMap(({ id, use }) => {
    const power = plan.nitrogenSources.get(id)?.power;
    if (!power || use.value === 0) return [];
    return compute(`power of ${id}, kWh`, '1', 'power * runs', { power, runs: use }, (v) => v.power * v.runs);
  });
  const power = sumOf(
    'power of refrigeration and nitrogen, kWh',
    '1',
    [...parts, ...gas].map((figure, index) => [`part${index + 1}`, figure] as const),
  );
  const price = plan.season?.powerPrice;
  if (!price) return { ...period, power };
  const cost = compute('cost of power', 'money', 'power * price', { power, price }, (v) => v.power * v.price);
  return { ...period, power, cost };
}

function weeksFrom(days: readonly PlantPeriod[]): PlantPeriod[] {
  const byWeek = new Map<Week, PlantPeriod[]>();
  for (const day of days) {
    const list = byWeek.get(weekOfDay(day.from));
    if (list) list.push(day);
    else byWeek.set(weekOfDay(day.from), [day]);
  }
  return [...byWeek].map(([week, own]) => weekFrom(week, own));
}

function weekFrom(week: Week, days: readonly PlantPeriod[]): PlantPeriod {
  const [first] = days;
  const together = <U extends 'kW' | 'h' | '%'>(
    of: (day: PlantPeriod) => readonly EquipmentUse<U>[],
    how: 'highest' | 'sum' | 'mean',
  ): EquipmentUse<U>[] =>
    (first ? of(first) : []).map((_, index) =>
      combined(
        days.flatMap((day) => of(day)[index] ?? []),
        how,
      ),
    );
  const sums = <U extends '1' | 'money'>(name: string, figures: readonly (Figure<U> | undefined)[]) => {
    const known = figures.filter((figure) => figure !== undefined);
    const [one] = known;
    return (
      one &&
      sumOf(
        name,
        one.unit,
        known.map((figure, index) => [`day${index + 1}`, figure] as const),
      )
    );
  };
  const power = sums(
    'power of refrigeration and nitrogen, kWh',
    days.map((day) => day.power),
  );
  const cost = sums(
    'cost of power',
    days.map((day) => day.cost),
  );
  return {
    from: firstDayOfWeek(week),
    refrigeration: together((day) => day.refrigeration, 'highest'),
    nitrogen: together((day) => day.nitrogen, 'sum'),
    scrubbing: together((day) => day.scrubbing, 'mean'),
    ...(power ? { power } : {}),
    ...(cost ? { cost } : {}),
  };
}

/** One piece of equipment over the days of a week. */
function combined<U extends 'kW' | 'h' | '%'>(
  uses: readonly EquipmentUse<U>[],
  how: 'highest' | 'sum' | 'mean',
): EquipmentUse<U> {
  const highest = uses.reduce((most, one) => (one.use.value > most.use.value ? one : most));
  if (how === 'highest') return highest;
  const sum = uses.reduce((all, { use }) => all + use.value, 0);
  const value = how === 'sum' ? sum : sum / uses.length;
  const what = how === 'sum' ? 'all days of the week' : 'mean of the days of the week';
  const shares = uses.reduce((all, { share }) => all + (share ?? 0), 0) / uses.length;
  return {
    id: highest.id,
    use: countedFigure(highest.use.name, highest.use.unit, value, what),
    ...(highest.share === undefined ? {} : { share: shares }),
    mostBy: highest.mostBy,
  };
}
