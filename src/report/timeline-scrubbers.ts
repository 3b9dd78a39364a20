import { perCent } from '../findings/say';
import type { ComputedSeason } from '../findings/types';
import { formatWeek } from '../plan/dates';
import type { DisplayUnits } from '../plan/display';
import { showFigure } from '../plan/display';
import type { ScrubberSeason } from '../plant/types';
import { weekRanges } from './text-cells';
import type { ScrubberSeries } from './timeline-types';
import type { TimeAxis } from './timeline-weeks';

/** Load of each scrubber that serves a filled room, by week, against the limit that the plan sets. */
export function scrubberSeries(
  season: ComputedSeason,
  axis: TimeAxis,
  units: DisplayUnits,
): ScrubberSeries[] {
  const limit = season.plan.policy.mostScrubberLoad.value;
  return (season.plant?.scrubbers ?? [])
    .filter(({ rooms }) => rooms.length > 0)
    .map((scrubber) => {
      const share = sharesOn(scrubber, axis);
      return {
        name: scrubber.scrubber.id,
        share,
        limit,
        description: describe(scrubber, share, limit, axis, units),
        target: scrubber.scrubber.at,
      };
    });
}

function sharesOn({ weeks }: ScrubberSeason, axis: TimeAxis): (number | null)[] {
  const shares = new Map(weeks.map(({ week, share }) => [week, share?.value]));
  return Array.from({ length: axis.weeks }, (_, index) => {
    const share = shares.get(axis.firstWeek + index);
    return share === undefined || !Number.isFinite(share) ? null : Math.round(share * 10) / 10;
  });
}

function describe(
  { scrubber, capacity, peak, rooms }: ScrubberSeason,
  share: readonly (number | null)[],
  limit: number,
  { firstWeek }: TimeAxis,
  units: DisplayUnits,
): string {
  const serves = `Scrubber ${scrubber.id}, ${rooms.length} ${rooms.length === 1 ? 'room' : 'rooms'}`;
  if (!capacity) return `${serves}: its capacity is not known, so neither is its load as a share.`;
  if (!peak?.share) return `${serves}: no load in the season.`;
  const most = `highest load ${perCent(peak.share.value)} of ${showFigure(capacity, units)}, in ${formatWeek(peak.week)}`;
  const over = share.flatMap((value, index) =>
    value !== null && value > limit ? [{ index, label: formatWeek(firstWeek + index) }] : [],
  );
  return `${serves}: ${most}. ${
    over.length === 0
      ? `Never above the plan's limit of ${perCent(limit)}.`
      : `Above the plan's limit of ${perCent(limit)} in ${weekRanges(over)}.`
  }`;
}
