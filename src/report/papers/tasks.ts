import type { ComputedSeason } from '../../findings/types';
import { type Day, firstDayOfWeek, formatWeek } from '../../plan/dates';
import { fixed, type Measure, measureLabel, showMeasure, showSetPoint } from '../../plan/display';
import { counted } from '../../plan/wording';
import { limeCaution } from '../../room/caution';
import type { RoomAccount, Sample, ScrubbingTurn, Task, TaskKind } from './account';
import { setByWords } from './basis';
import { byName } from './by-name';
import type { LimeChange } from './scrubbing';

/** In which tasks of one day follow one another. */
const ORDER: readonly TaskKind[] = [
  'fill',
  'seal',
  'purge',
  'five-per-cent',
  'set-point',
  'scrub',
  'lime',
  'ventilate',
  'open',
  'sample',
  'empty',
];

/** Everything to be done at rooms and their plant, in the order of its days. */
export function tasksOf(
  season: ComputedSeason,
  rooms: readonly RoomAccount[],
  plant: {
    readonly samples: readonly Sample[];
    readonly scrubbing: readonly ScrubbingTurn[];
    readonly lime: readonly LimeChange[];
  },
): Task[] {
  const daysAWeek = Math.max(1, Math.min(7, Math.round(season.plan.packing?.daysAWeek ?? 5)));
  const tasks = [
    ...rooms.flatMap((room) => [
      ...fillTasks(room),
      ...gasTasks(season, room),
      ...openingTasks(room, daysAWeek),
    ]),
    ...plant.scrubbing.filter(({ hoursADay }) => hoursADay > 0).map(scrubTask(plant.scrubbing, rooms)),
    ...plant.lime.flatMap((one) => limeTasks(one, rooms)),
    ...plant.samples.map(sampleTask),
  ];
  return tasks.sort(
    (a, b) => a.first - b.first || ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind) || byName(a.about, b.about),
  );
}

function fillTasks(room: RoomAccount): Task[] {
  const { firstBin, lastBin, sealed } = room;
  const first = firstBin ?? lastBin;
  const bins = `${counted(room.bins, 'bin')} of ${room.varieties.join(', ')}`;
  return [
    ...(first === undefined
      ? []
      : [
          roomTask(
            room,
            'fill',
            first,
            lastBin ?? first,
            `Fill ${room.room}: ${bins}`,
            `Lots ${lotNames(room)}.`,
          ),
        ]),
    ...(sealed === undefined
      ? []
      : [roomTask(room, 'seal', sealed, sealed, `Seal ${room.room}`, `${bins}. ${setPoints(room)}`)]),
  ];
}

function gasTasks(season: ComputedSeason, room: RoomAccount): Task[] {
  const turn = season.courses?.queues
    .flatMap(({ source, turns }) => turns.map((one) => ({ ...one, source: source.id })))
    .find((one) => one.room.fill.id === room.fill);
  const law = season.plan.rooms.get(room.room)?.law ?? 'none';
  const { fivePercentBy, setPointBy } = room;
  const flushTo = season.filled.get(room.fill)?.flushTo;
  const reached = season.courses?.courses.get(room.fill)?.hoursToSetPoint;
  // Two hours of one room stand in the papers and in `explain`: which is which is said.
  const byCourse = reached
    ? `; by its course, which counts it, at its set-point ${counted(reached.value, 'hour')} after sealing`
    : '';
  return [
    ...(turn
      ? [
          roomTask(
            room,
            'purge',
            turn.days.first,
            turn.days.last,
            `Nitrogen from ${turn.source} to ${room.room}`,
            `${counted(turn.flush.value, 'hour')}${flushTo ? `, down to ${showSetPoint({ value: flushTo.value, unit: '%' })} % oxygen` : ''}, not counting what the fruit uses${byCourse}.`,
          ),
        ]
      : []),
    ...(fivePercentBy !== undefined && law !== 'none'
      ? [roomTask(room, 'five-per-cent', fivePercentBy, fivePercentBy, `${room.room} at 5 % oxygen`)]
      : []),
    ...(setPointBy === undefined
      ? []
      : [
          roomTask(
            room,
            'set-point',
            setPointBy,
            setPointBy,
            `${room.room} at its set-point`,
            setPoints(room),
          ),
        ]),
  ];
}

/** Opening and emptying are planned by the week: its working days. */
function openingTasks(room: RoomAccount, daysAWeek: number): Task[] {
  const { opens, emptyBy } = room;
  if (opens === undefined) return [];
  const monday = firstDayOfWeek(opens);
  const friday = monday + daysAWeek - 1;
  const bins = counted(room.bins, 'bin');
  const how = room.setBy === undefined ? '' : `Its week is ${setByWords[room.setBy]}.`;
  return [
    ...(room.sealed === undefined
      ? []
      : [roomTask(room, 'ventilate', monday, monday, `Ventilate ${room.room}`, airWords(room))]),
    roomTask(room, 'open', monday, friday, `Open ${room.room}: ${bins} of ${room.varieties.join(', ')}`, how),
    ...(emptyBy === undefined
      ? []
      : [
          roomTask(
            room,
            'empty',
            firstDayOfWeek(emptyBy) + daysAWeek - 1,
            firstDayOfWeek(emptyBy) + daysAWeek - 1,
            `${room.room} packed out`,
            `The last of its bins is packed in ${formatWeek(emptyBy)}.`,
          ),
        ]),
  ];
}

function airWords({ freshAirVolumes, freshAir }: RoomAccount): string {
  if (freshAirVolumes === undefined) return 'The plan does not tell how much fresh air to plan for.';
  const amount = freshAir ? `, ${withUnit(freshAir)}` : '';
  return `Plan for ${fixed(freshAirVolumes, 1)} times its gas in fresh air${amount}, if mixed well. What counts is what is read.`;
}

/** Nothing is scrubbed before its room is sealed: until then people are at work in it. */
function scrubTask(all: readonly ScrubbingTurn[], rooms: readonly RoomAccount[]) {
  return (turn: ScrubbingTurn): Task => {
    const number = all.filter(({ fill }) => fill === turn.fill).indexOf(turn) + 1;
    const sealed = rooms.find(({ fill }) => fill === turn.fill)?.sealed;
    const day = Math.max(firstDayOfWeek(turn.first), sealed ?? Number.NEGATIVE_INFINITY);
    return {
      kind: 'scrub',
      about: turn.fill,
      which: String(number),
      first: day,
      last: day,
      until: firstDayOfWeek(turn.last) + 6,
      rooms: [turn.room],
      hoursADay: { given: turn.hoursADay, needed: turn.hoursNeeded },
      title: `${turn.scrubber} on ${turn.room}: up to ${fixed(turn.hoursADay, 1)} h a day given, ${fixed(turn.hoursNeeded, 1)} needed`,
      detail: `From ${formatWeek(turn.first)} to ${formatWeek(turn.last)}, while its carbon dioxide is above the set-point. All hours of ${turn.scrubber} are given out to its rooms; to hold this one at its set-point takes up to ${fixed(turn.hoursNeeded, 1)} h a day.`,
    };
  };
}

function limeTasks({ scrubber, fills, days }: LimeChange, rooms: readonly RoomAccount[]): Task[] {
  const served = rooms.filter(({ fill }) => fills.includes(fill)).map(({ room }) => room);
  return days.map((day, index) => ({
    kind: 'lime',
    about: scrubber,
    which: String(index + 1),
    first: day,
    last: day,
    rooms: served,
    title: `Change the lime of ${scrubber}`,
    detail: `It is used up by then. It serves ${served.join(', ')}. ${limeCaution}`,
  }));
}

function sampleTask(sample: Sample): Task {
  return {
    kind: 'sample',
    about: sample.fill,
    which: sample.which,
    first: sample.first,
    last: sample.last,
    rooms: [sample.room],
    title: `${sample.room}: ${sample.what}`,
    detail: `${sample.fruitEach} fruit of each of: ${sample.of.join('; ')}. ${sample.tests}.`,
  };
}

function roomTask(
  room: RoomAccount,
  kind: Task['kind'],
  first: Day,
  last: Day,
  title: string,
  detail = '',
): Task {
  return {
    kind,
    about: room.fill,
    which: '',
    first,
    last: Math.max(first, last),
    rooms: [room.room],
    title,
    detail,
  };
}

function lotNames({ lots }: RoomAccount): string {
  return lots.map(({ lot, bins }) => `${lot} (${bins})`).join(', ');
}

/** `1.5 % oxygen, 1.8 % carbon dioxide, 0.8 °C.` */
export function setPoints({ regime, oxygen, carbonDioxide, temperature }: RoomAccount): string {
  const parts = [
    ...(oxygen ? [`${asWritten(oxygen)} oxygen`] : []),
    ...(carbonDioxide ? [`${asWritten(carbonDioxide)} carbon dioxide`] : []),
    ...(temperature ? [asWritten(temperature)] : []),
  ];
  if (parts.length === 0) return '';
  return `Regime ${regime ?? ''}: ${parts.join(', ')}.`;
}

/** A set-point with its unit, no less exact than its regime has it: the crew steers to it. */
function asWritten(setPoint: Measure): string {
  return `${showSetPoint(setPoint)} ${measureLabel(setPoint.unit)}`;
}

export function withUnit(shown: Measure): string {
  return `${showMeasure(shown)} ${measureLabel(shown.unit)}`.trim();
}
