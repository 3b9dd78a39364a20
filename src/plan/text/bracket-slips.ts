import { contentEnd, lineOf } from './masked';
import { quoted } from './say';
import { cut, insert, type Slip } from './slip';

const CLOSING: Readonly<Record<string, string>> = { '{': '}', '[': ']' };

/** Slips with brackets: one that is not closed, closes nothing or is of the other kind, and what stands behind one. */
export function bracketSlips(text: string, mask: string): Slip[] {
  const open: number[] = [];
  for (const { index, 0: sign } of mask.matchAll(/[{}[\]]/g)) {
    if (CLOSING[sign]) {
      open.push(index);
      continue;
    }
    const last = open.at(-1);
    if (last === undefined) return [closesNothing(mask, index, sign)];
    if (sign !== CLOSING[text[last] ?? '']) return wrongKind(text, last, index, open);
    open.pop();
    if (open.length === 0) {
      const behind = behindBracket(text, mask, index);
      if (behind) return [behind];
    }
  }
  return open.length > 0 ? [notClosed(text, mask, open)] : [];
}

function closesNothing(mask: string, at: number, sign: string): Slip {
  const opening = sign === '}' ? '{' : '[';
  const before = mask.slice(0, at).trimEnd().length;
  return {
    message: `This \`${sign}\` closes nothing: no \`${opening}\` before it is left to be closed.`,
    start: at,
    end: at + 1,
    repairs: [[cut(before, at + 1)]],
    isOfWhole: true,
  };
}

/** What stands behind a bracket that is closed, up to a comment. */
function behindBracket(text: string, mask: string, close: number): Slip | undefined {
  const line = lineOf(text, close);
  const end = contentEnd(mask, line);
  const rest = mask.slice(close + 1, end);
  const start = close + 1 + rest.length - rest.trimStart().length;
  if (start >= end || mask[start] === ':') return undefined;
  const written = text.slice(start, end);
  // A word may have been meant for something; a sign was not.
  const isSign = /^[\s,;}\].]+$/.test(written);
  return {
    message: `${quoted(written)} stands behind the closing \`${text[close]}\`, where the value ends. Only a comment may follow it.`,
    start,
    end,
    repairs: [[cut(close + 1, end)]],
    isCertain: true,
    isOfWhole: true,
    ...(isSign ? { title: `Delete ${quoted(written)}` } : {}),
  };
}

/** A bracket closed by one of the other kind, or with one that is open within it. */
function wrongKind(text: string, opened: number, at: number, open: readonly number[]): Slip[] {
  const sign = text[at] ?? '';
  const right = CLOSING[text[opened] ?? ''] ?? '';
  const other = open.findLast((one) => CLOSING[text[one] ?? ''] === sign);
  const missing: Slip = {
    message: `This \`${text[opened]}\` is not closed. Add the closing \`${right}\`.`,
    start: opened,
    end: opened + 1,
    repairs: [[insert(text.slice(0, at).trimEnd().length, right)]],
    title: `Add the closing \`${right}\``,
    isCertain: true,
    isOfWhole: true,
  };
  const wrong: Slip = {
    message: `A \`${text[opened]}\` is closed by \`${right}\`, not by \`${sign}\`.`,
    start: at,
    end: at + 1,
    repairs: [[{ start: at, end: at + 1, newText: right }]],
    title: `Write \`${right}\``,
    isCertain: true,
    isOfWhole: true,
  };
  return other === undefined ? [wrong] : [missing, wrong];
}

/** Closed at the end of its own line or of the entry, before a comment; which of them is shown by what is read then. */
function notClosed(text: string, mask: string, open: readonly number[]): Slip {
  const start = open.at(-1) ?? 0;
  const signs = open.map((at) => CLOSING[text[at] ?? ''] ?? '').reverse();
  const places = new Set([contentEnd(mask, lineOf(text, open[0] ?? 0)), mask.trimEnd().length]);
  const closing = signs.map((sign) => (sign === '}' ? ' }' : sign)).join('');
  const what = open.length === 1 ? `\`${signs[0]}\`` : `\`${closing.trim()}\``;
  return {
    message:
      open.length === 1
        ? `This bracket is not closed. Add the closing ${what}.`
        : `${open.length} brackets are not closed from here on. Add the closing ${what}.`,
    start: open.length === 1 ? start : (open[0] ?? 0),
    end: (open.length === 1 ? start : (open[0] ?? 0)) + 1,
    repairs: [...places].map((at) => [insert(at, closing)]),
    title: `Add the closing ${what}`,
    isCertain: true,
    isOfWhole: true,
  };
}
