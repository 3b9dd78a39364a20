import { shortened } from '../shortened';
import { withOddShown } from './odd-signs';

const MOST_ECHOED = 40;

/** The planner's own text in a message: in backquotes, on one line, cut where long; spaces that are none by their numbers. */
export function quoted(text: string): string {
  const line = withOddShown(text).replace(/\s+/g, ' ').replaceAll('`', "'").trim();
  return `\`${shortened(line, MOST_ECHOED)}\``;
}

/** `a`, `a and b`, `a, b and c`; at most `most` of them are named. */
export function listed(items: readonly string[], joined = 'and', most = 8): string {
  if (items.length > most) return `${items.slice(0, most).join(', ')} … (${items.length} in all)`;
  if (items.length < 2) return items[0] ?? '';
  return `${items.slice(0, -1).join(', ')} ${joined} ${items.at(-1)}`;
}
