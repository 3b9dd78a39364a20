import { isEntrySection, isPlantSection, isSingleSection } from '../check/item-kinds';
import { STEP } from '../indent-step';
import { isKeyOf } from './section-keys';
import type { Lines } from './split-lines';

/** No heading is looked for deeper: there stand the keys of entries. Spaces, as `CANDIDATE` has them. */
const MOST_INDENT = 2 * STEP;
/** So many lines of an entry tell whose it is. */
const MOST_KEYS = 8;
/** Behind the end of a line, one that begins at its beginning or has a name alone: all that a large plan is looked through for. */
const CANDIDATE = /\n(?:[^\s#]| {1,4}[a-z]+ *:(?: *| +#[^\n]*)(?=\r?(?:\n|$)))/g;
/** A name alone, from its line's first letter to its end. */
const ALONE = /^([a-z]+) *:(?: *| +#.*)$/;
const KEYS_IN_BRACES = /[{,] *([a-z][a-z0-9-]*) *:/g;

/** The section that lines stand in, and the indent of what stands first in it. */
interface Around {
  /** Undefined above all sections and below what is none and holds nothing. */
  readonly section: string | undefined;
  /** Whether what a heading there would open is told by its name alone. */
  readonly isSection: boolean;
  readonly indent: number | undefined;
}

/**
 * The lines with a section's name alone that do not begin where sections do, amid others that do. A line that may be a
 * key or an entry where it stands is one only if what is below it tells so. `around` says where the text is from, if
 * not a whole file.
 */
export function deepHeadings(
  text: string,
  lines: Lines,
  around?: { readonly section: string; readonly indent: number },
): ReadonlySet<number> {
  return new DeepHeadings(text, lines, around).find();
}

class DeepHeadings {
  private readonly found = new Set<number>();
  private around: Around | undefined;
  private hasMargin: boolean | undefined;

  constructor(
    private readonly text: string,
    private readonly lines: Lines,
    around: { readonly section: string; readonly indent: number } | undefined,
  ) {
    if (around) this.around = { ...around, isSection: true };
  }

  find(): ReadonlySet<number> {
    this.look(0);
    for (const { index } of this.text.matchAll(CANDIDATE)) this.look(this.lines.lineAt(index + 1));
    return this.found;
  }

  private look(line: number): void {
    const { lines } = this;
    if (!lines.isContent(line)) return;
    const indent = lines.indentOf(line);
    if (indent === 0) this.around = this.sectionAt(line);
    if (indent === 0 || indent > MOST_INDENT) return;
    const name = this.nameAt(line);
    if (name === undefined || !this.isHeading(line, name, indent)) return;
    this.found.add(line);
    this.around = { section: name, isSection: true, indent: this.indentBelow(line) };
  }

  private isHeading(line: number, name: string, indent: number): boolean {
    const { around } = this;
    if (!around) return this.isMarginBelow(line);
    const { section, isSection, indent: beside = indent } = around;
    if (!isSection) return section === undefined;
    if (section === undefined || section === 'plant' || isSingleSection(section))
      return indent <= beside && !isKeyOf(section ?? '', name);
    const below = this.below(line);
    const own = below === undefined ? 0 : this.lines.indentOf(below);
    // Deeper than the entries stand keys: only an end behind it, or another section's entries, tell that it is none.
    if (indent > beside && own > beside) return false;
    const isKey = isKeyOf(section, name);
    if (below === undefined) return !isKey;
    if (isKey || indent > beside || (indent === beside && own > indent))
      return this.speaks(below, name, section);
    return indent < beside || !this.speaks(below, section, name);
  }

  /** Whether what begins at a line has keys of the one section that the other does not have. */
  private speaks(line: number, of: string, notOf: string): boolean {
    if (of === 'plant') return isPlantSection(this.lines.keyOf(line) ?? '');
    return this.keysFrom(line, of).some((key) => isKeyOf(of, key) && !isKeyOf(notOf, key));
  }

  private keysFrom(line: number, section: string): string[] {
    if (isSingleSection(section)) return this.keysAt(line, this.lines.indentOf(line));
    const inBraces = [...this.lines.textOf(line).matchAll(KEYS_IN_BRACES)].map(([, key = '']) => key);
    if (inBraces.length > 0) return inBraces;
    const first = this.below(line);
    const indent = first === undefined ? 0 : this.lines.indentOf(first);
    return first === undefined || indent <= this.lines.indentOf(line) ? [] : this.keysAt(first, indent);
  }

  private keysAt(from: number, indent: number): string[] {
    const keys: string[] = [];
    for (let line = from; line < Math.min(this.lines.count, from + MOST_KEYS); line++) {
      if (!this.lines.isContent(line)) continue;
      if (this.lines.indentOf(line) < indent) break;
      const key = this.lines.indentOf(line) === indent && this.lines.keyOf(line);
      if (key) keys.push(key);
    }
    return keys;
  }

  private sectionAt(line: number): Around {
    const name = /^([a-z]+) *:?(?: *| +#.*)$/.exec(this.lines.textOf(line))?.[1];
    if (name !== undefined && isSection(name))
      return { section: name, isSection: true, indent: this.indentBelow(line) };
    const isVersion = /^lotwright *:/.test(this.lines.textOf(line));
    return { section: isVersion ? undefined : '', isSection: false, indent: this.indentBelow(line) };
  }

  /** Of what stands first in a section. */
  private indentBelow(line: number): number | undefined {
    const below = this.below(line);
    return below === undefined ? undefined : this.lines.indentOf(below);
  }

  private nameAt(line: number): string | undefined {
    const code = this.text.charCodeAt(this.lines.contentOf(line));
    if (code < 97 || code > 122) return undefined;
    const name = ALONE.exec(this.lines.textOf(line))?.[1];
    return name !== undefined && isSection(name) ? name : undefined;
  }

  /** The next line with content, if it begins no section of its own. */
  private below(line: number): number | undefined {
    for (let next = line + 1; next < this.lines.count; next++)
      if (this.lines.isContent(next)) return this.lines.indentOf(next) > 0 ? next : undefined;
    return undefined;
  }

  /** Whether any line begins at the line's beginning; asked above the first one that does. */
  private isMarginBelow(line: number): boolean {
    if (this.hasMargin !== undefined) return this.hasMargin;
    this.hasMargin = false;
    for (let next = line + 1; next < this.lines.count && !this.hasMargin; next++)
      this.hasMargin = this.lines.isContent(next) && this.lines.indentOf(next) === 0;
    return this.hasMargin;
  }
}

function isSection(name: string): boolean {
  return name === 'plant' || isEntrySection(name) || isSingleSection(name);
}
