import type { Day } from '../plan/dates';

/** What is read in a room. Gases and humidity in per cent, temperature in °C. */
export const quantities = ['oxygen', 'carbon-dioxide', 'temperature', 'humidity'] as const;
export type ReadQuantity = (typeof quantities)[number];

/** Minutes since 1970-01-01 00:00, by the clock of the place: summer time is whatever the file's clock does. */
export type Minute = number;

/** The readings of one room, earliest first. All arrays are as long as `times`; a value not read is NaN. */
export interface RoomReadings {
  readonly room: string;
  readonly times: Float64Array;
  /** Of each the line of its file, counted from 1; absent, and 0, where it is of no one file. */
  readonly lines?: Uint32Array | undefined;
  readonly values: Readonly<Record<ReadQuantity, Float32Array>>;
}

/** Why a row is not taken. */
export interface ReadingFault {
  /** Counted from 1. */
  readonly line: number;
  readonly reason: string;
  /** Where no row is taken for want of a column that the layout names: which, and the heading probably meant. */
  readonly column?: { readonly field: string; readonly meant: string | undefined };
}

/** What a file of readings comes to. */
export interface FileReadings {
  /** By room identifier, in the order of the file. */
  readonly rooms: ReadonlyMap<string, RoomReadings>;
  readonly rows: number;
  /** The first of the rows that are not taken. */
  readonly faults: readonly ReadingFault[];
  /** All of them. */
  readonly notTaken: number;
  /** Rows of a room and time that the file has before, the last of which counts. */
  readonly repeated: number;
}

/** What was read of one quantity on one day. */
export interface DayOfReadings {
  readonly day: Day;
  readonly count: number;
  readonly mean: number;
  readonly lowest: number;
  readonly highest: number;
}
