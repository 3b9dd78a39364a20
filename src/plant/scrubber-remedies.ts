import { formatDay, formatWeek } from '../plan/dates';
import type { Scrubber } from '../plan/model';
import { type ScrubberTurns, type ScrubbingOrder, type ServedRoom, scrubberTurns } from './scrubber-turns';

/** One thing changed, and what the scrubber's rooms come to with it. */
export interface ScrubberRemedy {
  readonly kind: 'more hours' | 'another bed' | 'later sealing' | 'another order';
  /** What to change, as a sentence begins: "run S1 20 hours a day". */
  readonly change: string;
  /** Points of carbon dioxide by which the worst room is above its limit with it; zero or less: cured. */
  readonly aboveLimit: number;
  readonly cures: boolean;
  /** Fill and days, for a later sealing. */
  readonly later?: { readonly fill: string; readonly days: number };
}

/** Points of carbon dioxide by which a level may be above a limit that it is held at. */
const KEPT = 0.01;
const LATER_DAYS = [1, 2, 3, 5, 7, 10, 14] as const;

/** How far the worst of a scrubber's rooms is above its limit; zero or less where all are kept. */
export function worstAboveLimit({ rooms }: ScrubberTurns): number {
  return Math.max(Number.NEGATIVE_INFINITY, ...rooms.map(({ aboveLimit }) => aboveLimit));
}

/**
 * What would help a scrubber whose rooms go above their limits, each found by reckoning the season again with that one
 * thing changed. The least that cures comes first, else the most helpful. Empty where nothing is wrong.
 */
export function scrubberRemedies(turns: ScrubberTurns, served: readonly ServedRoom[]): ScrubberRemedy[] {
  const { scrubber, order } = turns;
  const worst = worstAboveLimit(turns);
  if (!(worst > KEPT)) return [];
  const tried = [
    ...moreHours(scrubber, served, order),
    ...anotherBed(scrubber, served, order),
    ...laterSealing(turns, served),
    ...otherOrders(scrubber, served, order),
  ];
  return tried
    .filter(({ aboveLimit }) => aboveLimit < worst - 1e-3)
    .sort((a, b) => Number(b.cures) - Number(a.cures) || a.aboveLimit - b.aboveLimit);
}

type Tried = Omit<ScrubberRemedy, 'aboveLimit' | 'cures'>;

function outcome(tried: Tried, turns: ScrubberTurns | undefined): ScrubberRemedy[] {
  if (!turns) return [];
  const aboveLimit = worstAboveLimit(turns);
  return [{ ...tried, aboveLimit, cures: aboveLimit <= KEPT }];
}

/** The fewest whole hours more that cure, else all of the day. */
function moreHours(
  scrubber: Scrubber,
  served: readonly ServedRoom[],
  order: ScrubbingOrder,
): ScrubberRemedy[] {
  const { hoursADay } = scrubber;
  let found: ScrubberRemedy[] = [];
  for (let hours = Math.floor(hoursADay.value) + 1; hours <= 24; hours++) {
    const longer = { ...scrubber, hoursADay: { ...hoursADay, value: hours } };
    const change = `run ${scrubber.id} ${hours} hours a day instead of ${hoursADay.value}`;
    found = outcome({ kind: 'more hours', change }, scrubberTurns(longer, served, order));
    if (found.some(({ cures }) => cures)) break;
  }
  return found;
}

/** A second bed takes the first one's turn while it is regenerated; a further one adds its part of the removal. */
function anotherBed(
  scrubber: Scrubber,
  served: readonly ServedRoom[],
  order: ScrubbingOrder,
): ScrubberRemedy[] {
  const { beds, removal } = scrubber;
  if (!beds || !removal) return [];
  const number = beds.number + 1;
  const more = beds.number >= 2 ? number / beds.number : 1;
  const larger = {
    ...scrubber,
    beds: { ...beds, number },
    removal: { ...removal, value: removal.value * more },
  };
  const change = `give ${scrubber.id} another bed, ${number} instead of ${beds.number}`;
  return outcome({ kind: 'another bed', change }, scrubberTurns(larger, served, order));
}

/** The room sealed last before the worst week, sealed later still; the fewest days that cure, else the most helpful. */
function laterSealing(turns: ScrubberTurns, served: readonly ServedRoom[]): ScrubberRemedy[] {
  const { peak } = turns;
  if (!peak) return [];
  const rush = served
    .filter(({ room }) => room.fill.sealed && Math.floor((room.fill.sealed.value + 3) / 7) <= peak.week)
    .sort((a, b) => (b.room.fill.sealed?.value ?? 0) - (a.room.fill.sealed?.value ?? 0));
  const [last] = rush;
  const sealed = last?.room.fill.sealed;
  if (!last || !sealed) return [];
  let best: ScrubberRemedy | undefined;
  for (const days of LATER_DAYS) {
    const fill = { ...last.room.fill, sealed: { ...sealed, value: sealed.value + days } };
    const moved = served.map((one) => (one === last ? { ...one, room: { ...one.room, fill } } : one));
    const change = `seal ${fill.id} on ${formatDay(sealed.value + days)}, ${days} days later, after the rush of ${formatWeek(peak.week)}`;
    const [tried] = outcome(
      { kind: 'later sealing', change, later: { fill: fill.id, days } },
      scrubberTurns(turns.scrubber, moved, turns.order),
    );
    if (tried && (!best || tried.aboveLimit < best.aboveLimit - 1e-3)) best = tried;
    if (tried?.cures) break;
  }
  return best ? [best] : [];
}

function otherOrders(
  scrubber: Scrubber,
  served: readonly ServedRoom[],
  order: ScrubbingOrder,
): ScrubberRemedy[] {
  const orders: ScrubbingOrder[] = ['alike', 'most sensitive first', 'first sealed first'];
  return orders
    .filter((one) => one !== order)
    .flatMap((one) =>
      outcome(
        { kind: 'another order', change: `serve the rooms of ${scrubber.id} ${inWords(one)}` },
        scrubberTurns(scrubber, served, one),
      ),
    );
}

function inWords(order: ScrubbingOrder): string {
  return order === 'alike' ? 'alike, each by its need' : `in turn, ${order}`;
}
