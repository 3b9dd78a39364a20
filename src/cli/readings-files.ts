import { findingsOf } from '../findings/find';
import type { ComputedSeason, Finding } from '../findings/types';
import type { Day } from '../plan/dates';
import type { Plan } from '../plan/model';
import type { ReadingsLayout } from '../plan/table-model';
import { byRoom } from '../readings/combine';
import { type FileRead, fileOfReadings } from '../readings/file-of';
import { ReadingStream, type ReadSoFar } from '../readings/reading-stream';
import type { FileReadings, RoomReadings } from '../readings/types';
import { commandToCopy } from '../report/command-to-copy';
import type { ReadFile } from '../report/readings-report';
import { expectedOf } from '../report/watching';
import { goesOn, type RoomRecord, recordMore } from '../watching/record';
import { seenReadings } from '../watching/seen-readings';
import type { ExpectedFill } from '../watching/types';
import { CannotRun, type Failure, type Io } from './io';
import type { AsOfOption, FolderOption } from './options';
import { type FileHash, hashOf, readPieces } from './pieces';

/** What was read of a file up to its last whole line. */
interface KeptFile {
  readonly file: string;
  /** The layout and the rooms it was read by, as text. */
  readonly readBy: string;
  readonly before: FileHash;
  readonly soFar: ReadSoFar;
  readonly counts: ReadFile['read'];
}

/** What the shell keeps between two runs, as JSON. */
export interface KeptReadings {
  readonly format: 'lotwright-readings-state';
  readonly version: 1;
  readonly files: readonly KeptFile[];
  readonly rooms: Readonly<Record<string, RoomRecord>>;
}

export interface PlanReadings {
  readonly files: readonly ReadFile[];
  readonly records: ReadonlyMap<string, RoomRecord>;
  /** Undefined where a file could not be read to a place from which to go on. */
  readonly kept: KeptReadings | undefined;
}

export interface ReadOptions {
  /** Readings after this day are not known yet. */
  readonly asOf?: Day | undefined;
  /** Where reading came to the last time. */
  readonly kept?: KeptReadings | undefined;
}

type Expected = ReadonlyMap<string, readonly ExpectedFill[]>;

/**
 * Reads every file of readings that the plan names, in pieces, and watches the rooms. With what was kept, only what has
 * been added is read; all of it where a file was changed, rows came late, or the plan expects something else.
 */
export function readingsOfPlan(
  io: Io,
  plan: Plan,
  expected: Expected,
  { asOf, kept }: ReadOptions = {},
): PlanReadings {
  const more = kept && readOn(io, plan, expected, kept);
  if (more) return more;
  const files = filesOf(plan).map(({ layout, file }) => readFile(io, plan, layout, file, { asOf }));
  return planReadings(files, expected, {}, asOf === undefined);
}

/** Undefined where reading cannot go on from what was kept. */
function readOn(io: Io, plan: Plan, expected: Expected, kept: KeptReadings): PlanReadings | undefined {
  const files: OneFile[] = [];
  for (const { layout, file } of filesOf(plan)) {
    const before = kept.files.find((one) => one.file === file);
    if (!before || before.readBy !== readByOf(layout, plan)) return undefined;
    if (hashOf(io, file, before.before.bytes)?.sha256 !== before.before.sha256) return undefined;
    files.push(readFile(io, plan, layout, file, { kept: before }));
  }
  if (files.length !== kept.files.length) return undefined;
  const added = byRoom(files.flatMap(({ whole, rest }) => [whole.rooms, rest.rooms]));
  const canGoOn = Object.entries(kept.rooms).every(([room, record]) =>
    goesOn(expected.get(room) ?? [], record, added.get(room)),
  );
  return canGoOn ? planReadings(files, expected, kept.rooms, true) : undefined;
}

/** The readings of a plan's files as values, by room, for what needs all of them; a file that gives none is told of. */
export function valuesOfPlan(
  io: Io,
  plan: Plan,
  { asOf, folder }: AsOfOption & FolderOption = {},
): Map<string, RoomReadings> {
  const files = filesOf(plan).map(({ layout, file }) => readFile(io, plan, layout, file, { asOf }));
  for (const { file, whole, rest } of files)
    if (whole.rooms.size + rest.rooms.size === 0)
      io.err.write(
        `${file} gives no reading of any room. See why with: ${commandToCopy('readings', folder)}\n`,
      );
  return byRoom(files.flatMap(({ whole, rest }) => [whole.rooms, rest.rooms]));
}

/**
 * The season with what its rooms' readings come to, so that findings speak of them too. A file that cannot be read is
 * itself a finding.
 */
export function withReadings(
  io: Io,
  season: ComputedSeason,
  { asOf }: { readonly asOf?: Day | undefined } = {},
): ComputedSeason {
  const { plan } = season;
  if (plan.readings.size === 0) return season;
  const files = filesOf(plan).map(({ layout, file }): FileRead => {
    const read = readIfThere(io, plan, layout, file, { asOf });
    const known = { readings: layout.id, file };
    if ('failure' in read) return { ...known, rooms: new Map(), notTaken: 0, faults: [], isMissing: true };
    const { notTaken, faults } = countsOf([read.whole, read.rest]);
    return {
      ...known,
      rooms: byRoom([read.whole.rooms, read.rest.rooms]),
      notTaken,
      faults,
      isMissing: false,
    };
  });
  const expected = expectedOf(season);
  const records = watched(byRoom(files.map(({ rooms }) => rooms)), expected, new Map());
  return { ...season, readings: seenReadings(files, expected, records) };
}

/** The findings of a season, those of its readings too: every command counts what `check` does. */
export function foundWithReadings(
  io: Io,
  season: ComputedSeason,
  known: { readonly asOf?: Day | undefined } = {},
): Finding[] {
  return findingsOf(withReadings(io, season, known));
}

interface OneFile {
  readonly layout: ReadingsLayout;
  readonly file: string;
  readonly readBy: string;
  /** Of whole lines, and of a last line that has not ended: that one is read again the next time. */
  readonly whole: FileReadings;
  readonly rest: FileReadings;
  readonly before: FileHash | undefined;
  readonly soFar: ReadSoFar | undefined;
  readonly kept: KeptFile | undefined;
}

interface ReadFileOptions {
  readonly kept?: KeptFile;
  readonly asOf?: Day | undefined;
}

function readFile(
  io: Io,
  plan: Plan,
  layout: ReadingsLayout,
  file: string,
  options: ReadFileOptions,
): OneFile {
  const read = readIfThere(io, plan, layout, file, options);
  if ('failure' in read)
    throw new CannotRun(`${file} could not be read: ${read.failure}. The plan names it under \`readings\`.`);
  return read;
}

/** Letters at the beginning of a file that show whether it is text; loggers that lose power leave a few later that are none. */
const BEGINNING = 1000;

function readIfThere(
  io: Io,
  plan: Plan,
  layout: ReadingsLayout,
  file: string,
  { kept, asOf }: ReadFileOptions,
): OneFile | Failure {
  const until = asOf === undefined ? undefined : (asOf + 1) * 1440;
  const stream = new ReadingStream(layout, new Set(plan.rooms.keys()), { from: kept?.soFar, until });
  const from = kept?.before.bytes ?? 0;
  let begins = '';
  const bytes = readPieces(io, file, from, (piece) => {
    if (begins.length < BEGINNING) begins += piece.slice(0, BEGINNING);
    stream.push(piece);
  });
  if (typeof bytes !== 'number') return bytes;
  if (from === 0 && begins.includes('\0'))
    return { failure: 'it is not a UTF-8 text file. Save it as CSV in UTF-8' };
  const [whole, soFar] = [stream.taken(), stream.soFar];
  const end = from + bytes - Buffer.byteLength(stream.waiting);
  stream.end();
  const before = hashOf(io, file, end);
  return { layout, file, readBy: readByOf(layout, plan), whole, rest: stream.taken(), before, soFar, kept };
}

function planReadings(
  files: readonly OneFile[],
  expected: Expected,
  before: Readonly<Record<string, RoomRecord>>,
  canBeKept: boolean,
): PlanReadings {
  const known = new Map(Object.entries(before));
  const records = watched(byRoom(files.map(({ whole }) => whole.rooms)), expected, known);
  const keptFiles = files.flatMap((one) => keptFile(one) ?? []);
  const rest = byRoom(files.map((one) => one.rest.rooms));
  const isLater = [...rest].every(
    ([room, { times }]) => (times[0] ?? 0) > (records.get(room)?.watch.last ?? -1),
  );
  return {
    files: files.map((one) => ({
      readings: one.layout.id,
      file: one.file,
      read: countsOf([...(one.kept ? [one.kept.counts] : []), one.whole, one.rest]),
      ...(one.kept ? { newRows: one.whole.rows + one.rest.rows } : {}),
    })),
    // A last line without its end that is of an earlier time: all is put in order at once.
    records: isLater
      ? watched(rest, expected, records)
      : watched(byRoom(files.flatMap(({ whole, rest: last }) => [whole.rooms, last.rooms])), expected, known),
    kept:
      canBeKept && keptFiles.length === files.length
        ? {
            format: 'lotwright-readings-state',
            version: 1,
            files: keptFiles,
            rooms: Object.fromEntries(records),
          }
        : undefined,
  };
}

function keptFile({ file, readBy, before, soFar, kept, whole }: OneFile): KeptFile | undefined {
  if (!before || !soFar) return undefined;
  return { file, readBy, before, soFar, counts: countsOf([...(kept ? [kept.counts] : []), whole]) };
}

function watched(
  readings: ReadonlyMap<string, RoomReadings>,
  expected: Expected,
  before: ReadonlyMap<string, RoomRecord>,
): Map<string, RoomRecord> {
  const records = new Map(before);
  for (const [room, one] of readings)
    records.set(room, recordMore(expected.get(room) ?? [], records.get(room), one));
  return records;
}

const MOST_FAULTS = 50;

function countsOf(reads: readonly ReadFile['read'][]): ReadFile['read'] {
  const sum = (of: (one: ReadFile['read']) => number) => reads.reduce((all, one) => all + of(one), 0);
  return {
    rows: sum(({ rows }) => rows),
    repeated: sum(({ repeated }) => repeated),
    notTaken: sum(({ notTaken }) => notTaken),
    faults: reads.flatMap(({ faults }) => faults).slice(0, MOST_FAULTS),
  };
}

function readByOf({ at, places, file, ...said }: ReadingsLayout, plan: Plan): string {
  const names = [...said.names].map(([field, words]) => [field, [...words]]);
  return JSON.stringify([said, [...said.columns], [...said.units], names, [...plan.rooms.keys()]]);
}

function filesOf(plan: Plan): { readonly layout: ReadingsLayout; readonly file: string }[] {
  return [...plan.readings.values()].flatMap((layout) => {
    const file = fileOfReadings(layout);
    return file === undefined ? [] : [{ layout, file }];
  });
}
