import { opensIn } from '../findings/compute';
import type { ComputedSeason, Finding } from '../findings/types';
import { type Day, formatDay } from '../plan/dates';
import { type DisplayUnits, measure, measureOf, type UnitSystem } from '../plan/display';
import { type PlantCalendar, plantCalendar } from '../plant/calendar';
import type { EquipmentUse, PlantPeriod } from '../plant/period';
import { displayUnits } from './explain';
import { failsWithCropOf } from './larger-crop';
import { countFindings, planPart, present } from './parts';
import type { PlantReport } from './schemas';

export interface PlantReportOptions {
  readonly units?: UnitSystem | undefined;
  readonly by?: 'days' | 'weeks' | undefined;
  /** Per cent more fruit of every lot. */
  readonly crop?: number | undefined;
}

/** Days after the last room is sealed that the daily calendar still tells. */
const DAYS_AFTER = 14;

/** The shared plant by day around the harvest or by week, its peaks and their causes, power, and a larger crop. */
export function plantReport(
  season: ComputedSeason,
  findings: readonly Finding[],
  { units: system, by, crop }: PlantReportOptions,
): PlantReport {
  const { plan, filled, courses } = season;
  const units = displayUnits(plan, system);
  const opens = opensIn(season);
  const calendar = courses && plantCalendar(plan, filled, courses, opens);
  const periods = by === 'days' ? aroundHarvest(season, calendar?.days ?? []) : (calendar?.weeks ?? []);
  const weeks = calendar?.weeks ?? [];
  return {
    format: 'lotwright-plant-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    counts: countFindings(findings),
    ...present({ by }),
    periods: by === undefined ? [] : periods.map((period) => periodPart(period, units)),
    peaks: peaksOf(calendar, units),
    ...powerPart(season, weeks, units),
    ...(crop === undefined ? {} : { crop: cropPart(season, crop) }),
  };
}

/** From the first bin of all to some days after the last room is sealed. */
function aroundHarvest({ filled }: ComputedSeason, days: readonly PlantPeriod[]): PlantPeriod[] {
  const fills = [...filled.values()].map(({ fill }) => fill);
  const first = Math.min(...fills.flatMap(({ firstBin }) => firstBin?.value ?? []));
  const last = Math.max(...fills.flatMap(({ sealed, lastBin }) => (sealed ?? lastBin)?.value ?? []));
  return days.filter(({ from }) => from >= first && from <= last + DAYS_AFTER);
}

function periodPart(period: PlantPeriod, units: DisplayUnits): PlantReport['periods'][number] {
  const uses = (list: readonly EquipmentUse<'kW' | 'h' | '%'>[]) => list.map((one) => usePart(one, units));
  return {
    from: formatDay(period.from),
    refrigeration: uses(period.refrigeration),
    nitrogen: uses(period.nitrogen),
    scrubbing: uses(period.scrubbing),
    ...present({
      powerKwh: period.power && Number(period.power.value.toPrecision(10)),
      cost: measureOf(period.cost, units),
    }),
  };
}

function usePart({ id, use, share, mostBy, taken }: EquipmentUse<'kW' | 'h' | '%'>, units: DisplayUnits) {
  return {
    id,
    ...present({
      use: measureOf(use, units),
      share: share === undefined ? undefined : measure(share, '%', units),
      taken: measureOf(taken, units),
    }),
    mostBy: [...mostBy],
  };
}

/** The heaviest day of cooling and scrubbing, and the heaviest week of nitrogen: a flush takes whole days. */
function peaksOf(calendar: PlantCalendar | undefined, units: DisplayUnits): PlantReport['peaks'] {
  const kinds = ['refrigeration', 'nitrogen', 'scrubbing'] as const;
  return kinds.flatMap((kind) => {
    const peaks = new Map<string, { readonly from: Day; readonly use: EquipmentUse<'kW' | 'h' | '%'> }>();
    const periods = kind === 'nitrogen' ? calendar?.weeks : calendar?.days;
    for (const day of periods ?? []) {
      for (const use of day[kind]) {
        if (use.use.value > (peaks.get(use.id)?.use.use.value ?? 0))
          peaks.set(use.id, { from: day.from, use });
      }
    }
    return [...peaks.values()].map(({ from, use }) => {
      const { mostBy, ...rest } = usePart(use, units);
      return { kind, from: formatDay(from), ...rest, because: mostBy };
    });
  });
}

function powerPart(
  season: ComputedSeason,
  weeks: readonly PlantPeriod[],
  units: DisplayUnits,
): Pick<PlantReport, 'powerKwh' | 'cost' | 'notInPower'> {
  const without = [...season.filled.values()].flatMap(({ room }) =>
    room.refrigerationGroup ? [] : [room.id],
  );
  const sum = (of: (week: PlantPeriod) => number | undefined) => {
    const known = weeks.flatMap((week) => of(week) ?? []);
    return known.length > 0 ? known.reduce((all, one) => all + one, 0) : undefined;
  };
  const power = sum((week) => week.power?.value);
  const cost = sum((week) => week.cost?.value);
  return present({
    powerKwh: power === undefined ? undefined : Number(power.toPrecision(10)),
    cost: cost === undefined ? undefined : measure(cost, 'money', units),
    notInPower: power === undefined || without.length === 0 ? undefined : [...new Set(without)],
  });
}

function cropPart(season: ComputedSeason, change: number): NonNullable<PlantReport['crop']> {
  const fails = failsWithCropOf(season, opensIn(season), 100 + change);
  const tidy = (share: number) => Number(share.toPrecision(10));
  return {
    change,
    passes: fails.flatMap(({ now, then }) =>
      then.passes === undefined
        ? []
        : [
            {
              kind: then.kind,
              id: then.id,
              from: formatDay(then.passes),
              shareNow: tidy(now.share),
              share: tidy(then.share),
            },
          ],
    ),
  };
}
