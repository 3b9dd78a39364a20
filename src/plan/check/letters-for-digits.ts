/** Letters that are typed for a digit that looks like them. */
const LIKE_DIGITS: Readonly<Record<string, string>> = { O: '0', o: '0', l: '1', I: '1' };

/** `12O` as `120`. */
export function digitsOf(text: string): string {
  return text.replace(/[OolI]/g, (letter) => LIKE_DIGITS[letter] ?? letter);
}

/** `080` as `80`; the nought before a point stays. */
export function withoutNoughts(number: string): string {
  return number.replace(/^([+-]?)0+(?=\d)/, '$1');
}
