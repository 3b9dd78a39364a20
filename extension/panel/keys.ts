/** What a key does in the timeline. */
export type KeyAction =
  | { readonly do: 'move'; readonly rows: number }
  | { readonly do: 'first' | 'last' }
  | { readonly do: 'scroll'; readonly weeks: number }
  | { readonly do: 'zoom'; readonly direction: 1 | -1 }
  | { readonly do: 'moveOpening'; readonly weeks: number }
  | { readonly do: 'cancel' }
  | {
      readonly do:
        | 'fit'
        | 'reveal'
        | 'revealOpening'
        | 'pin'
        | 'table'
        | 'find'
        | 'card'
        | 'season'
        | 'around';
    };

/** The parts of a keyboard event that decide. */
export interface Key {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey?: boolean;
}

const PAGE_ROWS = 10;
const SCROLL_WEEKS = 4;

const PLAIN: Readonly<Record<string, KeyAction>> = {
  ArrowDown: { do: 'move', rows: 1 },
  ArrowUp: { do: 'move', rows: -1 },
  PageDown: { do: 'move', rows: PAGE_ROWS },
  PageUp: { do: 'move', rows: -PAGE_ROWS },
  Home: { do: 'first' },
  End: { do: 'last' },
  ArrowRight: { do: 'scroll', weeks: SCROLL_WEEKS },
  ArrowLeft: { do: 'scroll', weeks: -SCROLL_WEEKS },
  Enter: { do: 'reveal' },
  ' ': { do: 'reveal' },
  Escape: { do: 'cancel' },
  o: { do: 'revealOpening' },
  p: { do: 'pin' },
  c: { do: 'card' },
};

/** With Shift an opening is moved. */
const SHIFTED: Readonly<Record<string, KeyAction>> = {
  ArrowRight: { do: 'moveOpening', weeks: 1 },
  ArrowLeft: { do: 'moveOpening', weeks: -1 },
};

/** With Ctrl or Cmd as well as without. */
const ANYHOW: Readonly<Record<string, KeyAction>> = {
  '+': { do: 'zoom', direction: 1 },
  '=': { do: 'zoom', direction: 1 },
  '-': { do: 'zoom', direction: -1 },
  '0': { do: 'fit' },
};

/** What the key does while a row has the focus; undefined leaves it to the editor. */
export function rowKey({ key, ctrlKey, metaKey, altKey, shiftKey }: Key): KeyAction | undefined {
  if (altKey) return undefined;
  const shifted = shiftKey && !ctrlKey && !metaKey ? SHIFTED[key] : undefined;
  if (shifted) return shifted;
  const name = key.length === 1 ? key.toLowerCase() : key;
  return ANYHOW[name] ?? (ctrlKey || metaKey ? undefined : PLAIN[name]);
}

/** What the key does wherever in the page the focus is, text fields and lists excepted. */
export function pageKey({ key, ctrlKey, metaKey, altKey }: Key): KeyAction | undefined {
  if (ctrlKey || metaKey || altKey) return undefined;
  if (key === '/') return { do: 'find' };
  const name = key.toLowerCase();
  if (name === 's') return { do: 'season' };
  if (name === 'a') return { do: 'around' };
  return name === 't' ? { do: 'table' } : undefined;
}
