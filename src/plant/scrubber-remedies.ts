import { type Day, firstDayOfWeek, formatDay, formatWeek } from '../plan/dates';
import { figureWith } from '../plan/figure';
import type { Fill, Scrubber } from '../plan/model';
import { finish, type Steps } from '../plan/steps';
import { KEPT, roomsAbove, ScrubberTrial, type Watched } from './scrubber-trial';
import type { ScrubberTurns, ScrubbingOrder, ServedRoom } from './scrubber-turns';

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

const LATER_DAYS = [1, 2, 3, 5, 7, 10, 14] as const;

/** Whether a fill can be sealed on a day: its last bin is in by then, and there is somebody to do it. */
export type SealableOn = (fill: Fill, day: Day) => boolean;

/** Days past one of `LATER_DAYS` in which a day for sealing is looked for: past a week of holidays the next is tried. */
const DAYS_LOOKED_AT = 7;

/** How far the worst of a scrubber's rooms is above its limit; zero or less where all are kept. */
export function worstAboveLimit({ rooms }: ScrubberTurns): number {
  return Math.max(Number.NEGATIVE_INFINITY, ...rooms.map(({ aboveLimit }) => aboveLimit));
}

/** What is above its limit now, and what the season is reckoned again with. */
interface Overload {
  readonly scrubber: Scrubber;
  readonly order: ScrubbingOrder;
  readonly served: readonly ServedRoom[];
  readonly above: readonly Watched[];
  /** Points by which the worst room is above its limit now. */
  readonly worst: number;
  readonly sealableOn: SealableOn;
}

/**
 * What would help a scrubber whose rooms go above their limits, each found by reckoning the season again with that one
 * thing changed, for the rooms it bears on. The least that cures comes first, else the most helpful. Empty where
 * nothing is wrong.
 */
export function scrubberRemedies(
  turns: ScrubberTurns,
  served: readonly ServedRoom[],
  sealableOn?: SealableOn,
): ScrubberRemedy[] {
  return finish(scrubberRemediesSteps(turns, served, sealableOn));
}

/** The same in steps, a room each. */
export function* scrubberRemediesSteps(
  turns: ScrubberTurns,
  served: readonly ServedRoom[],
  sealableOn: SealableOn = () => true,
): Steps<ScrubberRemedy[]> {
  const { scrubber, order } = turns;
  const worst = worstAboveLimit(turns);
  if (!(worst > KEPT)) return [];
  const overload = { scrubber, order, served, above: roomsAbove(turns.rooms, served), worst, sealableOn };
  const tried = [
    ...(yield* moreHours(overload)),
    ...(yield* anotherBed(overload)),
    ...(yield* laterSealing(turns, overload)),
    ...(yield* otherOrders(overload)),
  ];
  return tried
    .filter(({ aboveLimit }) => aboveLimit < worst - 1e-3)
    .sort((a, b) => Number(b.cures) - Number(a.cures) || a.aboveLimit - b.aboveLimit);
}

type Tried = Omit<ScrubberRemedy, 'aboveLimit' | 'cures'>;

function outcome(tried: Tried, aboveLimit: number): ScrubberRemedy[] {
  return [{ ...tried, aboveLimit, cures: aboveLimit <= KEPT }];
}

/** The fewest whole hours more that cure, by halving; else all of the day. */
function* moreHours({ scrubber, order, served, above }: Overload): Steps<ScrubberRemedy[]> {
  const { hoursADay } = scrubber;
  const least = Math.floor(hoursADay.value) + 1;
  if (least > 24) return [];
  const trials = new Map<number, ScrubberTrial>();
  const trialAt = (hours: number): ScrubberTrial | undefined => {
    const longer = { ...scrubber, hoursADay: figureWith(hoursADay, { value: hours }) };
    const trial = trials.get(hours) ?? ScrubberTrial.of(longer, served, order);
    if (trial) trials.set(hours, trial);
    return trial;
  };
  // The room that failed last is asked about first: it mostly fails again.
  let first = above;
  const cures = function* (hours: number): Steps<boolean> {
    const failed: Watched | undefined = yield* failsIn(trialAt(hours), first);
    if (failed) first = [failed, ...above.filter((one) => one !== failed)];
    return !failed;
  };
  let [low, high] = [least, 24];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (yield* cures(middle)) high = middle;
    else low = middle + 1;
  }
  const trial = trialAt(high);
  const change = `run ${scrubber.id} ${high} hours a day instead of ${hoursADay.value}`;
  return trial ? outcome({ kind: 'more hours', change }, yield* trial.worst(above)) : [];
}

/** A second bed takes the first one's turn while it is regenerated; a further one adds its part of the removal. */
function* anotherBed({ scrubber, order, served, above }: Overload): Steps<ScrubberRemedy[]> {
  const { beds, removal } = scrubber;
  if (!beds || !removal) return [];
  const number = beds.number + 1;
  const more = beds.number >= 2 ? number / beds.number : 1;
  const larger = {
    ...scrubber,
    beds: { ...beds, number },
    removal: figureWith(removal, { value: removal.value * more }),
  };
  const trial = ScrubberTrial.of(larger, served, order);
  const change = `give ${scrubber.id} another bed, ${number} instead of ${beds.number}`;
  return trial ? outcome({ kind: 'another bed', change }, yield* trial.worst(above)) : [];
}

/** The days by which a fill may be sealed later, fewest first. */
function laterDays(fill: Fill, sealableOn: SealableOn): number[] {
  const sealed = fill.sealed?.value;
  if (sealed === undefined) return [];
  const days = LATER_DAYS.flatMap((least) => {
    for (let more = least; more < least + DAYS_LOOKED_AT; more++)
      if (sealableOn(fill, sealed + more)) return [more];
    return [];
  });
  return [...new Set(days)];
}

/**
 * The room sealed last before the worst week that can be, sealed later still: the fewest days that cure, else those that
 * help the worst room most. Other rooms may be worse for it, so a cure is looked for in the rooms above their limits and then
 * held against all.
 */
function* laterSealing(
  { peak }: ScrubberTurns,
  { scrubber, order, served, above, sealableOn }: Overload,
): Steps<ScrubberRemedy[]> {
  if (!peak) return [];
  const rush = served
    .filter(({ room }) => room.fill.sealed && Math.floor((room.fill.sealed.value + 3) / 7) <= peak.week)
    .sort((a, b) => (b.room.fill.sealed?.value ?? 0) - (a.room.fill.sealed?.value ?? 0));
  const last = rush.find(({ room }) => laterDays(room.fill, sealableOn).length > 0);
  const sealed = last?.room.fill.sealed;
  if (!last || !sealed) return [];
  let best: { readonly days: number; readonly trial: ScrubberTrial; readonly all: Watched[] } | undefined;
  let leastWorst = Number.POSITIVE_INFINITY;
  for (const days of laterDays(last.room.fill, sealableOn)) {
    const fill = { ...last.room.fill, sealed: { ...sealed, value: sealed.value + days } };
    const later = { ...last, room: { ...last.room, fill } };
    const moved = served.map((one) => (one === last ? later : one));
    const trial = ScrubberTrial.of(scrubber, moved, order);
    const [first, ...rest] = above.map(({ served: one }) => ({ served: one === last ? later : one }));
    if (!trial || !first) continue;
    const all = [first, ...rest, ...moved.map((one) => ({ served: one }))];
    yield;
    const worst = trial.aboveLimit(first.served);
    if (worst < leastWorst - 1e-3) [best, leastWorst] = [{ days, trial, all }, worst];
    if (!(yield* trial.fails(all))) {
      best = { days, trial, all };
      break;
    }
  }
  if (!best) return [];
  const { days, trial, all } = best;
  const { id } = last.room.fill;
  const on = sealed.value + days;
  const isAfter = on >= firstDayOfWeek(peak.week + 1);
  const rushed = isAfter ? `, after the rush of ${formatWeek(peak.week)}` : '';
  const change = `seal ${id} on ${formatDay(on)}, ${days} ${days === 1 ? 'day' : 'days'} later${rushed}`;
  return outcome({ kind: 'later sealing', change, later: { fill: id, days } }, yield* trial.worst(all));
}

/** Another order takes from one room what it gives another: all rooms count. One that is no better is left at its first room. */
function* otherOrders({ scrubber, order, served, above, worst }: Overload): Steps<ScrubberRemedy[]> {
  const orders: ScrubbingOrder[] = ['alike', 'most sensitive first', 'first sealed first'];
  const all = [...above.map(({ served: each }) => each), ...served];
  const tried: ScrubberRemedy[] = [];
  for (const one of orders) {
    const trial = one === order ? undefined : ScrubberTrial.of(scrubber, served, one);
    if (!trial || !(yield* isBetter(trial, all, worst))) continue;
    const change = `serve the rooms of ${scrubber.id} ${inWords(one)}`;
    const above = yield* trial.worst(all.map((each) => ({ served: each })));
    tried.push(...outcome({ kind: 'another order', change }, above));
  }
  return tried;
}

function* isBetter(trial: ScrubberTrial, rooms: readonly ServedRoom[], worst: number): Steps<boolean> {
  for (const room of rooms) {
    yield;
    if (trial.aboveLimit(room) >= worst - 1e-3) return false;
  }
  return true;
}

function* failsIn(trial: ScrubberTrial | undefined, rooms: readonly Watched[]): Steps<Watched | undefined> {
  return trial && (yield* trial.fails(rooms));
}

function inWords(order: ScrubbingOrder): string {
  return order === 'alike' ? 'alike, each by its need' : `in turn, ${order}`;
}
