import { type Day, firstDayOfWeek, weekOfDay } from './dates';
import { hasFewerBins, type KnownPlan, withWhatCameIn } from './known-bins';
import type { Fill, FillLot, Lot, Plan } from './model';
import { openedByPacking } from './opened-by-packing';
import { receivedSum } from './receipts';
import type { PackedRun, Progress, Sale, Sample } from './record-model';
import { recordedDays } from './recorded-days';
import { type Given, placeAt } from './span';

export type { KnownPlan };

/**
 * The plan with what has happened in the place of what was planned: a fill's days and bins from its progress, a lot's
 * bins from its receipts once its picking is over, and then no more of it in its fills. What was planned stays in `planned`. `stand` is the last day of which
 * the plan holds a record, or the day it is looked at from (`asOf`). Records whose day cannot be are left out, and stand in
 * `tooLate`. A plan without either is returned as it is; one to which this was done before comes out the same.
 */
export function withRecords(written: Plan, last?: KnownPlan): Plan {
  // What was made without some of the records is made anew.
  const whole = last && !last.known.tooLate ? last : undefined;
  if (written.asOf !== undefined) return knownOn(written, written.asOf, whole);
  if (whole && recordsAreSame(written, whole.written)) return knownOn(written, whole.known.stand, whole);
  const { last: stand, tooLate } = recordedDays(written);
  if (tooLate.length === 0 || stand === undefined) return knownOn(written, stand, whole);
  return { ...knownOn(withoutLater(written, stand), stand, undefined), tooLate };
}

function knownOn(written: Plan, stand: Day | undefined, last: KnownPlan | undefined): Plan {
  if (stand === undefined) return written;
  const before = last?.known.stand === stand ? last : undefined;
  const lots = lotsKnown(written, stand, before);
  return { ...written, fills: fillsKnown(written, lots, stand, before), lots, stand };
}

function fillsKnown(
  written: Plan,
  lots: Plan['lots'],
  stand: Day,
  before: KnownPlan | undefined,
): Plan['fills'] {
  const { fills, progress, packed } = written;
  if (
    fills === before?.written.fills &&
    progress === before.written.progress &&
    packed === before.written.packed &&
    lots === before.known.lots
  )
    return before.known.fills;
  const packedFrom = openedByPacking(written);
  const asTheyWere = mapped(fills, (fill, id) => {
    const [ofFill, packedOn] = [progress.get(id), packedFrom.get(id)];
    if (!ofFill && !packedOn) return fill;
    const last = before?.known.fills.get(id);
    const isSame =
      before?.written.fills.get(id) === fill &&
      before.written.progress.get(id) === ofFill &&
      (last?.openedByPacking ? last.opened : undefined) === packedOn;
    return isSame && last && !hasFewerBins(before, id) ? last : fillAsItWas(fill, ofFill, stand, packedOn);
  });
  return sameOr(before?.known.fills, withWhatCameIn(asTheyWere, { written, lots, before }));
}

/** The very same map where all in it is: then nobody who goes by its fills has to look again. */
function sameOr(before: Plan['fills'] | undefined, now: Plan['fills']): Plan['fills'] {
  if (before?.size !== now.size) return now;
  const [old, other] = [before.entries(), now.entries()];
  for (let one = old.next(); !one.done; one = old.next()) {
    const [id, fill] = other.next().value ?? [];
    if (one.value[0] !== id || one.value[1] !== fill) return now;
  }
  return before;
}

function lotsKnown({ lots }: Plan, stand: Day, before: KnownPlan | undefined): Plan['lots'] {
  if (lots === before?.written.lots) return before.known.lots;
  return mapped(lots, (lot, id) => {
    const kept = before?.written.lots.get(id) === lot ? before.known.lots.get(id) : undefined;
    return kept ?? lotAsReceived(lot, stand);
  });
}

/** Whether nothing that may be a record has changed. */
function recordsAreSame(one: Plan, other: Plan): boolean {
  return (
    one.asOf === other.asOf &&
    one.season === other.season &&
    one.problems.length === other.problems.length &&
    one.fills === other.fills &&
    one.lots === other.lots &&
    one.progress === other.progress &&
    one.samples === other.samples &&
    one.packed === other.packed &&
    one.sales === other.sales
  );
}

/**
 * The plan as it was known at the end of a day: without the records that were made later. Of what is written without a
 * day, a lot's `received` bins are known from the last day of picking on, and a maturity test from its first.
 */
export function asOf(written: Plan, day: Day): Plan {
  return { ...forgotten(written, day), asOf: day };
}

/** The last day of which the plan holds a record that can be (`recordedDays`); undefined where it holds none. */
export function lastRecordedDay(plan: Plan): Day | undefined {
  return recordedDays(plan).last;
}

/**
 * A fill with its days as they were. What is late by the last recorded day is counted as done on that day. Here and nowhere
 * else it is decided whether its room has been opened: on the day recorded, or by `packedOn`, the first day of its packing.
 */
function fillAsItWas(
  fill: Fill,
  progress: Progress | undefined,
  stand: Day,
  packedOn: Given<Day> | undefined,
): Fill {
  const opened = progress?.opened ?? packedOn;
  const { sealed, emptied } = progress ?? {};
  return {
    ...fill,
    planned: fill.planned ?? fill,
    firstBin: progress?.firstBin ?? fill.firstBin,
    lastBin: progress?.lastBin ?? notBefore(fill.lastBin, sealed || packedOn ? undefined : stand),
    sealed: sealed ?? notBefore(fill.sealed, opened ? undefined : stand),
    lots: progress && progress.lots.length > 0 ? lotsAsTheyWentIn(fill.lots, progress) : fill.lots,
    open: opened ? { value: weekOfDay(opened.value), at: opened.at } : fill.open,
    ...(progress?.hasUnreadLots && { hasUnreadLots: true }),
    ...(opened && { opened }),
    ...(packedOn && { openedByPacking: true }),
    ...(emptied && { emptied }),
  };
}

function notBefore(given: Given<Day> | undefined, stand: Day | undefined): Given<Day> | undefined {
  if (!given || stand === undefined || given.value >= stand) return given;
  return { value: stand, at: given.at };
}

function lotsAsTheyWentIn(planned: readonly FillLot[], { lots }: Progress): readonly FillLot[] {
  const went = new Map(lots.map((one) => [one.lot.value, one]));
  const known = planned.flatMap(({ lot }) => {
    const one = went.get(lot.value);
    went.delete(lot.value);
    return one ? [{ lot, bins: one.bins }] : [];
  });
  return [...known, ...went.values()].filter(({ bins }) => bins.value > 0);
}

function lotAsReceived(lot: Lot, stand: Day): Lot {
  if (lot.receivedBins || !lot.receivedByDay) return lot;
  const receivedBins = receivedSum({
    byDay: lot.receivedByDay,
    at: placeAt(lot.places, ['received-by-day']).span,
    pickedTo: lot.picked?.value.last,
    expectedBins: lot.expectedBins?.value ?? 0,
    stand,
  });
  return receivedBins ? { ...lot, planned: lot.planned ?? lot, receivedBins } : lot;
}

/** Without what was recorded after a day. */
function forgotten(plan: Plan, day: Day): Plan {
  const until = (given: Given<Day> | undefined) => (given && given.value <= day ? given : undefined);
  return {
    ...plan,
    lots: mapped(plan.lots, (lot) => lotUntil(lot, day)),
    progress: kept(mapped(plan.progress, (one) => progressUntil(one, day))),
    samples: only(plan.samples, (sample: Sample) => until(sample.taken) !== undefined),
    packed: only(plan.packed, (run: PackedRun) => until(run.day) !== undefined),
    sales: only(plan.sales, ({ week }: Sale) => week !== undefined && lastDayOf(week.value) <= day),
  };
}

/** Without the records of later days; all else stays, the bins that went in too. */
function withoutLater(plan: Plan, day: Day): Plan {
  return {
    ...plan,
    lots: mapped(plan.lots, (lot) =>
      [...(lot.receivedByDay?.keys() ?? [])].some((one) => one > day)
        ? { ...lotUntil(lot, day), maturity: lot.maturity }
        : lot,
    ),
    progress: mapped(plan.progress, (one) => ({ ...progressUntil(one, day), lots: one.lots })),
    samples: only(plan.samples, ({ taken }: Sample) => taken === undefined || taken.value <= day),
    packed: only(plan.packed, (run: PackedRun) => run.day === undefined || run.day.value <= day),
    sales: only(plan.sales, ({ week }: Sale) => week === undefined || lastDayOf(week.value) <= day),
  };
}

function progressUntil(progress: Progress, day: Day): Progress {
  const until = (given: Given<Day> | undefined) => (given && given.value <= day ? given : undefined);
  const [firstBin, lastBin] = [until(progress.firstBin), until(progress.lastBin)];
  const isIn = lastBin !== undefined || (progress.lastBin === undefined && firstBin !== undefined);
  return {
    ...progress,
    firstBin,
    lastBin,
    lots: isIn ? progress.lots : [],
    cool: until(progress.cool),
    sealed: until(progress.sealed),
    lowOxygen: until(progress.lowOxygen),
    setPoint: until(progress.setPoint),
    opened: until(progress.opened),
    emptied: until(progress.emptied),
  };
}

/** Progress of which something is known. */
function kept(progress: ReadonlyMap<string, Progress>): ReadonlyMap<string, Progress> {
  return only(progress, (one: Progress) => daysOf(one).length > 0);
}

function lotUntil(lot: Lot, day: Day): Lot {
  const { receivedByDay, maturity, picked } = lot;
  const days = receivedByDay && new Map([...receivedByDay].filter(([one]) => one <= day));
  const tested = maturity?.tested?.value ?? picked?.value.first;
  const isTested = tested === undefined || tested <= day;
  const isPicked = picked === undefined || picked.value.last <= day;
  const received = days
    ? receivedSum({
        byDay: days,
        at: placeAt(lot.places, ['received-by-day']).span,
        pickedTo: picked?.value.last,
        expectedBins: lot.expectedBins?.value ?? 0,
      })
    : isPicked
      ? lot.receivedBins
      : undefined;
  return {
    ...lot,
    maturity: isTested ? maturity : undefined,
    receivedByDay: days && days.size > 0 ? days : undefined,
    receivedBins: received,
  };
}

function daysOf(progress: Progress): Given<Day>[] {
  const { firstBin, lastBin, cool, sealed, lowOxygen, setPoint, opened, emptied } = progress;
  return [firstBin, lastBin, cool, sealed, lowOxygen, setPoint, opened, emptied].filter(
    (day) => day !== undefined,
  );
}

function lastDayOf(week: number): Day {
  return firstDayOfWeek(week) + 6;
}

function mapped<V>(map: ReadonlyMap<string, V>, of: (value: V, id: string) => V): ReadonlyMap<string, V> {
  const all = new Map<string, V>();
  for (const [id, value] of map) all.set(id, of(value, id));
  return all;
}

function only<V>(map: ReadonlyMap<string, V>, is: (value: V) => boolean): ReadonlyMap<string, V> {
  return new Map([...map].filter(([, value]) => is(value)));
}
