import { formatWeek } from '../plan/dates';
import type { Ranges } from '../release/draw-inputs';
import type { ReleaseProblem } from '../release/types';
import type { ShortRisk, Uncertainty } from '../release/uncertainty';
import { tidy } from './amounts';
import type { ReleaseReport } from './schemas';

/** Seasons drawn, with weeks and rooms by name. */
export function uncertaintyJson(
  problem: ReleaseProblem,
  drawn: Uncertainty,
  ranges: Ranges,
): NonNullable<ReleaseReport['uncertainty']> {
  return {
    draws: drawn.draws,
    seed: drawn.seed,
    ranges: { ...ranges },
    planned: tidy(drawn.planned),
    mean: tidy(drawn.mean),
    meanError: tidy(drawn.meanError),
    low: tidy(drawn.low),
    high: tidy(drawn.high),
    worstTenth: tidy(drawn.worstTenth),
    varieties: drawn.varieties.map(({ variety, ...short }) => ({ variety, ...shortJson(problem, short) })),
    all: shortJson(problem, drawn.all),
    rooms: drawn.rooms.map(({ room, cost, cartonsShort, softChance, softShare }) => ({
      room: problem.rooms[room]?.room ?? '',
      fill: problem.rooms[room]?.fill ?? '',
      costs: tidy(cost),
      cartonsShort: tidy(cartonsShort),
      softChance: share(softChance),
      softShare: share(softShare),
    })),
  };
}

function shortJson({ firstWeek }: ReleaseProblem, { chance, cartons, weeks }: ShortRisk) {
  return {
    chance: share(chance),
    cartonsShort: tidy(cartons),
    weeks: weeks.flatMap((one, week) =>
      one.chance > 0
        ? [
            {
              week: formatWeek(firstWeek + week),
              chance: share(one.chance),
              cartonsShort: tidy(one.cartons),
            },
          ]
        : [],
    ),
  };
}

/** To a hundredth of a per cent: there is no more in a few hundred draws. */
function share(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}
