import type { Highs } from 'highs';
import type { ReleaseProblem } from '../../src/release/types';

/** Weeks each room may open in; null is closed, unless the room is pinned. */
export function choicesOf(problem: ReleaseProblem): (number | null)[][] {
  return problem.rooms.map((room) => {
    if (room.pinned !== null) return [room.pinned];
    // Fruit from the field is there in its weeks whatever is chosen.
    if (room.fromField) return [room.earliest];
    const weeks = Array.from(
      { length: room.latest - room.earliest + 1 },
      (_, index) => room.earliest + index,
    );
    return [null, ...weeks];
  });
}

/** Every choice of opening weeks. */
export function* allOpenings(choices: readonly (readonly (number | null)[])[]): Iterable<(number | null)[]> {
  const [first, ...rest] = choices;
  if (!first) {
    yield [];
    return;
  }
  for (const week of first) for (const others of allOpenings(rest)) yield [week, ...others];
}

/**
 * The best value at given opening weeks, by a linear program written another way than the product's: every carton is
 * told apart by the week it is packed in and the week it is sold in, so that waiting needs no rule. `isLast` says whether
 * a room is in the last week of its emptying. Undefined where the packhouse or the open limit does not allow the weeks.
 */
export function valueAt(
  highs: Highs,
  problem: ReleaseProblem,
  opens: readonly (number | null)[],
  isLast = (room: number, at: number) =>
    at === (opens[room] ?? 0) + (problem.rooms[room]?.weeksToEmpty ?? 0) - 1,
): number | undefined {
  if (!withinOpenLimit(problem, opens) || !inOrder(problem, opens)) return undefined;
  const cost: number[] = [];
  const upper: number[] = [];
  const rows: { entries: [number, number][]; lower: number; upper: number }[] = [];
  const column = (money: number, most: number) => {
    upper.push(most);
    return cost.push(money) - 1;
  };
  let offset = 0;
  for (const demand of problem.demands)
    for (const cartons of demand.cartons) offset -= demand.priceOfShortage * cartons;

  problem.rooms.forEach(({ published, earliest, latest }, index) => {
    if (!published) return;
    const week = opens[index] ?? null;
    // Closed is as bad as the worst week of the window, and never free.
    const most = Math.max(1, ...[earliest, latest].map((end) => Math.abs(end - published.week)));
    offset -= published.price * (week === null ? most : Math.abs(week - published.week));
  });

  // Bins of each room in each week of its emptying.
  const aWeek: [number, number][][] = Array.from({ length: problem.weeks }, () => []);
  const lastDays: [number, number][][] = Array.from({ length: problem.weeks }, () => []);
  const made: [number, number][][][] = problem.products.map(() =>
    Array.from({ length: problem.weeks }, () => []),
  );
  opens.forEach((week, index) => {
    const room = problem.rooms[index];
    if (week === null || !room) return;
    const { fromField: field } = room;
    const end = Math.min(problem.weeks, week + room.weeksToEmpty) - 1;
    // A bin that is never packed is processed for what it gives fresh.
    const unpacked = field
      ? problem.processingPrice * (room.cartonsABin[week] ?? []).reduce((sum, one) => sum + one, 0)
      : 0;
    offset += unpacked * room.bins - (room.riskCost[week] ?? 0);
    const all: [number, number][] = [];
    for (let at = week; at <= end; at++) {
      const bins = column(
        -unpacked,
        Math.min(room.bins, field ? (field.mostBins[at - week] ?? 0) : room.bins),
      );
      all.push([bins, 1]);
      aWeek[at]?.push([bins, 1]);
      if (!field && isLast(index, at)) lastDays[at]?.push([bins, 1]);
      room.cartonsABin[at]?.forEach((cartons, product) => {
        if (cartons > 0) made[product]?.[at]?.push([bins, cartons]);
      });
    }
    rows.push({ entries: all, lower: field ? 0 : room.bins, upper: room.bins });
  });
  aWeek.forEach((entries, week) => {
    rows.push({ entries, lower: 0, upper: problem.packingBins[week] ?? 0 });
  });

  lastDays.forEach((entries, week) => {
    const most = problem.lastWeekBins?.[week];
    if (most !== undefined) rows.push({ entries, lower: 0, upper: most });
  });
  if (problem.evenWork) {
    const { price, fullWeeks } = problem.evenWork;
    const worked = fullWeeks.flatMap((full, week) => (full > 0 ? [week] : []));
    worked.slice(1).forEach((week, at) => {
      const before = worked[at] ?? 0;
      const pace = (of: number, sign: number) =>
        (aWeek[of] ?? []).map(([bins]): [number, number] => [bins, sign / (fullWeeks[of] ?? 1)]);
      const [up, down] = [column(-price, 1e9), column(-price, 1e9)];
      rows.push({
        entries: [...pace(week, 1), ...pace(before, -1), [up, -1], [down, 1]],
        lower: 0,
        upper: 0,
      });
    });
  }

  // Cartons packed in one week and sold in another, or processed at once.
  const delivered = problem.demands.map(() =>
    Array.from({ length: problem.weeks }, (): [number, number][] => []),
  );
  problem.products.forEach((_, product) => {
    for (let packed = 0; packed < problem.weeks; packed++) {
      const from = made[product]?.[packed] ?? [];
      if (from.length === 0) continue;
      const entries: [number, number][] = from.map(([bins, cartons]) => [bins, -cartons]);
      entries.push([column(problem.processingPrice, 1e9), 1]);
      problem.demands.forEach((demand, index) => {
        const accepted = demand.from
          ? (demand.from.find((one) => one.product === product)?.until ?? -1)
          : demand.product === product
            ? problem.weeks - 1
            : -1;
        for (let sold = packed; sold <= Math.min(accepted, packed + problem.packedWaitWeeks); sold++) {
          const wanted = demand.cartons[sold] ?? 0;
          if (wanted <= 0) continue;
          const money = demand.price + demand.priceOfShortage - problem.costOfWaiting * (sold - packed);
          const carton = column(money, wanted);
          entries.push([carton, 1]);
          delivered[index]?.[sold]?.push([carton, 1]);
        }
      });
      rows.push({ entries, lower: 0, upper: 0 });
    }
  });
  delivered.forEach((weeks, index) => {
    weeks.forEach((entries, week) => {
      rows.push({ entries, lower: 0, upper: problem.demands[index]?.cartons[week] ?? 0 });
    });
  });
  return maximum(highs, cost, upper, rows, offset);
}

function inOrder(problem: ReleaseProblem, opens: readonly (number | null)[]): boolean {
  return (problem.opensBefore ?? []).every(([first, later]) => {
    const [one, other] = [opens[first] ?? null, opens[later] ?? null];
    return one === null || other === null || one < other;
  });
}

function withinOpenLimit(problem: ReleaseProblem, opens: readonly (number | null)[]): boolean {
  const limit = problem.roomsOpenAtOnce ?? Number.POSITIVE_INFINITY;
  for (let at = 0; at < problem.weeks; at++) {
    const open = opens.filter((week, room) => {
      const { weeksToEmpty: emptying = 0, fromField } = problem.rooms[room] ?? {};
      return !fromField && week !== null && week <= at && at < week + emptying;
    });
    if (open.length > limit) return false;
  }
  return true;
}

function maximum(
  highs: Highs,
  cost: readonly number[],
  upper: readonly number[],
  rows: readonly { entries: readonly [number, number][]; lower: number; upper: number }[],
  offset: number,
): number | undefined {
  const kept = rows.filter((row) => row.entries.length > 0);
  if (cost.length === 0) return offset;
  const starts = [0];
  for (const row of kept) starts.push((starts.at(-1) ?? 0) + row.entries.length);
  return highs.withModel(
    {
      numCols: cost.length,
      numRows: kept.length,
      sense: highs.constants.objectiveSense.maximize,
      offset,
      colCost: [...cost],
      colLower: cost.map(() => 0),
      colUpper: [...upper],
      rowLower: kept.map((row) => row.lower),
      rowUpper: kept.map((row) => row.upper),
      matrix: {
        format: 'csr',
        numRows: kept.length,
        numCols: cost.length,
        starts,
        indices: kept.flatMap((row) => row.entries.map(([index]) => index)),
        values: kept.flatMap((row) => row.entries.map(([, value]) => value)),
      },
    },
    (model) => {
      model.options.set({ output_flag: false });
      model.run();
      return model.getModelStatus() === highs.constants.modelStatus.optimal
        ? model.getObjectiveValue()
        : undefined;
    },
  );
}

/** The best value of all choices of opening weeks. */
export function bestValue(highs: Highs, problem: ReleaseProblem): number {
  let best = Number.NEGATIVE_INFINITY;
  for (const opens of allOpenings(choicesOf(problem))) {
    const value = valueAt(highs, problem, opens);
    if (value !== undefined && value > best) best = value;
  }
  return best;
}
