import type { EntrySection } from '../check/item-kinds';
import { isEntrySection, isPlantSection } from '../check/item-kinds';
import { STEP } from '../indent-step';
import type { Problem } from '../problem';
import { isDeepEntry, mayHaveDeepEntry } from './deep-entry';
import { deepHeadings } from './deep-headings';
import { deepEntry, deepSection, levelOfOthers, unlikeDepth } from './misplaced';
import { type Group, Lines } from './split-lines';

/** Whose keys a chunk's text holds: the file's, those of `plant`, or a section's entries. */
export type ChunkParent = 'file' | 'plant' | EntrySection;

/** A stretch of a file that is read by itself: one key with all below it, and the comments above it. */
export interface Chunk {
  readonly parent: ChunkParent;
  readonly start: number;
  readonly end: number;
  /** The indent of its siblings' keys. */
  readonly indent: number;
  /** The key's name and place where the chunk is only a section's heading, its entries being chunks of their own. */
  readonly heading: { readonly name: string; readonly start: number; readonly end: number } | undefined;
  /** Where tabs make depths guesswork: what else is wrong with it is not told, and a key at no known depth is left. */
  readonly tabs?: 'within' | 'misplaced';
}

/**
 * Splits a text into chunks by indentation alone: in YAML no line of a nested value stands at or left of its parent
 * key, so a line at the entries' indent starts an entry, whatever is broken in the one before.
 */
export function split(
  file: string,
  text: string,
  /** The starts of its lines, where they are known; they end with LF or CRLF. */
  lineStarts?: readonly number[],
): { chunks: Chunk[]; problems: Problem[] } {
  return new Splitter(file, text, lineStarts).split();
}

/** Splits a stretch that holds whole entries of one section; undefined where it does not look as if it did. */
export function splitEntries(text: string, parent: EntrySection, indent: number): Chunk[] | undefined {
  const parts = new Splitter('', text).splitEntries(parent, indent);
  return parts && parts.problems.length === 0 ? parts.chunks : undefined;
}

/** Lines with the keys of one parent, and the indent that these have. */
interface Level {
  readonly from: number;
  readonly to: number;
  readonly indent: number;
  readonly above?: number;
}

class Splitter {
  private readonly lines: Lines;
  private readonly chunks: Chunk[] = [];
  private readonly problems: Problem[] = [];
  private readonly mayHaveDeepEntry: boolean;
  /** Lines of headings that stand too deep, each read as if it stood where sections do. */
  private deep: ReadonlySet<number> = new Set();

  constructor(
    private readonly file: string,
    private readonly text: string,
    lineStarts?: readonly number[],
  ) {
    this.lines = new Lines(text, lineStarts);
    this.mayHaveDeepEntry = mayHaveDeepEntry(text);
  }

  split(): { chunks: Chunk[]; problems: Problem[] } {
    const { count } = this.lines;
    const first = this.nextContent(0, count);
    const opening = first === undefined ? undefined : this.text[this.lines.contentOf(first)];
    if (opening === '{' || opening === '[') this.add('file', 0, count, 0);
    else {
      this.deep = deepHeadings(this.text, this.lines);
      this.splitLevel('file', { from: 0, to: count, indent: 0 });
    }
    return { chunks: this.chunks, problems: this.problems };
  }

  splitEntries(parent: EntrySection, indent: number): { chunks: Chunk[]; problems: Problem[] } | undefined {
    if (!isPlantSection(parent) && deepHeadings(this.text, this.lines, { section: parent, indent }).size > 0)
      return undefined;
    this.splitLevel(parent, { from: 0, to: this.lines.count, indent });
    return { chunks: this.chunks, problems: this.problems };
  }

  /** `above` is the indent of the heading, where the first key's may be another than that of those behind it. */
  private splitLevel(parent: ChunkParent, { from, to, indent, above }: Level): void {
    let level = indent;
    let groups = this.groups(parent, from, to, level);
    const others = above === undefined ? undefined : levelOfOthers(this.place(), groups, level, above);
    if (others !== undefined) {
      level = others;
      groups = this.groups(parent, from, to, level);
    }
    for (const group of groups) {
      this.checkIndent(group, level, groups.length, above);
      if (!this.splitSection(parent, group, level)) this.addKey(parent, group, level);
    }
  }

  /** Splits a section's entries from its heading; false where the section is not written as a plain block. */
  private splitSection(parent: ChunkParent, group: Group, indent: number): boolean {
    const heading = this.headingOf(parent, group.key);
    if (!heading) return false;
    const { lines } = this;
    const bodyAt = this.nextContent(group.key + 1, group.last);
    // A heading that stands too deep has all below it that is deeper than where it belongs.
    const own = Math.min(lines.indentOf(group.key), indent);
    if (bodyAt === undefined || lines.indentOf(bodyAt) <= own) return false;
    if (/[-{}[\]|>&*!,?:%@`]/.test(this.text[lines.contentOf(bodyAt)] ?? '')) return false;
    const bodyIndent = lines.indentOf(bodyAt);
    const firstBody = this.commentsAbove(bodyAt, group.key + 1, bodyIndent);
    if (!heading.hasColon) this.problems.push(withoutColon(this.file, heading));
    const { name, start, end } = heading;
    this.push(parent, group.first, firstBody, indent, { name, start, end });
    const body = { from: firstBody, to: group.last, indent: bodyIndent, above: own };
    this.splitLevel(heading.name as ChunkParent, body);
    return true;
  }

  /** A section's name alone on its line. Without its colon, which is soon lost, its entries are still read. */
  private headingOf(parent: ChunkParent, key: number) {
    if (parent !== 'file' && parent !== 'plant') return undefined;
    const start = this.lines.contentOf(key);
    const match = /^([a-z]+) *(:?)(?: *| +#.*)$/.exec(this.text.slice(start, this.lines.endOf(key)));
    const name = match?.[1];
    if (!name) return undefined;
    const known = parent === 'plant' ? isPlantSection(name) : name === 'plant' || isEntrySection(name);
    return known ? { name, start, end: start + name.length, hasColon: match[2] === ':' } : undefined;
  }

  private groups(parent: ChunkParent, from: number, to: number, indent: number): Group[] {
    const { lines } = this;
    const isOfEntries = parent !== 'file' && parent !== 'plant' && this.mayHaveDeepEntry;
    const groups: Group[] = [];
    let current: Group | undefined;
    /** Where the comments and blank lines above the next key begin. */
    let above: number | undefined = from;
    for (let index = from; index < to; index++) {
      if (lines.isContent(index)) {
        const isDeep = current !== undefined && isOfEntries && this.isDeepEntry(index, parent, current);
        if (!current || isDeep || this.begins(index, indent)) {
          const first: number = above ?? index;
          if (current) current.last = first;
          current = { first, key: index, last: to };
          groups.push(current);
        }
        above = undefined;
      } else if (lines.isComment(index) && lines.indentOf(index) > indent) {
        if (current) above = undefined;
      } else above ??= index;
    }
    return groups;
  }

  private isDeepEntry(line: number, section: EntrySection, above: Group): boolean {
    return isDeepEntry(this.lines, { line, above, section });
  }

  private begins(line: number, indent: number): boolean {
    if (this.lines.indentOf(line) <= indent) return !this.continues(line);
    return indent === 0 && this.deep.has(line);
  }

  /** A closing bracket or a list's dash at a key's indent belongs to the key above. */
  private continues(line: number): boolean {
    const at = this.lines.contentOf(line);
    const sign = this.text[at];
    if (sign === '}' || sign === ']' || sign === ',') return true;
    return sign === '-' && (at + 1 === this.lines.endOf(line) || this.text[at + 1] === ' ');
  }

  private checkIndent(group: Group, indent: number, groups: number, above: number | undefined): void {
    const { lines } = this;
    const own = lines.indentOf(group.key);
    if (own === indent) return;
    const place = this.place();
    if (indent === 0 && this.deep.has(group.key))
      this.problems.push(deepSection(place, group, this.usualStep()));
    else if (own > indent && above !== undefined)
      this.problems.push(deepEntry(place, group, indent, indent - above));
    else if (indent > 0 || groups > 1) this.problems.push(unlikeDepth(place, group, indent));
  }

  private place() {
    return { file: this.file, text: this.text, lines: this.lines };
  }

  /** How deep the keys of the first section stand that begins where sections do. */
  private usualStep(): number {
    const { lines } = this;
    for (let line = 0; line < lines.count; line++) {
      const below = this.isMargin(line) ? this.nextContent(line + 1, lines.count) : undefined;
      if (below !== undefined && lines.indentOf(below) > 0 && !this.deep.has(below))
        return lines.indentOf(below);
    }
    return STEP;
  }

  private isMargin(line: number): boolean {
    return this.lines.isContent(line) && this.lines.indentOf(line) === 0;
  }

  private nextContent(from: number, to: number): number | undefined {
    for (let index = from; index < to; index++) if (this.lines.isContent(index)) return index;
    return undefined;
  }

  private commentsAbove(key: number, from: number, indent: number): number {
    const { lines } = this;
    let first = key;
    for (let index = key - 1; index >= from; index--) {
      if (lines.isComment(index) && lines.indentOf(index) > indent) break;
      first = index;
    }
    return first;
  }

  /** A key with all below it. One that stands too deep is read from its first letter, as if nothing stood before it. */
  private addKey(parent: ChunkParent, { first, key, last }: Group, indent: number): void {
    const { lines } = this;
    const below = this.nextContent(key + 1, last);
    const isTooDeep = lines.indentOf(key) > indent && below !== undefined && lines.indentOf(below) > indent;
    if (!isTooDeep || lines.indentOf(below) > lines.indentOf(key)) this.add(parent, first, last, indent);
    else {
      this.add(parent, first, key, indent);
      this.push(parent, key, last, indent, undefined, lines.contentOf(key));
    }
  }

  private add(parent: ChunkParent, first: number, last: number, indent: number): void {
    if (last > first) this.push(parent, first, last, indent, undefined);
  }

  private push(
    parent: ChunkParent,
    first: number,
    last: number,
    indent: number,
    heading: Chunk['heading'],
    start = this.lines.startOf(first),
  ): void {
    const end = last > 0 ? this.lines.startOf(last) : start;
    this.chunks.push({ parent, start, end, indent, heading });
  }
}

function withoutColon(file: string, { name, start, end }: NonNullable<Chunk['heading']>): Problem {
  return {
    code: 'yaml-syntax',
    message: `\`${name}\` has no colon behind it. Write \`${name}:\`; what stands below it is read as if it were there.`,
    at: { file, start, end },
    about: `colon/${name}`,
    fixes: [{ title: `Write \`${name}:\``, edits: [{ at: { file, start: end, end }, newText: ':' }] }],
  };
}
