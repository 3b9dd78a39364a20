import type { ComputedSeason } from '../findings/types';
import { type Day, firstDayOfWeek, formatDay, weekOfDay } from '../plan/dates';
import type { Fill, Progress } from '../plan/model';
import type { FilledRoom } from '../room/types';
import { daysToStorage } from './course-report';
import { expectedGasDays, WITHIN_THE_DAY } from './gas-days';
import { byName } from './papers/by-name';
import { present, varietiesOf } from './parts';
import type { StatusReport } from './schemas';
import { isFilled } from './status-crop';
import { openingOf } from './timeline-room';

type RoomStand = StatusReport['rooms'][number];
export type StepStand = RoomStand['steps'][number];

/** A day by which something was to happen, and who says so. */
interface Due {
  readonly day: Day;
  readonly from: 'plan' | 'computed' | 'schedule';
  /** It is late after this day: of an opening, which is planned by the week, after the week. The day itself by default. */
  readonly lastDay?: Day;
}

/** The law speaks of oxygen at 5 %; a room kept above never comes to it. */
const LOW_OXYGEN = 5;

/** Every fill with what has happened to it, what is due, and by how much it is late. */
export function roomsPart(season: ComputedSeason, stand: Day): RoomStand[] {
  return [...season.filled.values()]
    .map((filled) => roomStand(season, filled, stand))
    .sort((a, b) => byName(a.room, b.room) || byName(a.fill, b.fill));
}

/** Whether something that was due has not happened. */
export function isLateNow({ steps }: RoomStand): boolean {
  return steps.some(({ happened, daysLate }) => happened === undefined && daysLate !== undefined);
}

function roomStand(season: ComputedSeason, filled: FilledRoom, stand: Day): RoomStand {
  const { fill, room } = filled;
  const progress = season.plan.progress.get(fill.id);
  return {
    room: room.id,
    fill: fill.id,
    varieties: varietiesOf(filled),
    state: stateOf(season, filled, progress),
    steps: stepsOf(season, filled, progress, stand),
    ...present({ gasNotTold: gasNotTold(season, filled, progress) }),
  };
}

function stateOf(
  { plan }: ComputedSeason,
  filled: FilledRoom,
  progress: Progress | undefined,
): RoomStand['state'] {
  if (progress?.emptied) return 'emptied';
  if (filled.fill.opened) return 'opened';
  if (progress?.setPoint) return 'holding';
  if (progress?.sealed || progress?.lowOxygen) return 'sealed';
  if (isFilled(plan, filled)) return 'filled';
  return progress ? 'filling' : 'to come';
}

type Step = StepStand['step'];

function stepsOf(
  season: ComputedSeason,
  filled: FilledRoom,
  progress: Progress | undefined,
  stand: Day,
): StepStand[] {
  const happened = happenedDays(progress, filled.fill);
  const due = dueDays(season, filled);
  const steps: readonly Step[] = [
    'first-bin',
    'last-bin',
    'cool',
    'sealed',
    'low-oxygen',
    'set-point',
    'opened',
    'emptied',
  ];
  const lastDone = steps.findLastIndex((step) => happened[step] !== undefined);
  return steps.flatMap((step, index) => {
    const [on, by] = [happened[step], due[step]];
    if (on === undefined && by === undefined) return [];
    // What comes after it has happened, so it must have too, though nobody has said when.
    const isPassed = on === undefined && index < lastDone;
    const notRecorded = step === 'opened' ? filled.fill.openedByPacking : undefined;
    const isTold = by && by.from !== 'schedule' && !isPassed && !notRecorded;
    const late = isTold ? (on ?? stand) - (by.lastDay ?? by.day) : 0;
    return [
      present({
        step,
        due: by && formatDay(by.day),
        dueFrom: by?.from,
        happened: on === undefined ? undefined : formatDay(on),
        notRecorded,
        daysLate: late > 0 ? late : undefined,
      }),
    ];
  });
}

function happenedDays(progress: Progress | undefined, { opened }: Fill): Partial<Record<Step, Day>> {
  return present({
    'first-bin': progress?.firstBin?.value,
    'last-bin': progress?.lastBin?.value,
    cool: progress?.cool?.value,
    sealed: progress?.sealed?.value,
    'low-oxygen': progress?.lowOxygen?.value,
    'set-point': progress?.setPoint?.value,
    opened: opened?.value,
    emptied: progress?.emptied?.value,
  });
}

function dueDays(season: ComputedSeason, filled: FilledRoom): Partial<Record<Step, Due>> {
  const { fill } = filled;
  const plan = fill.planned ?? fill;
  return present({
    'first-bin': planned(plan.firstBin?.value),
    'last-bin': planned(plan.lastBin?.value),
    cool: computed(allCold(season, filled)),
    sealed: planned(plan.sealed?.value),
    ...gasDue(season, filled),
    opened: openingDue(season, filled, plan),
    emptied: computed(emptyDue(season, fill)),
  });
}

function planned(day: Day | undefined): Due | undefined {
  return day === undefined ? undefined : { day, from: 'plan' };
}

function computed(day: Day | undefined): Due | undefined {
  return day === undefined ? undefined : { day, from: 'computed' };
}

/** When all fruit is cold: at the regime's temperature, to which a room with a warm hold comes after that. */
function allCold({ courses }: ComputedSeason, filled: FilledRoom): Day | undefined {
  const { fill } = filled;
  const cold = courses?.cooling.get(fill.id)?.allCold?.value;
  if (cold === undefined || !fill.firstBin) return undefined;
  const storage = daysToStorage(filled, cold);
  // The last day of stepping down ends at storage temperature.
  return (
    fill.firstBin.value + (storage === undefined ? Math.floor(cold) : Math.ceil(storage) - 1) + WITHIN_THE_DAY
  );
}

/** From the day of sealing, as it was or is to be, by the room's course. */
function gasDue(season: ComputedSeason, { fill, regime }: FilledRoom): Partial<Record<Step, Due>> {
  const { fivePercent, setPoint } = expectedGasDays(season, fill.id);
  const isLow = (regime?.oxygen?.value ?? Number.POSITIVE_INFINITY) <= LOW_OXYGEN;
  return present({
    'low-oxygen': isLow ? computed(fivePercent) : undefined,
    'set-point': computed(setPoint),
  });
}

/** Why no day can be told by which a sealed room comes to its gas; undefined where one is, or none is needed any more. */
function gasNotTold(
  season: ComputedSeason,
  { fill, room, regime }: FilledRoom,
  progress: Progress | undefined,
): string | undefined {
  if (!fill.sealed || progress?.lowOxygen || progress?.setPoint || fill.opened) return undefined;
  if (!regime?.oxygen) return 'its regime gives no oxygen';
  if (regime.oxygen.value > LOW_OXYGEN) return undefined;
  if (!season.courses?.courses.has(fill.id))
    return `its course cannot be computed: \`lotwright gas --room ${room.id}\` tells what is missing`;
  return expectedGasDays(season, fill.id).fivePercent === undefined
    ? 'by its course it does not come to 5 % before it is opened'
    : undefined;
}

/** A pinned week is kept while it lasts; a week that the schedule chose may still move. */
function openingDue(season: ComputedSeason, filled: FilledRoom, plan: Fill): Due | undefined {
  if (plan.open) {
    const monday = firstDayOfWeek(plan.open.value);
    return { day: monday, from: 'plan', lastDay: monday + 6 };
  }
  if (filled.fill.opened) return undefined;
  const opening = openingOf(season, filled);
  return opening && { day: firstDayOfWeek(opening.week), from: 'schedule' };
}

/** The packhouse takes its days from the Monday of the week a room is opened in. */
function emptyDue({ plan }: ComputedSeason, { opened }: Fill): Day | undefined {
  const days = plan.packing?.daysToEmpty.value;
  if (!opened || days === undefined) return undefined;
  return firstDayOfWeek(weekOfDay(opened.value)) + Math.max(1, Math.round(days)) - 1;
}
