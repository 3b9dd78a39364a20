/**
 * A text that is looked at in parts: a string, or an `EditedText`, which is put together only for whoever asks for all
 * of it. Offsets are UTF-16 code units, and none is negative.
 */
export interface TextView {
  readonly length: number;
  /** Not a number where there is no character. */
  charCodeAt(offset: number): number;
  slice(start: number, end: number): string;
  /** The first place of a character at or behind an offset; -1 where there is none. */
  indexOf(character: string, from: number): number;
  /** The last place of a character at or before an offset; -1 where there is none. */
  lastIndexOf(character: string, from: number): number;
  toString(): string;
}
