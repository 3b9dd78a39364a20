import { formatWeek, type Week } from '../../plan/dates';
import type { ComputedSeason, Finding } from '../types';
import { aboutOf } from './culprits';

/** An overload that the plan has already and that a proposal makes heavier. */
export interface Heavier {
  readonly code: string;
  /** The scrubber, nitrogen source or refrigeration group, or the fill whose cooler it is. */
  readonly about: string;
  /** Load at its worst as per cent of what there is, without the proposal and with it. */
  readonly before: number;
  readonly after: number;
  /** Week of the worst load with it; absent of a room's own cooler. */
  readonly week?: Week | undefined;
}

interface Load {
  readonly percent: number;
  readonly week?: Week | undefined;
}

/** Points of per cent from which on a load is told as heavier: less is not seen in the figures shown. */
const SEEN = 0.5;

/** Overloads found both before and after, at their worst heavier by what can be seen; the heaviest first. */
export function heavierOverloads(
  before: ComputedSeason,
  after: ComputedSeason,
  found: readonly Finding[],
): Heavier[] {
  const heavier = found.flatMap(({ code, fingerprint }): Heavier[] => {
    const about = aboutOf(code, fingerprint);
    const [was, is] = [loadOf(before, code, about), loadOf(after, code, about)];
    if (!was || !is || is.percent - was.percent < SEEN) return [];
    return [{ code, about, before: was.percent, after: is.percent, ...(is.week && { week: is.week }) }];
  });
  const points = (one: Heavier) => one.after - one.before;
  return heavier.sort((a, b) => points(b) - points(a) || (a.about < b.about ? -1 : 1));
}

export function heavierText({ code, about, before, after, week }: Heavier): string {
  const when = week === undefined ? '' : ` in ${formatWeek(week)}`;
  const points = Math.round(after) - Math.round(before);
  return `${code} of ${about} is there already, and gets heavier with this proposal: at most ${Math.round(after)} %${when} instead of ${Math.round(before)} %, ${points} ${points === 1 ? 'point' : 'points'} more.`;
}

function loadOf({ plant, filled }: ComputedSeason, code: string, about: string): Load | undefined {
  switch (code) {
    case 'scrubber-overloaded':
      return worst(plant?.scrubbers.find(({ scrubber }) => scrubber.id === about)?.weeks);
    case 'nitrogen-queue':
      return worst(plant?.nitrogen.find(({ source }) => source.id === about)?.weeks);
    case 'refrigeration-group-overloaded':
      return worst(plant?.refrigeration.find(({ group }) => group.id === about)?.weeks);
    case 'cooling-overloaded': {
      const one = filled.get(about);
      const capacity = one?.room.coolerCapacity?.value;
      return capacity && one?.peakCooling ? { percent: (100 * one.peakCooling.value) / capacity } : undefined;
    }
    default:
      return undefined;
  }
}

function worst(
  weeks:
    | readonly { readonly week: Week; readonly share?: { readonly value: number } | undefined }[]
    | undefined,
): Load | undefined {
  let most: Load | undefined;
  for (const { week, share } of weeks ?? [])
    if (share && (!most || share.value > most.percent)) most = { percent: share.value, week };
  return most;
}
