import { formatDay, formatWeek, weekOfDay } from '../../plan/dates';
import { roundedUp } from '../../plan/display';
import { figureWith } from '../../plan/figure';
import type { NitrogenSource } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import type { Steps } from '../../plan/steps';
import { counted, listed } from '../../plan/wording';
import { nitrogenWeeks } from '../../plant/nitrogen-hours';
import { type NitrogenQueue, type NitrogenTurn, nitrogenQueue } from '../../plant/nitrogen-queue';
import { leastWholeSteps } from '../../plant/try';
import { weeksOf } from '../../plant/weeks';
import { pullDown } from '../../room/pull-down';
import type { FilledRoom } from '../../room/types';
import { onceInSteps } from '../courses';
import { shower } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { isFruitKnown } from '../unknown-fruit';
import { atRegime } from './low-oxygen';

function* nitrogenCannotReach(season: ComputedSeason): Iterable<Problem> {
  for (const filled of season.filled.values()) {
    const { fill, room, nitrogenShortfall } = filled;
    if (!nitrogenShortfall || !fill.sealed) continue;
    yield {
      code: 'nitrogen-cannot-reach',
      message: `${fill.id}: ${nitrogenShortfall}${fruitTakesTheRest(season, filled)}${purityNeeded(season, filled)}`,
      at: room.nitrogen?.at ?? fill.at,
      related: [{ at: atRegime(fill), message: 'The regime asks for it' }],
      about: fill.id,
    };
  }
}

/** How long the fruit takes for what the gas leaves. */
function fruitTakesTheRest({ courses }: ComputedSeason, filled: FilledRoom): string {
  const course = isFruitKnown(filled) ? courses?.courses.get(filled.fill.id) : undefined;
  if (!course) return '';
  const hours = course.hoursToSetPoint?.value;
  return hours === undefined
    ? ` With what leaks in, it never gets there: the lowest oxygen is ${course.lowestOxygen.value.toFixed(1)} %.`
    : ` With what leaks in, it gets there on ${formatDay(course.sealed + Math.floor(hours / 24))}, ${counted(Math.round(hours / 24), 'day')} after it is sealed.`;
}

/** The least purity, in tenths of a per cent, whose gas would bring the room to where it is stopped. */
function purityNeeded({ plan }: ComputedSeason, filled: FilledRoom): string {
  const { room, regime, freeGasVolume, oxygenUse } = filled;
  const source = room.nitrogen && plan.nitrogenSources.get(room.nitrogen.value);
  const purest = source && [...source.flows].sort((a, b) => b.purity.value - a.purity.value)[0];
  if (!source || !purest || !regime?.oxygen) return '';
  for (let tenths = Math.ceil(10 * purest.purity.value); tenths < 1000; tenths += 1) {
    const purer = { ...purest, purity: figureWith(purest.purity, { value: tenths / 10 }) };
    const improved = { ...source, flows: [...source.flows, purer] };
    if (pullDown(improved, regime, freeGasVolume, oxygenUse).nitrogenShortfall === undefined)
      return ` It would do with gas of ${tenths / 10} % nitrogen or purer at the end of the flush, or with a set-point above the oxygen that the gas carries.`;
  }
  return '';
}

/** Hours that a sealed room may wait for its nitrogen before it is worth a word; common practice. */
const MOST_WAIT_HOURS = 72;

function* nitrogenQueues(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const { source, rooms, queue, weeks } of season.plant?.nitrogen ?? []) {
    const over = weeks.filter(({ share }) => share.value > 100);
    const worst = over.reduce<(typeof over)[number] | undefined>(
      (best, week) => (!best || week.share.value > best.share.value ? week : best),
      undefined,
    );
    const waiting = queue.turns.filter(({ waits }) => waits.value > MOST_WAIT_HOURS);
    if (!worst && waiting.length === 0) continue;
    const carried =
      worst && worst.carried.value > 0 ? `, ${show(worst.carried)} of them left from the weeks before,` : '';
    const tooMuch = worst
      ? ` In ${formatWeek(worst.week)} ${show(worst.hours)} are asked for${carried} and a week has 168 h, so ${show(worst.left)} are left for the next; too much in ${listed(over.map(({ week }) => formatWeek(week)))}.`
      : '';
    yield {
      code: 'nitrogen-queue',
      message: `${source.id}: ${queueText(waiting)}${tooMuch}${queueCure(season, source, rooms, queue)}`,
      at: source.at,
      related: rooms
        .slice(0, 12)
        .map(({ fill }) => ({ at: fill.at, message: `${fill.id} is on ${source.id}` })),
      about: source.id,
    };
  }
}

/** A wait of more than a year is a mistyped number, and its day no calendar has. */
const MOST_HOURS_TOLD = 365 * 24;

function queueText(waiting: readonly NitrogenTurn[]): string {
  if (waiting.length === 0) return 'no room waits for another, but its own flush takes more than a week.';
  const texts = waiting.map(({ room, sealed, days, waits }) =>
    waits.value > MOST_HOURS_TOLD
      ? `${room.fill.id} from ${formatDay(sealed)} for more than a year`
      : `${room.fill.id} from ${formatDay(sealed)} to ${formatDay(days.first)} (${Math.round(waits.value)} h)`,
  );
  return `sealed rooms wait for their gas: ${listed(texts)}.`;
}

/** Another order is tried; else the flow that would bring the longest wait down is told. */
function queueCure(
  { courses }: ComputedSeason,
  source: NitrogenSource,
  rooms: readonly FilledRoom[],
  queue: NitrogenQueue,
): string {
  const longest = queue.longestWait?.waits.value ?? 0;
  const shortest = nitrogenQueue(source, rooms, 'shortest flush first').longestWait?.waits.value ?? 0;
  if (longest > MOST_WAIT_HOURS && shortest <= MOST_WAIT_HOURS)
    return ` With the shortest flush first none waits more than ${roundedUp(shortest, 0)} h.`;
  const factor = onceInSteps(courses, `flow of ${source.id}`, () => flowFactor(source, rooms));
  return factor === undefined
    ? ' Spread the sealing days, or move rooms to another source.'
    : ` A flow ${factor.toFixed(1)} times as large would do; else spread the sealing days, or move rooms to another source.`;
}

/** More than the harvest of any season: beyond it a year is mistyped. */
const MOST_WEEKS = 106;

/** Flows that are tried, tenths of what there is: a fiftieth more each time, up to forty times as large. */
const TENTHS: readonly number[] = (() => {
  const tried: number[] = [];
  for (let tenths = 11; tenths <= 400; tenths = Math.ceil(tenths * 1.02)) tried.push(tenths);
  return tried;
})();

/** How many times the flow must be so that nobody waits long and each week has hours enough; flushed anew each time. */
function* flowFactor(source: NitrogenSource, rooms: readonly FilledRoom[]): Steps<number | undefined> {
  const does = function* (index: number): Steps<boolean> {
    yield;
    return flowDoes(source, rooms, TENTHS[index] ?? 0);
  };
  const least = yield* leastWholeSteps(-1, TENTHS.length - 1, does);
  return least === undefined ? undefined : (TENTHS[least] ?? 0) / 10;
}

function flowDoes(source: NitrogenSource, rooms: readonly FilledRoom[], tenths: number): boolean {
  const flows = source.flows.map(({ purity, flow }) => ({
    purity,
    flow: figureWith(flow, { value: (flow.value * tenths) / 10 }),
  }));
  const larger = { ...source, flows };
  const quicker = rooms.map((room) => ({
    ...room,
    ...pullDown(larger, room.regime, room.freeGasVolume, room.oxygenUse),
  }));
  const { turns } = nitrogenQueue(larger, quicker);
  const sealed = turns.map((turn) => weekOfDay(turn.sealed));
  const [first, last] = [Math.min(...sealed), Math.max(...sealed)];
  if (last - first > MOST_WEEKS) return false;
  const weeks = weeksOf({ firstWeek: first, lastWeek: last });
  const enough = nitrogenWeeks(weeks, { turns }).every(({ share }) => share.value <= 100);
  return enough && turns.every(({ waits }) => waits.value <= MOST_WAIT_HOURS);
}

export const nitrogenRules: readonly Rule[] = [
  {
    code: 'nitrogen-cannot-reach',
    family: 'gas',
    severity: 'warning',
    summary: 'The nitrogen is not pure enough for the set-point.',
    find: nitrogenCannotReach,
  },
  {
    code: 'nitrogen-queue',
    family: 'gas',
    severity: 'warning',
    summary: 'Rooms sealed together ask for more nitrogen than a week gives.',
    find: nitrogenQueues,
  },
];
