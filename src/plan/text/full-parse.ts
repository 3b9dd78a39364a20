import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type ParsedNode,
  parseDocument,
  type Scalar,
  type YAMLParseError,
  type Node as YamlNode,
} from 'yaml';
import type { Problem } from '../problem';
import { deeperLines } from './deeper-lines';
import { featureProblem } from './features';
import { withDeepFirstKey } from './first-key';
import { MOST_DEPTH, tooDeepAt } from './nesting';
import type { KeyNode, Node, Pair, ScalarNode } from './nodes';
import type { ParsedChunk } from './parsed-chunk';
import { syntaxProblem, tooDeep, tooLarge, unclosedProblem } from './syntax-messages';

/** The full YAML reader takes some seconds for this much. UTF-16 code units. */
const MOST_CHUNK = 512 * 1024;
const MOST_PROBLEMS = 5;
const MOST_SYNTAX_PROBLEMS = 2;
const MOST_LINES_COUNTED = 10;
const MOST_ERRORS_COUNTED = 50;
/** Lines can be very long where nobody wrote them. */
const MOST_LOOK_BACK = 300;
const ANY_PROPERTY = /[&!]/;

/** An anchor or a tag as written, and where. */
type Property = readonly [text: string, at: number];

/** Reads a chunk by the full YAML reader, which knows all of YAML and tells what is wrong. Never throws. */
export function fullParse(text: string): ParsedChunk {
  if (text.length > MOST_CHUNK) return { root: undefined, problems: [tooLarge(text)] };
  const deep = tooDeepAt(text);
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
    const first = document.errors.length > 0 ? withDeepFirstKey(text) : undefined;
    if (first) return { root: first.root, problems: [first.problem] };
    return new Converter(text, document).convert();
  } catch {
    // No text is known to bring the reader here; if one does, the rest of the plan is still read.
    return { root: undefined, problems: [tooDeep(0)] };
  }
}

class Converter {
  private readonly problems: Problem[] = [];
  /** Where quotes and brackets open that nothing closes. */
  private readonly unclosed: number[] = [];

  constructor(
    private readonly text: string,
    private readonly document: Document.Parsed<ParsedNode>,
  ) {}

  convert(): ParsedChunk {
    const { contents, errors } = this.document;
    const root = contents ? this.node(contents, 0) : undefined;
    // What is not closed explains the errors behind it; and of the others the first two.
    const syntax =
      errors.length > 0 && this.unclosed.length > 0
        ? this.unclosed.slice(0, MOST_SYNTAX_PROBLEMS).map((start) => unclosedProblem(this.text, start))
        : this.told(errors);
    const wrongLines = errors.length > 0 ? { wrongLines: linesOf(this.text, errors) } : {};
    return { root, problems: [...syntax, ...this.problems], ...wrongLines };
  }

  /** The first errors in words. Of lines that stand too deep one is told; what is said of the others follows from it. */
  private told(errors: readonly YAMLParseError[]): Problem[] {
    const problems: Problem[] = [];
    let behind = -1;
    for (const error of errors) {
      if (problems.length === MOST_SYNTAX_PROBLEMS) break;
      if (error.pos[0] <= behind) continue;
      const deeper = deeperLines(this.text, error);
      problems.push(deeper?.problem ?? syntaxProblem(this.text, error));
      behind = deeper?.end ?? behind;
    }
    return problems;
  }

  private node(node: YamlNode, depth: number): Node {
    const [start, end] = node.range ?? [0, 0];
    if (depth > MOST_DEPTH) {
      this.tell(tooDeep(start));
      return this.broken(start, start);
    }
    this.checkFeatures(node, start);
    if (!isClosed(node, this.text.slice(start, end))) this.unclosed.push(start);
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
    return { key, value: this.node(valueNode as YamlNode, depth) };
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
    const properties = this.propertiesBefore(start);
    if ('anchor' in node && node.anchor) this.tellProperty('anchor', '&', properties, start);
    // The core schema's own tags stand on nodes too; written ones stand in the text.
    if (node.tag && properties.some(([sign]) => sign[0] === '!'))
      this.tellProperty('tag', '!', properties, start);
  }

  private tellProperty(
    feature: 'anchor' | 'tag',
    sign: string,
    properties: readonly Property[],
    start: number,
  ): void {
    const [text, at] = properties.findLast(([written]) => written[0] === sign) ?? ['', start];
    this.tell(featureProblem(feature, at, at + text.length));
  }

  /** Anchors and tags before a node: they stand on the same line or, before a block, on the one above. */
  private propertiesBefore(start: number): Property[] {
    if (!ANY_PROPERTY.test(this.text)) return [];
    const window = this.text.slice(Math.max(0, start - MOST_LOOK_BACK), start);
    const above = window.lastIndexOf('\n', window.lastIndexOf('\n') - 1) + 1;
    const before = window.slice(above);
    const from = start - before.length;
    return [...before.matchAll(/(?<![^\s[{,])[&!]\S*/g)].map((match) => [match[0], from + match.index]);
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

/** How many lines errors stand on, counted up to `MOST_LINES_COUNTED`: of the first, for a line may be long and all of it wrong. */
function linesOf(text: string, errors: readonly YAMLParseError[]): number {
  const starts = new Set<number>();
  for (const { pos } of errors.slice(0, MOST_ERRORS_COUNTED)) {
    starts.add(text.lastIndexOf('\n', pos[0] - 1));
    if (starts.size >= MOST_LINES_COUNTED) break;
  }
  return starts.size;
}

/** Whether a node in quotes or brackets ends with the closing one. */
function isClosed(node: YamlNode, raw: string): boolean {
  if (isScalar(node)) {
    if (node.type === 'QUOTE_DOUBLE') return /^"(?:[^"\\]|\\[\s\S])*"$/.test(raw);
    return node.type !== 'QUOTE_SINGLE' || /^'(?:[^']|'')*'$/.test(raw);
  }
  if (!(isMap(node) || isSeq(node)) || !node.flow) return true;
  return raw.endsWith(isMap(node) ? '}' : ']');
}
