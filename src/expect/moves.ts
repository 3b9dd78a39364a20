import { formatWeek, type Week } from '../plan/dates';
import { removeKey, setValue } from '../plan/edits';
import type { Fix } from '../plan/problem';
import { counted, listed } from '../plan/wording';
import { breachesAt } from '../release/breaches';
import { type Context, openedText, roomIndex } from './context';
import type { Cure } from './types';

/** The room opened in another week as a cure: what it costs where that is worked out, and the pin that asks for it. */
export function openedCure(context: Context, fill: string, week: Week, gives: string): Cure {
  const { season } = context;
  const pinned = season.plan.fills.get(fill)?.open;
  const room = roomOf(context, fill);
  const now = pinned ? `it is pinned to ${formatWeek(pinned.value)}` : `now it ${openedText(context, fill)}`;
  const cost = costOf(context, fill, week);
  return {
    text: `${room} opened in ${formatWeek(week)} (${now})${gives === '' ? '' : ` ${gives}`}.${cost === '' ? '' : ` ${cost}`}`,
    fixes: pinFix(context, fill, week),
  };
}

/** The pin of a fill taken out as a cure: what opening it in the other week gives and costs; as a fix, or the pin moved. */
export function unpinnedCure(context: Context, fill: string, week: Week, gives: string): Cure {
  const pinned = context.season.plan.fills.get(fill)?.open;
  const pin = pinned ? ` (${formatWeek(pinned.value)})` : '';
  const cost = costOf(context, fill, week);
  return {
    text: `Take out the pin of ${fill}${pin}: opened in ${formatWeek(week)}, ${gives}.${cost === '' ? '' : ` ${cost}`}`,
    fixes: [...unpinFix(context, fill), ...pinFix(context, fill, week)],
  };
}

export function roomOf({ season }: Context, fill: string): string {
  return season.plan.fills.get(fill)?.room?.value ?? fill;
}

/** First and last week of a fill's opening window that are still to come; undefined where there are none. */
export function windowOf({ season, toCome }: Context, fill: string) {
  const window = season.keeping.get(fill)?.window;
  if (!window) return undefined;
  const [first, last] = [Math.max(window.earliest.week, toCome ?? window.earliest.week), window.latest.week];
  return last < first ? undefined : { first, last };
}

/** In the place of a cure that would move a room which has been opened. */
export function openedAlready(context: Context, ...fills: readonly string[]): Cure {
  const rooms = listed(fills.map((fill) => `${roomOf(context, fill)} ${openedText(context, fill)}`));
  return { text: `${rooms}, which cannot be changed any more.`, fixes: [] };
}

/**
 * The week of its window that `suits` and is nearest to the week it opens in; of two the earlier. None for a room that has
 * been opened.
 */
export function nearestWeek(
  context: Context,
  fill: string,
  suits: (week: Week) => boolean,
): Week | undefined {
  const window = context.opened.has(fill) ? undefined : windowOf(context, fill);
  if (!window) return undefined;
  const now = context.opens.get(fill) ?? window.last;
  let best: Week | undefined;
  for (let week = window.first; week <= window.last; week++)
    if (suits(week) && (best === undefined || Math.abs(week - now) < Math.abs(best - now))) best = week;
  return best;
}

/** What moving the room costs with every other room as it is; empty where that is not worked out. */
function costOf(context: Context, fill: string, week: Week): string {
  const { season, currency } = context;
  const standing = context.standing();
  const index = roomIndex(season, fill);
  if (!standing || !season.release || index < 0) return '';
  const { problem } = season.release;
  const at = week - problem.firstWeek;
  const broken = breachesAt(standing, index, at).filter(({ kind }) => kind !== 'pin');
  const packing = broken.find((one) => one.kind === 'packing');
  if (packing)
    return `With every other room as it is, the packhouse has only ${counted(packing.bins, 'bin')} left for it to ${formatWeek(problem.firstWeek + packing.until)}: others must move too.`;
  const order = broken.find((one) => one.kind === 'order');
  if (order) return `The policy's order of opening then asks another room to move too.`;
  if (broken.some(({ kind }) => kind === 'rooms-open'))
    return 'With every other room as it is, too many would stand open at once: others must move too.';
  const found = standing.whatIf(index, at);
  if (!found) return '';
  if (Math.abs(found.cost) < 0.5) return 'With every other room as it is, that costs nothing.';
  const money = Math.round(Math.abs(found.cost))
    .toString()
    .replace(/\B(?=(?:\d{3})+$)/g, ',');
  return `With every other room as it is, that ${found.cost > 0 ? 'costs' : 'brings'} ${currency} ${money}${found.cost > 0 ? '' : ' more'}.`;
}

/** The pin as an edit of the fill's text. */
export function pinFix({ season: { plan } }: Context, id: string, week: Week): Fix[] {
  const fill = plan.fills.get(id);
  const text = fill && plan.files.get(fill.at.file);
  if (!fill || !text) return [];
  const name = formatWeek(week);
  return [{ title: `Pin ${id} to ${name}`, edits: setValue(text, fill.places, ['open'], name) }];
}

/** The pin taken out of the fill's text. */
export function unpinFix({ season: { plan } }: Context, id: string): Fix[] {
  const fill = plan.fills.get(id);
  const text = fill && plan.files.get(fill.at.file);
  const edits = fill && text ? removeKey(text, fill.places, 'open') : [];
  return edits.length === 0 ? [] : [{ title: `Take out the pin of ${id}`, edits }];
}
