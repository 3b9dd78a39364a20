import type { Plan } from '../plan/model';
import { finish } from '../plan/steps';
import type { ReadingsLayout } from '../plan/table-model';
import { type FileRead, fileOfReadings } from '../readings/file-of';
import type { ReadPart } from '../readings/read-again';
import type { RoomReadings } from '../readings/types';
import type { WatchReadings } from '../report/room-card-sightings';
import type { WatchAgain } from '../watching/watch-again';
import type { FileSource } from './file-source';
import { letting } from './in-slices';
import type { OpenPlan } from './plan-sessions';
import type { ReadUpTo } from './protocol-grown';

const NOTHING_READ: ReadonlyMap<string, RoomReadings> = new Map();

/** A file as it was read last. */
interface Kept {
  /** The layout and the rooms it was read by. */
  readonly readBy: string;
  /** How many changes of the file had been told of when it was read. */
  readonly changes: number;
  readonly part: ReadPart | undefined;
  readonly upTo: ReadUpTo | undefined;
  readonly read: FileRead;
}

/**
 * The readings that plans name. A file is fetched once and again only after it has changed, and then only what has been
 * added to it is read, in slices between which keys are answered: a year of an hourly record is megabytes.
 */
export class KeptReadings {
  /** By plan, layout and address. */
  private readonly kept = new Map<string, Kept>();
  private readonly changes = new Map<string, number>();
  /** By plan: its files as they were told last, the very same list as long as none of them differs. */
  private readonly told = new Map<string, readonly FileRead[]>();
  /** What files have of each room, all of them together. */
  private readonly together = new WeakMap<readonly FileRead[], ReadonlyMap<string, RoomReadings>>();
  /** By plan, what rooms came to whose cards have been asked for. */
  private readonly watched = new Map<string, WatchAgain>();
  /** One file is read after the other. */
  private reading: Promise<unknown> = Promise.resolve();

  constructor(private readonly files: () => FileSource) {}

  /** Every file that the plan names; the very same list where nothing has changed. */
  filesOf(open: OpenPlan, plan: Plan): Promise<readonly FileRead[]> {
    const files = this.reading.then(() => this.readAll(open, plan));
    this.reading = files.catch(() => {});
    return files;
  }

  /**
   * What was read in each room of the plan, the very same where nothing has changed; empty where it names no file, or none
   * that can be read.
   */
  async of(open: OpenPlan): Promise<ReadonlyMap<string, RoomReadings>> {
    const plan = open.session.plan();
    if (plan.readings.size === 0) return NOTHING_READ;
    const files = await this.filesOf(open, plan);
    const known = this.together.get(files);
    if (known) return known;
    const { byRoom } = await import('../readings/combine');
    const rooms = byRoom(files.map(({ rooms: read }) => read));
    this.together.set(files, rooms);
    return rooms;
  }

  /** What a room's readings come to for its card, watched again only as far as they or the plan differ. */
  async watch({ root }: OpenPlan): Promise<WatchReadings> {
    const { WatchAgain } = await import('../watching/watch-again');
    const again = this.watched.get(root) ?? new WatchAgain();
    this.watched.set(root, again);
    return (fills, readings) => finish(again.recordSteps(readings.room, fills, readings));
  }

  /** A file has changed: it is fetched again when it is next wanted. */
  changed(uri: string): void {
    this.changes.set(uri, this.changesOf(uri) + 1);
  }

  private changesOf(uri: string): number {
    return this.changes.get(uri) ?? 0;
  }

  private async readAll(open: OpenPlan, plan: Plan): Promise<readonly FileRead[]> {
    const files: FileRead[] = [];
    const keys = new Set<string>();
    for (const layout of plan.readings.values()) {
      const file = fileOfReadings(layout);
      const planUri = layout.file && open.uriOf(layout.file.at.file);
      const uri = planUri && addressOf(layout.file?.value ?? '', planUri);
      if (file === undefined || uri === undefined) continue;
      const key = [open.root, layout.id, uri].join('\n');
      keys.add(key);
      files.push((await this.readFile(key, layout, file, uri, plan)).read);
    }
    for (const key of this.kept.keys())
      if (key.startsWith(`${open.root}\n`) && !keys.has(key)) this.kept.delete(key);
    const last = this.told.get(open.root);
    if (last && last.length === files.length && last.every((one, index) => one === files[index])) return last;
    this.told.set(open.root, files);
    return files;
  }

  private async readFile(
    key: string,
    layout: ReadingsLayout,
    file: string,
    uri: string,
    plan: Plan,
  ): Promise<Kept> {
    const rooms = new Set(plan.rooms.keys());
    const changes = this.changesOf(uri);
    // Places move with the text above them, and change nothing.
    const { at, places, file: named, ...said } = layout;
    const readBy = JSON.stringify([
      file,
      said,
      [...said.columns],
      [...said.units],
      names(layout),
      [...rooms],
    ]);
    const before = this.kept.get(key);
    if (before?.changes === changes && before.readBy === readBy) return before;
    const known = before?.readBy === readBy && before.part?.soFar ? before : undefined;
    const text = await this.files()
      .grown(uri, known?.upTo)
      .catch(() => null);
    const { readOnSteps, withRestSteps } = await import('../readings/read-again');
    const told = { readings: layout.id, file };
    let kept: Kept;
    if (text === null) {
      const read = { ...told, rooms: new Map(), notTaken: 0, faults: [], isMissing: true };
      kept = { readBy, changes, part: undefined, upTo: undefined, read };
    } else {
      const part = await letting(
        readOnSteps(layout, rooms, text.goesOn ? known?.part : undefined, text.lines),
      );
      const taken = await letting(withRestSteps(layout, rooms, part, text.rest));
      kept = { readBy, changes, part, upTo: text.upTo, read: { ...told, ...taken, isMissing: false } };
    }
    this.kept.set(key, kept);
    return kept;
  }
}

function names({ names: byField }: ReadingsLayout): unknown {
  return [...byField].map(([field, words]) => [field, [...words]]);
}

/** The file's address, from the folder of the plan file; undefined for a path that leads out of the file system. */
export function addressOf(file: string, planUri: string): string | undefined {
  try {
    return new URL(file.split('/').map(encodeURIComponent).join('/'), planUri).href;
  } catch {
    return undefined;
  }
}
