import { sources } from '../fruit/sources';
import type { Day } from '../plan/dates';
import { compute, countedFigure, type Figure, referenceFigure } from '../plan/figure';
import type { NitrogenSource } from '../plan/model';
import type { FilledRoom } from '../room/types';
import { hoursUntilFree } from './out-of-use';

/** Which of the rooms that wait for a source is flushed next. */
export type QueueOrder = 'first sealed first' | 'shortest flush first' | 'room under a state rule first';

/** One room's turn at a nitrogen source. Hours count from the start of the day it is sealed. */
export interface NitrogenTurn {
  readonly room: FilledRoom;
  readonly sealed: Day;
  /** Hours it waits, sealed, until the source is free. */
  readonly waits: Figure<'h'>;
  readonly flush: Figure<'h'>;
  /** When its flush is over. */
  readonly flushed: Figure<'h'>;
  /** From sealing to the regime's oxygen: wait, flush, and the rest that the fruit takes. */
  readonly toSetPoint?: Figure<'h'>;
  /** What the state's rule leaves from sealing to 5 % oxygen, where the room follows one. */
  readonly allowed?: Figure<'h'>;
  /** Calendar days on which the source works for it, first and last. */
  readonly days: { readonly first: Day; readonly last: Day };
}

export interface NitrogenQueue {
  readonly source: NitrogenSource;
  readonly order: QueueOrder;
  /** In the order in which they are flushed. */
  readonly turns: readonly NitrogenTurn[];
  readonly longestWait?: NitrogenTurn;
}

const daysToFivePercent = referenceFigure(
  'days from sealing to 5 % oxygen under the state rule',
  'days',
  20,
  sources.washingtonCaRule,
);
const daysToFivePercentNewYork = referenceFigure(
  'days from sealing to 5 % oxygen under the state rule',
  'days',
  20,
  sources.newYorkCaRule,
);

/** A room that can be flushed: sealed, with nitrogen that reaches somewhere. */
interface Waiting {
  readonly room: FilledRoom;
  readonly sealed: Day;
  readonly flush: Figure<'h'>;
}

/**
 * The queue of a source's rooms through the harvest, one room after another, each from the day it is sealed on. The
 * flush is reckoned without what the fruit uses meanwhile, so the queue is on the long side.
 */
export function nitrogenQueue(
  source: NitrogenSource,
  rooms: readonly FilledRoom[],
  order: QueueOrder = 'first sealed first',
): NitrogenQueue {
  let waiting: Waiting[] = rooms.flatMap((room) =>
    room.fill.sealed && room.nitrogenHours
      ? [{ room, sealed: room.fill.sealed.value, flush: room.nitrogenHours }]
      : [],
  );
  const turns: NitrogenTurn[] = [];
  while (waiting.length > 0) {
    const before = turns.at(-1);
    const freeFrom = before ? 24 * before.sealed + before.flushed.value : Number.NEGATIVE_INFINITY;
    const next = nextOf(waiting, freeFrom, order);
    turns.push(turnOf(next, before, source));
    waiting = waiting.filter((one) => one !== next);
  }
  const longestWait = turns.reduce<NitrogenTurn | undefined>(
    (longest, turn) => (turn.waits.value > (longest?.waits.value ?? 0) ? turn : longest),
    undefined,
  );
  return { source, order, turns, ...(longestWait ? { longestWait } : {}) };
}

/** Of the rooms sealed by the time the source is free, the first by the order; else the one sealed soonest. */
function nextOf(waiting: readonly Waiting[], freeFrom: number, order: QueueOrder): Waiting {
  let soonest = Number.POSITIVE_INFINITY;
  for (const { sealed } of waiting) soonest = Math.min(soonest, 24 * sealed);
  const until = Math.max(freeFrom, soonest);
  let first: Waiting | undefined;
  for (const one of waiting)
    if (24 * one.sealed <= until && (!first || compareBy(order, one, first) < 0)) first = one;
  if (!first) throw new RangeError('nothing waits');
  return first;
}

function compareBy(order: QueueOrder, a: Waiting, b: Waiting): number {
  const sealedFirst = a.sealed - b.sealed || compareIds(a.room.fill.id, b.room.fill.id);
  if (order === 'shortest flush first') return a.flush.value - b.flush.value || sealedFirst;
  if (order === 'room under a state rule first') {
    return Number(a.room.room.law === 'none') - Number(b.room.room.law === 'none') || sealedFirst;
  }
  return sealedFirst;
}

/** As `localeCompare`, whose tables need not be loaded for what differs by a digit first, as most identifiers do. */
export function compareIds(a: string, b: string): number {
  const most = Math.min(a.length, b.length);
  for (let index = 0; index < most; index++) {
    const [one, other] = [a.charCodeAt(index), b.charCodeAt(index)];
    if (one === other) continue;
    return isDigit(one) && isDigit(other) ? one - other : a.localeCompare(b);
  }
  return a.localeCompare(b);
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

function turnOf(
  { room, sealed, flush }: Waiting,
  before: NitrogenTurn | undefined,
  source: NitrogenSource,
): NitrogenTurn {
  const busy = untilInUse(waitFor(before, sealed), { sealed, flush }, source);
  const flushed = compute(
    'hours from sealing to the end of the flush',
    'h',
    'busy + flush',
    { busy, flush },
    (v) => v.busy + v.flush,
  );
  const allowed = allowedHours(room);
  const toSetPoint = setPointHours(room, flushed);
  return {
    room,
    sealed,
    waits: busy,
    flush,
    flushed,
    ...(toSetPoint ? { toSetPoint } : {}),
    ...(allowed ? { allowed } : {}),
    days: {
      first: sealed + Math.floor(busy.value / 24),
      last: sealed + Math.max(0, Math.ceil(flushed.value / 24) - 1),
    },
  };
}

/** Until the room before it in the queue is flushed, counted from this room's own sealing. */
function waitFor(before: NitrogenTurn | undefined, sealed: Day): Figure<'h'> {
  const name = 'hours after sealing until the source is free';
  if (!before) return countedFigure(name, 'h', 0, 'no room is flushed before it');
  const { flushed } = before;
  if (flushed.value <= 24 * (sealed - before.sealed)) {
    const what = `${before.room.fill.id}, the room before it in the queue, is flushed by then`;
    return countedFigure(name, 'h', 0, what);
  }
  const daysLater = countedFigure(
    `days sealed after ${before.room.fill.id}, the room before it in the queue`,
    'days',
    sealed - before.sealed,
    'the dates of the fills',
  );
  return compute(
    name,
    'h',
    'flushed - 24 * daysLater',
    { flushed, daysLater },
    (v) => v.flushed - 24 * v.daysLater,
  );
}

/** A flush that days out of use would interrupt begins when the source is back. */
function untilInUse(
  busy: Figure<'h'>,
  { sealed, flush }: Pick<Waiting, 'sealed' | 'flush'>,
  { outOfUse }: NitrogenSource,
): Figure<'h'> {
  const more = hoursUntilFree(outOfUse, 24 * sealed + busy.value, flush.value);
  if (more <= 0) return busy;
  const out = countedFigure('hours until the source is back', 'h', more, 'the days it is out of use');
  return compute(busy.name, 'h', 'busy + out', { busy, out }, (v) => v.busy + v.out);
}

function setPointHours(room: FilledRoom, flushed: Figure<'h'>): Figure<'h'> | undefined {
  const { respirationHours } = room;
  if (!respirationHours) return undefined;
  return compute(
    "hours from sealing to the regime's oxygen",
    'h',
    'flushed + respirationHours',
    { flushed, respirationHours },
    (v) => v.flushed + v.respirationHours,
  );
}

function allowedHours({ room }: FilledRoom): Figure<'h'> | undefined {
  if (room.law === 'none') return undefined;
  const days = room.law === 'washington' ? daysToFivePercent : daysToFivePercentNewYork;
  return compute('hours the state rule leaves to 5 % oxygen', 'h', 'days * 24', { days }, (v) => v.days * 24);
}
