import { STEP } from '../indent-step';
import { lineEnd, lineStartsOf } from '../lines';
import { LineWalk } from './line-walk';

/** A line of a plan file as it is laid out, without its line end. */
export interface LaidLine {
  readonly text: string;
  /** The comment at the line's end as written, or empty. */
  readonly comment: string;
  /** Part of a text over several lines, which is left as it is. */
  readonly kept: boolean;
}

interface Level {
  readonly written: number;
  readonly laid: number;
}

/** Every line of a text, laid out. */
export function laidLines(text: string): LaidLine[] {
  const starts = lineStartsOf(text);
  const written = starts.map((start, line) => text.slice(start, lineEnd(text, starts, line)));
  const layout = new Layout();
  return layout.comments(written.map((line) => layout.line(line)));
}

interface Line extends LaidLine {
  /** Comment lines and empty ones take their indent from what follows. */
  readonly written: number;
  readonly isComment: boolean;
  readonly levels: readonly Level[];
}

class Layout {
  private levels: readonly Level[] = [];
  private readonly walk = new LineWalk();
  /** How far the line that opened the brackets was moved. */
  private shift = 0;
  /** The indent above which lines belong to a text over several lines. */
  private textBelow: number | undefined;

  line(line: string): Line {
    const written = line.search(/\S/);
    const none = { comment: '', levels: this.levels };
    if (this.textBelow !== undefined) {
      if (written < 0 || written > this.textBelow)
        return { ...none, text: line, written, isComment: false, kept: true };
      this.textBelow = undefined;
    }
    if (written < 0) return { ...none, text: '', written, isComment: false, kept: false };
    if (this.walk.inQuotes) {
      this.walk.take(line);
      return { ...none, text: line, written, isComment: false, kept: true };
    }
    return this.walk.inFlow ? this.insideBrackets(line, written) : this.blockLine(line, written);
  }

  /** Comment lines stand with the line below them, or with an entry above that they were written as deep as. */
  comments(lines: readonly Line[]): LaidLine[] {
    let below: Line | undefined;
    const laid = [...lines].reverse().map((line) => {
      if (!line.isComment) {
        if (line.text !== '') below = line;
        return line;
      }
      const indent = commentIndent(line, below);
      return { ...line, text: ' '.repeat(indent) + line.comment };
    });
    return laid.reverse();
  }

  private insideBrackets(line: string, written: number): Line {
    const { text, comment } = this.walk.take(line);
    const indent = ' '.repeat(Math.max(0, written + this.shift));
    return { text: indent + text, comment, written, isComment: false, kept: false, levels: this.levels };
  }

  private blockLine(line: string, written: number): Line {
    if (line[written] === '#') {
      const comment = line.trim();
      return { text: comment, comment, written, isComment: true, kept: false, levels: this.levels };
    }
    const laid = this.enter(written, line.slice(written));
    const { text, comment } = this.walk.take(line);
    this.shift = laid - written;
    if (/(?:^|[\s:-])[|>][+-]?\d*[+-]?$/.test(text)) this.textBelow = written;
    return {
      text: ' '.repeat(laid) + text,
      comment,
      written,
      isComment: false,
      kept: false,
      levels: this.levels,
    };
  }

  /** The indent of a block line by those above it; list items may stand as deep as their key. */
  private enter(written: number, text: string): number {
    const open = this.levels.filter((level) => level.written < written);
    const above = open.at(-1);
    const sameDeep = this.levels.find((level) => level.written === written);
    const laid = sameDeep ? sameDeep.laid : above ? above.laid + STEP : 0;
    this.levels = [...open, { written, laid }];
    // What follows a dash on its line is a level of its own.
    const dash = /^(?:- +)+/.exec(text)?.[0];
    if (dash) this.levels = [...this.levels, { written: written + dash.length, laid: laid + STEP }];
    return laid;
  }
}

function commentIndent(line: Line, below: Line | undefined): number {
  const indentOf = (laid: LaidLine) => Math.max(0, laid.text.search(/\S/));
  if (below && below.written === line.written) return indentOf(below);
  const level = line.levels.find(({ written }) => written === line.written);
  if (level) return level.laid;
  return below ? indentOf(below) : 0;
}
