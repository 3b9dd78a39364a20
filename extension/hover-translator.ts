/**
 * Hovers and what is said of proposals, in the language of the editor. They are taken line by line: the templates of
 * `finding-translator.ts` under the codes `hover`, what hovers say; `key`, what keys of the plan language mean; and `rule`,
 * what findings are about. A line of which something would stay English stays English, but for its caution. Formulas and
 * all else in backticks stay as they are.
 */

import { isNameOrNumber, type SameEverywhere, shownSame, wholeTexts } from './finding-translator';
import { type Bundle, cautionTranslator, valuesOf } from './translator';

/** Codes whose templates hovers are made of, what is said most of first. */
const CODES = ['hover', 'key', 'rule'] as const;

/** Code in backticks, and what is emphasised; a sign behind a backslash ends neither. */
const SPANS = /`[^`]*`|\*\*(?:\\.|[^*\\])+\*\*|\*(?:\\.|[^*\\])+\*/g;

/** Hovers and proposals kept with their translation; the caret goes over the same ones again and again. */
const MOST_KEPT = 2_000;

/** Told each line that stayed English. */
export type LeftEnglish = (line: string) => void;

export interface HoverTranslator {
  /** Markdown, as hovers are. */
  readonly markdown: (text: string) => string;
  /** Plain text, as what is said of proposals and quantities is. */
  readonly plain: (text: string) => string;
}

/** What translates hovers and proposals; without a bundle they stay as they are. */
export function hoverTranslator(
  bundle: Bundle | undefined,
  language: string,
  isSame: SameEverywhere = isNameOrNumber,
  left?: LeftEnglish,
): HoverTranslator {
  if (!bundle) return { markdown: (text) => text, plain: (text) => text };
  const value = valuesOf(language);
  const whole = wholeTexts(
    bundle,
    (text) => plainText(bundle, text) ?? (isSame(text) ? shownSame(text, value) : undefined),
  );
  const translated = (text: string) => whole(CODES, text);
  const cautions = cautionTranslator(bundle);

  const lines = (line: (text: string) => string | undefined) =>
    kept((text) => {
      const told = text.split('\n').map((one) => {
        const made = line(one);
        if (made === undefined) left?.(one);
        return made ?? one;
      });
      return cautions(told.join('\n'));
    });
  return { markdown: lines((line) => markdownLine(line, translated)), plain: lines(translated) };
}

type Place = [start: number, end: number];

/** A label whose parts at these places are translated each for itself, and where they stand in it then. */
export function partsIn(
  label: string,
  parts: readonly Place[],
  translated: (text: string, at: number) => string,
): { readonly label: string; readonly places: readonly Place[] } {
  const places: Place[] = [];
  let [made, from] = ['', 0];
  for (const [start, end] of parts) {
    made += label.slice(from, start);
    const part = translated(label.slice(start, end), places.length);
    places.push([made.length, made.length + part.length]);
    made += part;
    from = end;
  }
  return { label: made + label.slice(from), places };
}

/** A text that the bundle has without a code and without values: the name of a figure, a title, or what a default is. */
function plainText(bundle: Bundle, text: string): string | undefined {
  if (/^\[/.test(text) || /\{\d\}/.test(text)) return undefined;
  if (Object.hasOwn(bundle, text)) return bundle[text];
  const asDefault = `default: ${text}`;
  return Object.hasOwn(bundle, asDefault) ? bundle[asDefault]?.replace(/^[^:]*: /, '') : undefined;
}

/** A line with its emphasis: each span is a text of its own, and so is what stands between them. */
function markdownLine(line: string, translated: (text: string) => string | undefined): string | undefined {
  const [, start = '', inner = '', end = ''] = /^(\s*(?:- )?)(.*?)(\s*)$/s.exec(line) ?? [];
  const parts: (string | undefined)[] = [];
  let from = 0;
  for (const { 0: span, index } of inner.matchAll(SPANS)) {
    if (span.startsWith('`')) continue;
    const mark = span.startsWith('**') ? '**' : '*';
    parts.push(between(inner.slice(from, index), translated));
    const text = between(span.slice(mark.length, -mark.length), translated);
    parts.push(text === undefined ? undefined : `${mark}${text}${mark}`);
    from = index + span.length;
  }
  parts.push(between(inner.slice(from), translated));
  return parts.some((part) => part === undefined) ? undefined : `${start}${parts.join('')}${end}`;
}

/** Text without emphasis; a colon or an equals sign before it stays. */
function between(text: string, translated: (text: string) => string | undefined): string | undefined {
  const [, start = '', inner = '', end = ''] = /^([\s:=]*)(.*?)(\s*)$/s.exec(text) ?? [];
  if (!/\p{L}|\d/u.test(inner)) return text;
  const told = translated(outsideCode(inner, (part) => part.replace(/\\([\\`*_{}[\]<>#|])/g, '$1')));
  if (told === undefined) return undefined;
  return `${start}${outsideCode(told, (part) => part.replace(/[\\`*_{}[\]<>#|]/g, '\\$&'))}${end}`;
}

function outsideCode(text: string, change: (part: string) => string): string {
  return text
    .split(/(`[^`]*`)/)
    .map((part, at) => (at % 2 === 0 ? change(part) : part))
    .join('');
}

function kept(make: (text: string) => string): (text: string) => string {
  const known = new Map<string, string>();
  return (text) => {
    const found = known.get(text);
    if (found !== undefined) return found;
    if (known.size > MOST_KEPT) known.clear();
    const made = make(text);
    known.set(text, made);
    return made;
  };
}
