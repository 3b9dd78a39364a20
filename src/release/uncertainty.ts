import type { DrawInputs } from './draw-inputs';
import { type DrawSpan, type DrawTally, mergeTallies, type ShortTally, tallyDraws } from './draw-tally';
import { DrawnSeason, type Outcome } from './drawn-season';
import { type Draw, plannedDraw } from './draws';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** How the season may fall short in the seasons drawn. */
export interface ShortRisk {
  /** Chance that some week is short. */
  readonly chance: number;
  /** Mean cartons short over the season. */
  readonly cartons: number;
  /** By week of the season: chance of being short, mean cartons short. */
  readonly weeks: readonly { readonly chance: number; readonly cartons: number }[];
}

export interface VarietyRisk extends ShortRisk {
  readonly variety: string;
}

/** What the season hangs on a room. */
export interface RoomRisk {
  readonly room: number;
  /** Chance that some of its fruit is below standard by the time it is packed. */
  readonly softChance: number;
  /** Mean share of its cartons that are. */
  readonly softShare: number;
  /** Money less, and cartons short more, if this room alone has the low end of crop and of storage life. */
  readonly cost: number;
  readonly cartonsShort: number;
}

export interface Uncertainty {
  readonly draws: number;
  readonly seed: number;
  /** Worth of the schedule where all comes as planned, counted as in the draws, packing spread anew too. */
  readonly planned: number;
  readonly mean: number;
  /** Standard error of the mean: with other seeds it differs by so much, two times in three by no more. */
  readonly meanError: number;
  /** One season of ten is worth less than this, one of ten more than that. */
  readonly low: number;
  readonly high: number;
  /** Mean of the tenth of the seasons that are worth least. */
  readonly worstTenth: number;
  readonly varieties: readonly VarietyRisk[];
  /** Of all varieties: a week counts where one of them is short. */
  readonly all: ShortRisk;
  /** Those the season hangs on most come first. */
  readonly rooms: readonly RoomRisk[];
}

/** Seasons of a worker's task: small enough to share out, large enough to be worth the message. */
export const DRAWS_A_BLOCK = 10;

/** A span of seasons cut into the blocks in which it is always added up, by one worker or by many. */
export function blocksOf({ seed, first, count }: DrawSpan, size = DRAWS_A_BLOCK): DrawSpan[] {
  return Array.from({ length: Math.ceil(count / size) }, (_, block) => ({
    seed,
    first: first + block * size,
    count: Math.min(size, count - block * size),
  }));
}

/**
 * What a schedule is worth, and how likely it leaves demand short, in seasons drawn from the plan's ranges: its opening
 * weeks are held, packing is spread anew in each. The same problem, schedule and seed give the same answer on every machine.
 */
export function releaseUncertainty(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  inputs: DrawInputs,
  options: { readonly draws: number; readonly seed: number },
): Uncertainty {
  const blocks = blocksOf({ seed: options.seed, first: 0, count: options.draws });
  const tally = mergeTallies(blocks.map((block) => tallyDraws(problem, schedule, inputs, block, true)));
  return uncertaintyOf(problem, schedule, inputs, tally, options.seed);
}

/** The same from seasons already added up. */
export function uncertaintyOf(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  inputs: DrawInputs,
  { values, varieties, all, soft }: DrawTally,
  seed: number,
): Uncertainty {
  const draws = values.length;
  const planned = new DrawnSeason(problem, schedule, inputs, true).outcome(plannedDraw(problem));
  // What hangs on each room is reckoned in the planned proportions, or it would take longer than all the seasons.
  const inProportion = new DrawnSeason(problem, schedule, inputs);
  const asPlanned = inProportion.outcome(plannedDraw(problem));
  const sorted = [...values].sort((a, b) => a - b);
  return {
    draws,
    seed,
    planned: planned.value,
    mean: meanOf(values),
    meanError: errorOfMean(values),
    low: quantile(sorted, 0.1),
    high: quantile(sorted, 0.9),
    worstTenth: meanOf(sorted.slice(0, Math.max(1, Math.round(draws / 10)))),
    varieties: varieties.map(({ variety, ...short }) => ({ variety, ...riskOf(short, draws) })),
    all: riskOf(all, draws),
    rooms: problem.rooms
      .flatMap(({ fromField }, room) => (fromField ? [] : [room]))
      .map((room) => ({
        room,
        softChance: (soft[room]?.times ?? 0) / draws,
        softShare: (soft[room]?.share ?? 0) / draws,
        ...alone(problem, inputs, inProportion, asPlanned, room),
      }))
      .sort((a, b) => b.cost - a.cost || a.room - b.room),
  };
}

function riskOf({ times, cartons, weeks }: ShortTally, draws: number): ShortRisk {
  return {
    chance: times / draws,
    cartons: cartons / draws,
    weeks: weeks.map((week) => ({ chance: week.times / draws, cartons: week.cartons / draws })),
  };
}

/** In their order, so that it rounds the same. */
export function meanOf(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0) / Math.max(1, values.length);
}

/** From the means of seasons and their mirrors, which are drawn in pairs; of one that has none, from itself. */
function errorOfMean(values: readonly number[]): number {
  const pairs = Array.from({ length: Math.ceil(values.length / 2) }, (_, at) =>
    meanOf(values.slice(2 * at, 2 * at + 2)),
  );
  if (pairs.length < 2) return 0;
  const mean = meanOf(pairs);
  const squares = pairs.reduce((sum, pair) => sum + (pair - mean) * (pair - mean), 0);
  return Math.sqrt(squares / (pairs.length - 1) / pairs.length);
}

/** The season as planned but for one room at the low end of crop and of storage life. */
function alone(
  problem: ReleaseProblem,
  { ranges, rooms }: DrawInputs,
  season: DrawnSeason,
  planned: Outcome,
  room: number,
): { cost: number; cartonsShort: number } {
  const usual = plannedDraw(problem);
  const crop = 1 - ranges.crop * (rooms[room]?.estimated ?? 1);
  const low = new Map([...(rooms[room]?.varieties.keys() ?? [])].map((variety) => [variety, crop]));
  const draw: Draw = {
    ...usual,
    crop: usual.crop.map((one, at) => (at === room ? low : one)),
    storageLife: usual.storageLife.map((one, at) => (at === room ? 1 - ranges.storageLife : one)),
  };
  const outcome = season.outcome(draw);
  return { cost: planned.value - outcome.value, cartonsShort: allSold(planned) - allSold(outcome) };
}

function allSold({ sold }: Outcome): number {
  return sold.reduce((total, row) => total + row.reduce((sum, cartons) => sum + cartons, 0), 0);
}

/** Between the two values that lie nearest. */
function quantile(sorted: readonly number[], share: number): number {
  const at = share * (sorted.length - 1);
  const [before, after] = [sorted[Math.floor(at)] ?? 0, sorted[Math.ceil(at)] ?? 0];
  return before + (after - before) * (at - Math.floor(at));
}
