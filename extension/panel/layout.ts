import type {
  ScrubberSeries,
  SupplySeries,
  TimelineRow,
  TimelineView,
} from '../../src/report/timeline-types';

/**
 * Where everything lies, in weeks from the first and in shares of a height. Drawing only scales, so that zooming
 * moves nothing here.
 */

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface RowShapes {
  /** From the first bin to the last one packed. */
  readonly life?: Stretch;
  readonly filling?: Stretch;
  readonly pullDown?: Stretch;
  readonly keeping?: Stretch;
  readonly emptying?: Stretch;
  /** Weeks in which it may open, the last one whole. */
  readonly window?: Stretch;
  /** The part of the window after best before. */
  readonly late?: Stretch;
  /** Where a window begins that ends before it does: no week fits. */
  readonly conflict?: number;
  readonly opens?: { readonly at: number; readonly pinned: boolean };
}

/** A row's shapes, cut off where the weeks end. */
export function rowShapes(row: TimelineRow, weeks: number): RowShapes {
  const cut = (stretch: Stretch | undefined) => clipped(stretch, weeks);
  const { window, opens } = row;
  const fits = window !== undefined && window.latest >= window.earliest;
  const bestEnds = window && Math.max(window.earliest, window.bestBefore + 1);
  return present({
    life: cut(lifeOf(row)),
    filling: cut(row.filling),
    pullDown: cut(row.pullDown),
    keeping: cut(row.keeping),
    emptying: cut(row.emptying),
    window: fits ? cut({ from: window.earliest, to: window.latest + 1 }) : undefined,
    late: fits && bestEnds !== undefined ? cut({ from: bestEnds, to: window.latest + 1 }) : undefined,
    conflict: window && !fits ? within(window.earliest, weeks) : undefined,
    opens:
      opens && within(opens.week, weeks) !== undefined ? { at: opens.week, pinned: opens.pinned } : undefined,
  });
}

/** What differs of the other state's window, opening and emptying; cut off where the weeks end. */
export function otherShapes(row: TimelineRow, weeks: number): OtherShapes {
  const { other } = row;
  if (!other) return {};
  const sameWindow =
    other.window?.earliest === row.window?.earliest && other.window?.latest === row.window?.latest;
  const sameOpening = other.opens === row.opens?.week;
  const window = sameWindow ? undefined : other.window;
  const [opens, emptying] = sameOpening ? [] : [other.opens, other.emptying];
  return present({
    window:
      window && window.latest >= window.earliest
        ? clipped({ from: window.earliest, to: window.latest + 1 }, weeks)
        : undefined,
    opens: opens === undefined ? undefined : within(opens, weeks),
    emptying: clipped(emptying, weeks),
  });
}

export interface OtherShapes {
  readonly window?: Stretch;
  readonly opens?: number;
  readonly emptying?: Stretch;
}

function lifeOf({ filling, pullDown, keeping, emptying }: TimelineRow): Stretch | undefined {
  const parts = [filling, pullDown, keeping, emptying].filter((part) => part !== undefined);
  if (parts.length === 0) return undefined;
  return {
    from: Math.min(...parts.map(({ from }) => from)),
    to: Math.max(...parts.map(({ to }) => to)),
  };
}

function clipped(stretch: Stretch | undefined, weeks: number): Stretch | undefined {
  if (!stretch) return undefined;
  const [from, to] = [Math.max(0, stretch.from), Math.min(weeks, stretch.to)];
  return to > from ? { from, to } : undefined;
}

function within(at: number, weeks: number): number | undefined {
  return at >= 0 && at < weeks ? at : undefined;
}

export interface SupplyShapes {
  /** Cartons at the top of the scale. */
  readonly top: number;
  /** Heights as shares of the scale. */
  readonly weeks: readonly {
    readonly demand: number;
    readonly supply: number;
    /** Packed for nobody, on top of the supply. */
    readonly surplus: number;
    readonly short: boolean;
  }[];
  /** What the other state supplies; absent where there is none. */
  readonly other?: readonly number[];
}

export function supplyShapes({ demand, supply, surplus, short, other }: SupplySeries): SupplyShapes {
  const highest = demand.map((wanted, week) =>
    Math.max(wanted, (supply[week] ?? 0) + (surplus?.[week] ?? 0), other?.[week] ?? 0),
  );
  const top = niceTop(Math.max(0, ...highest));
  const isShort = new Set(short);
  return {
    top,
    weeks: demand.map((wanted, week) => ({
      demand: wanted / top,
      supply: (supply[week] ?? 0) / top,
      surplus: (surplus?.[week] ?? 0) / top,
      short: isShort.has(week),
    })),
    ...(other && { other: other.map((cartons) => cartons / top) }),
  };
}

export interface ScrubberShapes {
  /** Per cent at the top of the scale. */
  readonly top: number;
  readonly limit: number;
  readonly highest: number | null;
  readonly weeks: readonly ({ readonly share: number; readonly over: boolean } | null)[];
}

export function scrubberShapes({ share, limit }: ScrubberSeries): ScrubberShapes {
  const known = share.filter((value) => value !== null);
  const highest = known.length === 0 ? null : Math.max(...known);
  const top = Math.max(110, limit * 1.1, (highest ?? 0) * 1.05);
  return {
    top,
    limit: limit / top,
    highest,
    weeks: share.map((value) => (value === null ? null : { share: value / top, over: value > limit })),
  };
}

/** The least of 1, 1.5, 2, 3, 4, 5, 6, 8 times a power of ten that is not below the value; 1 for nothing. */
export function niceTop(value: number): number {
  if (!(value > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  const step = [1, 1.5, 2, 3, 4, 5, 6, 8].find((factor) => factor * power >= value) ?? 10;
  return step * power;
}

/** Room that labels need, pixels: enough for the small bold type of an axis in a wide face. */
const CHARACTER = 7.4;
const GAP = 8;
export const WEEK_LABEL = 30;
const TODAY_LABEL = 48;

export interface AxisTick {
  readonly week: number;
  readonly label: string;
}

/** Every so many weeks, so that labels do not touch; none where `today` stands or the axis ends. */
export function weekTicks(
  weeks: readonly string[],
  weekWidth: number,
  today?: number,
  labelWidth = WEEK_LABEL,
): AxisTick[] {
  const step = [1, 2, 4, 8, 13, 26].find((count) => count * weekWidth >= labelWidth) ?? 52;
  const hasRoom = (week: number) => {
    if ((weeks.length - week) * weekWidth < labelWidth) return false;
    if (today === undefined) return true;
    const left = (week - today) * weekWidth;
    return left <= -(labelWidth + TODAY_LABEL / 2) || left >= TODAY_LABEL / 2;
  };
  return weeks.flatMap((label, week) =>
    week % step === 0 && hasRoom(week) ? [{ week, label: label.replace(/^\d+-/, '') }] : [],
  );
}

/**
 * Month labels as far as there is room: one that would touch the label before it is left empty, and its year, if it
 * has one, moves on to the next that stands. The month the axis begins in needs room of its own.
 */
export function monthTicks(
  { months, weeks }: Pick<TimelineView, 'months' | 'weeks'>,
  weekWidth: number,
): AxisTick[] {
  let year: string | undefined;
  let free = 0;
  return months.map(({ week, label }, index) => {
    const [name = '', ownYear] = label.split(' ');
    year = ownYear ?? year;
    const left = week * weekWidth;
    const end = (index === 0 ? (months[1]?.week ?? weeks.length) : weeks.length) * weekWidth;
    const text = [year === undefined ? name : `${name} ${year}`, name].find(
      (one) => left >= free && left + one.length * CHARACTER + GAP <= end,
    );
    if (text === undefined) return { week, label: '' };
    if (text !== name) year = undefined;
    free = left + text.length * CHARACTER + GAP;
    return { week, label: text };
  });
}

/** The object without the keys whose value is undefined. */
function present<T extends object>(values: { [K in keyof T]: T[K] | undefined }): T {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as T;
}
