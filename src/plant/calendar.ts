import { type Day, firstDayOfWeek, type Week, weekOfDay } from '../plan/dates';
import { countedFigure, type Figure, figureWith } from '../plan/figure';
import type { Plan, RefrigerationGroup } from '../plan/model';
import { sumOf } from '../room/figures';
import type { FilledRoom } from '../room/types';
import { hoursBetween } from './nitrogen-hours';
import type { EquipmentUse, PlantPeriod } from './period';
import { daysPower } from './power';
import { groupLoad, groupTaken, loadsOn, type RoomLoad, roomLoads } from './refrigeration-load';
import type { SeasonCourses } from './season-courses';
import { type Openings, seasonWeeks } from './weeks';

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
  const loads = roomLoads(plan, filled, opens, last);
  const cooled = [...plan.refrigerationGroups.values()].map((group) => ({
    group,
    own: loadsOn(group, loads),
  }));
  const powerOn = daysPower(plan, loads);
  const days = Array.from({ length: last - first + 1 }, (_, index) => {
    const day = first + index;
    const refrigeration = cooled.map(({ group, own }) => coolingOfDay(day, group, own));
    const nitrogen = courses.queues.map((queue) => nitrogenOfDay(day, queue));
    const scrubbing = courses.scrubbers.map((turns) => scrubbingOfDay(day, turns));
    const period = { from: day, refrigeration, nitrogen, scrubbing };
    return { ...period, ...powerOn(period) };
  });
  return { days, weeks: weeksFrom(days) };
}

function coolingOfDay(day: Day, group: RefrigerationGroup, loads: readonly RoomLoad[]): EquipmentUse<'kW'> {
  const { asked, byFill } = groupLoad(day, loads);
  const use = figureWith(asked, { name: `cooling of ${group.id}` });
  const taken = groupTaken(day, group, loads, use);
  return {
    id: group.id,
    use,
    ...shareOf(use, group.capacity?.value),
    mostBy: most(byFill),
    ...(taken === use ? {} : { taken }),
  };
}

function nitrogenOfDay(day: Day, { source, turns }: SeasonCourses['queues'][number]): EquipmentUse<'h'> {
  const parts = turns.map((turn): [string, number] => [turn.room.fill.id, hoursBetween(turn, day, day)]);
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
    'power of the plant, kWh',
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
