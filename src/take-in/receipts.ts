import { type Day, formatDay } from '../plan/dates';
import { setValue } from '../plan/edits';
import type { Lot, Plan } from '../plan/model';
import { counted } from '../plan/wording';
import { BadCell } from './cells';
import { lotNamed } from './lots';
import { rowByRow } from './row-by-row';
import { faultsAt } from './sound-rows';
import type { RowFault, TableChange, TableLayout, TableRow, TakenIn } from './types';

interface Load {
  readonly lot: Lot;
  readonly day: Day;
  readonly bins: number;
  /** In °C. */
  readonly temperature: number | undefined;
  readonly line: number;
  readonly written: (value: number) => string;
}

/** Bins that came in on one day, of one lot. */
interface DayOfLot {
  readonly day: Day;
  readonly bins: number;
  readonly lines: readonly number[];
}

/**
 * Receipts: the loads of a day are added up. A day that the plan has already is left as it is: the same file can be taken
 * in again, and a file of the whole season as well as one of yesterday; a day of which the file says something else than
 * the plan is a fault.
 */
export function takeReceipts(plan: Plan, rows: readonly TableRow[], layout: TableLayout): TakenIn {
  const { taken, faults } = rowByRow(rows, layout, (cells, line): Load => {
    const lot = lotNamed(plan, cells.text('lot'));
    const day = cells.day('day');
    const picked = lot.picked?.value.first;
    if (picked !== undefined && day < picked)
      throw new BadCell(
        `${formatDay(day)} is before lot ${lot.id} is picked (${formatDay(picked)}). Correct \`picked\` in the plan, or the day in the file.`,
      );
    return {
      lot,
      day,
      bins: cells.count('bins', 'bins'),
      temperature: cells.quantity('field-temperature')?.value,
      line,
      written: (value) => cells.writtenLikeFile('field-temperature', value),
    };
  });
  const byLot = new Map<string, Load[]>();
  for (const load of taken) byLot.set(load.lot.id, [...(byLot.get(load.lot.id) ?? []), load]);
  const results = [...byLot.values()].map((loads) => ofLot(plan, loads));
  return {
    rows: rows.length,
    changes: results.flatMap(({ changes }) => changes),
    faults: [...faults, ...results.flatMap((result) => result.faults)],
    alreadyThere: results.reduce((sum, { alreadyThere }) => sum + alreadyThere, 0),
  };
}

type LotResult = Omit<TakenIn, 'rows'>;

function ofLot(plan: Plan, loads: readonly Load[]): LotResult {
  const lot = (loads[0] as Load).lot;
  const file = plan.files.get(lot.at.file);
  if (!file) return { changes: [], faults: [], alreadyThere: 0 };
  const days = daysOf(loads);
  const known = lot.receivedByDay ?? new Map<Day, number>();
  const contradicted = days.filter(({ day, bins }) => known.has(day) && known.get(day) !== bins);
  const news = days.filter(({ day }) => !known.has(day));
  const sum = [...known.values(), ...news.map(({ bins }) => bins)].reduce((bins, one) => bins + one, 0);
  const faults = lessThanReceived(lot, known.size, sum, loads);
  if (faults.length > 0) return { changes: [], faults, alreadyThere: 0 };
  const changes = [
    ...dayChanges(lot, file, news),
    ...sumChange(lot, file, sum, news),
    ...(contradicted.length > 0 ? [] : temperatureChange(lot, file, loads)),
  ];
  return {
    changes,
    faults: contradicted.flatMap((day) => contradiction(lot, day)),
    alreadyThere: days.length - news.length - contradicted.length,
  };
}

function contradiction(lot: Lot, { day, bins, lines }: DayOfLot): RowFault[] {
  return faultsAt(
    lines,
    `The plan has ${counted(lot.receivedByDay?.get(day) ?? 0, 'bin')} of lot ${lot.id} on ${formatDay(day)}, and the file ${bins}. What is recorded is never changed from a file: correct it in the plan, if the file is right.`,
  );
}

function daysOf(loads: readonly Load[]): DayOfLot[] {
  const days = new Map<Day, Load[]>();
  for (const load of loads) days.set(load.day, [...(days.get(load.day) ?? []), load]);
  return [...days]
    .sort(([a], [b]) => a - b)
    .map(([day, ofDay]) => ({
      day,
      bins: ofDay.reduce((sum, { bins }) => sum + bins, 0),
      lines: ofDay.map(({ line }) => line),
    }));
}

/** A plain `received` that the file does not come up to says that there are receipts the file does not have. */
function lessThanReceived(lot: Lot, daysKnown: number, sum: number, loads: readonly Load[]): RowFault[] {
  const received = lot.receivedBins?.value;
  if (daysKnown > 0 || received === undefined || sum >= received) return [];
  return faultsAt(
    loads.map(({ line }) => line),
    `The plan says that ${counted(received, 'bin')} of lot ${lot.id} are received, without their days, and the file has ${counted(sum, 'bin')}. Nothing is taken of it, so that none are lost: write the days of the others under \`received-by-day\`, or take in a file that has them all.`,
  );
}

function dayChanges(
  lot: Lot,
  file: Parameters<typeof setValue>[0],
  days: readonly DayOfLot[],
): TableChange[] {
  const known = lot.receivedByDay ?? new Map();
  const hasMap = lot.places.entries?.has('received-by-day') ?? false;
  const all = days.map(({ day, bins }) => `${formatDay(day)}: ${bins}`).join(', ');
  return days.map(({ day, bins, lines }, index) => ({
    file: file.path,
    entry: `lot ${lot.id}`,
    key: `received-by-day/${formatDay(day)}`,
    before: known.get(day)?.toString(),
    after: String(bins),
    lines,
    // The first of a lot's days makes the whole map; the others have their edit in it.
    edits: hasMap
      ? setValue(file, lot.places, ['received-by-day', formatDay(day)], String(bins))
      : index === 0
        ? setValue(file, lot.places, ['received-by-day'], `{ ${all} }`)
        : [],
  }));
}

/** A plain `received` beside the days is kept equal to their sum. */
function sumChange(
  lot: Lot,
  file: Parameters<typeof setValue>[0],
  sum: number,
  news: readonly DayOfLot[],
): TableChange[] {
  if (news.length === 0 || !lot.places.entries?.has('received')) return [];
  const span = lot.places.entries?.get('received')?.span;
  const before = span && file.text.slice(span.start, span.end);
  if (before === String(sum)) return [];
  return [
    {
      file: file.path,
      entry: `lot ${lot.id}`,
      key: 'received',
      before,
      after: String(sum),
      lines: news.flatMap(({ lines }) => lines),
      edits: setValue(file, lot.places, ['received'], String(sum)),
    },
  ];
}

/** The mean of the loads that have a temperature, by bins; nothing where the file has only some of the lot's days. */
function temperatureChange(
  lot: Lot,
  file: Parameters<typeof setValue>[0],
  loads: readonly Load[],
): TableChange[] {
  const warm = loads.filter(({ temperature, bins }) => temperature !== undefined && bins > 0);
  const bins = warm.reduce((sum, load) => sum + load.bins, 0);
  const [first] = warm;
  const inFile = new Set(loads.map(({ day }) => day));
  const hasAllDays = [...(lot.receivedByDay?.keys() ?? [])].every((day) => inFile.has(day));
  if (!first || !hasAllDays) return [];
  const mean = warm.reduce((sum, load) => sum + load.bins * (load.temperature ?? 0), 0) / bins;
  const after = first.written(mean);
  const given = lot.fieldTemperature.origin.kind === 'plan' ? lot.fieldTemperature.origin.text : undefined;
  if (given === after) return [];
  return [
    {
      file: file.path,
      entry: `lot ${lot.id}`,
      key: 'field-temperature',
      before: given,
      after,
      lines: warm.map(({ line }) => line),
      edits: setValue(file, lot.places, ['field-temperature'], after),
    },
  ];
}
