/** Characters that look like a space and are none to YAML, and those that cannot be seen at all, for patterns. */
export const WIDE = '\\u00a0\\u1680\\u2000-\\u200a\\u202f\\u205f\\u3000';
export const NO_WIDTH = '\\u00ad\\u200b-\\u200d\\u2060\\ufeff';
export const ODD = `[${WIDE}${NO_WIDTH}]`;

const EACH_ODD = new RegExp(ODD, 'g');

/** Its number as it is looked up: `U+00A0`. */
export function numberOf(sign: string): string {
  return `U+${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
}

/** A text with such characters by their numbers, so that it does not look like the one that is meant. */
export function withOddShown(text: string): string {
  return text.replace(EACH_ODD, (sign) => `[${numberOf(sign)}]`);
}
