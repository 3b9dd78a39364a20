import { formatWeek } from '../plan/dates';
import type { AcrossDraws } from '../release/across-types';
import type { Ranges } from '../release/draw-inputs';
import type { ReleaseProblem, ReleaseSchedule } from '../release/types';
import type { Uncertainty } from '../release/uncertainty';
import { tidy } from './amounts';
import type { ReleaseReport } from './schemas';
import { uncertaintyJson } from './uncertainty-json';

/** A schedule that is good across draws beside the one that is best if all comes as expected. */
export interface AcrossComparison {
  /** Seasons it was sought on. */
  readonly draws: number;
  readonly across: AcrossDraws;
  readonly before: ReleaseSchedule;
  /** The schedule it was sought from, on seasons that neither was sought on. */
  readonly expected: Uncertainty;
}

/** What seasons drawn came to. */
export interface DrawnReport {
  readonly drawn: Uncertainty;
  readonly ranges: Ranges;
  readonly comparison?: AcrossComparison;
}

export function acrossJson(
  problem: ReleaseProblem,
  { ranges, comparison }: DrawnReport,
): ReleaseReport['goodAcross'] {
  if (!comparison) return undefined;
  const { draws, across, before, expected } = comparison;
  const label = (week: number | null | undefined) =>
    week === null || week === undefined ? undefined : formatWeek(problem.firstWeek + week);
  return {
    draws,
    rounds: across.rounds,
    tried: across.tried,
    meanBefore: tidy(across.startMean),
    mean: tidy(across.mean),
    valueBefore: tidy(before.value),
    expected: uncertaintyJson(problem, expected, ranges),
    moved: problem.rooms.flatMap((room, at) => {
      const [from, to] = [label(before.opens[at]), label(across.schedule.opens[at])];
      if (from === to || room.fromField) return [];
      return [{ room: room.room, fill: room.fill, ...(from && { from }), ...(to && { to }) }];
    }),
  };
}
