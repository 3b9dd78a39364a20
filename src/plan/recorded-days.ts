import { type Day, firstDayOfWeek, formatDay, weekOfDay } from './dates';
import type { Plan } from './model';
import type { LateRecord, ProgressStep } from './record-model';
import { placeAt } from './span';

/** Up to when a plan's records go. */
export interface RecordedDays {
  /** The last day of which the plan holds a record that can be; undefined where it holds none. */
  readonly last: Day | undefined;
  readonly tooLate: readonly LateRecord[];
}

/**
 * Days without any record after which one more is looked at twice: while fruit comes in, is packed or sold, something is
 * recorded each week. Common practice.
 */
const DAYS_WITHOUT_RECORD = 28;
/**
 * The same for a packed run, a sample or a sale: the first of them may come months after the door was sealed, where nobody
 * writes down what goes on meanwhile. Common practice.
 */
const DAYS_ALONE = 182;

const NONE: readonly LateRecord[] = [];

/**
 * No clock is asked: a plan gives the same on any day. What is told of a record is what the plan itself speaks against:
 * weeks after all others and after the season's end; weeks after all others and after the fill was to be full or the lot
 * picked; or one run, sample or sale half a year after all others. A room may stand closed for months, so that its opening and
 * emptying are taken at their word within the season, and so is a run that tells of its opening.
 */
export function recordedDays(plan: Plan): RecordedDays {
  let [last, before] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const day of allDays(plan)) {
    if (day > last) [last, before] = [day, last];
    else if (day < last && day > before) before = day;
  }
  if (!Number.isFinite(last)) return { last: undefined, tooLate: NONE };
  const ends = seasonEnd(plan);
  if (last - before <= DAYS_WITHOUT_RECORD && (ends === undefined || last <= ends))
    return { last, tooLate: NONE };
  return plausibleDays(plan, ends);
}

function plausibleDays(plan: Plan, ends: Day | undefined): RecordedDays {
  const records = [...recordsOf(plan)].sort((a, b) => a.day - b.day);
  const tooLate: LateRecord[] = [];
  // Where something could not be read, other records may be there that stand beside it.
  const isRead = plan.problems.length === 0;
  for (;;) {
    const last = records.at(-1)?.day;
    const late = last === undefined ? undefined : lastTooLate(records, last, { ends, isRead });
    if (!late || late.length === records.length) return { last, tooLate };
    tooLate.push(...late);
    records.length -= late.length;
  }
}

interface DatedRecord extends Pick<LateRecord, 'what' | 'about' | 'day' | 'at'> {
  /** The last day on which the plan has fruit come in, where the record is of harvest; undefined of what has no such day. */
  readonly harvestTo?: Day | undefined;
  /** It may be the first for months. */
  readonly isOpening?: true;
}

/** The last of the records, in the order of their days, that cannot be; undefined where they can. */
function lastTooLate(
  records: readonly DatedRecord[],
  last: Day,
  { ends, isRead }: { readonly ends: Day | undefined; readonly isRead: boolean },
): readonly LateRecord[] | undefined {
  const after = ends === undefined ? [] : records.filter(({ day }) => day > ends);
  const [first] = after;
  const within = records[records.length - after.length - 1]?.day ?? Number.NEGATIVE_INFINITY;
  if (ends !== undefined && first && first.day - within > DAYS_WITHOUT_RECORD)
    return after.map((one) => lateRecord(one, { kind: 'season', ends }));
  const ofLast = records.filter(({ day }) => day === last);
  const days = last - (records[records.length - ofLast.length - 1]?.day ?? last);
  if (days <= DAYS_WITHOUT_RECORD || ofLast.some(({ isOpening }) => isOpening)) return undefined;
  const [only] = ofLast;
  if (ofLast.every(({ harvestTo }) => harvestTo !== undefined && last - harvestTo > DAYS_WITHOUT_RECORD))
    return ofLast.map((one) => lateRecord(one, { kind: 'harvest', by: one.harvestTo ?? last, days }));
  return isRead && only && ofLast.length === 1 && only.harvestTo === undefined && days > DAYS_ALONE
    ? [lateRecord(only, { kind: 'alone', days })]
    : undefined;
}

function lateRecord({ what, about, day, at }: DatedRecord, because: LateRecord['because']): LateRecord {
  return { what, about, day, at, because };
}

const STEPS: readonly (readonly [ProgressStep, string])[] = [
  ['firstBin', 'first bin'],
  ['lastBin', 'last bin'],
  ['cool', 'cool'],
  ['sealed', 'sealed'],
  ['lowOxygen', '5 % oxygen'],
  ['setPoint', 'set-point'],
  ['opened', 'opened'],
  ['emptied', 'emptied'],
];

function* allDays(plan: Plan): Iterable<Day> {
  for (const { receivedByDay } of plan.lots.values()) if (receivedByDay) yield* receivedByDay.keys();
  for (const progress of plan.progress.values())
    for (const [step] of STEPS) {
      const day = progress[step]?.value;
      if (day !== undefined) yield day;
    }
  for (const { taken } of plan.samples.values()) if (taken) yield taken.value;
  for (const { day } of plan.packed.values()) if (day) yield day.value;
  for (const { week } of plan.sales.values()) if (week) yield firstDayOfWeek(week.value) + 6;
}

function* recordsOf(plan: Plan): Iterable<DatedRecord> {
  for (const { id, receivedByDay, picked, places } of plan.lots.values())
    for (const day of receivedByDay?.keys() ?? []) {
      const { key, span } = placeAt(places, ['received-by-day', formatDay(day)]);
      const at = key ?? span;
      yield { what: `Receipt of lot ${id}`, about: `${id}/received`, day, at, harvestTo: picked?.value.last };
    }
  for (const progress of plan.progress.values()) {
    const fill = plan.fills.get(progress.id);
    const { lastBin, sealed } = fill?.planned ?? fill ?? {};
    for (const [step, name] of STEPS) {
      const given = progress[step];
      if (!given) continue;
      const isOpening = step === 'opened' || step === 'emptied';
      yield {
        ...{ what: `${progress.id}: ${name}`, about: `${progress.id}/${step}` },
        ...{ day: given.value, at: given.at },
        ...(isOpening ? { isOpening } : { harvestTo: (sealed ?? lastBin)?.value ?? given.value }),
      };
    }
  }
  for (const { id, taken } of plan.samples.values())
    if (taken) yield { what: `Sample ${id}`, about: id, day: taken.value, at: taken.at };
  for (const { id, day, fill } of plan.packed.values()) {
    // The first thing recorded of a room that stood closed may be that it is packed.
    const isOpening = fill !== undefined && !plan.progress.get(fill.value)?.opened;
    const told = { what: `Packed run ${id}`, about: id };
    if (day) yield { ...told, day: day.value, at: day.at, ...(isOpening && { isOpening }) };
  }
  for (const { id, week } of plan.sales.values())
    if (week) yield { what: `Sale ${id}`, about: id, day: firstDayOfWeek(week.value) + 6, at: week.at };
}

/** The last day of the week in which the season ends, to which its sales go; undefined where it ends before it begins. */
function seasonEnd({ season }: Plan): Day | undefined {
  const { starts, ends } = season ?? {};
  if (!ends || (starts && ends.value <= starts.value)) return undefined;
  return firstDayOfWeek(weekOfDay(ends.value)) + 6;
}
