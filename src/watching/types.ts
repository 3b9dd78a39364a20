import type { Minute, ReadQuantity } from '../readings/types';

/** What can be seen in a room's readings that needs somebody. */
export const watchKinds = [
  'opened-room-low-oxygen',
  'oxygen-low',
  'oxygen-high',
  'carbon-dioxide-high',
  'carbon-dioxide-low',
  'temperature-high',
  'temperature-low',
  'breathes-faster',
  'sensor-stuck',
  'sensor-jumps',
  'record-gap',
] as const;
export type WatchKind = (typeof watchKinds)[number];

/** Quantities that are watched; humidity is only summed up. */
export const watchedQuantities = ['oxygen', 'carbon-dioxide', 'temperature'] as const;
export type WatchedQuantity = Extract<ReadQuantity, (typeof watchedQuantities)[number]>;

/** Something seen. Plain data: it is kept in the state that reading goes on from. */
export interface Sighting {
  readonly kind: WatchKind;
  readonly fill: string;
  readonly quantity: WatchedQuantity;
  /** When it began, as far as the record tells. */
  readonly from: Minute;
  /** The reading, or the end of the day, that made it certain. */
  readonly told: Minute;
  /** When it was over; absent while it lasts. */
  readonly until?: Minute;
  /**
   * How much at its greatest: per cent of gas or kelvins away from the expected, per cent above the reference rate of
   * breathing, hours stuck, jumps in two days, or days without a reading.
   */
  readonly size: number;
  /** What was read and what was expected when it was greatest; of breathing, per cent of carbon dioxide an hour. */
  readonly read?: number;
  readonly expected?: number;
  /** Of a distance: what it was on the last whole day, to tell whether it falls. */
  readonly latest?: number;
  /** What the fruit bears, per cent, where what was read is beyond it: least oxygen, or most carbon dioxide. */
  readonly limit?: number;
}

/** Levels over time on straight lines, earliest first. */
export interface Track {
  readonly times: readonly Minute[];
  readonly values: readonly number[];
}

/** What a fill's readings are held against: plain data. */
export interface ExpectedFill {
  readonly fill: string;
  readonly room: string;
  /** First bin. */
  readonly begins: Minute;
  readonly sealed?: Minute | undefined;
  /** From when on gas is held against the course: the set-point was to be reached a day before. */
  readonly holds?: Minute | undefined;
  /** From when on the air's temperature is held against the expected one. */
  readonly cold: Minute;
  /** The day the seal was broken, and the day the room was empty, where they are recorded. */
  readonly opened?: Minute | undefined;
  readonly emptied?: Minute | undefined;
  readonly oxygen?: Track | undefined;
  readonly carbonDioxide?: Track | undefined;
  readonly temperature: Track;
  /** Rise of carbon dioxide by the fruit alone, per cent of the room's gas an hour: of the sources' range. */
  readonly breathing?: { readonly expected: number; readonly high: number } | undefined;
  /** Lowest oxygen the fruit bears, per cent. */
  readonly leastOxygen?: number | undefined;
  /** Highest carbon dioxide the fruit bears, per cent. */
  readonly mostCarbonDioxide?: number | undefined;
}
