import { checkItem } from '../check/check-item';
import type { Item, ItemCheck } from '../check/checked';
import { type EntrySection, isEntrySection, isPlantSection, isSingleSection } from '../check/item-kinds';
import { identifierMessage } from '../check/key-messages';
import { sectionEmpty, sectionNotMap, unknownSection } from '../check/section-messages';
import type { Problem } from '../problem';
import { MOST_PROBLEMS, ProblemSink } from '../problem-sink';
import { IDENTIFIER } from '../schema/identifier';
import { type AllowComment, allowComments } from './comments';
import { isEmpty, type KeyNode, type Node, type Pair } from './nodes';
import { parseBriefly, parseChunk } from './parse';
import { quickParse } from './quick-parse';
import { asSlip } from './repairs';
import { quoted } from './say';
import { shapedParse } from './shaped-parse';
import type { ChunkParent } from './split';
import { deletingWhole } from './whole-pair';

export type CheckedItem = Item & ItemCheck;

/** All that a chunk's text says, whatever stands around it. Places are relative to the chunk; their file is empty. */
export interface ChunkReading {
  readonly items: readonly CheckedItem[];
  /** The sections it opens, to find one that is opened twice. */
  readonly sections: readonly KeyNode[];
  readonly version: Pair | undefined;
  readonly problems: readonly Problem[];
  /** Problems found beyond those that were put into words. */
  readonly unsaid: number;
  readonly comments: readonly AllowComment[];
}

const IDENTIFIER_PATTERN = new RegExp(IDENTIFIER);

/**
 * Reads a chunk. `brief` is for what stands behind so many problems that nobody will read more: none are put into
 * words, and what the small parser cannot read is left.
 */
export function readChunk(parent: ChunkParent, text: string, brief: boolean): ChunkReading {
  return new ChunkReader(brief).read(parent, text);
}

/**
 * The item of a chunk of one entry in which nothing is wrong, as nearly all are. Undefined for any other, which is read
 * by `readChunk`. It stands until the next one is read: what it is made of is used again.
 */
export function usualEntry(parent: ChunkParent, text: string): CheckedItem | undefined {
  // Comments that speak to the program are found in the tree.
  if (parent === 'file' || parent === 'plant' || text.includes('lotwright')) return undefined;
  const item = shapedParse(parent, text);
  return item && IDENTIFIER_PATTERN.test(item.key.name) ? item : undefined;
}

/** A section's heading, whose entries are chunks of their own. */
export function readHeading(text: string, name: string, start: number): ChunkReading {
  const section: KeyNode = { name, isText: true, start, end: start + name.length };
  return {
    items: [],
    sections: [section],
    version: undefined,
    problems: [],
    unsaid: 0,
    comments: allowComments(text, undefined),
  };
}

class ChunkReader {
  private readonly items: CheckedItem[] = [];
  private readonly sections: KeyNode[] = [];
  private readonly sink: ProblemSink;
  private version: Pair | undefined;

  constructor(private readonly brief: boolean) {
    this.sink = new ProblemSink(brief ? 0 : MOST_PROBLEMS);
  }

  read(parent: ChunkParent, text: string): ChunkReading {
    const parsed = this.brief ? parseBriefly(text) : parseChunk(text);
    const { root } = parsed;
    const problems =
      parsed.problems.length > 0
        ? asSlip(text, parsed, (mended) => foundIn(parent, mended))
        : parsed.problems;
    if (root?.kind === 'map') for (const pair of root.pairs) this.pair(parent, pair);
    else if (root && !isEmpty(root)) this.sink.add(() => notKeyed(parent, root, text));
    // After a syntax error the rest is guesswork: what the schema says of it would only confuse.
    const { problems: told, unsaid } = problems.length > 0 ? { problems, unsaid: 0 } : this.sink;
    return {
      items: this.items,
      sections: this.sections,
      version: this.version,
      problems: deletingWhole(text, told),
      unsaid: this.brief && !root && text.trim() !== '' ? 1 : unsaid,
      comments: this.brief ? [] : allowComments(text, root),
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
    } else this.sink.add(() => unknownSection(parent, key));
  }

  private section(name: EntrySection | 'plant', key: KeyNode, value: Node): void {
    this.sections.push(key);
    if (value.kind === 'map') for (const pair of value.pairs) this.pair(name, pair);
    else if (isEmpty(value)) this.sink.add(() => sectionEmpty(name, key));
    else this.sink.add(() => sectionNotMap(name, key));
  }

  private item(kind: EntrySection, { key, value }: Pair): void {
    if (!key.isText || !IDENTIFIER_PATTERN.test(key.name))
      this.sink.add(() => ({
        code: 'bad-identifier',
        message: identifierMessage(key.name),
        at: { file: '', start: key.start, end: key.end },
        about: `${kind}/${key.name.slice(0, 80)}`,
      }));
    this.check({ kind, key, value });
  }

  private check(item: Item): void {
    const { kind, key, value } = item;
    const { bad, references } = checkItem(item, this.sink);
    this.items.push({ kind, key, value, bad, references });
  }
}

/** What is wrong with a chunk once it is mended; undefined where it cannot be read for certain. */
function foundIn(parent: ChunkParent, mended: string): readonly Problem[] | undefined {
  return quickParse(mended) && new ChunkReader(false).read(parent, mended).problems;
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
