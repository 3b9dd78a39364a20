import type { ReadingsLayout } from '../plan/table-model';
import type { RoomReadings } from '../readings/types';
import type { WatchReadings } from '../report/room-card-sightings';
import type { RoomRecord } from '../watching/record';
import type { FileSource } from './file-source';
import type { OpenPlan } from './plan-sessions';

interface Kept {
  readonly text: string;
  /** The layout and the rooms it was read by. */
  readonly readBy: string;
  readonly rooms: ReadonlyMap<string, RoomReadings>;
}

/**
 * The readings that plans name, by the address of their file. A file is fetched once and again only after it has
 * changed, and read again only where its layout or the plan's rooms have: a year of an hourly record is megabytes.
 */
export class KeptReadings {
  private readonly texts = new Map<string, Promise<string | null>>();
  private readonly kept = new Map<string, Kept>();
  /** What readings came to when they were last watched. */
  private readonly watched = new WeakMap<RoomReadings, RoomRecord>();

  constructor(private readonly files: () => FileSource) {}

  /** What was read in each room of the plan; empty where it names no file, or none that can be read. */
  async of(open: OpenPlan): Promise<ReadonlyMap<string, RoomReadings>> {
    const { plan } = open.session.snapshot();
    if (plan.readings.size === 0) return new Map();
    const rooms = new Set(plan.rooms.keys());
    const { byRoom } = await import('../readings/combine');
    const files = await Promise.all(
      [...plan.readings.values()].map((layout) => this.readFile(layout, rooms, (file) => open.uriOf(file))),
    );
    return byRoom(files.flatMap((file) => file ?? []));
  }

  /** What a room's readings come to, watched again only where something else is expected of the room. */
  async watch(): Promise<WatchReadings> {
    const { goesOn, recordMore } = await import('../watching/record');
    return (fills, readings) => {
      const known = this.watched.get(readings);
      if (known && goesOn(fills, known, undefined)) return known;
      const record = recordMore(fills, undefined, readings);
      this.watched.set(readings, record);
      return record;
    };
  }

  /** A file has changed: it is fetched again when it is next wanted. */
  changed(uri: string): void {
    this.texts.delete(uri);
  }

  private async readFile(
    layout: ReadingsLayout,
    rooms: ReadonlySet<string>,
    uriOf: OpenPlan['uriOf'],
  ): Promise<ReadonlyMap<string, RoomReadings> | undefined> {
    const planUri = layout.file && uriOf(layout.file.at.file);
    const uri = planUri && addressOf(layout.file?.value ?? '', planUri);
    if (uri === undefined) return undefined;
    const text = await this.textOf(uri);
    if (text === null) return undefined;
    const { at, places, ...said } = layout;
    const readBy = JSON.stringify([said, [...said.columns], [...said.units], names(layout), [...rooms]]);
    const known = this.kept.get(uri);
    if (known && known.text === text && known.readBy === readBy) return known.rooms;
    const { readReadings } = await import('../readings/read-readings');
    const read = readReadings(text, layout, rooms);
    this.kept.set(uri, { text, readBy, rooms: read.rooms });
    return read.rooms;
  }

  private textOf(uri: string): Promise<string | null> {
    const known = this.texts.get(uri);
    if (known) return known;
    const text = this.files()
      .read([uri])
      .then(([one]) => one ?? null)
      .catch(() => null);
    this.texts.set(uri, text);
    return text;
  }
}

function names({ names: byField }: ReadingsLayout): unknown {
  return [...byField].map(([field, words]) => [field, [...words]]);
}

/** The file's address, from the folder of the plan file; undefined for a path that leads out of the file system. */
function addressOf(file: string, planUri: string): string | undefined {
  try {
    return new URL(file.split('/').map(encodeURIComponent).join('/'), planUri).href;
  } catch {
    return undefined;
  }
}
