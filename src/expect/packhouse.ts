import { formatWeek, weekOfDay } from '../plan/dates';
import type { PackhouseClaim } from '../plan/expect-model';
import { compute, type Figure } from '../plan/figure';
import { counted, listed } from '../plan/wording';
import { packingWeeks } from '../release/packing-weeks';
import { type Context, noSchedule, notJudged, OUTSIDE_SEASON, pastCure, promisedWeeks } from './context';
import { roomOf } from './moves';
import type { Verdict } from './types';
import { perCent } from './words';

/** Room for rounding in the last digits: what is told as 85 % is 85 %. */
const TOLERANCE = 1e-6;

/** Bins the packhouse runs in its busiest week, of those it can. */
export function judgePackhouse(context: Context, claim: PackhouseClaim): Verdict {
  const { release, plan } = context.season;
  const { atMost } = claim;
  if (!release) return notJudged(claim.at, noSchedule(context));
  if (!atMost) return notJudged(claim.at, 'It does not say how much.');
  const weeks = promisedWeeks(context.season, claim);
  if (!weeks) return notJudged((claim.before ?? claim.from)?.at ?? claim.at, OUTSIDE_SEASON);
  const { problem } = release;
  const used = binsItCanRun(context).flatMap((capacity, at) => {
    const week = problem.firstWeek + at;
    if (week < weeks.first || week > weeks.last || !(capacity > 0)) return [];
    const bins = context.whole?.packed[at] ?? 0;
    return [{ week, at, bins, capacity, share: (100 * bins) / capacity }];
  });
  const [first] = used;
  if (!first) return notJudged(claim.at, 'The packhouse has no working day in those weeks.');
  const peak = used.reduce((most, one) => (one.share > most.share ? one : most));
  const share: Figure<'%'> = compute(
    'use of the packhouse',
    '%',
    '100 * packed / capacity',
    {
      packed: figureOf('bins packed in the week', peak.bins),
      capacity: figureOf('bins it can run', peak.capacity),
    },
    (v) => (100 * v.packed) / v.capacity,
  );
  const told = {
    promised: { kind: 'figure', figure: atMost },
    measured: { kind: 'figure', figure: share },
    at: atMost.origin.kind === 'plan' ? atMost.origin.at : claim.at,
  } as const;
  const text = `${counted(peak.bins, 'bin')} of ${counted(peak.capacity, 'bin')} (${perCent(peak.share, atMost.value)}) are packed in ${formatWeek(peak.week)}`;
  if (peak.share <= atMost.value + TOLERANCE)
    return { state: 'kept', ...told, why: `${text}, the busiest week.`, cures: [] };
  const over = used.filter((one) => one.share > atMost.value + TOLERANCE);
  const rooms = [...binsOfRooms(context, peak.at)]
    .map(([fill, bins]) => ({ fill, bins }))
    .filter(({ bins }) => bins >= 0.5)
    .sort((a, b) => b.bins - a.bins)
    .map(({ fill, bins }) => `${roomOf(context, fill)} ${counted(bins, 'bin')}`);
  const needed = Math.ceil(((plan.packing?.binsAWeek?.value ?? 0) * peak.share) / atMost.value);
  return {
    state: 'broken',
    ...told,
    why: `${text}, ${counted(peak.bins - (peak.capacity * atMost.value) / 100, 'bin')} too many; above ${perCent(atMost.value)} in ${counted(over.length, 'week')}. It runs ${listed(rooms, 4)}.`,
    cures:
      pastCure(context, peak.week) ??
      (needed > 0
        ? [
            {
              text: `With the same schedule, a packhouse of ${counted(needed, 'bin')} in a full week would do, instead of ${counted(plan.packing?.binsAWeek?.value ?? 0, 'bin')}.`,
              fixes: [],
            },
          ]
        : []),
  };
}

function figureOf(name: string, value: number): Figure<'bins'> {
  return { name, unit: 'bins', value, origin: { kind: 'counted', what: 'the schedule', places: [] } };
}

/** Bins of each week; in weeks that are past, or under way, those of the whole week. */
function binsItCanRun({ season: { plan, release } }: Context): readonly number[] {
  if (!release) return [];
  const { firstWeek, weeks, days, packingBins, standing } = release.problem;
  const binsAWeek = plan.packing?.binsAWeek;
  if (!standing?.isPacked || !days || !plan.packing || !binsAWeek) return packingBins;
  const { starts, ends } = days;
  return packingWeeks(plan.packing, binsAWeek.value, { firstWeek, weeks, starts, ends }).packingBins;
}

/** Bins packed in a week by fill, as recorded and by the schedule; of fruit from the field by its lot. */
function binsOfRooms({ season: { plan, release } }: Context, at: number): ReadonlyMap<string, number> {
  const bins = new Map<string, number>();
  if (!release) return bins;
  const { problem, result } = release;
  const add = (fill: string, more: number) => bins.set(fill, (bins.get(fill) ?? 0) + more);
  problem.rooms.forEach(({ fill }, index) => {
    add(fill, result.schedule.packed[index]?.[at] ?? 0);
  });
  if (!problem.standing?.isPacked) return bins;
  for (const { fill, lot, day, bins: run } of plan.packed.values())
    if (day && run && weekOfDay(day.value) === problem.firstWeek + at)
      add(fill?.value ?? lot?.value ?? '', run.value);
  return bins;
}
