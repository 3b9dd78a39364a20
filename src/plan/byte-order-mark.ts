const BYTE_ORDER_MARK = '\uFEFF';

/**
 * A file's text without the byte order mark that some programs put before it. Editors do not count it among a document's
 * characters, so that no place in a plan does.
 */
export function withoutMark(text: string): string {
  return text.slice(markOf(text).length);
}

/** The byte order mark that a text begins with; empty where it has none. */
export function markOf(text: string): string {
  return text.startsWith(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK : '';
}
