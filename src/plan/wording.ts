// Words for amounts and lists, as every message and every page puts them.

/** `a`, `a and b`, `a, b and c`; past `most`, `a, b and 5 more`. */
export function listed(words: readonly string[], most = 4): string {
  const shown =
    words.length > most ? [...words.slice(0, most - 1), `${words.length - most + 1} more`] : words;
  if (shown.length < 2) return shown[0] ?? '';
  return `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
}

/** `1 bin`, `2 bins`, `12,340 bins`. */
export function counted(count: number, one: string, several = `${one}s`): string {
  return `${grouped(count)} ${Math.round(count) === 1 ? one : several}`;
}

/** The verb behind `counted`. */
export function isOrAre(count: number): 'is' | 'are' {
  return Math.round(count) === 1 ? 'is' : 'are';
}

/** Grouped by hand, since the first use of a locale's numbers costs a check some 20 ms. */
function grouped(count: number): string {
  return String(Math.round(count)).replace(/\B(?=(?:\d{3})+$)/g, ',');
}
