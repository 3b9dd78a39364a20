import { parseDay } from '../plan/dates';
import { nearest } from '../plan/nearest';
import { type Dimension, parseQuantity } from '../plan/quantity';
import type { ReadingsLayout } from '../plan/table-model';
import { yearFirst } from '../table/date-order';
import { type HeadingFault, headingFaults } from '../table/headings';
import { RoomColumn } from './room-column';
import { type FileReadings, type Minute, quantities, type ReadingFault, type ReadQuantity } from './types';

const DIMENSIONS: Readonly<Record<ReadQuantity, { readonly dimension: Dimension; readonly unit: string }>> = {
  oxygen: { dimension: 'share', unit: '%' },
  'carbon-dioxide': { dimension: 'share', unit: '%' },
  temperature: { dimension: 'temperature', unit: '°C' },
  humidity: { dimension: 'share', unit: '%' },
};

/** In the quantity's own unit: anything else is a fault of the instrument or of the layout, and nothing to go on from. */
const CAN_BE: Readonly<Partial<Record<ReadQuantity, readonly [least: number, most: number]>>> = {
  oxygen: [0, 100],
  'carbon-dioxide': [0, 100],
  temperature: [-40, 60],
};

const MOST_FAULTS = 50;

/** Takes the rows of a file of readings, one after the other, into a column for each room. */
export class RowReader {
  private isReadable = true;
  private columns = new Map<string, RoomColumn>();
  private faults: ReadingFault[] = [];
  private notTaken = 0;
  private rows = 0;
  private at: { time: number; room: number; values: { quantity: ReadQuantity; index: number }[] } = {
    time: -1,
    room: -1,
    values: [],
  };
  private readonly convert: Readonly<Record<ReadQuantity, (value: number) => number>>;
  private readonly names: ReadonlyMap<string, string>;
  /** The last time that was read: files have the rooms of one time after one another. */
  private lastTime = { text: '', minute: undefined as Minute | undefined };

  /**
   * `headings` are known where reading goes on in a file whose beginning was read before. Rows from `until` on are not
   * known yet, and nothing is told of them.
   */
  constructor(
    private readonly layout: ReadingsLayout,
    private readonly known: ReadonlySet<string>,
    public headings?: readonly string[] | undefined,
    private readonly until: Minute = Number.POSITIVE_INFINITY,
  ) {
    this.names = layout.names.get('room') ?? new Map();
    this.convert = Object.fromEntries(
      quantities.map((quantity) => [quantity, converter(layout, quantity)]),
    ) as Record<ReadQuantity, (value: number) => number>;
    if (headings) this.findColumns(headings);
  }

  /** `line` counts from 1. */
  take(record: readonly string[], line: number): void {
    if (!this.headings) {
      this.takeHeadings(record, line);
      return;
    }
    if (!this.isReadable) return;
    this.rows++;
    const reason = this.takeRow(record, line);
    if (reason !== undefined) this.fault(line, reason);
  }

  fault(line: number, reason: string, column?: ReadingFault['column']): void {
    this.notTaken++;
    if (this.faults.length < MOST_FAULTS) this.faults.push({ line, reason, ...(column && { column }) });
  }

  /** What was read since the last time it was asked; it is not told again. */
  taken(): FileReadings {
    const done = [...this.columns].map(([id, column]) => [id, column.sorted()] as const);
    const result = {
      rooms: new Map(done.map(([id, { readings }]) => [id, readings])),
      rows: this.rows,
      faults: this.faults,
      notTaken: this.notTaken,
      repeated: done.reduce((sum, [, { repeated }]) => sum + repeated, 0),
    };
    this.columns = new Map();
    [this.rows, this.notTaken, this.faults] = [0, 0, []];
    return result;
  }

  /** Why the row is not taken; undefined where it is. */
  private takeRow(record: readonly string[], line: number): string | undefined {
    const { time, room, values } = this.at;
    const minute = this.minuteOf((record[time] ?? '').trim());
    if (minute === undefined) return `"${record[time] ?? ''}" is not a time, as 2026-09-18 06:00.`;
    if (minute >= this.until) {
      this.rows--;
      return undefined;
    }
    const named = (record[room] ?? '').trim();
    const id = this.names.get(named) ?? named;
    if (!this.known.has(id)) return this.noRoom(id);
    const read: Partial<Record<ReadQuantity, number>> = {};
    for (const { quantity, index } of values) {
      const cell = (record[index] ?? '').trim();
      if (cell === '') continue;
      const value = Number(this.layout.decimal === 'comma' ? cell.replace(',', '.') : cell);
      if (!Number.isFinite(value)) return `"${cell}" is not a number (\`${quantity}\`).`;
      read[quantity] = this.convert[quantity](value);
      const impossible = impossibleReason(cell, quantity, read[quantity]);
      if (impossible !== undefined) return impossible;
    }
    this.columnOf(id).push(minute, read, line);
    return undefined;
  }

  private minuteOf(text: string): Minute | undefined {
    if (text !== this.lastTime.text) this.lastTime = { text, minute: minuteOf(text, this.layout.dates) };
    return this.lastTime.minute;
  }

  private columnOf(id: string): RoomColumn {
    const known = this.columns.get(id);
    if (known) return known;
    const column = new RoomColumn(id);
    this.columns.set(id, column);
    return column;
  }

  private takeHeadings(record: readonly string[], line: number): void {
    this.headings = record.map((cell) => cell.trim());
    for (const { reason, column } of this.findColumns(this.headings)) this.fault(line, reason, column);
  }

  /** What is wrong with the headings. */
  private findColumns(headings: readonly string[]): HeadingFault[] {
    const faults = headingFaults(headings, this.layout, ['time', 'room']);
    this.isReadable = faults.length === 0;
    const indexOf = (field: string) => headings.indexOf(this.layout.columns.get(field) ?? '\0');
    this.at = {
      time: indexOf('time'),
      room: indexOf('room'),
      values: quantities
        .map((quantity) => ({ quantity, index: indexOf(quantity) }))
        .filter(({ index }) => index >= 0),
    };
    return faults;
  }

  private noRoom(id: string): string {
    const meant = nearest(id, this.known);
    return `The plan has no room \`${id}\`. ${meant ? `Is \`${meant}\` meant? ` : ''}Names that differ are put side by side under \`names\`.`;
  }
}

/** Why what a cell comes to cannot have been read; undefined where it can. */
function impossibleReason(cell: string, quantity: ReadQuantity, value: number): string | undefined {
  const [least, most] = CAN_BE[quantity] ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  if (value >= least && value <= most) return undefined;
  const { unit } = DIMENSIONS[quantity];
  return `"${cell}" cannot be (\`${quantity}\`): ${least} to ${most} ${unit} is expected. See the instrument, and the layout's \`units\` and \`decimal\`.`;
}

/** To the quantity's own unit; what the layout has for a unit is known by then, or the numbers are taken as they are. */
function converter(layout: ReadingsLayout, quantity: ReadQuantity): (value: number) => number {
  const { dimension, unit } = DIMENSIONS[quantity];
  const own = layout.units.get(quantity) ?? unit;
  const [zero, one] = [parseQuantity(`0 ${own}`, dimension), parseQuantity(`1 ${own}`, dimension)];
  if (!zero || !one || own === unit) return (value) => value;
  return (value) => zero.value + value * (one.value - zero.value);
}

const TIME = /^(.+?)[T ]+(\d{1,2}):(\d{2})(?::\d{2}(?:\.\d+)?)?$/;

/** A day and a time of it; a day alone is its midnight. */
function minuteOf(text: string, order: ReadingsLayout['dates']): Minute | undefined {
  const found = TIME.exec(text);
  const day = parseDay(yearFirst(found?.[1] ?? text, order) ?? '');
  if (day === undefined) return undefined;
  const [hour, minute] = found ? [Number(found[2]), Number(found[3])] : [0, 0];
  if (hour > 24 || minute > 59) return undefined;
  return day * 1440 + hour * 60 + minute;
}
