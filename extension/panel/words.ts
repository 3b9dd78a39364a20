import { english, type Words } from './words-english';

/** The texts in use: English until the page is told others. */
export const say: Words = { ...english };

/** Pixels that the labels of weeks take more than `W09` does. */
export function weekTickWidens(): number {
  return LETTER * Math.max(0, filled(say.weekTick, '').length - 1);
}

/** Pixels of a letter of the axis. */
const LETTER = 9;

/** The language of numbers; in English that of Great Britain. */
let language = 'en-GB';

/** Takes over texts, as the page carries them; what is missing or no text stays English. */
export function useWords(carried: string | undefined, pageLanguage: string): void {
  if (pageLanguage !== '' && pageLanguage !== 'en') language = pageLanguage;
  if (carried === undefined || carried === '') return;
  const given: unknown = JSON.parse(carried);
  if (typeof given !== 'object' || given === null) return;
  const known = new Map<string, unknown>(Object.entries(given));
  for (const key of Object.keys(english) as (keyof Words)[]) {
    const text = known.get(key);
    if (typeof text === 'string' && text !== '') say[key] = text;
  }
}

/** A text with what stands for `{0}`, `{1}` and so on. */
export function filled(text: string, ...values: readonly (string | number)[]): string {
  return text.replace(/\{(\d)\}/g, (_, index) => String(values[Number(index)] ?? ''));
}

/** `2027-W09` as the language has it. */
export function weekName(label = ''): string {
  const [, year, week] = /^(\d+)-W(\d+)$/.exec(label) ?? [];
  return year && week ? filled(say.weekName, year, week) : label;
}

/** `W09` as a label of the axis. */
export function weekTick(label: string): string {
  return label.replace(/^W(?=\d)/, filled(say.weekTick, ''));
}

/** A number with at most so many decimals, and at least so many. */
export function numberText(value: number, most: number, least = 0): string {
  return value.toLocaleString(language, { maximumFractionDigits: most, minimumFractionDigits: least });
}

/** The decimals of a text like `12.30` behind the language's own sign. */
export function withSign(text: string): string {
  const sign = (1.5).toLocaleString(language).charAt(1);
  return sign === '.' ? text : text.replace('.', sign);
}
