import type { ComputedSeason, Finding } from '../findings/types';
import { type Day, formatDay } from '../plan/dates';
import { fixed, type UnitSystem } from '../plan/display';
import { counted, isOrAre } from '../plan/wording';
import { caution } from '../room/caution';
import { displayUnits } from './explain';
import type { PublishedWeeks } from './papers/basis';
import { planPart } from './parts';
import type { StatusReport } from './schemas';
import { cropPart } from './status-crop';
import { marketPart } from './status-market';
import { isLateNow, roomsPart } from './status-rooms';
import { stockPart } from './status-stock';
import { workPart } from './status-work';

/**
 * Where the season stands at the end of a day, as published JSON: the crop against its estimate, rooms against their
 * days, stock, sales, and the work of the next two weeks. The season is that of a plan as it was known on that day,
 * with its courses; of `found`, the findings with readings up to then, errors in readings are told first.
 */
export function statusReport(
  season: ComputedSeason,
  stand: Day,
  system?: UnitSystem,
  published?: PublishedWeeks,
  found: readonly Finding[] = [],
): StatusReport {
  const units = displayUnits(season.plan, system);
  return {
    format: 'lotwright-status-report',
    version: 1,
    plan: planPart(season.plan),
    units: units.system,
    asOf: formatDay(stand),
    progressRecorded: season.plan.progress.size > 0,
    ...errorsInReadings(found),
    crop: cropPart(season),
    rooms: roomsPart(season, stand),
    stock: stockPart(season, units),
    market: marketPart(season.plan, stand),
    work: workPart(season, stand, { units: system, published }),
    caution,
  };
}

function errorsInReadings(found: readonly Finding[]): Pick<StatusReport, 'errorsInReadings'> {
  const errors = found.filter(({ family, severity }) => family === 'readings' && severity === 'error');
  return errors.length === 0
    ? {}
    : { errorsInReadings: errors.map(({ code, message }) => ({ code, message })) };
}

const RECORDS_AT_ODDS = 'The records contradict each other: `lotwright check` tells where.';

/** The whole in a few sentences. */
export function statusHeadlines(report: StatusReport): string[] {
  const first = (report.errorsInReadings ?? []).map(({ message }) => `Before any work there: ${message}`);
  return [...first, cropLine(report), roomsLine(report), stockLine(report), marketLine(report)].filter(
    (line) => line !== '',
  );
}

function cropLine({ crop }: StatusReport): string {
  const sum = (of: (line: StatusReport['crop']['varieties'][number]) => number) =>
    total(crop.varieties.map(of));
  const [estimate, received, expected] = [
    sum((line) => line.estimate),
    sum((line) => line.received),
    sum((line) => line.expected),
  ];
  if (estimate === 0) return '';
  const change = expected - estimate;
  const than =
    change === 0
      ? 'as estimated'
      : `${fixed(Math.abs(change), 0)} ${change < 0 ? 'fewer' : 'more'} than estimated (${fixed((100 * Math.abs(change)) / estimate, 1)} %)`;
  const without = total(crop.withoutPlace.map(({ bins }) => bins));
  const noPlace =
    without > 0 ? `; ${counted(without, 'bin')} ${without === 1 ? 'has' : 'have'} no place` : '';
  return `Crop: ${counted(received, 'bin')} ${isOrAre(received)} in; ${fixed(expected, 0)} are expected in all, ${than}${noPlace}.`;
}

function roomsLine({ rooms }: StatusReport): string {
  if (rooms.length === 0) return '';
  const states = [...new Set(rooms.map(({ state }) => state))].map(
    (state) => `${rooms.filter((room) => room.state === state).length} ${state}`,
  );
  const late = rooms.filter(isLateNow).length;
  return `Rooms: ${states.join(', ')}${late > 0 ? `; ${late} with something overdue` : ''}.`;
}

function stockLine({ stock }: StatusReport): string {
  const [there, elsewhere] = [
    total(stock.rooms.map(({ binsThere }) => binsThere)),
    total(stock.elsewhere.map((line) => line.elsewhere)),
  ];
  const cartons = total(stock.cartons.map(({ inStock }) => inStock));
  const parts = [
    `${counted(there, 'bin')} in filled rooms`,
    ...(elsewhere === 0 ? [] : [`${fixed(elsewhere, 0)} in rooms being filled or in the yard`]),
    ...(stock.cartons.length === 0 ? [] : [`${counted(cartons, 'carton')} packed and not sold`]),
  ];
  const isAtOdds =
    stock.elsewhere.some(({ beyondReceived }) => beyondReceived !== undefined) ||
    stock.cartons.some(({ beyondPacked }) => beyondPacked !== undefined);
  return `Stock: ${parts.join(', ')}.${isAtOdds ? ` ${RECORDS_AT_ODDS}` : ''}`;
}

function marketLine({ market }: StatusReport): string {
  const [wanted, sold, met, short, beyond] = [
    total(market.lines.map((line) => line.wanted)),
    total(market.lines.map((line) => line.sold ?? 0)),
    total(market.lines.map((line) => line.met ?? 0)),
    total(market.lines.map((line) => line.short ?? 0)),
    total(market.lines.map((line) => line.beyond ?? 0)),
  ];
  if (wanted === 0 && sold === 0) return '';
  if (!market.salesRecorded)
    return `Market: ${counted(wanted, 'carton')} wanted to the end of ${market.through}; the plan records no sales.`;
  const soldWords = `${counted(sold, 'carton is', 'cartons are')} sold to the end of ${market.through}`;
  const shortWords = short > 0 ? ` and ${fixed(short, 0)} were short` : '';
  const beyondWords = beyond > 0 ? `, ${fixed(beyond, 0)} went beyond what their week wanted` : '';
  return `Market: ${soldWords}; of ${fixed(wanted, 0)} wanted ${fixed(met, 0)} were met${shortWords}${beyondWords}.`;
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
