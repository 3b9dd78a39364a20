import { withoutMark } from '../../plan/byte-order-mark';

/** Content lines of iCalendar, RFC 5545 section 3.1. */

/** Octets on a line, its end aside. */
const MOST_OCTETS = 75;

/** A property: its name with its parameters, and its value as it stands in the file. */
export type Property = readonly [name: string, value: string];

export function linesText(properties: readonly Property[]): string {
  return properties.map(([name, value]) => `${folded(`${name}:${value}`)}\r\n`).join('');
}

/** A line of more than 75 octets goes on in the next, after a space; no character is cut in two. */
function folded(line: string): string {
  const parts: string[] = [];
  let [part, octets] = ['', 0];
  for (const letter of line) {
    const size = octetsOf(letter);
    if (octets + size > MOST_OCTETS) {
      parts.push(part);
      // The space at the beginning of the line counts too.
      [part, octets] = ['', 1];
    }
    part += letter;
    octets += size;
  }
  return [...parts, part].join('\r\n ');
}

function octetsOf(letter: string): number {
  const point = letter.codePointAt(0) ?? 0;
  if (point < 0x80) return 1;
  if (point < 0x800) return 2;
  return point < 0x10000 ? 3 : 4;
}

/** A text as a value. Characters that a calendar has no way to write are left out; halves of pairs are replaced. */
export function textValue(text: string): string {
  return text
    .replace(/\r\n?/g, '\n')
    .replace(/\p{Surrogate}/gu, '\uFFFD')
    .replace(/[^\P{Control}\n\t]/gu, '')
    .replace(/[\\;,]/g, '\\$&')
    .replaceAll('\n', '\\n');
}

/** A value as the text it stands for. */
export function valueText(value: string): string {
  return value.replace(/\\([\\;,nN])/g, (_, letter: string) =>
    letter.toLowerCase() === 'n' ? '\n' : letter,
  );
}

/** The properties of a file, folded lines joined; lines that are none are left out. */
export function propertiesOf(text: string): Property[] {
  const lines = withoutMark(text)
    .replace(/\r?\n[ \t]/g, '')
    .split(/\r?\n/);
  return lines.flatMap((line): Property[] => {
    const match = /^([A-Za-z0-9-]+(?:;(?:"[^"]*"|[^":])*)?):(.*)$/s.exec(line);
    return match ? [[match[1] ?? '', match[2] ?? '']] : [];
  });
}
