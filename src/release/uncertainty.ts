import type { DrawInputs } from './draw-inputs';
import { DrawnSeason, type Outcome } from './drawn-season';
import { type Draw, drawSeasons, plannedDraw } from './draws';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** A week counts as short where more than this share of what is wanted is missing. */
export const LEAST_SHORT_SHARE = 0.01;
/** A room's fruit counts as gone soft where more than this share of its cartons did. */
const LEAST_SOFT_SHARE = 0.01;

/** How a variety may fall short in the seasons drawn. */
export interface VarietyRisk {
  readonly variety: string;
  /** Chance that some week is short. */
  readonly chance: number;
  /** Mean cartons short over the season. */
  readonly cartons: number;
  /** By week of the season: chance of being short, mean cartons short. */
  readonly weeks: readonly { readonly chance: number; readonly cartons: number }[];
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
  /** Worth of the schedule where all comes as planned, counted as in the draws. */
  readonly planned: number;
  readonly mean: number;
  /** One season of ten is worth less than this, one of ten more than that. */
  readonly low: number;
  readonly high: number;
  readonly varieties: readonly VarietyRisk[];
  /** Those the season hangs on most come first. */
  readonly rooms: readonly RoomRisk[];
}

/**
 * What a fixed schedule is worth, and how likely it leaves demand short, in seasons drawn from the plan's ranges. The
 * same problem, schedule and seed give the same answer on every machine.
 */
export function releaseUncertainty(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  inputs: DrawInputs,
  options: { readonly draws: number; readonly seed: number },
): Uncertainty {
  const season = new DrawnSeason(problem, schedule, inputs);
  const varieties = varietyTallies(problem);
  const soft = problem.rooms.map(() => ({ times: 0, share: 0 }));
  const values: number[] = [];
  const seasons = drawSeasons(problem, inputs, options.seed);
  for (let count = 0; count < options.draws; count++) {
    const outcome = season.outcome(seasons.next().value);
    values.push(outcome.value);
    for (const one of varieties) tally(problem, one, outcome);
    outcome.soft.forEach((share, room) => {
      const one = soft[room];
      if (!one) return;
      one.share += share;
      if (share > LEAST_SOFT_SHARE) one.times += 1;
    });
  }
  const planned = season.outcome(plannedDraw(problem));
  const sorted = [...values].sort((a, b) => a - b);
  return {
    ...options,
    planned: planned.value,
    mean: values.reduce((total, value) => total + value, 0) / Math.max(1, values.length),
    low: quantile(sorted, 0.1),
    high: quantile(sorted, 0.9),
    varieties: varieties.map(({ variety, times, cartons, weeks }) => ({
      variety,
      chance: times / options.draws,
      cartons: cartons / options.draws,
      weeks: weeks.map((week) => ({
        chance: week.times / options.draws,
        cartons: week.cartons / options.draws,
      })),
    })),
    rooms: problem.rooms
      .map((_, room) => ({
        room,
        softChance: (soft[room]?.times ?? 0) / options.draws,
        softShare: (soft[room]?.share ?? 0) / options.draws,
        ...alone(problem, inputs, season, planned, room),
      }))
      .sort((a, b) => b.cost - a.cost || a.room - b.room),
  };
}

interface Tally {
  readonly variety: string;
  readonly demands: readonly number[];
  times: number;
  cartons: number;
  readonly weeks: { times: number; cartons: number }[];
}

function varietyTallies(problem: ReleaseProblem): Tally[] {
  const varietyOf = (demand: number) =>
    problem.products[problem.demands[demand]?.product ?? -1]?.variety ?? '';
  const names = [...new Set(problem.demands.map((_, demand) => varietyOf(demand)))].sort();
  return names.map((variety) => ({
    variety,
    demands: problem.demands.flatMap((_, demand) => (varietyOf(demand) === variety ? [demand] : [])),
    times: 0,
    cartons: 0,
    weeks: Array.from({ length: problem.weeks }, () => ({ times: 0, cartons: 0 })),
  }));
}

function tally(problem: ReleaseProblem, into: Tally, { wanted, sold }: Outcome): void {
  let any = false;
  for (let week = 0; week < problem.weeks; week++) {
    let [all, short] = [0, 0];
    for (const demand of into.demands) {
      all += wanted[demand]?.[week] ?? 0;
      short += Math.max(0, (wanted[demand]?.[week] ?? 0) - (sold[demand]?.[week] ?? 0));
    }
    const one = into.weeks[week];
    if (!one || short <= LEAST_SHORT_SHARE * all) continue;
    any = true;
    one.times += 1;
    one.cartons += short;
    into.cartons += short;
  }
  if (any) into.times += 1;
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
