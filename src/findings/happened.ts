import { type Week, weekOfDay } from '../plan/dates';
import type { Plan } from '../plan/model';
import type { Problem } from '../plan/problem';
import type { ProgressStep } from '../plan/record-model';

/** What has to have happened to a fill for a step to be over. */
const OVER: Readonly<
  Record<'filled' | 'sealed' | 'at set-point' | 'opened' | 'emptied', readonly ProgressStep[]>
> = {
  filled: ['lastBin', 'sealed', 'lowOxygen', 'setPoint', 'opened', 'emptied'],
  sealed: ['sealed', 'lowOxygen', 'setPoint', 'opened', 'emptied'],
  'at set-point': ['setPoint', 'opened', 'emptied'],
  opened: ['opened', 'emptied'],
  emptied: ['emptied'],
};

/**
 * Rules about a fill that can change nothing any more once this has happened to it: what is done is no longer complained
 * of as if it were planned.
 */
const UNTIL: Readonly<Record<string, keyof typeof OVER>> = {
  'room-partly-filled': 'filled',
  'room-not-ready': 'filled',
  'intake-too-fast': 'filled',
  'cooling-overloaded': 'filled',
  'growers-share-a-room': 'filled',
  'weak-lot-shortens-room': 'filled',
  'seal-waits-after-last-bin': 'sealed',
  'sealed-late': 'sealed',
  'sealed-before-cold': 'sealed',
  'over-mature-lot-sealed': 'sealed',
  'set-point-late': 'at set-point',
  'nitrogen-cannot-reach': 'at set-point',
  'room-overfilled': 'opened',
  'variety-unsuited-to-regime': 'opened',
  'sealing-and-regime-disagree': 'opened',
  'sealed-without-scrubber': 'opened',
  'oxygen-climbs': 'opened',
  'oxygen-below-limit': 'opened',
  'oxygen-below-breakpoint': 'opened',
  'carbon-dioxide-early': 'opened',
  'carbon-dioxide-above-limit': 'opened',
  'freezing-risk': 'opened',
  'chilling-risk': 'opened',
  'weight-loss-high': 'opened',
  'window-empty': 'opened',
  'pin-outside-window': 'opened',
  'opens-after-best-before': 'opened',
  'room-left-closed': 'opened',
  'sealed-room-first': 'opened',
  'air-room-on-shared-scrubber': 'emptied',
  'room-too-large-to-empty': 'emptied',
  'room-mostly-unsold': 'emptied',
  'market-without-demand': 'emptied',
  'claim-not-supported': 'emptied',
  'opened-room-low-oxygen': 'emptied',
  'oxygen-low': 'emptied',
  'oxygen-high': 'emptied',
  'carbon-dioxide-high': 'emptied',
  'carbon-dioxide-low': 'emptied',
  'temperature-high': 'emptied',
  'temperature-low': 'emptied',
  'breathes-faster': 'emptied',
  'sensor-stuck': 'emptied',
  'sensor-jumps': 'emptied',
};

/** The codes of these rules. */
export const codesThatEnd: readonly string[] = Object.keys(UNTIL);

/** Whether a problem is about a fill for which it is too late. */
export function isTooLate(
  { progress, packed, fills }: Pick<Plan, 'progress' | 'packed' | 'fills'>,
  { code, about }: Pick<Problem, 'code' | 'about'>,
): boolean {
  const until = UNTIL[code];
  if (until === undefined || about === undefined) return false;
  const own = progress.size === 0 ? undefined : ofFill(progress, about);
  if (own && OVER[until].some((step) => own[step] !== undefined)) return true;
  // Packed from without a record of its opening, a room counts as opened.
  return packed.size > 0 && OVER[until].includes('opened') && ofFill(fills, about)?.opened !== undefined;
}

/** Of the weeks of a season those that are not over: all of them where nothing is recorded. */
export function weeksToCome<W extends { readonly week: Week }>(
  { stand }: Plan,
  weeks: readonly W[],
): readonly W[] {
  if (stand === undefined) return weeks;
  const now = weekOfDay(stand);
  return weeks.filter(({ week }) => week >= now);
}

/** Of the fill that a problem is about, alone or with more behind a slash. */
function ofFill<V>(byFill: ReadonlyMap<string, V>, about: string): V | undefined {
  for (let text = about; text !== ''; text = text.slice(0, Math.max(0, text.lastIndexOf('/')))) {
    const own = byFill.get(text);
    if (own) return own;
  }
  return undefined;
}
