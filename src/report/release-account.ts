import type { ComputedSeason } from '../findings/types';
import { binsByWeek, Unevenness } from '../release/even-work';
import { netFruitOf } from '../release/field-sources';
import { binsUnpacked, moneyUnpacked } from '../release/from-field';
import { leftIn, seasonStandOf } from '../release/from-stand';
import { openingCost } from '../release/opening-cost';
import { cartonsPacked } from '../release/settle';
import { soldByProduct } from '../release/sources';
import type { ReleaseProblem, ReleaseSchedule } from '../release/types';
import { tidy } from './amounts';
import type { ReleaseReport } from './schemas';

/** What the value is made of, in money: the gains less the costs are the value. */
export function valueParts(problem: ReleaseProblem, schedule: ReleaseSchedule): ReleaseReport['valueParts'] {
  const shortages = problem.demands.map(({ cartons, priceOfShortage }, at) =>
    sum(
      cartons.map((wanted, week) => Math.max(0, wanted - (schedule.sold[at]?.[week] ?? 0)) * priceOfShortage),
    ),
  );
  const opened = problem.rooms.map((room, at) => ({ room, week: schedule.opens[at] ?? null }));
  const weeksCost = sum(opened.map(({ room, week }) => (week === null ? 0 : (room.riskCost[week] ?? 0))));
  const inAir = sum(
    opened.map(({ room, week }) =>
      week === null ? 0 : (room.weekInAir ?? 0) * Math.max(0, week - room.earliest),
    ),
  );
  const stock = stockByWeek(problem, schedule);
  return {
    sales: tidy(sum(problem.demands.map(({ price }, at) => price * sum(schedule.sold[at] ?? [])))),
    unsold: tidy(
      problem.processingPrice * sum(schedule.processed.map(sum)) + moneyUnpacked(problem, schedule.packed),
    ),
    shortages: tidy(sum(shortages)),
    waiting: tidy(problem.costOfWaiting * sum(stock)),
    risk: tidy(weeksCost - inAir),
    inAir: tidy(inAir),
    changes: tidy(sum(opened.map(({ room, week }) => openingCost(room, week))) - weeksCost),
    unevenWork: tidy(new Unevenness(problem).cost(binsByWeek(schedule.packed, problem.weeks))),
  };
}

/** Packed cartons that wait for their sale at the end of each week, all products together. */
export function stockByWeek(problem: ReleaseProblem, schedule: ReleaseSchedule): number[] {
  const stock = new Array<number>(problem.weeks).fill(0);
  const sold = soldByProduct(problem, schedule);
  cartonsPacked(problem, schedule.packed).forEach((packed, product) => {
    let waiting = 0;
    for (let week = 0; week < problem.weeks; week += 1) {
      waiting += (packed[week] ?? 0) - (schedule.processed[product]?.[week] ?? 0);
      waiting -= sold[product]?.[week] ?? 0;
      stock[week] = (stock[week] ?? 0) + Math.max(0, waiting);
    }
  });
  return stock;
}

/**
 * Where the fruit of the rooms, and that from the field, goes, in cartons' worth: sold, packed and unsold, packed into no
 * class (culls and what storage takes), left in rooms that stay shut, or sent to processing unpacked. Undefined where the
 * plan does not tell the fruit.
 */
export function fruitAccount(
  { plan, filled }: ComputedSeason,
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
): ReleaseReport['fruit'] | undefined {
  const cartonMass = plan.season?.cartonMass?.value;
  if (cartonMass === undefined || cartonMass <= 0) return undefined;
  const standing = seasonStandOf(plan, problem.firstWeek);
  let [inRooms, leftInRooms, fromField, unpacked] = [0, 0, 0, 0];
  for (const [at, room] of problem.rooms.entries()) {
    const lot = room.fromField && plan.lots.get(room.fromField.lot);
    if (lot) {
      const aBin = (netFruitOf(plan, lot) ?? 0) / cartonMass;
      fromField += room.bins * aBin;
      unpacked += binsUnpacked(room, schedule.packed[at]) * aBin;
      continue;
    }
    const whole = filled.get(room.fill);
    const lots = whole && leftIn(whole, standing).lots;
    if (!lots || room.bins <= 0) return undefined;
    const cartons = sum(lots.map(({ fruit }) => fruit.value)) / cartonMass;
    inRooms += cartons;
    leftInRooms += cartons * Math.max(0, 1 - sum(schedule.packed[at] ?? []) / room.bins);
  }
  const packed = sum(cartonsPacked(problem, schedule.packed).map(sum));
  return {
    cartonsInRooms: tidy(inRooms),
    cartonsSold: tidy(sum(schedule.sold.map(sum))),
    cartonsUnsold: tidy(sum(schedule.processed.map(sum))),
    cartonsNotPacked: tidy(inRooms + fromField - leftInRooms - unpacked - packed),
    cartonsLeftInRooms: tidy(leftInRooms),
    ...(fromField > 0 && { cartonsFromField: tidy(fromField), cartonsNeverPacked: tidy(unpacked) }),
  };
}

function sum(values: ArrayLike<number>): number {
  let total = 0;
  for (let at = 0; at < values.length; at += 1) total += values[at] ?? 0;
  return total;
}
