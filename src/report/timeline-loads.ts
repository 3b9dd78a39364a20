import { perCent } from '../findings/say';
import type { ComputedSeason } from '../findings/types';
import { formatWeek, type Week } from '../plan/dates';
import { type DisplayUnits, showFigure } from '../plan/display';
import { counted } from '../plan/wording';
import type { NitrogenSeason, RefrigerationSeason } from '../plant/types';
import { weekRanges } from './text-cells';
import type { LoadBand, ScrubberSeries } from './timeline-types';
import type { TimeAxis } from './timeline-weeks';

/** All there is: more cannot be had in a week. */
const ALL = 100;

/** What nitrogen, refrigeration and packhouse are asked for, by week, as a share of what each can give. */
export function loadBands(season: ComputedSeason, axis: TimeAxis, units: DisplayUnits): LoadBand[] {
  const { plant } = season;
  const bands: LoadBand[] = [
    {
      part: 'nitrogen',
      title: 'Nitrogen',
      what: 'hours asked, of the hours in a week',
      series: (plant?.nitrogen ?? [])
        .filter(({ rooms }) => rooms.length > 0)
        .map((source) => nitrogenSeries(source, axis)),
    },
    {
      part: 'refrigeration',
      title: 'Refrigeration',
      what: 'highest day of each week, of what the plant gives',
      series: (plant?.refrigeration ?? [])
        .filter(({ rooms }) => rooms.length > 0)
        .map((group) => refrigerationSeries(group, axis, units)),
    },
    {
      part: 'packhouse',
      title: 'Packhouse',
      what: 'bins packed, of what it can run',
      series: packhouse(season, axis),
    },
  ];
  return bands.filter(({ series }) => series.length > 0);
}

function nitrogenSeries({ source, rooms, weeks }: NitrogenSeason, axis: TimeAxis): ScrubberSeries {
  const share = sharesOn(new Map(weeks.map((one) => [one.week, one.share.value])), axis);
  const serves = `Nitrogen source ${source.id}, ${counted(rooms.length, 'room')}`;
  return {
    name: source.id,
    share,
    limit: ALL,
    description: describe(serves, share, axis, "of the week's hours", 'what is left waits for the next week'),
    target: source.at,
  };
}

function refrigerationSeries(
  { group, rooms, weeks }: RefrigerationSeason,
  axis: TimeAxis,
  units: DisplayUnits,
): ScrubberSeries {
  const share = sharesOn(new Map(weeks.map((one) => [one.week, one.share?.value])), axis);
  const of = group.capacity ? `of ${showFigure(group.capacity, units)}` : '';
  const serves = `Refrigeration ${group.id}, ${counted(rooms.length, 'room')}`;
  return {
    name: group.id,
    share,
    limit: ALL,
    description: group.capacity
      ? describe(serves, share, axis, of, 'fruit then cools more slowly')
      : `${serves}: its capacity is not known, so neither is its load as a share.`,
    target: group.at,
  };
}

/** Bins by week of the schedule; none without one. */
function packhouse({ plan, release }: ComputedSeason, axis: TimeAxis): ScrubberSeries[] {
  if (!release || !plan.packing) return [];
  const { problem, result } = release;
  const shares = new Map<Week, number | undefined>();
  for (let week = 0; week < problem.weeks; week += 1) {
    const most = problem.packingBins[week] ?? 0;
    const bins = result.schedule.packed.reduce((sum, room) => sum + (room[week] ?? 0), 0);
    shares.set(problem.firstWeek + week, most > 0 ? (100 * bins) / most : bins > 0 ? undefined : 0);
  }
  const share = sharesOn(shares, axis);
  const busiest = Math.max(0, ...problem.packingBins);
  return [
    {
      name: 'Packhouse',
      share,
      limit: ALL,
      description: describe(
        'Packhouse',
        share,
        axis,
        `of up to ${counted(busiest, 'bin')} a week`,
        'that is more than it can run',
      ),
      target: plan.packing.at,
    },
  ];
}

function sharesOn(shares: ReadonlyMap<Week, number | undefined>, axis: TimeAxis): (number | null)[] {
  return Array.from({ length: axis.weeks }, (_, index) => {
    const share = shares.get(axis.firstWeek + index);
    return share === undefined || !Number.isFinite(share) ? null : Math.round(share * 10) / 10;
  });
}

function describe(
  serves: string,
  share: readonly (number | null)[],
  { firstWeek }: TimeAxis,
  of: string,
  meaning: string,
): string {
  const peak = share.reduce<number>((best, one, at) => ((one ?? 0) > (share[best] ?? 0) ? at : best), 0);
  const highest = share[peak] ?? 0;
  if (highest <= 0) return `${serves}: no load in the season.`;
  const most = `highest load ${perCent(highest)} ${of}, in ${formatWeek(firstWeek + peak)}`;
  const over = share.flatMap((value, index) =>
    value !== null && value > ALL ? [{ index, label: formatWeek(firstWeek + index) }] : [],
  );
  return over.length === 0
    ? `${serves}: ${most}.`
    : `${serves}: ${most}. More than all of it in ${weekRanges(over)}: ${meaning}.`;
}
