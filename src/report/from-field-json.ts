import type { ComputedSeason } from '../findings/types';
import { formatWeek } from '../plan/dates';
import { binsUnpacked } from '../release/from-field';
import type { ReleaseProblem, ReleaseSchedule } from '../release/types';
import { LEAST_AMOUNT, tidy } from './amounts';
import { placeOf } from './place';
import type { ReleaseReport } from './schemas';

type FromFieldJson = NonNullable<ReleaseReport['fromField']>;

/** The lots that are packed at harvest, in the order of the problem; undefined where the plan has none. */
export function fromFieldJson(
  { plan }: ComputedSeason,
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
): FromFieldJson | undefined {
  const label = (week: number) => formatWeek(problem.firstWeek + week);
  const parts = problem.rooms.flatMap((room, at) =>
    room.fromField ? [{ room, lot: room.fromField.lot, packed: schedule.packed[at] ?? [] }] : [],
  );
  const lots = [...new Set(parts.map(({ lot }) => lot))].map((id) => {
    const own = parts.filter(({ lot }) => lot === id);
    const lot = plan.lots.get(id);
    const bins = Array.from({ length: problem.weeks }, (_, week) =>
      sum(own.map(({ packed }) => packed[week] ?? 0)),
    );
    return {
      lot: id,
      variety: lot?.variety?.value ?? '',
      place: placeOf(
        plan,
        lot?.packedAtHarvest?.origin.kind === 'plan'
          ? lot.packedAtHarvest.origin.at
          : (lot?.at ?? { file: '', start: 0, end: 0 }),
      ),
      bins: tidy(sum(own.map(({ room }) => room.bins))),
      from: label(Math.min(...own.map(({ room }) => room.earliest))),
      until: label(Math.max(...own.map(({ room }) => room.earliest + room.weeksToEmpty - 1))),
      weeks: bins.flatMap((amount, week) =>
        amount >= LEAST_AMOUNT ? [{ week: label(week), bins: tidy(amount) }] : [],
      ),
      binsToProcessing: tidy(sum(own.map(({ room, packed }) => binsUnpacked(room, packed)))),
    };
  });
  return lots.length === 0 ? undefined : lots;
}

/** Bins from the field that are packed in a week; undefined where the plan packs none at harvest. */
export function binsFromField(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  week: number,
): number | undefined {
  if (!problem.rooms.some(({ fromField }) => fromField)) return undefined;
  return tidy(
    sum(problem.rooms.map(({ fromField }, at) => (fromField ? (schedule.packed[at]?.[week] ?? 0) : 0))),
  );
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
