import type { EntrySection } from '../check/item-kinds';
import { isEntrySection, isPlantSection } from '../check/item-kinds';
import type { Problem } from '../problem';
import { counted } from '../wording';
import { Lines } from './split-lines';

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

/** Lines that belong together: comments, the key's line (by index), and all deeper lines below it. */
interface Group {
  readonly first: number;
  readonly key: number;
  last: number;
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
  const { chunks, problems } = new Splitter('', text).splitEntries(parent, indent);
  return problems.length > 0 ? undefined : chunks;
}

class Splitter {
  private readonly lines: Lines;
  private readonly chunks: Chunk[] = [];
  private readonly problems: Problem[] = [];

  constructor(
    private readonly file: string,
    private readonly text: string,
    lineStarts?: readonly number[],
  ) {
    this.lines = new Lines(text, lineStarts);
  }

  split(): { chunks: Chunk[]; problems: Problem[] } {
    const { count } = this.lines;
    const first = this.nextContent(0, count);
    const opening = first === undefined ? undefined : this.text[this.lines.contentOf(first)];
    if (opening === '{' || opening === '[') this.add('file', 0, count, 0);
    else this.splitLevel('file', 0, count, 0);
    return { chunks: this.chunks, problems: this.problems };
  }

  splitEntries(parent: EntrySection, indent: number): { chunks: Chunk[]; problems: Problem[] } {
    this.splitLevel(parent, 0, this.lines.count, indent);
    return { chunks: this.chunks, problems: this.problems };
  }

  private splitLevel(parent: ChunkParent, from: number, to: number, indent: number): void {
    const groups = this.groups(from, to, indent);
    for (const group of groups) {
      this.checkIndent(group, indent, groups.length);
      if (!this.splitSection(parent, group, indent)) this.add(parent, group.first, group.last, indent);
    }
  }

  /** Splits a section's entries from its heading; false where the section is not written as a plain block. */
  private splitSection(parent: ChunkParent, group: Group, indent: number): boolean {
    const heading = this.headingOf(parent, group.key);
    if (!heading) return false;
    const { lines } = this;
    const bodyAt = this.nextContent(group.key + 1, group.last);
    if (bodyAt === undefined || lines.indentOf(bodyAt) <= lines.indentOf(group.key)) return false;
    if (/[-{}[\]|>&*!,?:%@`]/.test(this.text[lines.contentOf(bodyAt)] ?? '')) return false;
    const bodyIndent = lines.indentOf(bodyAt);
    const firstBody = this.commentsAbove(bodyAt, group.key + 1, bodyIndent);
    if (!heading.hasColon) this.problems.push(withoutColon(this.file, heading));
    const { name, start, end } = heading;
    this.push(parent, group.first, firstBody, indent, { name, start, end });
    this.splitLevel(heading.name as ChunkParent, firstBody, group.last, bodyIndent);
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

  private groups(from: number, to: number, indent: number): Group[] {
    const { lines } = this;
    const groups: Group[] = [];
    let current: Group | undefined;
    /** Where the comments and blank lines above the next key begin. */
    let above: number | undefined = from;
    for (let index = from; index < to; index++) {
      if (lines.isContent(index)) {
        if (!current || (lines.indentOf(index) <= indent && !this.continues(index))) {
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

  /** A closing bracket or a list's dash at a key's indent belongs to the key above. */
  private continues(line: number): boolean {
    const at = this.lines.contentOf(line);
    const sign = this.text[at];
    if (sign === '}' || sign === ']' || sign === ',') return true;
    return sign === '-' && (at + 1 === this.lines.endOf(line) || this.text[at + 1] === ' ');
  }

  private checkIndent({ key }: Group, indent: number, groups: number): void {
    const { lines } = this;
    const own = lines.indentOf(key);
    if (own === indent || (indent === 0 && groups === 1)) return;
    const start = lines.startOf(key);
    const at = { file: this.file, start, end: start + Math.max(own, 1) };
    this.problems.push({
      code: 'yaml-syntax',
      message: `This line is indented by ${counted(own, 'space')}, those beside it by ${indent}. Indent both alike.`,
      at,
      about: `indent/${this.text.slice(start + own, lines.endOf(key)).slice(0, 40)}`,
      fixes: [
        {
          title: `Indent by ${counted(indent, 'space')}`,
          edits: [{ at: { ...at, end: start + own }, newText: ' '.repeat(indent) }],
        },
      ],
    });
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

  private add(parent: ChunkParent, first: number, last: number, indent: number): void {
    if (last > first) this.push(parent, first, last, indent, undefined);
  }

  private push(
    parent: ChunkParent,
    first: number,
    last: number,
    indent: number,
    heading: Chunk['heading'],
  ): void {
    const start = this.lines.startOf(first);
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
