import { contentEnd, lineOf } from './masked';
import { quoted } from './say';
import { cut, insert, type Slip } from './slip';

/** Text that begins with a sign which YAML keeps for itself. */
const KEPT_SIGN = /^[@`%&*!|>?,]/;
/** A value behind its key, in a block or in braces. */
const VALUE = /(^ *(?:- +)?|[{,] *)([^\s:#{}[\],"'-][^:#{}[\],]*: +)([^\s"'[{#][^#]*)/g;

/** Text that has to stand in quotes, which it does not: a colon and a space in it, or a sign at its start. */
export function unquotedSlips(text: string, mask: string, at: number): Slip[] {
  const span = lineOf(text, at);
  const line = mask.slice(span.start, contentEnd(mask, span));
  const isFlow = /^[^:]*: *\{/.test(line) || isInBraces(mask, span.start);
  const slips: Slip[] = [];
  for (const match of line.matchAll(isFlow ? flowValue() : VALUE)) {
    const [, before = '', key = '', written = ''] = match;
    const start = span.start + match.index + before.length + key.length;
    const end = start + written.trimEnd().length;
    const value = text.slice(start, end);
    const sign = KEPT_SIGN.exec(value)?.[0];
    if (!sign && !/:(?:\s|$)/.test(value)) continue;
    slips.push({
      message: sign
        ? `Text cannot begin with \`${sign === '`' ? "'" : sign}\` unless it stands in quotes.`
        : 'A colon with a space behind it begins a value, and this line has two. Put text that has one in quotes.',
      start,
      end: sign ? start + 1 : end,
      repairs: [[{ start, end, newText: `'${value.replaceAll("'", "''")}'` }]],
      title: 'Put the text in quotes',
      isCertain: !isFlow,
      ...(isFlow || sign ? {} : newLine(text, span.start, start, value)),
    });
  }
  return slips;
}

function isInBraces(mask: string, at: number): boolean {
  const before = (sign: string) => (at > 0 ? mask.lastIndexOf(sign, at - 1) : -1);
  return Math.max(before('{'), before('[')) > Math.max(before('}'), before(']'));
}

/** The key before a second colon may be one whose line was joined with the one above. */
function newLine(text: string, lineStart: number, start: number, value: string): Pick<Slip, 'instead'> {
  const found = /( +)([\w.-]+) *:(?:\s|$)/.exec(value);
  if (!found) return {};
  const [, blanks = '', key = ''] = found;
  const [lead = ''] = /^ *(?:- +)?/.exec(text.slice(lineStart, start)) ?? [];
  const end = /\r?\n/.exec(text)?.[0] ?? '\n';
  const at = start + found.index;
  return {
    instead: {
      repair: [{ start: at, end: at + blanks.length, newText: `${end}${' '.repeat(lead.length)}` }],
      hint: ` Where ${quoted(key)} is a key, begin a new line before it.`,
    },
  };
}

/** In braces a value ends at a comma or a brace. */
function flowValue(): RegExp {
  return /([{,] *|^ +)([^\s:#{}[\],"'-][^:#{}[\],]*: +)([^\s"'[{#][^#,{}[\]]*)/g;
}

/** A quote that is not closed: what it opens ends with its line or, in braces, with the next comma. */
export function unclosedQuote(text: string, mask: string, at: number): Slip | undefined {
  const quote = text[at];
  if (quote !== '"' && quote !== "'") return undefined;
  const end = contentEnd(mask, lineOf(text, at));
  const written = text.slice(at + 1, end);
  const twice = quote === "'" ? written.indexOf("''") : -1;
  const comma = written.search(/[,}\]]/);
  const ends = [written, ...(comma < 0 ? [] : [written.slice(0, comma).trimEnd()])];
  const places = new Set(ends.map((content) => at + 1 + content.length));
  return {
    message: `This quote is not closed. Add the closing \`${quote}\`.`,
    start: at,
    end: at + 1,
    repairs:
      twice >= 0
        ? [[cut(at + 1 + twice, at + 2 + twice)]]
        : [...places].map((place) => [insert(place, quote)]),
    title: twice >= 0 ? 'Close it with one quote' : `Add the closing \`${quote}\``,
    isCertain: true,
  };
}
