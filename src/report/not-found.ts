import type { ComputedSeason } from '../findings/types';
import { builtInFor } from './built-in-for';
import { commandToCopy } from './command-to-copy';
import type { Found } from './find-thing';
import { PAGE_WIDTH, wrap } from './table';

/**
 * Why a planner's words are no thing of the plan or none alone, and what is near. `folder`: the plan's as it was typed, for
 * the commands that list what there is.
 */
export function notFoundText(
  found: Extract<Found, { kind: 'ambiguous' | 'unknown' }>,
  words: string,
  season: ComputedSeason,
  folder?: string,
): string {
  if (found.kind === 'ambiguous')
    return `"${words}" could be any of these; say which:\n  ${found.candidates.join('\n  ')}`;
  const { nearest, has } = found;
  const { variety, regimes } = builtInFor(season.fruit, words) ?? {};
  const hints = [
    ...(nearest.length > 0 ? [`Nearest:\n  ${nearest.join('\n  ')}`] : []),
    ...(has ? wrap(`${has.thing} has: ${has.figures.join(', ')}`, PAGE_WIDTH, '  ') : []),
    ...(variety !== undefined && regimes !== undefined && !has
      ? wrap(`Built in for ${variety}: ${regimes.join(', ')}`, PAGE_WIDTH, '  ')
      : []),
  ];
  const command = (words: string) => commandToCopy(words, folder);
  const listed = `Rooms and their figures are listed by: ${command('rooms')}, ${command('explain <room>')}; what is built in by: ${command('explain varieties')}, ${command('explain regimes')}`;
  const all = hints.length > 0 ? hints : wrap(listed, PAGE_WIDTH, '  ');
  return [`The plan has nothing called "${words}".`, ...all].join('\n');
}
