/**
 * One run of the benchmark of fills, in a process of its own: `<rooms> <load> <seed> <moves>`. Prints a line of JSON.
 * Bundled and started by `bench-fills.ts`.
 */
import { fillSeason } from '../../tests/generate/fill-season';
import { checkFill } from '../fill/checker';
import { freePlaces } from '../fill/load';
import { proposeFill } from '../fill/propose';
import { brokenLots } from '../fill/splits';
import { wellFilled } from '../fill/weights';

export interface FillRun {
  readonly rooms: number;
  readonly load: number;
  readonly seed: number;
  readonly lots: number;
  readonly bins: number;
  readonly used: number;
  /** Rooms whose places alone are enough for all bins that are placed, largest first: none less would do. */
  readonly fewest: number;
  readonly partly: number;
  readonly unplaced: number;
  /** No fill leaves fewer. */
  readonly leastUnplaced: number;
  /** Rooms of lots beyond the first of each. */
  readonly splits: number;
  /** Lots in more than one room that no room could take whole. */
  readonly forced: number;
  /** Lots of which some bins have a room and some are left over. */
  readonly partlyLeft: number;
  /** What the independent checker found wrong. */
  readonly violations: number;
  /** By the clock, and of the processor. */
  readonly seconds: number;
  readonly processorSeconds: number;
}

async function measure([rooms = 0, load = 0, seed = 0, moves = 0]: readonly number[]): Promise<FillRun> {
  const problem = fillSeason({ rooms, load, seed });
  const before = process.cpuUsage();
  const began = performance.now();
  const { proposal, leastUnplaced } = await proposeFill(problem, { seed: 1, moves });
  const seconds = (performance.now() - began) / 1000;
  const { user, system } = process.cpuUsage(before);
  const bins = sum(problem.lots.map((lot) => lot.bins));
  const unplaced = sum(proposal.unplaced.map((lot) => lot.bins));
  const places = new Map(problem.rooms.map((room) => [room.id, freePlaces(room)]));
  const filled = proposal.rooms.map(({ room, entries }) => ({
    share: sum(entries.map((entry) => entry.bins)) / (places.get(room) ?? 1),
    lots: [...new Set(entries.map(({ lot }) => lot))],
  }));
  const broken = brokenLots(problem, proposal);
  const inRooms = filled.flatMap((room) => room.lots);
  return {
    rooms,
    load,
    seed,
    lots: problem.lots.length,
    bins,
    used: proposal.rooms.length,
    fewest: fewestRooms([...places.values()], bins - unplaced),
    partly: filled.filter(({ share }) => share < wellFilled).length,
    unplaced,
    leastUnplaced,
    splits: inRooms.length - new Set(inRooms).size,
    forced: broken.filter((one) => one.kind === 'forced' && one.rooms.length > 1).length,
    partlyLeft: broken.filter((one) => one.leftOver > 0).length,
    violations: checkFill(problem, proposal).length,
    seconds,
    processorSeconds: (user + system) / 1e6,
  };
}

function fewestRooms(places: readonly number[], bins: number): number {
  let [rooms, left] = [0, bins];
  for (const most of [...places].sort((a, b) => b - a)) {
    if (left <= 0) break;
    left -= most;
    rooms += 1;
  }
  return rooms;
}

function sum(list: readonly number[]): number {
  return list.reduce((total, one) => total + one, 0);
}

measure(process.argv.slice(2).map(Number)).then(
  (run) => console.log(JSON.stringify(run)),
  (error: unknown) => {
    console.error(error);
    process.exitCode = 1;
  },
);
