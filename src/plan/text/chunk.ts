import { checkItem, type ItemCheck } from '../check/check-item';
import type { Item } from '../check/checked';
import { type EntrySection, isEntrySection, isPlantSection, isSingleSection } from '../check/item-kinds';
import { identifierMessage } from '../check/key-messages';
import { sectionEmpty, sectionNotMap, unknownSection } from '../check/section-messages';
import type { Problem } from '../problem';
import { IDENTIFIER } from '../schema/identifier';
import { type AllowComment, allowComments } from './comments';
import { isEmpty, type KeyNode, type Node, type Pair } from './nodes';
import { parseChunk } from './parse';
import { quoted } from './say';
import type { Chunk, ChunkParent } from './split';

export type CheckedItem = Item & ItemCheck;

/** All that a chunk's text says, whatever stands around it. Places are relative to the chunk; their file is empty. */
export interface ChunkReading {
  readonly items: readonly CheckedItem[];
  /** The sections it opens, to find one that is opened twice. */
  readonly sections: readonly KeyNode[];
  readonly version: Pair | undefined;
  readonly problems: readonly Problem[];
  readonly comments: readonly AllowComment[];
}

const IDENTIFIER_PATTERN = new RegExp(IDENTIFIER);

export function readChunk(parent: ChunkParent, text: string): ChunkReading {
  return new ChunkReader().read(parent, text);
}

/** A section's heading, whose entries are chunks of their own. */
export function readHeading(text: string, name: string, start: number): ChunkReading {
  const section: KeyNode = { name, isText: true, start, end: start + name.length };
  return {
    items: [],
    sections: [section],
    version: undefined,
    problems: [],
    comments: allowComments(text, undefined),
  };
}

/** Where a chunk's heading stands in its text; undefined where the chunk is read in full. */
export function headingIn(chunk: Chunk): { name: string; start: number } | undefined {
  return chunk.heading && { name: chunk.heading.name, start: chunk.heading.start - chunk.start };
}

class ChunkReader {
  private readonly items: CheckedItem[] = [];
  private readonly sections: KeyNode[] = [];
  private readonly problems: Problem[] = [];
  private version: Pair | undefined;

  read(parent: ChunkParent, text: string): ChunkReading {
    const { root, problems } = parseChunk(text);
    if (root?.kind === 'map') for (const pair of root.pairs) this.pair(parent, pair);
    else if (root && !isEmpty(root)) this.problems.push(notKeyed(parent, root, text));
    return {
      items: this.items,
      sections: this.sections,
      version: this.version,
      // After a syntax error the rest is guesswork: what the schema says of it would only confuse.
      problems: problems.length > 0 ? problems : this.problems,
      comments: allowComments(text, root),
    };
  }

  private pair(parent: ChunkParent, pair: Pair): void {
    const { key, value } = pair;
    const { name } = key;
    if (parent !== 'file' && parent !== 'plant') this.item(parent, pair);
    else if (parent === 'plant' ? isPlantSection(name) : isEntrySection(name) || name === 'plant')
      this.section(name as EntrySection | 'plant', key, value);
    else if (parent === 'file' && isSingleSection(name)) {
      this.sections.push(key);
      this.check({ kind: name, key, value });
    } else if (parent === 'file' && name === 'lotwright') {
      this.sections.push(key);
      this.version ??= pair;
    } else this.problems.push(unknownSection(parent, key));
  }

  private section(name: EntrySection | 'plant', key: KeyNode, value: Node): void {
    this.sections.push(key);
    if (value.kind === 'map') for (const pair of value.pairs) this.pair(name, pair);
    else if (isEmpty(value)) this.problems.push(sectionEmpty(name, key));
    else this.problems.push(sectionNotMap(name, key));
  }

  private item(kind: EntrySection, { key, value }: Pair): void {
    if (!key.isText || !IDENTIFIER_PATTERN.test(key.name))
      this.problems.push({
        code: 'bad-identifier',
        message: identifierMessage(key.name),
        at: { file: '', start: key.start, end: key.end },
        about: `${kind}/${key.name.slice(0, 80)}`,
      });
    this.check({ kind, key, value });
  }

  private check(item: Item): void {
    const checked = checkItem(item);
    this.problems.push(...checked.problems);
    this.items.push({ ...item, ...checked });
  }
}

function notKeyed(parent: ChunkParent, root: Node, text: string): Problem {
  const written = text.slice(root.start, root.end);
  const what = parent === 'file' || parent === 'plant' ? 'a section' : 'an entry';
  return {
    code: 'yaml-syntax',
    message:
      root.kind === 'list'
        ? `A list stands where ${what} is expected: its name, a colon, and below it what belongs to it.`
        : `${quoted(written)} stands alone. ${what === 'a section' ? 'A section' : 'An entry'} is its name, a colon, and below it, indented, what belongs to it.`,
    at: { file: '', start: root.start, end: Math.max(root.end, root.start) },
    about: `alone/${written.slice(0, 40)}`,
  };
}
