import { fillNeverOpens } from '../../findings/never-opens';
import type { ComputedSeason } from '../../findings/types';
import { formatDay, formatWeek, type Week } from '../../plan/dates';
import { type DisplayUnits, showFigure } from '../../plan/display';
import type { Figure } from '../../plan/figure';
import type { Entry } from '../../plan/model';
import type { Span } from '../../plan/span';
import { counted } from '../../plan/wording';
import { displayUnits } from '../../report/explain';
import { cardKeyOf } from '../../report/room-card';
import { shortCartons } from './demand-outcome';
import type { Parts, Told } from './lens-told';
import { recordLenses } from './record-lenses';

/** The last part of a line whose schedule is that of an older text. */
const OLDER = 'before the last change';

/** A line of figures above an entry of the plan. */
export interface Lens {
  /** The entry's name, where its figures are explained. */
  readonly at: Span;
  readonly title: string;
  /** True where a week of opening is told, so that the caution must go with it. */
  readonly opening: boolean;
  /** True where its figures rest on a schedule that was found for an older text; the title says so. */
  readonly older: boolean;
  /** Key of the room's card that tells more; absent where an entry is in no room. */
  readonly card?: string;
}

/**
 * The figures above each entry of one file: what a planner asks of a room, a fill, the plant and a demand, and of what
 * was recorded beside what was planned. Where the season's schedule is that of an older text (`isOlder`), what rests on it says so.
 */
export function lensesOf(season: ComputedSeason, file: string, isOlder = false): Lens[] {
  const { plan, release } = season;
  const units = displayUnits(plan);
  const lenses: Lens[] = [];
  const add = (entry: Entry, { parts, opening = false, scheduled = false, section = '' }: Told) => {
    const told = parts.filter((part) => part !== undefined && part !== '');
    if (entry.at.file !== file || told.length === 0) return;
    const card = cardKeyOf(season, section, entry.id);
    const older = isOlder && scheduled && release !== undefined;
    lenses.push({
      at: entry.at,
      title: [...told, ...(older ? [OLDER] : [])].join(' · '),
      opening,
      older,
      ...(card !== undefined && { card }),
    });
  };
  for (const room of plan.rooms.values())
    add(room, { ...roomParts(season, room.id, units), section: 'rooms' });
  for (const fill of plan.fills.values())
    add(fill, { ...fillParts(season, fill.id, units), section: 'fills' });
  for (const { lot, left } of lotsLeft(season)) {
    const packed = lot.packedAtHarvest ? ', packed at harvest' : '';
    add(lot, { parts: [`${counted(left, 'bin')} in no fill${packed}`] });
  }
  for (const { entry, peak } of plantPeaks(season))
    add(entry, { parts: peakParts(peak?.week, peak?.load, peak?.share, units), scheduled: true });
  for (const demand of plan.demand.values())
    add(demand, { parts: demandParts(season, demand.id), scheduled: true });
  for (const [record, told] of recordLenses(season, file, units)) add(record, told);
  return lenses.sort((a, b) => a.at.start - b.at.start);
}

/** The heaviest week of each shared equipment: rooms load it until they are opened. */
function plantPeaks({ plant }: ComputedSeason) {
  return [
    ...(plant?.scrubbers ?? []).map(({ scrubber, peak }) => ({ entry: scrubber, peak })),
    ...(plant?.nitrogen ?? []).map(({ source, weeks }) => {
      const peak = highest(weeks, ({ hours }) => hours.value);
      return { entry: source, peak: peak && { week: peak.week, load: peak.hours, share: peak.share } };
    }),
    ...(plant?.refrigeration ?? []).map(({ group, weeks }) => ({
      entry: group,
      peak: highest(weeks, ({ load }) => load.value),
    })),
  ];
}

function roomParts(season: ComputedSeason, room: string, units: DisplayUnits): Told {
  const { places, volume } = season.capacities.get(room) ?? {};
  const fills = [...season.filled.values()].filter((filled) => filled.room.id === room);
  const names = fills.map(({ fill }) => {
    const happened = openedAndEmptied(season, fill.id);
    return happened === undefined ? fill.id : `${fill.id} (${happened})`;
  });
  return {
    parts: [shown(places, units), shown(volume, units), names.length > 0 ? names.join(', ') : 'no fill'],
    opening: fills.some(({ fill }) => openedAndEmptied(season, fill.id) !== undefined),
  };
}

/** When a fill's room was opened and emptied, as the records say; undefined where they say neither. */
export function openedAndEmptied({ plan }: Pick<ComputedSeason, 'plan'>, fill: string): string | undefined {
  const { opened, emptied } = plan.fills.get(fill) ?? {};
  const told = [
    ...(opened ? [`opened ${formatDay(opened.value)}`] : []),
    ...(emptied ? [`emptied ${formatDay(emptied.value)}`] : []),
  ];
  return told.length > 0 ? told.join(', ') : undefined;
}

function fillParts(season: ComputedSeason, id: string, units: DisplayUnits): Told {
  const filled = season.filled.get(id);
  if (!filled) return { parts: [] };
  const window = season.keeping.get(id)?.window;
  const happened = openedAndEmptied(season, id);
  // A room that has been opened is not released any more.
  const week = happened === undefined ? scheduledWeek(season, id) : undefined;
  return {
    parts: [
      shown(filled.bins, units),
      shown(filled.fruit, units),
      filled.carbonDioxideInStore && `CO₂ ${showFigure(filled.carbonDioxideInStore, units)}`,
      window &&
        (fillNeverOpens(season, id)
          ? 'no week to open in'
          : `window ${formatWeek(window.earliest.week)} to ${formatWeek(window.latest.week)}`),
      week === undefined ? undefined : `release ${formatWeek(week)}${filled.fill.open ? ', pinned' : ''}`,
      happened,
    ],
    opening: window !== undefined || week !== undefined || happened !== undefined,
    scheduled: week !== undefined,
  };
}

/** The week the schedule at hand opens a fill's room in; undefined where it stays closed or nothing is scheduled. */
export function scheduledWeek({ release }: ComputedSeason, fill: string): Week | undefined {
  if (!release) return undefined;
  const index = release.problem.rooms.findIndex((room) => room.fill === fill);
  const week = release.result.schedule.opens[index];
  return week === null || week === undefined ? undefined : release.problem.firstWeek + week;
}

/** Lots with bins that no fill takes. */
export function lotsLeft({ plan }: Pick<ComputedSeason, 'plan'>) {
  const taken = new Map<string, number>();
  for (const { lots } of plan.fills.values())
    for (const { lot, bins } of lots) taken.set(lot.value, (taken.get(lot.value) ?? 0) + bins.value);
  return [...plan.lots.values()].flatMap((lot) => {
    const all = (lot.receivedBins ?? lot.expectedBins)?.value ?? 0;
    const left = all - (taken.get(lot.id) ?? 0);
    return left >= 1 ? [{ lot, left }] : [];
  });
}

function peakParts(
  week: Week | undefined,
  load: Figure | undefined,
  share: Figure | undefined,
  units: DisplayUnits,
): Parts {
  if (week === undefined || !load || load.value <= 0) return [];
  const part = share ? ` (${showFigure(share, units)})` : '';
  return [`heaviest week ${formatWeek(week)}: ${showFigure(load, units)}${part}`];
}

function demandParts(season: ComputedSeason, id: string): Parts {
  const short = shortCartons(season, id);
  if (!short) return [];
  if (short.weeks.length === 0)
    return [
      short.toldFrom === undefined
        ? 'delivered in every week'
        : `delivered in every week from ${formatWeek(short.toldFrom)}`,
    ];
  const weeks = short.weeks.length === 1 ? '1 week' : `${short.weeks.length} weeks`;
  return [
    `short of ${counted(short.cartons, 'carton')} in ${weeks}`,
    `from ${formatWeek(short.weeks[0] ?? 0)}`,
  ];
}

function shown(figure: Figure | undefined, units: DisplayUnits): string | undefined {
  return figure && showFigure(figure, units);
}

function highest<T>(items: readonly T[], value: (item: T) => number): T | undefined {
  return items.reduce<T | undefined>(
    (best, item) => (best === undefined || value(item) > value(best) ? item : best),
    undefined,
  );
}
