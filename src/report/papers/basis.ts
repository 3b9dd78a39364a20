import type { ComputedSeason } from '../../findings/types';
import type { Week } from '../../plan/dates';
import { counted } from '../../plan/wording';
import { isQuick } from '../../release/simple-bound';
import type { RoomOpening } from '../timeline-room';
import { SET_BY, type SetBy } from './account';

/** Opening weeks by fill, as a schedule published before has them. */
export type PublishedWeeks = ReadonlyMap<string, Week>;

/** In a column. */
export const setByNames: Readonly<Record<SetBy, string>> = {
  opened: 'was opened',
  pin: 'pin',
  published: 'published weeks',
  quick: 'quick schedule',
  found: 'schedule found',
};

/** Of one room, as the end of a sentence. */
export const setByWords: Readonly<Record<SetBy, string>> = {
  opened: 'the one in which it was opened',
  pin: 'pinned in the plan',
  published: 'kept as published before',
  quick: 'by the quick schedule, not pinned',
  found: 'by the schedule found, not pinned',
};

export function setBy(
  { release }: Pick<ComputedSeason, 'release'>,
  fill: string,
  opening: RoomOpening,
  published: PublishedWeeks | undefined,
): SetBy {
  if (opening.opened) return 'opened';
  if (opening.pinned) return 'pin';
  if (published?.get(fill) === opening.week) return 'published';
  return release && isQuick(release.result) ? 'quick' : 'found';
}

/** In which schedule the rooms open, in a sentence that names and counts none: it stands on every paper. */
export function basisWords(setBys: readonly SetBy[]): string {
  const is = (kind: SetBy) => setBys.includes(kind);
  if (setBys.length === 0) return '';
  const named = [
    ...(is('opened') ? ['those in which rooms were opened'] : []),
    ...(is('pin') ? ['those pinned in the plan'] : []),
    ...(is('published') ? ['those published before'] : []),
    ...(is('quick')
      ? ['for other rooms those of the quick schedule, which a search for the best may change']
      : []),
    ...(is('found') ? ['for other rooms those of the schedule found, which may still change'] : []),
  ];
  const only = named.length === 1 ? (named[0] ?? '').replace('for other rooms ', '') : named.join(', ');
  return `Opening weeks are ${only}.`;
}

const COUNTED: Readonly<Record<SetBy, string>> = {
  opened: 'already opened',
  pin: 'in a week pinned in the plan',
  published: 'in a week published before',
  quick: 'in a week of the quick schedule',
  found: 'in a week of the schedule found',
};

/** How many rooms open and by what, and how many stay shut. */
export function scheduleWords(setBys: readonly SetBy[], shut: number): string {
  const parts = SET_BY.flatMap((kind) => {
    const count = setBys.filter((one) => one === kind).length;
    return count === 0 ? [] : [`${count} ${COUNTED[kind]}`];
  });
  const chosen = setBys.some((one) => one === 'quick' || one === 'found');
  const open = `${counted(setBys.length, 'room')} ${setBys.length === 1 ? 'opens' : 'open'}`;
  return [
    parts.length === 0 ? `${open}.` : `${open}: ${parts.join(', ')}.`,
    ...(shut > 0 ? [`${counted(shut, 'room')} ${shut === 1 ? 'stays' : 'stay'} shut.`] : []),
    ...(chosen ? ['A week that a schedule chose may still move; a pinned one stays.'] : []),
    ...(setBys.includes('quick')
      ? ['The quick schedule is not proven: `lotwright release` may find better weeks.']
      : []),
  ].join(' ');
}
