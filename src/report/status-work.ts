import type { ComputedSeason } from '../findings/types';
import { type Day, formatDay } from '../plan/dates';
import type { Plan, Progress } from '../plan/model';
import type { CalendarTask, Paper } from './papers/paper';
import { papersFor } from './papers/papers';
import { type AccountOptions, seasonAccount } from './papers/season-account';
import { present } from './parts';
import type { StatusReport } from './schemas';

type WorkPart = StatusReport['work'];
type ReaderWork = WorkPart['readers'][number];

const READERS = ['packhouse', 'sales', 'cold-store', 'lab', 'growers'] as const;
const DAYS_AHEAD = 14;
/** A sample may be taken a few days before the day it was asked for. */
const SAMPLE_EARLY_DAYS = 3;

/**
 * What each reader's paper has for the fourteen days after a day, and for the day itself where it is still to be done.
 * The season is to come with its courses.
 */
export function workPart(season: ComputedSeason, stand: Day, options: AccountOptions): WorkPart {
  const account = seasonAccount(season, options);
  const to = stand + DAYS_AHEAD;
  const isNext = (reader: Paper['reader'], task: CalendarTask) =>
    lastOf(task) >= stand && task.first <= to && !isDone(season.plan, reader, task);
  const readers = READERS.flatMap((reader) => papersFor(account, reader))
    .map(
      (paper): ReaderWork => ({
        ...named(paper),
        tasks: paper.tasks
          .filter((task) => isNext(paper.reader, task))
          .sort((a, b) => a.first - b.first || lastOf(a) - lastOf(b))
          .map((task) => ({
            kind: task.kind,
            first: formatDay(task.first),
            last: formatDay(lastOf(task)),
            rooms: [...task.rooms],
            ...present({ hoursADay: task.hoursADay }),
            title: task.title,
            detail: task.detail,
          })),
      }),
    )
    .filter(({ tasks }) => tasks.length > 0);
  return { from: formatDay(stand), to: formatDay(to), readers };
}

/** A scrubber set on one day runs for weeks: until then it is work of this day too. */
function lastOf({ last, until = last }: Pick<CalendarTask, 'last' | 'until'>): Day {
  return Math.max(last, until);
}

function named({ reader, grower }: Paper): Pick<ReaderWork, 'reader' | 'grower'> {
  const known = READERS.find((one) => one === reader) ?? 'packhouse';
  return present({ reader: known, grower });
}

/** Whether the records say that it has been done. */
function isDone(plan: Plan, reader: Paper['reader'], { kind, about, first, last }: CalendarTask): boolean {
  const progress = recordsOf(plan, about);
  // To a grower a room's opening is all of its packing.
  if (reader === 'growers') return has(progress, ['emptied']);
  if (kind === 'sample') return isSampled(plan, about, first, last);
  if (kind === 'five-per-cent') return has(progress, ['lowOxygen', 'setPoint']);
  const by = DONE_BY[kind];
  return by !== undefined && has(progress, by);
}

const DONE_BY: Readonly<Partial<Record<CalendarTask['kind'], readonly (keyof Progress)[]>>> = {
  fill: ['lastBin', 'sealed'],
  seal: ['sealed', 'opened'],
  purge: ['lowOxygen', 'setPoint', 'opened'],
  'set-point': ['setPoint', 'opened'],
  scrub: ['opened'],
  ventilate: ['opened'],
  open: ['opened'],
  pack: ['emptied'],
  empty: ['emptied'],
};

/** A fill's recorded days; of one that was packed from without a record of its opening, that it was opened. */
function recordsOf(plan: Plan, fill: string): Steps | undefined {
  const [progress, opened] = [plan.progress.get(fill), plan.fills.get(fill)?.opened];
  return progress || opened ? { ...progress, ...(opened && { opened }) } : undefined;
}

type Steps = Partial<Progress>;

function has(progress: Steps | undefined, keys: readonly (keyof Progress)[]): boolean {
  return progress !== undefined && keys.some((key) => progress[key] !== undefined);
}

function isSampled(plan: Plan, fill: string, first: Day, last: Day): boolean {
  return [...plan.samples.values()].some(
    (sample) =>
      (sample.fill === undefined || sample.fill.value === fill) &&
      isOfFill(plan, fill, sample.lot?.value) &&
      sample.taken !== undefined &&
      sample.taken.value >= first - SAMPLE_EARLY_DAYS &&
      sample.taken.value <= last,
  );
}

function isOfFill(plan: Plan, fill: string, lot: string | undefined): boolean {
  return (plan.fills.get(fill)?.lots ?? []).some((one) => one.lot.value === lot);
}
