import type { EntrySection } from '../check/item-kinds';
import { isEntrySection, isPlantSection } from '../check/item-kinds';
import type { Problem } from '../problem';
import { linesOf } from './text-lines';

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
  readonly heading?: { readonly name: string; readonly start: number; readonly end: number };
}

interface Line {
  readonly start: number;
  readonly end: number;
  readonly next: number;
  readonly indent: number;
  readonly kind: 'blank' | 'comment' | 'content';
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
export function split(file: string, text: string): { chunks: Chunk[]; problems: Problem[] } {
  return new Splitter(file, text).split();
}

/** Splits a stretch that holds whole entries of one section; undefined where it does not look as if it did. */
export function splitEntries(text: string, parent: EntrySection, indent: number): Chunk[] | undefined {
  const { chunks, problems } = new Splitter('', text).splitEntries(parent, indent);
  return problems.length > 0 ? undefined : chunks;
}

const HASH = 35;

class Splitter {
  private readonly lines: Line[];
  private readonly chunks: Chunk[] = [];
  private readonly problems: Problem[] = [];

  constructor(
    private readonly file: string,
    private readonly text: string,
  ) {
    this.lines = [];
    for (const { start, end, next } of linesOf(text)) {
      let at = start;
      while (at < end && text.charCodeAt(at) === 32) at++;
      const kind = at === end ? 'blank' : text.charCodeAt(at) === HASH ? 'comment' : 'content';
      this.lines.push({ start, end, next, indent: at - start, kind });
    }
  }

  split(): { chunks: Chunk[]; problems: Problem[] } {
    const first = this.lines.find(({ kind }) => kind === 'content');
    const opening = first && this.text[first.start + first.indent];
    if (opening === '{' || opening === '[') this.add('file', 0, this.lines.length, 0);
    else this.splitLevel('file', 0, this.lines.length, 0);
    return { chunks: this.chunks, problems: this.problems };
  }

  splitEntries(parent: EntrySection, indent: number): { chunks: Chunk[]; problems: Problem[] } {
    this.splitLevel(parent, 0, this.lines.length, indent);
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
    const bodyAt = this.nextContent(group.key + 1, group.last);
    const body = bodyAt === undefined ? undefined : this.lines[bodyAt];
    const keyLine = this.lines[group.key];
    if (bodyAt === undefined || !body || !keyLine || body.indent <= keyLine.indent) return false;
    if (/[-{}[\]|>&*!,?:%@`]/.test(this.text[body.start + body.indent] ?? '')) return false;
    const firstBody = this.commentsAbove(bodyAt, group.key + 1, body.indent);
    if (!heading.hasColon) this.problems.push(withoutColon(this.file, heading));
    const { name, start, end } = heading;
    this.chunks.push({
      parent,
      ...this.range(group.first, firstBody),
      indent,
      heading: { name, start, end },
    });
    this.splitLevel(heading.name as ChunkParent, firstBody, group.last, body.indent);
    return true;
  }

  /** A section's name alone on its line. Without its colon, which is soon lost, its entries are still read. */
  private headingOf(parent: ChunkParent, key: number) {
    if (parent !== 'file' && parent !== 'plant') return undefined;
    const line = this.lines[key];
    if (!line) return undefined;
    const start = line.start + line.indent;
    const match = /^([a-z]+) *(:?)(?: *| +#.*)$/.exec(this.text.slice(start, line.end));
    const name = match?.[1];
    if (!name) return undefined;
    const known = parent === 'plant' ? isPlantSection(name) : name === 'plant' || isEntrySection(name);
    return known ? { name, start, end: start + name.length, hasColon: match[2] === ':' } : undefined;
  }

  private groups(from: number, to: number, indent: number): Group[] {
    const groups: Group[] = [];
    /** Where the comments and blank lines above the next key begin. */
    let above: number | undefined = from;
    for (let index = from; index < to; index++) {
      const line = this.lines[index];
      if (!line) break;
      const current = groups.at(-1);
      if (line.kind === 'content') {
        if (!current || (line.indent <= indent && !this.continues(line))) {
          const first: number = above ?? index;
          if (current) current.last = first;
          groups.push({ first, key: index, last: to });
        }
        above = undefined;
      } else if (line.kind === 'comment' && line.indent > indent) {
        if (current) above = undefined;
      } else above ??= index;
    }
    return groups;
  }

  /** A closing bracket or a list's dash at a key's indent belongs to the key above. */
  private continues(line: Line): boolean {
    const at = line.start + line.indent;
    const sign = this.text[at];
    if (sign === '}' || sign === ']' || sign === ',') return true;
    return sign === '-' && (at + 1 === line.end || this.text[at + 1] === ' ');
  }

  private checkIndent(group: Group, indent: number, groups: number): void {
    const line = this.lines[group.key];
    if (!line || line.indent === indent || (indent === 0 && groups === 1)) return;
    const start = line.start;
    const at = { file: this.file, start, end: line.start + Math.max(line.indent, 1) };
    this.problems.push({
      code: 'yaml-syntax',
      message: `This line is indented by ${line.indent} spaces, those beside it by ${indent}. Indent both alike.`,
      at,
      about: `indent/${this.text.slice(line.start + line.indent, line.end).slice(0, 40)}`,
      fixes: [
        {
          title: `Indent by ${indent} spaces`,
          edits: [{ at: { ...at, end: line.start + line.indent }, newText: ' '.repeat(indent) }],
        },
      ],
    });
  }

  private nextContent(from: number, to: number): number | undefined {
    for (let index = from; index < to; index++) if (this.lines[index]?.kind === 'content') return index;
    return undefined;
  }

  private commentsAbove(key: number, from: number, indent: number): number {
    let first = key;
    for (let index = key - 1; index >= from; index--) {
      const line = this.lines[index];
      if (!line || (line.kind === 'comment' && line.indent > indent)) break;
      first = index;
    }
    return first;
  }

  private add(parent: ChunkParent, first: number, last: number, indent: number): void {
    if (last > first) this.chunks.push({ parent, ...this.range(first, last), indent });
  }

  private range(first: number, last: number): { start: number; end: number } {
    const start = this.lines[first]?.start ?? 0;
    return { start, end: this.lines[last - 1]?.next ?? start };
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
