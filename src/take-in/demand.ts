import { formatWeek, type Week } from '../plan/dates';
import { setValue } from '../plan/edits';
import type { Demand } from '../plan/market-model';
import type { Plan } from '../plan/model';
import type { TextEdit } from '../plan/problem';
import { BadCell, type RowCells } from './cells';
import { rowByRow } from './row-by-row';
import type { RowFault, TableChange, TableLayout, TableRow, TakenIn } from './types';

interface Order {
  readonly demand: Demand;
  readonly week: Week;
  readonly cartons: number;
  readonly line: number;
}

/**
 * Demand: cartons of a week go into `by-week` of the entry with that market, variety and class, where they differ from
 * what it says of that week already. Two rows of one entry and week contradict each other unless they are equal:
 * neither is taken.
 */
export function takeDemand(plan: Plan, rows: readonly TableRow[], layout: TableLayout): TakenIn {
  const { taken, faults } = rowByRow(rows, layout, (cells, line) => orderOf(plan, cells, line));
  const { orders, contradictions } = oneAWeek(taken);
  const byEntry = new Map<string, Order[]>();
  for (const order of orders) byEntry.set(order.demand.id, [...(byEntry.get(order.demand.id) ?? []), order]);
  const news = (order: Order) => wanted(order.demand, order.week) !== order.cartons;
  return {
    rows: rows.length,
    changes: [...byEntry.values()].flatMap((ofEntry) => changesOf(plan, ofEntry.filter(news))),
    faults: [...faults, ...contradictions],
    alreadyThere: orders.filter((order) => !news(order)).length,
  };
}

function orderOf(plan: Plan, cells: RowCells, line: number): Order {
  const [market, variety, packClass] = ['market', 'variety', 'class'].map((field) => cells.text(field));
  const week = cells.week('week');
  const same = [...plan.demand.values()].filter(
    (demand) =>
      demand.market?.value === market &&
      demand.variety?.value === variety &&
      demand.packClass?.value === packClass,
  );
  if (same.length === 0)
    throw new BadCell(
      `The plan has no demand of market ${market} for ${variety}, class ${packClass}. Add it with its price, or put names that differ side by side under \`names\`.`,
    );
  const demand = same.find(({ weeks }) => weeks && weeks.value.first <= week && week <= weeks.value.last);
  if (!demand)
    throw new BadCell(
      `${formatWeek(week)} lies outside the weeks of ${same.map(({ id }) => `\`${id}\``).join(', ')}. Widen \`weeks\` in the plan first.`,
    );
  return { demand, week, cartons: cells.count('cartons', 'cartons'), line };
}

function oneAWeek(taken: readonly Order[]): { orders: Order[]; contradictions: RowFault[] } {
  const cells = new Map<string, Order[]>();
  for (const order of taken) {
    const key = `${order.demand.id} ${order.week}`;
    cells.set(key, [...(cells.get(key) ?? []), order]);
  }
  const orders: Order[] = [];
  const contradictions: RowFault[] = [];
  for (const same of cells.values()) {
    const faults = same.flatMap((order) => contradiction(order, same));
    contradictions.push(...faults);
    if (faults.length === 0) orders.push(...same.slice(0, 1));
  }
  return { orders, contradictions };
}

function contradiction({ demand, week, cartons, line }: Order, same: readonly Order[]): RowFault[] {
  const other = same.find((one) => one.cartons !== cartons);
  if (!other) return [];
  const reason = `${formatWeek(week)} of \`${demand.id}\` has ${cartons} cartons here and ${other.cartons} in line ${other.line}: neither row is taken.`;
  return [{ line, reason }];
}

function wanted({ byWeek, cartons }: Demand, week: Week): number | undefined {
  return (byWeek.get(week) ?? cartons)?.value;
}

function changesOf(plan: Plan, orders: readonly Order[]): TableChange[] {
  const demand = orders[0]?.demand;
  const file = demand && plan.files.get(demand.at.file);
  if (!demand || !file) return [];
  const hasMap = demand.places.entries?.has('by-week') ?? false;
  const whole = `{ ${orders.map(({ week, cartons }) => `${formatWeek(week)}: ${cartons}`).join(', ')} }`;
  return orders.map((order) => ({
    file: file.path,
    entry: `demand ${demand.id}`,
    key: `by-week/${formatWeek(order.week)}`,
    before: String(wanted(demand, order.week) ?? ''),
    after: String(order.cartons),
    lines: [order.line],
    edits: editsOf(order),
  }));

  /** The first week of an entry without `by-week` makes the whole map; the others have their edit in it. */
  function editsOf(order: Order): TextEdit[] {
    if (!file || !demand) return [];
    if (hasMap)
      return setValue(file, demand.places, ['by-week', formatWeek(order.week)], String(order.cartons));
    return order === orders[0] ? setValue(file, demand.places, ['by-week'], whole) : [];
  }
}
