const NAMES = new Intl.Collator('en', { numeric: true });

/** `R2` before `R10`. */
export function byName(a: string, b: string): number {
  return NAMES.compare(a, b) || (a < b ? -1 : a > b ? 1 : 0);
}
