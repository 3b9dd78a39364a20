import type { DrawInputs } from './draw-inputs';
import { DrawnSeason, type Outcome } from './drawn-season';
import { type Draw, drawSeasons } from './draws';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** A week counts as short where more than this share of what is wanted is missing. */
export const LEAST_SHORT_SHARE = 0.01;
/** A room's fruit counts as gone soft where more than this share of its cartons did. */
const LEAST_SOFT_SHARE = 0.01;

/** Which of the seasons of a seed: those from `first` on, `count` of them. */
export interface DrawSpan {
  readonly seed: number;
  readonly first: number;
  readonly count: number;
}

/** What a schedule came to in some seasons, added up. Nothing but numbers, so that it crosses from a worker. */
export interface DrawTally {
  /** Worth of each season, in their order. */
  readonly values: readonly number[];
  readonly varieties: readonly VarietyTally[];
  /** Of all varieties: a week counts where one of them is short. */
  readonly all: ShortTally;
  /** By room: seasons in which some of it was soft, and its shares added up. */
  readonly soft: readonly { readonly times: number; readonly share: number }[];
}

export interface ShortTally {
  /** Seasons with a week that is short. */
  readonly times: number;
  readonly cartons: number;
  readonly weeks: readonly { readonly times: number; readonly cartons: number }[];
}

export interface VarietyTally extends ShortTally {
  readonly variety: string;
}

/** The seasons of a span. Those before it are drawn and passed over: a season follows from all before it. */
export function* drawsOf(problem: ReleaseProblem, inputs: DrawInputs, span: DrawSpan): Generator<Draw> {
  const seasons = drawSeasons(problem, inputs, span.seed);
  for (let at = 0; at < span.first + span.count; at++) {
    const draw = seasons.next().value;
    if (at >= span.first) yield draw;
  }
}

/** With `respread` rooms are packed anew in each season where that is worth more, their opening weeks held. */
export function tallyDraws(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  inputs: DrawInputs,
  span: DrawSpan,
  respread = false,
): DrawTally {
  const season = new DrawnSeason(problem, schedule, inputs, respread);
  const varieties = emptyTallies(problem);
  const all = emptyTally(problem);
  const soft = problem.rooms.map(() => ({ times: 0, share: 0 }));
  const values: number[] = [];
  for (const draw of drawsOf(problem, inputs, span)) {
    const outcome = season.outcome(draw);
    values.push(outcome.value);
    const short = varieties.map(({ demands }) => shortByWeek(problem, demands, outcome, inputs.toldFrom));
    varieties.forEach(({ sums }, at) => {
      addShort(sums, short[at] ?? []);
    });
    addShort(all, added(short, problem.weeks));
    outcome.soft.forEach((share, room) => {
      const one = soft[room];
      if (!one) return;
      one.share += share;
      if (share > LEAST_SOFT_SHARE) one.times += 1;
    });
  }
  return {
    values,
    varieties: varieties.map(({ variety, sums }) => ({ variety, ...sums })),
    all,
    soft,
  };
}

/** Tallies of spans that follow each other, added in their order, so that sums round alike however they were shared. */
export function mergeTallies(tallies: readonly DrawTally[]): DrawTally {
  const [first, ...others] = tallies;
  if (!first) return { values: [], varieties: [], all: NOTHING, soft: [] };
  return others.reduce(
    (all, one) => ({
      values: [...all.values, ...one.values],
      varieties: all.varieties.map((variety, at) => ({
        variety: variety.variety,
        ...both(variety, one.varieties[at] ?? NOTHING),
      })),
      all: both(all.all, one.all),
      soft: all.soft.map(({ times, share }, room) => ({
        times: times + (one.soft[room]?.times ?? 0),
        share: share + (one.soft[room]?.share ?? 0),
      })),
    }),
    first,
  );
}

const NOTHING: ShortTally = { times: 0, cartons: 0, weeks: [] };

function both(one: ShortTally, other: ShortTally): ShortTally {
  return {
    times: one.times + other.times,
    cartons: one.cartons + other.cartons,
    weeks: one.weeks.map(({ times, cartons }, week) => ({
      times: times + (other.weeks[week]?.times ?? 0),
      cartons: cartons + (other.weeks[week]?.cartons ?? 0),
    })),
  };
}

interface Sums {
  times: number;
  cartons: number;
  readonly weeks: { times: number; cartons: number }[];
}

interface Tally {
  readonly variety: string;
  readonly demands: readonly number[];
  readonly sums: Sums;
}

function emptyTally({ weeks }: ReleaseProblem): Sums {
  return { times: 0, cartons: 0, weeks: Array.from({ length: weeks }, () => ({ times: 0, cartons: 0 })) };
}

function emptyTallies(problem: ReleaseProblem): Tally[] {
  const varietyOf = (demand: number) =>
    problem.products[problem.demands[demand]?.product ?? -1]?.variety ?? '';
  const names = [...new Set(problem.demands.map((_, demand) => varietyOf(demand)))].sort();
  return names.map((variety) => ({
    variety,
    demands: problem.demands.flatMap((_, demand) => (varietyOf(demand) === variety ? [demand] : [])),
    sums: emptyTally(problem),
  }));
}

/**
 * Cartons short in each week; none where they are too few for the week to count as short, and none before `toldFrom`, where
 * it is not known what was delivered.
 */
function shortByWeek(
  { weeks }: ReleaseProblem,
  demands: readonly number[],
  { wanted, sold }: Outcome,
  toldFrom = 0,
): number[] {
  return Array.from({ length: weeks }, (_, week) => {
    if (week < toldFrom) return 0;
    let [all, short] = [0, 0];
    for (const demand of demands) {
      all += wanted[demand]?.[week] ?? 0;
      short += Math.max(0, (wanted[demand]?.[week] ?? 0) - (sold[demand]?.[week] ?? 0));
    }
    return short > LEAST_SHORT_SHARE * all ? short : 0;
  });
}

function added(rows: readonly (readonly number[])[], weeks: number): number[] {
  return Array.from({ length: weeks }, (_, week) => rows.reduce((sum, row) => sum + (row[week] ?? 0), 0));
}

function addShort(into: Sums, short: readonly number[]): void {
  let any = false;
  short.forEach((cartons, week) => {
    const one = into.weeks[week];
    if (!one || cartons <= 0) return;
    any = true;
    one.times += 1;
    one.cartons += cartons;
    into.cartons += cartons;
  });
  if (any) into.times += 1;
}
