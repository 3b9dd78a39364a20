import type { Day } from '../plan/dates';
import { LinearRows, type Terms } from './linear-rows';
import type { FillProblem, FreeRoom, LotToPlace } from './types';
import { easyFillingDays, likeWeeks, usualFillingDays, weights, wellFilled } from './weights';

/** The fill problem as a mixed-integer program whose least cost is the least of all fills. */
export interface FillModel {
  readonly rows: LinearRows;
  /** Bins of a lot's arrival that go into a room in a regime on a day. */
  readonly moves: readonly Move[];
}

export interface Move {
  readonly room: number;
  readonly regime: number;
  readonly lot: number;
  readonly arrival: number;
  readonly day: Day;
  readonly column: number;
}

/** One lot in one room: whether it is there, in each regime that suits it. */
interface Stay {
  readonly lot: number;
  readonly one: LotToPlace;
  readonly regime: number;
  readonly latest: number;
  /** 1 where the lot is in the room in this regime. */
  readonly column: number;
}

/** Exact where the search is not; small enough for about six rooms. */
export function fillModel(problem: FillProblem): FillModel {
  const rows = new LinearRows();
  const moves: Move[] = [];
  const stays = problem.rooms.map((room, index) => roomPart(problem, rows, moves, room, index));
  problem.lots.forEach((one, lot) => {
    one.arrivals.forEach(({ bins }, arrival) => {
      const over = rows.column(weights.unplacedBin, 0, bins);
      const mine = moves.filter((move) => move.lot === lot && move.arrival === arrival);
      rows.row([[over, 1], ...ones(mine)], bins, bins);
    });
    const split = rows.column(weights.split, 0, problem.rooms.length);
    const mine = stays.flat().filter((stay) => stay.lot === lot);
    rows.row([[split, -1], ...ones(mine)], Number.NEGATIVE_INFINITY, 1);
  });
  return { rows, moves };
}

function roomPart(
  problem: FillProblem,
  rows: LinearRows,
  moves: Move[],
  room: FreeRoom,
  index: number,
): Stay[] {
  const runs = problem.regimes.map(({ sealed }, regime) =>
    sealed && !room.sealable
      ? undefined
      : rows.column(
          weights.room + room.places * weights.emptyPlace + (room.costInRegime[regime] ?? 0),
          0,
          1,
          true,
        ),
  );
  const used: Terms = runs.flatMap((column) => (column === undefined ? [] : [[column, 1] as const]));
  rows.row(used, 0, 1);
  const stays: Stay[] = [];
  const mine: Move[] = [];
  problem.lots.forEach((one, lot) => {
    one.keeps.forEach((keeps, regime) => {
      const run = runs[regime];
      if (!keeps || run === undefined) return;
      const stay = rows.column(0, 0, 1, true);
      rows.row(
        [
          [stay, 1],
          [run, -1],
        ],
        Number.NEGATIVE_INFINITY,
        0,
      );
      stays.push({ lot, one, regime, latest: keeps.latest, column: stay });
      const here: Move[] = [];
      one.arrivals.forEach(({ day: picked, bins }, arrival) => {
        for (let day = picked; day <= picked + problem.mostWaitingDays; day++) {
          if (room.ready !== null && day < room.ready) continue;
          const cost = keeps.costABin + weights.waitingBinDay * (day - picked) - weights.emptyPlace;
          const column = rows.column(cost, 0, Math.min(bins, room.binsADay), true);
          here.push({ room: index, regime, lot, arrival, day, column });
        }
      });
      // Bins only where the lot is, and the lot only where bins are: else a stay could stand for nothing.
      rows.row([[stay, -Math.min(one.bins, room.places)], ...ones(here)], Number.NEGATIVE_INFINITY, 0);
      mine.push(...here);
    });
  });
  moves.push(...mine);
  placesAndFilling(rows, room, used, mine);
  fillingDays(problem, rows, room, used, mine);
  unlikeLots(rows, room, stays);
  return stays;
}

function placesAndFilling(rows: LinearRows, room: FreeRoom, used: Terms, mine: readonly Move[]): void {
  rows.row([...ones(mine), ...times(used, -room.places)], Number.NEGATIVE_INFINITY, 0);
  // A used room holds something, or it would be charged for nothing; the cost sees to that.
  const partly = rows.column(weights.partlyFilled, 0, 1, true);
  const filled = Math.ceil(wellFilled * room.places - 1e-9);
  rows.row([...ones(mine), ...times(used, -filled), [partly, filled]], 0, Number.POSITIVE_INFINITY);
}

/** A room's filling is a stretch of days: those on which it has begun and has not yet ended. */
function fillingDays(
  problem: FillProblem,
  rows: LinearRows,
  room: FreeRoom,
  used: Terms,
  mine: readonly Move[],
): void {
  if (mine.length === 0) return;
  const days = mine.map(({ day }) => day);
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const length: (readonly [number, number])[] = [];
  let before: readonly [begun: number, ended: number] | undefined;
  for (let day = first; day <= last; day++) {
    const begun = rows.column(0, 0, 1, true);
    const ended = rows.column(0, 0, 1, true);
    rows.row([[begun, 1], ...times(used, -1)], Number.NEGATIVE_INFINITY, 0);
    rows.row(
      [
        [ended, 1],
        [begun, -1],
      ],
      Number.NEGATIVE_INFINITY,
      0,
    );
    if (before) {
      rows.row(
        [
          [begun, 1],
          [before[0], -1],
        ],
        0,
        Number.POSITIVE_INFINITY,
      );
      rows.row(
        [
          [ended, 1],
          [before[1], -1],
        ],
        0,
        Number.POSITIVE_INFINITY,
      );
    }
    before = [begun, ended];
    length.push([begun, 1], [ended, -1]);
    const today = ones(mine.filter((move) => move.day === day));
    rows.row([...today, [begun, -room.binsADay], [ended, room.binsADay]], Number.NEGATIVE_INFINITY, 0);
  }
  const long = rows.column(weights.fillingDay, 0, problem.mostFillingDays - easyFillingDays);
  const slow = rows.column(weights.slowFillingDay, 0, problem.mostFillingDays - usualFillingDays);
  rows.row([...length, [long, -1]], Number.NEGATIVE_INFINITY, easyFillingDays);
  rows.row([...length, [slow, -1]], Number.NEGATIVE_INFINITY, usualFillingDays);
}

function unlikeLots(rows: LinearRows, room: FreeRoom, stays: readonly Stay[]): void {
  const growers = new Map<string, number>();
  for (const { one, column } of stays) {
    const grower = growers.get(one.grower) ?? rows.column(weights.grower, 0, 1);
    growers.set(one.grower, grower);
    rows.row(
      [
        [column, 1],
        [grower, -1],
      ],
      Number.NEGATIVE_INFINITY,
      0,
    );
  }
  const tested = stays.flatMap((stay) => (stay.one.term === null ? [] : [[stay, stay.one.term] as const]));
  apart(rows, tested, weights.termStep * room.places, 0);
  const weeks = stays.map((stay) => [stay, stay.latest] as const);
  apart(rows, weeks, weights.weekApart * room.places, likeWeeks);
}

/** Charges `cost` for each step beyond `free` between the least and the largest value of the lots that are there. */
function apart(
  rows: LinearRows,
  values: readonly (readonly [Stay, number])[],
  cost: number,
  free: number,
): void {
  const all = values.map(([, value]) => value);
  if (all.length === 0) return;
  const [low, high] = [Math.min(...all), Math.max(...all)];
  if (high - low <= free) return;
  const least = rows.column(0, low, high);
  const largest = rows.column(0, low, high);
  const beyond = rows.column(cost, 0, high - low);
  rows.row(
    [
      [largest, 1],
      [least, -1],
      [beyond, -1],
    ],
    Number.NEGATIVE_INFINITY,
    free,
  );
  for (const [{ column }, value] of values) {
    rows.row(
      [
        [largest, 1],
        [column, low - value],
      ],
      low,
      Number.POSITIVE_INFINITY,
    );
    rows.row(
      [
        [least, 1],
        [column, high - value],
      ],
      Number.NEGATIVE_INFINITY,
      high,
    );
  }
}

function ones(list: readonly { readonly column: number }[]): Terms {
  return list.map(({ column }) => [column, 1] as const);
}

function times(terms: Terms, factor: number): Terms {
  return terms.map(([column, value]) => [column, value * factor] as const);
}
