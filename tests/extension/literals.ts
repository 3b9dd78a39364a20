/** Words behind which a slash begins a regular expression. */
const BEFORE_PATTERN = /(?<![\w.])(?:return|case|typeof|of|in)\s*$/;

/**
 * The texts that stand in a TypeScript source: string literals, and the pieces of templates between their values.
 * Comments and regular expressions are left out.
 */
export function literalsIn(source: string): string[] {
  const found: string[] = [];
  let at = 0;

  /** From behind a quotation mark to behind the one that ends it. */
  function quoted(mark: string): void {
    let text = '';
    for (; at < source.length && source[at] !== mark; at++) {
      if (source[at] === '\\') at++;
      text += source[at] ?? '';
    }
    at++;
    found.push(text);
  }

  function template(): void {
    let text = '';
    for (; at < source.length && source[at] !== '`'; at++) {
      if (source.startsWith('${', at)) {
        found.push(text);
        text = '';
        at += 2;
        code('}');
        at--;
      } else {
        if (source[at] === '\\') at++;
        text += source[at] ?? '';
      }
    }
    at++;
    found.push(text);
  }

  /** Up to behind the bracket that ends it. */
  function code(end: string): void {
    let depth = 0;
    let last = '';
    while (at < source.length) {
      const sign = source[at] ?? '';
      const skipped = /^(?:\/\/.*|\/\*[\s\S]*?\*\/|\s+)/.exec(source.slice(at, at + 5000))?.[0];
      const pattern =
        /[\w)\]]/.test(last) && !BEFORE_PATTERN.test(source.slice(Math.max(0, at - 12), at))
          ? undefined
          : /^\/(?:\\.|\[(?:\\.|[^\]])*\]|[^/\n\\[])+\/[a-z]*/.exec(source.slice(at, at + 500))?.[0];
      if (skipped !== undefined) {
        at += skipped.length;
        continue;
      }
      if (pattern !== undefined && sign === '/') at += pattern.length;
      else {
        at++;
        if (sign === "'" || sign === '"') quoted(sign);
        else if (sign === '`') template();
        else if (sign === '{') depth++;
        else if (sign === '}' && depth-- === 0 && end === '}') return;
      }
      last = /['"`]/.test(sign) ? ')' : sign;
    }
  }

  code('');
  return found;
}
