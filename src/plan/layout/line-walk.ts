const OPENS = new Set(['{', '[']);
const CLOSES = new Set(['}', ']']);

/** Walks through lines one by one and spaces out what stands in each; knows brackets and quotes that stay open. */
export class LineWalk {
  private depth = 0;
  private quote: string | undefined;

  get inFlow(): boolean {
    return this.depth > 0;
  }

  get inQuotes(): boolean {
    return this.quote !== undefined;
  }

  /**
   * The line without its indent and trailing spaces, and the comment at its end. Spaces are added where one is missing;
   * several stay as they are, for lots are often written in columns.
   */
  take(line: string): { readonly text: string; readonly comment: string } {
    const parts: string[] = [];
    let comment = '';
    let at = 0;
    const source = line.trim();
    while (at < source.length) {
      const character = source[at] ?? '';
      if (this.quote !== undefined) {
        at = this.throughQuotes(source, at, parts);
      } else if (character === '#' && (at === 0 || /\s/.test(source[at - 1] ?? ''))) {
        comment = source.slice(at);
        break;
      } else if ((character === '"' || character === "'") && this.atValue(parts)) {
        this.quote = character;
        parts.push(character);
        at += 1;
      } else if (character === ' ') {
        this.space(parts);
        at += 1;
      } else {
        this.character(character, source, at, parts);
        at += 1;
      }
    }
    const spaced = parts.join('');
    const text = spaced.trimEnd();
    const gap = ' '.repeat(Math.max(1, spaced.length - text.length));
    return { text: comment === '' ? text : text === '' ? comment : `${text}${gap}${comment}`, comment };
  }

  private throughQuotes(source: string, from: number, parts: string[]): number {
    const quote = this.quote ?? '"';
    let at = from;
    while (at < source.length) {
      const character = source[at] ?? '';
      if (quote === '"' && character === '\\') at += 1;
      else if (character === quote) {
        if (quote === "'" && source[at + 1] === "'") at += 1;
        else {
          this.quote = undefined;
          break;
        }
      }
      at += 1;
    }
    parts.push(source.slice(from, at + 1));
    return at + 1;
  }

  /** A quote opens only where a key or value begins; an apostrophe inside a word is a letter. */
  private atValue(parts: readonly string[]): boolean {
    const last = lastCharacter(parts);
    return last === '' || last === ' ' || OPENS.has(last);
  }

  private space(parts: string[]): void {
    const last = lastCharacter(parts);
    if (last !== '' && last !== '[') parts.push(' ');
  }

  private character(character: string, source: string, at: number, parts: string[]): void {
    const last = lastCharacter(parts);
    const next = source[at + 1] ?? ' ';
    const beginsValue = last === '' || last === ' ' || OPENS.has(last);
    if (OPENS.has(character) && (this.inFlow || beginsValue)) {
      this.depth += 1;
      parts.push(character);
      // Braces have room inside, unless nothing is in them.
      if (character === '{' && !/^\s*}/.test(source.slice(at + 1)) && next !== ' ') parts.push(' ');
    } else if (CLOSES.has(character) && this.inFlow) {
      this.depth -= 1;
      dropSpace(parts);
      if (character === '}' && lastCharacter(parts) !== '{' && lastCharacter(parts) !== '') parts.push(' ');
      parts.push(character);
    } else if (character === ',' && this.inFlow) {
      dropSpace(parts);
      parts.push(',');
      if (next !== ' ' && !CLOSES.has(next)) parts.push(' ');
    } else parts.push(character);
  }
}

function lastCharacter(parts: readonly string[]): string {
  return parts.at(-1)?.at(-1) ?? '';
}

function dropSpace(parts: string[]): void {
  while (parts.at(-1) === ' ') parts.pop();
}
