import { type CsvError, parse } from 'csv-parse/sync';
import { withoutMark } from '../plan/byte-order-mark';
import type { ReadingsLayout } from '../plan/table-model';
import { SEPARATORS } from '../table/headings';
import { RowReader } from './row-reader';
import type { FileReadings, Minute } from './types';

/** Where reading a file has come to: enough to go on when rows have been added to it. */
export interface ReadSoFar {
  readonly headings: readonly string[];
  /** Whole lines. */
  readonly lines: number;
}

/**
 * Reads a file of readings by its layout, its text given piece by piece, cut anywhere. Rows of a room the plan does not
 * have, without a time, or with no number in a column that has something, are faults; an empty cell is a value not read.
 * Never throws.
 */
export class ReadingStream {
  private readonly reader: RowReader;
  private readonly separator: string;
  private lines: number;
  private isFirst: boolean;
  private isBroken = false;
  /** A line that has not ended yet, with what quotes keep together. */
  private rest = '';

  constructor(
    layout: ReadingsLayout,
    rooms: ReadonlySet<string>,
    { from, until }: { readonly from?: ReadSoFar | undefined; readonly until?: Minute | undefined } = {},
  ) {
    this.reader = new RowReader(layout, rooms, from?.headings, until);
    this.separator = SEPARATORS[layout.separator];
    this.lines = from?.lines ?? 0;
    this.isFirst = from === undefined;
  }

  push(piece: string): void {
    if (piece === '') return;
    const text = this.rest + (this.isFirst ? withoutMark(piece) : piece);
    this.isFirst = false;
    const end = endOfLines(text);
    this.rest = text.slice(end);
    this.read(text.slice(0, end));
  }

  /** The text has ended, whether with a line's end or without. */
  end(): void {
    this.read(this.rest);
    this.rest = '';
  }

  /** What was read since the last time it was asked, of whole lines. */
  taken(): FileReadings {
    return this.reader.taken();
  }

  /** The line that has not ended yet: it is read by `end` alone. */
  get waiting(): string {
    return this.rest;
  }

  /** Undefined before the headings, and where nothing can follow. */
  get soFar(): ReadSoFar | undefined {
    const { headings } = this.reader;
    return headings && !this.isBroken ? { headings, lines: this.lines } : undefined;
  }

  private read(text: string): void {
    if (text === '' || this.isBroken) return;
    if (text.includes('"')) this.readQuoted(text);
    else this.readPlain(text);
  }

  /** Without quotes a line is a row and a separator ends a cell. */
  private readPlain(text: string): void {
    const lines = text.split(/\r\n|\n|\r/);
    const last = lines.length - 1;
    for (const [index, line] of lines.entries()) {
      if (line !== '') this.reader.take(line.split(this.separator), this.lines + index + 1);
    }
    this.lines += lines[last] === '' ? last : lines.length;
  }

  private readQuoted(text: string): void {
    try {
      parse(text, {
        delimiter: this.separator,
        relax_column_count: true,
        skip_empty_lines: true,
        on_record: (record: string[], { lines }) => {
          this.reader.take(record, this.lines + lines);
          return null;
        },
      });
    } catch (error) {
      const { message, lines } = error as CsvError & { readonly lines?: number };
      this.isBroken = true;
      this.reader.fault(
        this.lines + (lines ?? 1),
        `The file cannot be read as a table from here on: ${message}.`,
      );
    }
    this.lines += text.split(/\r\n|\n|\r/).length - 1;
  }
}

/** Behind the last line's end that stands in no quotes. */
function endOfLines(text: string): number {
  if (!text.includes('"'))
    return Math.max(text.lastIndexOf('\n'), text.lastIndexOf('\r', text.length - 2)) + 1;
  let [end, inQuotes] = [0, false];
  for (let at = 0; at < text.length; at++) {
    const letter = text[at];
    if (letter === '"') inQuotes = !inQuotes;
    else if (!inQuotes && (letter === '\n' || (letter === '\r' && at < text.length - 1))) end = at + 1;
  }
  return end;
}
