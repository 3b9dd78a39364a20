import { lineStartsOf } from '../lines';
import { type Change, changedLineStarts, changeLineStarts } from './changed-lines';
import type { TextView } from './text-view';

/** A stretch of a longer text. */
interface Piece {
  readonly source: string;
  readonly start: number;
  readonly end: number;
}

/** A stretch of a text that is replaced. UTF-16 code units, the end exclusive. */
export interface Replaced {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** With more pieces than these it is put together: to go through them would take longer. */
const MOST_PIECES = 512;
/** Neighbours this short become one: what is typed comes a character at a time. */
const SHORT = 512;

/**
 * A text as it is edited. It never changes: an edit gives another one that has the same pieces but where it was edited,
 * for a key must not cost a copy of a text of megabytes.
 */
export class EditedText implements TextView {
  private constructor(
    private pieces: readonly Piece[],
    readonly length: number,
    /** As `lineStartsOf` counts them. */
    readonly lineStarts: readonly number[],
  ) {}

  static of(text: string): EditedText {
    return new EditedText(text === '' ? [] : [wholeOf(text)], text.length, lineStartsOf(text));
  }

  /** The text after an edit; offsets beyond its end are its end. */
  replaced(edit: Replaced): EditedText {
    const { pieces, length, change } = this.piecesAfter(edit);
    const after = new EditedText(pieces, length, this.lineStarts);
    const lineStarts = changedLineStarts(this.lineStarts, after, change);
    const edited = new EditedText(pieces, length, lineStarts);
    if (pieces.length > MOST_PIECES) edited.toString();
    return edited;
  }

  /** The text after many edits, each found in the text that those before it leave: lines are counted in one list. */
  replacedAll<Edit>(edits: readonly Edit[], find: (edit: Edit, text: EditedText) => Replaced): EditedText {
    const lineStarts = [...this.lineStarts];
    let text = new EditedText(this.pieces, this.length, lineStarts);
    for (const edit of edits) {
      const { pieces, length, change } = text.piecesAfter(find(edit, text));
      text = new EditedText(pieces, length, lineStarts);
      changeLineStarts(lineStarts, text, change);
      if (pieces.length > MOST_PIECES) text.toString();
    }
    return text;
  }

  charCodeAt(offset: number): number {
    let before = 0;
    for (const { source, start, end } of this.pieces) {
      if (offset < before + end - start) return source.charCodeAt(start + offset - before);
      before += end - start;
    }
    return Number.NaN;
  }

  slice(start: number, end: number): string {
    let text = '';
    for (const { source, start: from, end: to } of this.within(start, end)) text += source.slice(from, to);
    return text;
  }

  indexOf(character: string, from: number): number {
    let before = 0;
    for (const { source, start, end } of this.pieces) {
      const at = source.indexOf(character, start + Math.max(0, from - before));
      if (at >= 0 && at < end) return before + at - start;
      before += end - start;
    }
    return -1;
  }

  lastIndexOf(character: string, from: number): number {
    let behind = this.length;
    for (const { source, start, end } of this.pieces.toReversed()) {
      behind -= end - start;
      if (from < behind) continue;
      const at = source.lastIndexOf(character, Math.min(end - 1, start + from - behind));
      if (at >= start) return behind + at - start;
    }
    return -1;
  }

  /** All of it, put together once. */
  toString(): string {
    if (this.pieces.length > 1) this.pieces = [wholeOf(this.slice(0, this.length))];
    const [whole] = this.pieces;
    return whole ? whole.source.slice(whole.start, whole.end) : '';
  }

  /** How many characters are the same for sure at both ends of this text and another: at least none. */
  sameEnds(other: EditedText): { readonly front: number; readonly back: number } {
    return { front: sameFront(this.pieces, other.pieces), back: sameBack(this.pieces, other.pieces) };
  }

  private piecesAfter({ start: from, end: to, text }: Replaced): {
    readonly pieces: readonly Piece[];
    readonly length: number;
    readonly change: Change;
  } {
    const start = Math.min(from, this.length);
    const oldEnd = Math.max(start, Math.min(to, this.length));
    const inserted: Piece[] = text === '' ? [] : [wholeOf(text)];
    return {
      pieces: joined([...this.within(0, start), ...inserted, ...this.within(oldEnd, this.length)]),
      length: this.length + text.length - (oldEnd - start),
      change: { start, oldEnd, newEnd: start + text.length },
    };
  }

  /** The pieces of a stretch. */
  private within(from: number, to: number): Piece[] {
    const found: Piece[] = [];
    let before = 0;
    for (const { source, start, end } of this.pieces) {
      const [first, last] = [Math.max(from - before, 0), Math.min(to - before, end - start)];
      if (first < last) found.push({ source, start: start + first, end: start + last });
      before += end - start;
    }
    return found;
  }
}

function wholeOf(source: string): Piece {
  return { source, start: 0, end: source.length };
}

/** Neighbours that stood side by side in their source, or are short, as one. */
function joined(pieces: readonly Piece[]): Piece[] {
  const all: Piece[] = [];
  for (const piece of pieces) {
    const last = all.at(-1);
    if (last && last.source === piece.source && last.end === piece.start)
      all[all.length - 1] = { ...last, end: piece.end };
    else if (last && lengthOf(last) + lengthOf(piece) <= SHORT)
      all[all.length - 1] = wholeOf(wordsOf(last) + wordsOf(piece));
    else all.push(piece);
  }
  return all;
}

function lengthOf({ start, end }: Piece): number {
  return end - start;
}

function wordsOf({ source, start, end }: Piece): string {
  return source.slice(start, end);
}

function sameFront(a: readonly Piece[], b: readonly Piece[]): number {
  let same = 0;
  for (let index = 0; ; index++) {
    const [one, other] = [a[index], b[index]];
    if (!one || !other || one.source !== other.source || one.start !== other.start) return same;
    same += Math.min(one.end, other.end) - one.start;
    if (one.end !== other.end) return same;
  }
}

function sameBack(a: readonly Piece[], b: readonly Piece[]): number {
  let same = 0;
  for (let index = -1; ; index--) {
    const [one, other] = [a.at(index), b.at(index)];
    if (!one || !other || one.source !== other.source || one.end !== other.end) return same;
    same += one.end - Math.max(one.start, other.start);
    if (one.start !== other.start) return same;
  }
}
