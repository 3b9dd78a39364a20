/**
 * Texts that the language server sends, in the language of the editor. The server speaks English, as the command line
 * does; what it says in the editor is translated here by its templates: `Opens {0}` stands in the bundle with its
 * translation, and fits whatever text the server makes of it. A text that no template fits is taken apart into its
 * sentences and clauses; what is left then stays as it is. Names of the plan are never touched.
 */

/** English texts, with `{0}` for what differs, and their translations. */
export type Bundle = Readonly<Record<string, string>>;

interface Template {
  readonly pattern: RegExp;
  readonly order: readonly number[];
  /** The letter it begins with; empty where it begins with a value. */
  readonly start: string;
  readonly translation: string;
  /** Letters of the template itself: what says more goes first. */
  readonly weight: number;
}

/** What joins the clauses of a sentence, the strongest first. */
const JOINS = [' · ', '; ', ': ', ', '] as const;

/** Texts kept with their translation; a season's view has a few thousand. */
const MOST_KEPT = 20_000;

/** Told each part of a text that nothing translated, after it was taken apart. */
export type Untranslated = (part: string) => void;

/** What translates a text. Without a bundle, or in English, texts stay as they are. */
export function translator(
  bundle: Bundle | undefined,
  language: string,
  left?: Untranslated,
): (text: string) => string {
  if (!bundle) return (text) => text;
  const values = valuesOf(language);
  const templates = Object.entries(bundle)
    // What begins with a code is of findings, `finding-translator.ts`.
    .filter(([english]) => !english.startsWith('['))
    // What has no word of its own, as `{0}-W{1}`, would fit anything.
    .filter(([english]) => /\{\d\}/.test(english) && /\p{L}{2}/u.test(english.replace(/\{\d\}/g, ' ')))
    .map(([english, translation]) => templateOf(english, translation))
    .sort((a, b) => b.weight - a.weight);
  const byStart = byFirstLetter(templates);
  const cautions = severalSentences(bundle);
  const kept = new Map<string, string>();

  function translated(text: string): string {
    const known = kept.get(text);
    if (known !== undefined) return known;
    if (kept.size > MOST_KEPT) kept.clear();
    const made = exact(text) ?? byTemplate(text) ?? apart(text);
    kept.set(text, made);
    return made;
  }

  function exact(text: string): string | undefined {
    return Object.hasOwn(bundle ?? {}, text) ? bundle?.[text] : undefined;
  }

  function byTemplate(text: string): string | undefined {
    for (const template of byStart(text.charAt(0))) {
      const found = template.pattern.exec(text);
      if (!found) continue;
      const given = new Map(template.order.map((index, at) => [index, found[at + 1] ?? '']));
      return template.translation.replace(/\{(\d)\}/g, (_, index) =>
        translated(given.get(Number(index)) ?? ''),
      );
    }
    return undefined;
  }

  /** Cautions of several sentences as a whole, then sentences, then clauses: each is a text of its own. */
  function apart(text: string): string {
    const parted = aroundCaution(text, cautions);
    if (parted) return parted.map(trimmed(translated)).join('');
    const sentences = text.split(/(?<=[.!?]) +/);
    if (sentences.length > 1) return sentences.map(translated).join(' ');
    if (/[^.]\.$/.test(text)) return `${translated(text.slice(0, -1))}.`;
    const bracketed = /^(.+) \((.+)\)$/.exec(text);
    if (bracketed) return `${translated(bracketed[1] ?? '')} (${translated(bracketed[2] ?? '')})`;
    const marked = /^\u25b2 (.+)$/.exec(text);
    if (marked) return `▲ ${translated(marked[1] ?? '')}`;
    const join = JOINS.find((one) => text.includes(one));
    if (join) return text.split(join).map(translated).join(join);
    const value = values(text);
    if (value === text && /[a-z]{2}/.test(text)) left?.(text);
    return value;
  }

  return translated;
}

/**
 * What puts the cautions of a longer text, of a page or a hover, into the language; the rest stays as it is. Lines may
 * end within a caution, and go on as a quotation.
 */
export function cautionTranslator(bundle: Bundle | undefined): (text: string) => string {
  if (!bundle) return (text) => text;
  const all = severalSentences(bundle).map((english) => {
    const words = english.split(' ').map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
    return {
      pattern: new RegExp(words.join('(?:[ \\t]|\\r?\\n(?:> ?)?)+'), 'g'),
      translation: bundle[english] ?? english,
    };
  });
  return (text) =>
    all.reduce((told, { pattern, translation }) => told.replace(pattern, () => translation), text);
}

/** Texts without values that are more than one sentence: cautions, which the server puts behind other texts. */
export function severalSentences(bundle: Bundle): string[] {
  return Object.keys(bundle).filter((english) => /[.] [A-Z].*[.]$/.test(english) && !/\{\d\}/.test(english));
}

/** The text before a caution, the caution, and the text behind it; undefined where there is none, or nothing else. */
export function aroundCaution(text: string, cautions: readonly string[]): string[] | undefined {
  const caution = cautions.find((one) => text.includes(one) && text.length > one.length);
  if (caution === undefined) return undefined;
  const at = text.indexOf(caution);
  return [text.slice(0, at), caution, text.slice(at + caution.length)];
}

/** Spaces at the ends stay. */
export function trimmed(translate: (text: string) => string): (text: string) => string {
  return (text) => {
    const inner = text.trim();
    if (inner === '') return text;
    const at = text.indexOf(inner);
    return `${text.slice(0, at)}${translate(inner)}${text.slice(at + inner.length)}`;
  };
}

/** The templates that a text with this first letter could fit, those that say most first. */
function byFirstLetter(templates: readonly Template[]): (letter: string) => readonly Template[] {
  const known = new Map<string, readonly Template[]>();
  return (letter) => {
    const found = known.get(letter) ?? templates.filter(({ start }) => start === '' || start === letter);
    known.set(letter, found);
    return found;
  };
}

/** What stands for `{0}` goes over no join and no end of a sentence, so that a template takes no more than its clause. */
const VALUE = '((?:(?!, |; |: | · |[.!?] |[.]$).)+)';

function templateOf(english: string, translation: string): Template {
  const order: number[] = [];
  const source = english.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/\\\{(\d)\\\}/g, (_, index) => {
    order.push(Number(index));
    return VALUE;
  });
  return {
    pattern: new RegExp(`^${source}$`, 'u'),
    order,
    start: /^\{\d\}/.test(english) ? '' : english.charAt(0),
    translation,
    weight: english.replace(/\{\d\}/g, '').length,
  };
}

/** Numbers, days, weeks and amounts a day as the language writes them; `12,345.6`, `2026-09-08` and `2027-W09` are as the server has them. */
export function valuesOf(language: string): (text: string) => string {
  if (!language.startsWith('de')) return (text) => text;
  return (text) =>
    text
      .replace(/(?<=\d (?:kg|lb))\/day\b/g, '/Tag')
      .replace(/(?<![\w-])(\d{4})-W(\d\d)(?![\w-])/g, 'KW $2/$1')
      .replace(/(?<![\w-])(\d{4})-(\d\d)-(\d\d)(?![\w-])/g, '$3.$2.$1')
      .replace(
        /(?<![\w.,/]|[\w.,/]-)\d{1,3}(?:,\d{3})+(?:\.\d+)?(?!\w|[.,]\d)|(?<![\w.,/]|[\w.,/]-)\d+\.\d+(?!\w|[.,]\d)/g,
        (number) => number.replace(/[.,]/g, (sign) => (sign === '.' ? ',' : '.')),
      );
}
