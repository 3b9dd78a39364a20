import type { Named } from '../check/checked';
import type { Shape } from '../check/quick-check';
import type { KeyNode, MapNode, Pair } from './nodes';
import { CLOSE_MAP, plainScalar, QuickParser, SPACE } from './quick-parse';

/** A key and a number in braces, and what ends them; words that YAML reads as something else than text are shorter. */
const COUNT = /([A-Za-z][\w-]{5,60}): (\d{1,9}) *[,}]/y;

/** Reads maps of free keys and numbers in braces, as the bins of a fill's lots are written. */
export class CountsParser extends QuickParser {
  /**
   * As `flowMap`, where nothing is wrong and a number stands under every key; what is named goes to `found`. Undefined
   * where anything is otherwise: then the parser stands where it stood.
   */
  protected counts(indent: number, shape: Shape, found: Named[]): MapNode | undefined {
    const { type } = shape.inside;
    if (type !== 'integer' && type !== 'number') return undefined;
    const start = this.at;
    const named = found.length;
    const pairs = this.countsTo(indent, shape, found);
    if (pairs) return { kind: 'map', pairs, areCounts: true, flow: true, start, end: this.at };
    this.at = start;
    found.length = named;
    return undefined;
  }

  /** All pairs up to the closing brace, and past it. */
  private countsTo(indent: number, shape: Shape, found: Named[]): Pair[] | undefined {
    const { text } = this;
    const pairs: Pair[] = [];
    const seen = new Set<string>();
    this.at++;
    for (;;) {
      if (text.charCodeAt(this.at) === SPACE) this.at++;
      const start = this.at;
      COUNT.lastIndex = start;
      const parts = COUNT.exec(text);
      if (parts) {
        const pair = countOf(parts, start, shape);
        if (!pair || seen.has(pair.key.name)) return undefined;
        const { keyRefersTo: section } = shape;
        if (section) found.push({ section, id: pair.key.name, at: pair.key, span: undefined });
        seen.add(pair.key.name);
        pairs.push(pair);
        this.at = COUNT.lastIndex;
        if (text.charCodeAt(this.at - 1) === CLOSE_MAP) return pairs;
      } else {
        // It goes on in the next line, or ends with a comma.
        if (!this.skipInFlow(indent)) return undefined;
        if (this.code() === CLOSE_MAP) {
          this.at++;
          return pairs;
        }
        if (this.at === start) return undefined;
      }
    }
  }
}

/** The pair that was matched; undefined where its key or its number is not as the schema has it. */
function countOf(parts: RegExpExecArray, start: number, shape: Shape): Pair | undefined {
  // Taken one by one: to take a list apart is dear where it is done for every lot of every fill.
  const name = parts[1] as string;
  const number = plainScalar(parts[2] as string);
  if (!number || !shape.isGoodName(name) || !shape.inside.isGoodValue(number.value)) return undefined;
  const { value, raw } = number;
  const end = start + name.length;
  const key: KeyNode = { name, isText: true, start, end };
  // Behind the colon and a space.
  const from = end + 2;
  return { key, value: { kind: 'scalar', value, raw, start: from, end: from + raw.length } };
}
