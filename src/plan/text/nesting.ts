/** Plans nest five levels deep; what goes far beyond is an accident or an attack. */
export const MOST_DEPTH = 40;

const LF = 10;
const CR = 13;
const SPACE = 32;

/**
 * Where a text nests too deep for the full YAML reader, which recurses: an exhausted stack cannot always be caught.
 * Counts brackets, levels of indentation, and the dashes, question marks and colons of a line, which can each open a
 * level. Those within quotes count too: no honest plan has that many.
 */
export function tooDeepAt(text: string): number | undefined {
  let brackets = 0;
  /** The open levels by their indents, each with the signs on its line. */
  const open: { indent: number; levels: number }[] = [];
  let depth = 0;
  let lineStart = 0;
  let isIndenting = true;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === LF) {
      lineStart = at + 1;
      isIndenting = true;
    } else if (isIndenting && code !== SPACE && code !== CR) {
      isIndenting = false;
      const indent = at - lineStart;
      for (let last = open.at(-1); last && last.indent >= indent; last = open.at(-1)) {
        depth -= last.levels;
        open.pop();
      }
      open.push({ indent, levels: 1 });
      depth++;
    }
    if (isOpening(code)) brackets++;
    else if (isClosing(code)) brackets = Math.max(0, brackets - 1);
    else if (brackets === 0 && isSign(text, at, code)) {
      depth++;
      const last = open.at(-1);
      if (last) last.levels++;
    }
    if (brackets + depth > 2 * MOST_DEPTH) return at;
  }
  return undefined;
}

function isOpening(code: number): boolean {
  return code === 91 || code === 123;
}

function isClosing(code: number): boolean {
  return code === 93 || code === 125;
}

/** A dash, a question mark or a colon with white space behind it. */
function isSign(text: string, at: number, code: number): boolean {
  if (code !== 45 && code !== 63 && code !== 58) return false;
  const next = text.charCodeAt(at + 1);
  return Number.isNaN(next) || next <= SPACE;
}
