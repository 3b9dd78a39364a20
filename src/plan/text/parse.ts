import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type ParsedNode,
  parseDocument,
  type Scalar,
  type Node as YamlNode,
} from 'yaml';
import type { Problem } from '../problem';
import { featureProblem } from './features';
import type { KeyNode, Node, Pair, ScalarNode } from './nodes';
import { quickParse } from './quick-parse';
import { syntaxProblem, tooDeep, tooLarge } from './syntax-messages';

/** Plans nest five levels deep; what goes far beyond is an accident or an attack. */
const MOST_DEPTH = 40;
/** The YAML reader takes about a second for this much. UTF-16 code units. */
const MOST_CHUNK = 2 * 1024 * 1024;
const MOST_PROBLEMS = 5;

export interface ParsedChunk {
  /** Undefined where there is nothing, or nothing could be read. */
  readonly root: Node | undefined;
  /** Places are relative to the chunk; their file is empty. */
  readonly problems: readonly Problem[];
}

/** Reads a chunk's YAML. Never throws. */
export function parseChunk(text: string): ParsedChunk {
  const root = quickParse(text);
  return root ? { root, problems: [] } : fullParse(text);
}

/** The same by the full YAML reader, which knows all of YAML and tells what is wrong. */
export function fullParse(text: string): ParsedChunk {
  if (text.length > MOST_CHUNK) return { root: undefined, problems: [tooLarge(text)] };
  const deep = bracketTooDeep(text);
  if (deep !== undefined) return { root: undefined, problems: [tooDeep(deep)] };
  try {
    const document = parseDocument(text, {
      version: '1.2',
      schema: 'core',
      merge: false,
      uniqueKeys: false,
      prettyErrors: false,
      logLevel: 'error',
    });
    return new Converter(text, document).convert();
  } catch {
    // The reader recurses: nesting that brackets do not show can exhaust the stack.
    return { root: undefined, problems: [tooDeep(0)] };
  }
}

/** Where brackets nest too deep. Brackets within quotes count too: no honest plan has that many. */
function bracketTooDeep(text: string): number | undefined {
  let depth = 0;
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === 91 || code === 123) {
      if (++depth > MOST_DEPTH) return index;
    } else if (code === 93 || code === 125) depth = Math.max(0, depth - 1);
  }
  return undefined;
}

class Converter {
  private readonly problems: Problem[] = [];

  constructor(
    private readonly text: string,
    private readonly document: Document.Parsed<ParsedNode>,
  ) {}

  convert(): ParsedChunk {
    const { contents, errors } = this.document;
    for (const error of errors.slice(0, MOST_PROBLEMS)) this.problems.push(syntaxProblem(this.text, error));
    const root = contents ? this.node(contents, 0) : undefined;
    return { root, problems: this.problems };
  }

  private node(node: YamlNode, depth: number): Node {
    const [start, end] = node.range ?? [0, 0];
    if (depth > MOST_DEPTH) {
      this.tell(tooDeep(start));
      return this.broken(start, start);
    }
    this.checkFeatures(node, start);
    if (isScalar(node)) return this.scalar(node, start, end);
    if (isSeq(node)) {
      const items = node.items.map((item) => this.node(item as YamlNode, depth + 1));
      return { kind: 'list', items, flow: node.flow === true, start, end: this.endOf(node, items, end) };
    }
    if (isMap(node)) {
      const pairs = node.items.map((pair) => this.pair(pair.key as YamlNode, pair.value, depth + 1));
      const ends = pairs.map(({ key, value }) => ({ end: Math.max(key.end, value.end) }));
      return { kind: 'map', pairs, flow: node.flow === true, start, end: this.endOf(node, ends, end) };
    }
    if (isAlias(node)) this.tell(featureProblem('alias', start, end));
    return this.broken(start, end);
  }

  private pair(keyNode: YamlNode, valueNode: unknown, depth: number): Pair {
    const key = this.key(keyNode);
    if (!valueNode) return { key, value: this.broken(key.end, key.end) };
    const value = this.node(valueNode as YamlNode, depth);
    // An empty value has its place right behind the colon.
    return { key, value };
  }

  private key(node: YamlNode): KeyNode {
    const [start, end] = node.range ?? [0, 0];
    this.checkFeatures(node, start);
    if (!isScalar(node)) {
      this.tell(featureProblem(isAlias(node) ? 'alias' : 'key', start, end));
      return { name: this.text.slice(start, end).slice(0, 80), isText: false, start, end };
    }
    const isText = typeof node.value === 'string';
    const name = isText ? (node.value as string) : this.text.slice(start, end);
    if (name === '<<' && node.type === 'PLAIN') this.tell(featureProblem('merge', start, end));
    return { name, isText, start, end };
  }

  private scalar(node: Scalar, start: number, end: number): ScalarNode {
    const { value } = node;
    const isPlain = value === null || ['string', 'number', 'boolean'].includes(typeof value);
    return {
      kind: 'scalar',
      value: isPlain ? (value as ScalarNode['value']) : null,
      raw: this.text.slice(start, end),
      start,
      end,
    };
  }

  private checkFeatures(node: YamlNode, start: number): void {
    if ('anchor' in node && node.anchor)
      this.tell(featureProblem('anchor', this.propertyAt('&', start), start));
    // The core schema's own tags are not kept on a node unless they were written.
    if (node.tag && this.propertyAt('!', start) < start)
      this.tell(featureProblem('tag', this.propertyAt('!', start), start));
  }

  /** Where the anchor or tag before a node begins: it stands on the same line or, before a block, on the one above. */
  private propertyAt(sign: '&' | '!', start: number): number {
    const from = this.text.lastIndexOf('\n', this.text.lastIndexOf('\n', start - 1) - 1) + 1;
    const found = this.text.slice(from, start).lastIndexOf(sign);
    return found < 0 ? start : from + found;
  }

  private endOf(node: { flow?: boolean }, parts: readonly { end: number }[], end: number): number {
    return node.flow ? end : (parts.at(-1)?.end ?? end);
  }

  private broken(start: number, end: number): ScalarNode {
    return { kind: 'scalar', value: null, raw: this.text.slice(start, end), start, end };
  }

  private tell(problem: Problem): void {
    if (this.problems.length < MOST_PROBLEMS) this.problems.push(problem);
  }
}
