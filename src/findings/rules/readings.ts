import { formatDay } from '../../plan/dates';
import type { Problem, RelatedPlace, Severity } from '../../plan/problem';
import { counted } from '../../plan/wording';
import { timeText } from '../../readings/time-text';
import { cautionInShort } from '../../room/caution';
import { wantsDaily } from '../../watching/ca-record';
import type { SeenInRoom } from '../../watching/seen-readings';
import { severityOf, toldOf, watchSeverities } from '../../watching/told';
import { type WatchKind, watchKinds } from '../../watching/types';
import { unitsOf } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { areColumnsToldOf, columnsNotInFile, oxygenNotRead } from './readings-columns';

/** Rows that are not taken are told one by one up to so many. */
const ROWS_TOLD = 3;

/** What was seen in the rooms' readings of one kind, at the fill that it is about. */
function* seenOfKind(season: ComputedSeason, kind: WatchKind): Iterable<Problem> {
  const { plan, readings } = season;
  for (const seen of readings?.sightings ?? []) {
    const fill = seen.kind === kind ? plan.fills.get(seen.fill) : undefined;
    if (!fill) continue;
    const isLaw = wantsDaily(plan.rooms.get(seen.room)?.law ?? 'none');
    // A hole in the record of fruit that has left its room matters to nobody but the law.
    if (kind === 'record-gap' && !isLaw && plan.progress.get(fill.id)?.emptied) continue;
    yield {
      code: kind,
      severity: severityOf(seen, isLaw),
      message: `${seen.room}: ${sentencesOf(season, seen, isLaw)}`,
      at: fill.at,
      related: placesOf(season, seen),
      about: `${fill.id}/${aboutOf(seen)}`,
    };
  }
}

/** What, since when, what is probably behind it, and what to look at first; of what is over, what it was. */
function sentencesOf(season: ComputedSeason, seen: SeenInRoom, isLaw: boolean): string {
  const { kind, from, until } = seen;
  const { causes, check, nearRoom } = seen.causes;
  const { message } = toldOf(seen, isLaw, unitsOf(season));
  const likely = causes.map((cause, index) => `(${index + 1}) ${cause}`).join(' ');
  const when =
    until === undefined ? `Since ${timeText(from)}.` : `From ${timeText(from)} to ${timeText(until)}.`;
  const help =
    until === undefined || kind === 'record-gap'
      ? [`Likely, the likeliest first: ${likely}`, `Check first: ${check}`]
      : ['It is over.'];
  return [message, when, ...help, ...(nearRoom ? [cautionInShort] : [])].join(' ');
}

/** The entry that names the file, and the row that shows it first. */
function placesOf({ plan }: ComputedSeason, { kind, row }: SeenInRoom): RelatedPlace[] {
  const layout = row && plan.readings.get(row.readings);
  if (!row || !layout) return [];
  const first = kind === 'record-gap' ? 'The last reading before it' : 'The first reading of it';
  return [
    { at: layout.file?.at ?? layout.at, message: `${layout.id}, the record that shows it` },
    {
      at: { file: row.file, start: 0, end: 0 },
      line: row.line,
      message: `${first}, ${timeText(row.time)}`,
    },
  ];
}

/** Gaps are told apart by their days; of anything else a quantity has one at a time. */
function aboutOf({ kind, quantities, from }: SeenInRoom): string {
  return kind === 'record-gap' ? timeText(from).slice(0, 10) : quantities.join('+');
}

function* filesNotRead(season: ComputedSeason): Iterable<Problem> {
  const { plan, readings } = season;
  for (const { readings: id, isMissing } of readings?.files ?? []) {
    const file = isMissing ? plan.readings.get(id)?.file : undefined;
    if (!file) continue;
    yield {
      code: 'readings-not-read',
      message: `The file \`${file.value}\` of ${id} cannot be read, so that nothing in it is watched. Put it there, seen from the folder of this plan file, or correct the path.`,
      at: file.at,
      about: id,
    };
  }
  yield* columnsNotInFile(season);
}

function* rowsNotTaken({ plan, readings }: ComputedSeason): Iterable<Problem> {
  for (const file of readings?.files ?? []) {
    const { readings: id, file: path, notTaken, faults } = file;
    const layout = plan.readings.get(id);
    const first = faults[0];
    if (!layout || !first || areColumnsToldOf(layout, file)) continue;
    const more = faults.slice(1, ROWS_TOLD);
    const left = notTaken - 1 - more.length;
    yield {
      code: 'readings-rows-not-taken',
      message: `${counted(notTaken, 'row')} of ${id} cannot be taken, so that nothing in ${notTaken === 1 ? 'it' : 'them'} is watched. Line ${first.line}: ${first.reason}${left > 0 ? ` \`lotwright readings\` lists them.` : ''}`,
      at: layout.file?.at ?? layout.at,
      related: [first, ...more].map(({ line, reason }) => ({
        at: { file: path, start: 0, end: 0 },
        line,
        message: reason,
      })),
      about: id,
    };
  }
}

/** A file that cannot be read is told as such: what it has of a room nobody knows. */
function* roomsNotRead({ plan, readings }: ComputedSeason): Iterable<Problem> {
  if (!readings || readings.files.some(({ isMissing }) => isMissing)) return;
  for (const { room, fill: id } of readings.unread) {
    const fill = plan.fills.get(id);
    const sealed = plan.progress.get(id)?.sealed;
    if (!fill || !sealed) continue;
    const files = readings.files.map(({ readings: layout }) => layout).join(', ');
    yield {
      code: 'room-not-read',
      message: `${room} is on record as sealed on ${formatDay(sealed.value)}, and ${files} has no reading of it since: nothing in it is watched. See whether the file was fetched and calls the room by another name (put the two side by side under \`names\`), and read oxygen, carbon dioxide and temperature from outside meanwhile. ${cautionInShort}`,
      at: fill.at,
      related: [{ at: sealed.at, message: 'The record of its sealing' }],
      about: id,
    };
  }
}

const SUMMARIES: Readonly<Record<WatchKind, string>> = {
  'opened-room-low-oxygen': 'A room that is on record as opened reads low oxygen.',
  'oxygen-low': 'Oxygen reads below the room’s course, or below what the fruit bears.',
  'oxygen-high': 'Oxygen reads above the room’s course.',
  'carbon-dioxide-high': 'Carbon dioxide reads above the room’s course and does not come down.',
  'carbon-dioxide-low': 'Carbon dioxide reads below the room’s course.',
  'temperature-high': 'The air reads warmer than expected.',
  'temperature-low': 'The air reads colder than expected.',
  'breathes-faster': 'A room’s carbon dioxide rises faster between scrubbings than it did.',
  'sensor-stuck': 'A reading stands still.',
  'sensor-jumps': 'Readings jump away from their neighbours and come back.',
  'record-gap': 'Whole days of a sealed room have no reading.',
};

function ruleOfKind(code: WatchKind): Rule {
  const severity: Severity = watchSeverities[code];
  return {
    code,
    family: 'readings',
    severity,
    summary: SUMMARIES[code],
    find: (season) => seenOfKind(season, code),
  };
}

export const watchRules: readonly Rule[] = [
  ...watchKinds.map(ruleOfKind),
  {
    code: 'readings-not-read',
    family: 'readings',
    severity: 'warning',
    summary: 'A file of readings that the plan names cannot be read.',
    find: filesNotRead,
  },
  {
    code: 'readings-rows-not-taken',
    family: 'readings',
    severity: 'warning',
    summary: 'Rows of a file of readings cannot be taken.',
    find: rowsNotTaken,
  },
  {
    code: 'oxygen-not-read',
    family: 'readings',
    severity: 'warning',
    summary: 'Readings of a low-oxygen room have no oxygen.',
    find: oxygenNotRead,
  },
  {
    code: 'room-not-read',
    family: 'readings',
    severity: 'warning',
    summary: 'Nothing has been read of a sealed room though files of readings are named.',
    find: roomsNotRead,
  },
];
