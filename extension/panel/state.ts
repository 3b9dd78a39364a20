import type { CardName } from '../../src/report/timeline-types';
import { type Arrangement, ORDERS, PICKS } from './arrange';

/** How the person has set the view. Small, plain, and kept when the page is hidden or made anew. */
export interface ViewState extends Arrangement {
  readonly version: 1;
  readonly mode: 'timeline' | 'table';
  /** The card that is open in place of the rooms. */
  readonly open: CardName | null;
  /** Pixels a week; null fits the whole season into the width there is. */
  readonly weekWidth: number | null;
  /** The first week in view, a fraction. */
  readonly scrollWeek: number;
  /** Pixels scrolled down. */
  readonly scrollTop: number;
  /** Key of the chosen row. */
  readonly row: string | null;
  /** Name of the product whose demand and supply are shown; null for all. */
  readonly series: string | null;
  /** Parts that are folded away. */
  readonly folded: readonly Part[];
}

export type Part = 'supply' | 'scrubbers' | 'plant' | 'key' | 'caution';
const PARTS: readonly Part[] = ['supply', 'scrubbers', 'plant', 'key', 'caution'];
/** Parts that a page without height to spare begins without. */
export const TALL_PARTS: readonly Part[] = ['plant'];

export const LEAST_WEEK_WIDTH = 4;
export const MOST_WEEK_WIDTH = 96;
const ZOOM_STEP = 1.25;
const LONGEST_FIND = 200;

export const firstState: ViewState = {
  version: 1,
  mode: 'timeline',
  open: null,
  weekWidth: null,
  scrollWeek: 0,
  scrollTop: 0,
  row: null,
  series: null,
  folded: [],
  order: 'plan',
  pick: 'all',
  find: '',
};

/** The saved state as far as it can be understood; whatever cannot is as in `first`. */
export function restoreState(saved: unknown, first: ViewState = firstState): ViewState {
  if (typeof saved !== 'object' || saved === null) return first;
  const { version, mode, open, weekWidth, scrollWeek, scrollTop, row, series, folded, order, pick, find } =
    saved as Partial<Record<keyof ViewState, unknown>>;
  if (version !== first.version) return first;
  return {
    version: 1,
    mode: mode === 'table' ? 'table' : 'timeline',
    open: cardName(open),
    weekWidth: isNumber(weekWidth) ? clampWeekWidth(weekWidth) : null,
    scrollWeek: isNumber(scrollWeek) ? Math.max(0, scrollWeek) : 0,
    scrollTop: isNumber(scrollTop) ? Math.max(0, scrollTop) : 0,
    row: typeof row === 'string' ? row : null,
    series: typeof series === 'string' ? series : null,
    order: ORDERS.find((one) => one === order) ?? first.order,
    pick: PICKS.find((one) => one === pick) ?? first.pick,
    find: typeof find === 'string' ? find.slice(0, LONGEST_FIND) : first.find,
    folded: Array.isArray(folded) ? PARTS.filter((part) => folded.includes(part)) : first.folded,
  };
}

/** One step in or out from the width that a week has now. */
export function zoomed(weekWidth: number, direction: 1 | -1): number {
  return clampWeekWidth(direction > 0 ? weekWidth * ZOOM_STEP : weekWidth / ZOOM_STEP);
}

function clampWeekWidth(width: number): number {
  return Math.min(MOST_WEEK_WIDTH, Math.max(LEAST_WEEK_WIDTH, width));
}

export function withFolded(state: ViewState, part: Part, folded: boolean): ViewState {
  const others = state.folded.filter((one) => one !== part);
  return { ...state, folded: folded ? [...others, part] : others };
}

function cardName(saved: unknown): CardName | null {
  if (typeof saved !== 'object' || saved === null || !('of' in saved)) return null;
  if (saved.of === 'season') return { of: 'season' };
  return saved.of === 'room' && 'key' in saved && typeof saved.key === 'string'
    ? { of: 'room', key: saved.key }
    : null;
}

function isNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}
