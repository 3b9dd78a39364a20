/** The candidate closest to what was typed, where one is close enough to be what was meant. */
export function nearest(typed: string, candidates: Iterable<string>): string | undefined {
  return allNearest(typed, candidates)[0];
}

/** All candidates that are as close as the closest, in their order; none where none is close enough. */
export function allNearest(typed: string, candidates: Iterable<string>): string[] {
  // Longer texts are no misspelt key, and the distance is quadratic in their length.
  if (typed.length > 60) return [];
  const wanted = plain(typed);
  let best: string[] = [];
  let least = Math.max(1, Math.floor(typed.length / 3));
  for (const candidate of candidates) {
    const steps = editSteps(wanted, plain(candidate));
    if (steps > least) continue;
    if (steps < least) best = [];
    least = steps;
    best.push(candidate);
  }
  return best;
}

/** Short names differ by a letter where they mean different things: `R1`, `R2`. */
const SHORT = 5;

/** Whether what was typed is a name but for one letter, or two that stand the other way round. */
export function isSlip(typed: string, name: string): boolean {
  return Math.min(typed.length, name.length) >= SHORT && typed.length <= 60 && editSteps(typed, name) === 1;
}

/** Written alike: `binType`, `bin_type` and `Bin Type` are `bin-type`. */
function plain(text: string): string {
  return text
    .replace(/([a-z])([A-Z])/g, '$1-$2')
    .replace(/[ _]/g, '-')
    .toLowerCase();
}

/** Letters to insert, remove or change; two that stand the other way round are one step. */
function editSteps(from: string, to: string): number {
  let before: number[] = [];
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const change = (row[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
      const isSwapped = i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1];
      const swap = isSwapped ? (before[j - 2] ?? 0) + 1 : change;
      next.push(Math.min(change, swap, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    [before, row] = [row, next];
  }
  return row[to.length] ?? 0;
}
