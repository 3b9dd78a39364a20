/** The candidate closest to what was typed, where one is close enough to be what was meant. */
export function nearest(typed: string, candidates: Iterable<string>): string | undefined {
  const most = Math.max(1, Math.floor(typed.length / 3));
  let best: string | undefined;
  let least = most + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - typed.length) >= least) continue;
    const steps = editSteps(typed.toLowerCase(), candidate.toLowerCase());
    if (steps < least) [best, least] = [candidate, steps];
  }
  return best;
}

/** Levenshtein distance: letters to insert, remove or change. */
function editSteps(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const change = (row[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[to.length] ?? 0;
}
