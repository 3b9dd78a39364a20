import type { Day } from '../plan/dates';
import { intakeOn } from './intake';
import { mayRun } from './limits';
import { LinearRows, type Terms } from './linear-rows';
import { freePlaces } from './load';
import { roomsInFills, togetherGrowers } from './together';
import type { FillProblem, FreeRoom, HeldFruit, LotToPlace } from './types';
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

/** Whether fruit of a grower is put into a room in which there was none. */
interface GrowerInRoom {
  readonly grower: string;
  readonly column: number;
}

/** Exact where the search is not; small enough for about six rooms. */
export function fillModel(problem: FillProblem): FillModel {
  const rows = new LinearRows();
  const moves: Move[] = [];
  const inRooms: GrowerInRoom[] = [];
  const stays = problem.rooms.map((room, index) => roomPart(problem, rows, moves, inRooms, room, index));
  problem.lots.forEach((one, lot) => {
    one.arrivals.forEach(({ bins }, arrival) => {
      const over = rows.column(weights.unplacedBin, 0, bins);
      const mine = moves.filter((move) => move.lot === lot && move.arrival === arrival);
      rows.row([[over, 1], ...ones(mine)], bins, bins);
    });
    const split = rows.column(weights.split, 0, problem.rooms.length);
    const mine = stays
      .flatMap((list, room) => (problem.rooms[room]?.held?.lots.includes(one.id) ? [] : list))
      .filter((stay) => stay.lot === lot);
    rows.row([[split, -1], ...ones(mine)], Number.NEGATIVE_INFINITY, one.inFills > 0 ? 0 : 1);
  });
  keepTogether(problem, rows, inRooms);
  return { rows, moves };
}

function roomPart(
  problem: FillProblem,
  rows: LinearRows,
  moves: Move[],
  inRooms: GrowerInRoom[],
  room: FreeRoom,
  index: number,
): Stay[] {
  const runs = problem.regimes.map((_, regime) => {
    // A room that has begun is used whatever is added to it, and that has no cost.
    if (room.held) return regime === room.held.regime ? rows.column(0, 1, 1) : undefined;
    if (!mayRun(problem, room, regime)) return undefined;
    const cost = weights.room + room.places * weights.emptyPlace + (room.costInRegime[regime] ?? 0);
    return rows.column(cost, 0, 1, true);
  });
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
          if (room.held && day < room.held.firstDay) continue;
          if (room.held?.sealing && day > room.held.sealing.lastBinBy) continue;
          const cost = keeps.costABin + weights.waitingBinDay * (day - picked) - weights.emptyPlace;
          const column = rows.column(cost, 0, Math.min(bins, intakeOn(room, day)), true);
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
  growersOfRoom(rows, inRooms, room, stays);
  unlikeLots(rows, room, stays);
  return stays;
}

function placesAndFilling(rows: LinearRows, room: FreeRoom, used: Terms, mine: readonly Move[]): void {
  rows.row([...ones(mine), ...times(used, -freePlaces(room))], Number.NEGATIVE_INFINITY, 0);
  // A used room holds something, or it would be charged for nothing; the cost sees to that.
  const filled = Math.ceil(wellFilled * room.places - 1e-9) - (room.held?.bins ?? 0);
  if (filled <= 0) return;
  const partly = rows.column(weights.partlyFilled, 0, 1, true);
  rows.row([...ones(mine), ...times(used, -filled), [partly, filled]], 0, Number.POSITIVE_INFINITY);
  if (room.held) rows.column(-weights.partlyFilled, 1, 1);
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
  const { held } = room;
  const days = [...mine.map(({ day }) => day), ...(held ? [held.firstDay, held.lastDay] : [])];
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const length: (readonly [number, number])[] = [];
  const endedDays: number[] = [];
  let before: readonly [begun: number, ended: number] | undefined;
  for (let day = first; day <= last; day++) {
    const begun = rows.column(0, held && day >= held.firstDay ? 1 : 0, 1, true);
    const ended = rows.column(0, 0, held && day <= held.lastDay ? 0 : 1, true);
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
    endedDays.push(ended);
    const today = ones(mine.filter((move) => move.day === day));
    const most = intakeOn(room, day);
    rows.row([...today, [begun, -most], [ended, most]], Number.NEGATIVE_INFINITY, 0);
  }
  const long = rows.column(weights.fillingDay, 0, problem.mostFillingDays - easyFillingDays);
  const slow = rows.column(weights.slowFillingDay, 0, problem.mostFillingDays - usualFillingDays);
  rows.row([...length, [long, -1]], Number.NEGATIVE_INFINITY, easyFillingDays);
  rows.row([...length, [slow, -1]], Number.NEGATIVE_INFINITY, usualFillingDays);
  if (!held) return;
  sealingPutOff(rows, held, endedDays, last);
  const had = held.lastDay - held.firstDay + 1;
  const charged =
    weights.fillingDay * Math.max(0, had - easyFillingDays) +
    weights.slowFillingDay * Math.max(0, had - usualFillingDays);
  rows.column(-charged, 1, 1);
}

/** Days by which the last bin puts sealing off: it comes on the last of the days that is not one of those ended. */
function sealingPutOff(rows: LinearRows, held: HeldFruit, ended: readonly number[], last: Day): void {
  const { sealing } = held;
  const most = sealing ? last + sealing.daysAfter - sealing.day : 0;
  if (!sealing || most <= 0) return;
  const putOff = rows.column(weights.sealingDayABin * held.bins, 0, most);
  rows.row([[putOff, 1], ...ended.map((column) => [column, 1] as const)], most, Number.POSITIVE_INFINITY);
}

/** A column for each grower that may come into a room: it has a cost, and one kept apart allows no other. */
function growersOfRoom(
  rows: LinearRows,
  inRooms: GrowerInRoom[],
  { held }: FreeRoom,
  stays: readonly Stay[],
): void {
  const growers = new Map<string, { readonly column: number; readonly apart: boolean }>();
  for (const { one, column } of stays) {
    const had = held?.growers.includes(one.grower) === true;
    let grower = growers.get(one.grower);
    if (!grower) {
      grower = { column: rows.column(had ? 0 : weights.grower, 0, 1), apart: one.apart };
      growers.set(one.grower, grower);
      if (!had) inRooms.push({ grower: one.grower, column: grower.column });
    }
    rows.row(
      [
        [column, 1],
        [grower.column, -1],
      ],
      Number.NEGATIVE_INFINITY,
      0,
    );
  }
  const list = [...growers];
  list.forEach(([name, one], index) => {
    const others = held?.growers.filter((other) => other !== name) ?? [];
    if (others.length > 0 && (one.apart || held?.apart)) rows.row([[one.column, 1]], 0, 0);
    for (const [, other] of list.slice(index + 1))
      if (one.apart || other.apart)
        rows.row(
          [
            [one.column, 1],
            [other.column, 1],
          ],
          0,
          1,
        );
  });
}

/** Each room beyond the first of a grower to be kept together is charged. */
function keepTogether(problem: FillProblem, rows: LinearRows, inRooms: readonly GrowerInRoom[]): void {
  for (const grower of togetherGrowers(problem)) {
    const before = roomsInFills(problem, grower);
    const more = rows.column(weights.growerRoom, 0, problem.rooms.length);
    const mine = inRooms.filter((one) => one.grower === grower);
    rows.row([[more, -1], ...ones(mine)], Number.NEGATIVE_INFINITY, before > 0 ? 0 : 1);
  }
}

function unlikeLots(rows: LinearRows, room: FreeRoom, stays: readonly Stay[]): void {
  const tested = stays.flatMap((stay) => (stay.one.term === null ? [] : [[stay, stay.one.term] as const]));
  apart(rows, tested, weights.termStep * room.places, 0, room.held?.terms ?? []);
  const weeks = stays.map((stay) => [stay, stay.latest] as const);
  apart(rows, weeks, weights.weekApart * room.places, likeWeeks, room.held?.latest ?? []);
}

/**
 * Charges `cost` for each step beyond `free` between the least and the largest value of the lots that are there, those
 * a fill has put there before among them; what those alone would cost is taken off.
 */
function apart(
  rows: LinearRows,
  values: readonly (readonly [Stay, number])[],
  cost: number,
  free: number,
  before: readonly number[],
): void {
  const all = [...values.map(([, value]) => value), ...before];
  if (values.length === 0) return;
  const [low, high] = [Math.min(...all), Math.max(...all)];
  if (high - low <= free) return;
  const [had, hadMost] = [Math.min(...before), Math.max(...before)];
  if (before.length > 0) rows.column(-cost * Math.max(0, hadMost - had - free), 1, 1);
  const least = rows.column(0, low, Math.min(high, had));
  const largest = rows.column(0, Math.max(low, hadMost), high);
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
