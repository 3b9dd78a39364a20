import { type NeverOpens, neverOpens } from '../release/openable';
import type { ComputedSeason } from './types';

/**
 * Why the room of a fill can be opened in no week; undefined where it can. Without a release problem, and of a room that
 * was opened, its window alone is asked.
 */
export function fillNeverOpens(
  { keeping, release }: Pick<ComputedSeason, 'keeping' | 'release'>,
  fill: string,
): NeverOpens | undefined {
  const { window, filled } = keeping.get(fill) ?? {};
  if (window && window.earliest.week > window.latest.week) return { kind: 'no-window' };
  if (filled?.fill.opened) return undefined;
  const room = release?.problem.rooms.find((one) => one.fill === fill);
  return release && room && neverOpens(release.problem, room);
}
