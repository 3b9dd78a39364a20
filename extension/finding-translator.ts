/**
 * Messages of findings in the language of the editor. They are long and made of many parts, so their templates nest.
 *
 * - `"[room-too-leaky] {0} leaks {1}.": "…"` is a template of that code, of a whole message, of a sentence, or of a part
 *   of one that another template has for a value: a clause put behind, `no lot`, `from 2026-W41 on`.
 * - `"[*] {0} bins": "{0} Großkisten"` is one of every code. Those of the code itself go first.
 * - A value is translated by further templates, or it is a name, a number with its unit, a day, a week or something in
 *   backticks, and stays. It may be empty, so `… instead{2}.` fits with and without a clause behind.
 * - A value that the translation has in quotation marks, `„{0}“`, or in backticks is somebody's own words, and stays.
 * - A text that no template fits as it is, is taken sentence by sentence.
 * - A message that names another finding's code may hold that one's message: its templates are tried too.
 *
 * All ways to fit are tried until one leaves nothing in English. A message for which there is none stays English as a
 * whole, but for its cautions: half a sentence in each language would help nobody.
 */

import { aroundCaution, type Bundle, severalSentences, trimmed, valuesOf } from './translator';

/** Says of a value that no template fits whether it is the same in every language. */
export type SameEverywhere = (value: string) => boolean;

/** A template's letters and, as numbers, its values. */
type Piece = string | number;

interface Template {
  readonly pieces: readonly Piece[];
  readonly translation: string;
  /** Values that are somebody's own words. */
  readonly own: ReadonlySet<number>;
  /** Letters of the template itself: what says more goes first. */
  readonly weight: number;
}

interface Templates {
  readonly exact: ReadonlyMap<string, string>;
  readonly withValues: readonly Template[];
}

type Given = ReadonlyMap<number, string>;

/** Messages kept with their translation: a list of findings is told again after every key. */
const MOST_KEPT = 5_000;

/** A message in full or, where something of it would stay English, undefined. */
export function wholeFindings(
  bundle: Bundle,
  language: string,
  isSame: SameEverywhere = isNameOrNumber,
): (code: string, message: string) => string | undefined {
  const value = valuesOf(language);
  const whole = wholeTexts(bundle, (text) => (isSame(text) ? shownSame(text, value) : undefined));
  return (code, message) => {
    const named = [...message.matchAll(/[a-z]+(?:-[a-z]+)+/g)].map(([other]) => other);
    return whole([code, ...named], message);
  };
}

/**
 * A text in full by the templates of some codes and of every code or, where something of it would stay English, undefined.
 * `same` gives what no template fits as the language has it, if it is the same in every language.
 */
export function wholeTexts(
  bundle: Bundle,
  same: (text: string) => string | undefined,
): (codes: readonly string[], text: string) => string | undefined {
  const byCode = templatesByCode(bundle);
  const cautions = severalSentences(bundle);
  return (codes, text) => {
    const lists = [...new Set([...codes, '*'])].flatMap((code) => byCode.get(code) ?? []);
    const translated = textTranslator(lists, bundle, same);
    // A caution is never part of anything else that is said.
    const parts = (aroundCaution(text, cautions) ?? [text]).map(translated);
    return parts.some((part) => part === undefined) ? undefined : parts.join('');
  };
}

/** What translates a finding's message, and what stands beside it: titles of its fixes, words about related places. */
export function findingTranslator(
  bundle: Bundle | undefined,
  language: string,
): (code: string, message: string) => string {
  if (!bundle) return (_code, message) => message;
  const cautions = severalSentences(bundle);
  const whole = wholeFindings(bundle, language);
  const kept = new Map<string, string>();
  const made = (code: string, message: string): string => {
    const text = whole(code, message);
    if (text !== undefined) return text;
    const parted = aroundCaution(message, cautions);
    if (!parted) return message;
    return parted.map(trimmed((part) => whole(code, part) ?? part)).join('');
  };
  return (code, message) => {
    const key = `${code} ${message}`;
    const known = kept.get(key);
    if (known !== undefined) return known;
    if (kept.size > MOST_KEPT) kept.clear();
    const text = made(code, message);
    kept.set(key, text);
    return text;
  };
}

/** Translates one message, and remembers what its parts came to: they are looked at in many ways to fit. */
function textTranslator(
  lists: readonly Templates[],
  bundle: Bundle,
  same: (text: string) => string | undefined,
): (text: string) => string | undefined {
  const known = new Map<string, string | undefined>();

  function translated(text: string): string | undefined {
    const inner = text.trim();
    if (inner === '') return text;
    if (!known.has(inner)) known.set(inner, made(inner));
    const found = known.get(inner);
    if (found === undefined || inner === text) return found;
    const at = text.indexOf(inner);
    return text.slice(0, at) + found + text.slice(at + inner.length);
  }

  /** Sentences first: a template that spans several is rare, and to try all on a long text takes its time. */
  function made(text: string): string | undefined {
    return exact(text) ?? bySentence(text) ?? byTemplate(text) ?? same(text);
  }

  function exact(text: string): string | undefined {
    for (const list of lists) {
      const found = list.exact.get(text);
      if (found !== undefined) return found;
    }
    // Cautions stand in the bundle by themselves.
    return /[.] [A-Z].*[.]$/.test(text) && Object.hasOwn(bundle, text) ? bundle[text] : undefined;
  }

  function byTemplate(text: string): string | undefined {
    for (const { withValues } of lists) {
      for (const template of withValues) {
        if (!isLikely(template.pieces, text)) continue;
        const given = fitted(template.pieces, 0, text, (part, index) => {
          if (template.own.has(index)) return part;
          return part === text ? undefined : translated(part);
        });
        if (given) return template.translation.replace(/\{(\d)\}/g, (_, at) => given.get(Number(at)) ?? '');
      }
    }
    return undefined;
  }

  /** The first sentence, or the first few, and the rest. */
  function bySentence(text: string): string | undefined {
    for (const { index } of text.matchAll(/(?<=[.!?)]) (?=\S)/g)) {
      const first = translated(text.slice(0, index));
      const rest = first === undefined ? undefined : translated(text.slice(index + 1));
      if (rest !== undefined) return `${first} ${rest}`;
    }
    return undefined;
  }

  return translated;
}

/** The values, translated, with which the pieces from `at` on make the text; undefined where they cannot. */
function fitted(
  pieces: readonly Piece[],
  at: number,
  text: string,
  translated: (part: string, index: number) => string | undefined,
): Given | undefined {
  const piece = pieces[at];
  if (piece === undefined) return text === '' ? new Map() : undefined;
  if (typeof piece === 'string')
    return text.startsWith(piece) ? fitted(pieces, at + 1, text.slice(piece.length), translated) : undefined;
  for (const end of endsOfValue(pieces[at + 1], text)) {
    const value = translated(text.slice(0, end), piece);
    const rest = value === undefined ? undefined : fitted(pieces, at + 1, text.slice(end), translated);
    if (value !== undefined && rest) return new Map([...rest, [piece, value]]);
  }
  return undefined;
}

/** Where a value can end: before each place of the letters that follow it; before another value, which may be empty, as late as can be. */
function* endsOfValue(next: Piece | undefined, text: string): Iterable<number> {
  if (next === undefined) yield text.length;
  else if (typeof next === 'number') for (let end = text.length; end >= 0; end--) yield end;
  else for (let end = text.indexOf(next); end >= 0; end = text.indexOf(next, end + 1)) yield end;
}

function templatesByCode(bundle: Bundle): ReadonlyMap<string, Templates> {
  const byCode = new Map<string, { exact: Map<string, string>; withValues: Template[] }>();
  for (const [english, translation] of Object.entries(bundle)) {
    const [, code, text] = /^\[([a-z-]+|\*)\] (.+)$/s.exec(english) ?? [];
    if (code === undefined || text === undefined) continue;
    const list = byCode.get(code) ?? { exact: new Map<string, string>(), withValues: [] };
    byCode.set(code, list);
    if (/\{\d\}/.test(text)) list.withValues.push(templateOf(text, translation));
    else list.exact.set(text, translation);
  }
  for (const { withValues } of byCode.values()) withValues.sort((a, b) => b.weight - a.weight);
  return byCode;
}

function templateOf(english: string, translation: string): Template {
  const pieces = english
    .split(/(\{\d\})/)
    .filter((piece) => piece !== '')
    .map((piece): Piece => (/^\{\d\}$/.test(piece) ? Number(piece[1]) : piece));
  return {
    pieces,
    translation,
    own: new Set([...translation.matchAll(/[\u201e`]\{(\d)\}[\u201c`]/g)].map(([, index]) => Number(index))),
    weight: english.replace(/\{\d\}/g, '').length,
  };
}

/** Whether the letters of a template stand in a text, in their order: most templates are ruled out at once. */
function isLikely(pieces: readonly Piece[], text: string): boolean {
  const [first] = pieces;
  const last = pieces.at(-1);
  if (typeof first === 'string' && !text.startsWith(first)) return false;
  if (typeof last === 'string' && !text.endsWith(last)) return false;
  let from = 0;
  for (const piece of pieces) {
    if (typeof piece === 'number') continue;
    const at = text.indexOf(piece, from);
    if (at < 0) return false;
    from = at + piece.length;
  }
  return true;
}

/** What stands in backticks or quotation marks is the plan's own; numbers, days and weeks are written as the language has them. */
export function shownSame(text: string, value: (text: string) => string): string {
  return /^[`"]/.test(text) ? text : value(text);
}

const UNIT =
  /^(?:%|\u00b0C|\u00b0F|K|\u00b0|mm|cm|m|m\u00b2|m\u00b3|m3|in|ft|ft\u00b2|ft\u00b3|ft3|L|g|kg|t|lb|lbf|kgf|oz|ton|tons|N|h|min|s|ppm|kPa|Pa|inH2O|W|kW|TR|hp|kJ|MJ|kWh|m\u00b3\/h|m3\/h|ft\u00b3\/h|ft\u00b3\/min|ft3\/min|cfm|kg\/day|lb\/day|kg\/h|lb\/h|BTU\/h|RH|W\/m2K|kJ\/kgK|kg\/m3|lb\/ft3|J\/mg|BTU\/hft2\u00b0F|BTU\/lb\u00b0F|mg\/kg\/h|ng\/kg\/s\/Pa)$/u;

/**
 * One word may be an identifier of the plan; several are a name where each is written with a capital letter or holds a
 * digit, as *Red Delicious* and *R 12* are, or an amount, `1,200.5 kg/day`.
 */
export function isNameOrNumber(text: string): boolean {
  if (/^`[^`]+`$|^"[^"]+"$/.test(text)) return true;
  const words = text.split(' ');
  if (words.length === 1)
    return (
      /^[\p{L}\p{N}][\p{L}\p{N}._/:%\u00b0\u00b2\u00b3-]*$|^[\p{N}\u2013-][\p{N}.,\u2013-]*\p{L}*$/u.test(
        text,
      ) && !/[.:,]$/.test(text)
    );
  const isWritten = (word: string) =>
    /^[\p{Lu}\d+\u2013-][\p{L}\p{N}.'\u2019/,:\u2013-]*$/u.test(word) && !/[.:,]$/.test(word);
  const joins = new Set(['&', 'de']);
  return words.every((word, at) => isWritten(word) || (at > 0 && (UNIT.test(word) || joins.has(word))));
}
