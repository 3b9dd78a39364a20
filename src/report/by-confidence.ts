import {
  type SpreadKnown,
  TOLD_CONFIDENCES,
  type WindowByConfidence,
  windowByConfidence,
} from '../keeping/by-confidence';
import type { Limit, RoomKeeping } from '../keeping/types';
import { formatWeek, type Week } from '../plan/dates';
import { fixed } from '../plan/display';
import type { Plan } from '../plan/model';
import type { Steps } from '../plan/steps';

/** The latest week at one confidence, as plain data. */
export interface ToldLatest {
  /** Per cent. */
  readonly confidence: number;
  readonly isPlans: boolean;
  readonly week: Week;
  readonly limit: Limit;
  readonly lot?: string;
}

/** A room's window by confidence without how its weeks come about. */
export interface ToldWindow {
  readonly earliest: Week;
  /** The highest confidence first. */
  readonly latest: readonly ToldLatest[];
  readonly spreads: readonly SpreadKnown[];
}

/** As `windowByConfidence`. */
export function toldWindow(plan: Plan, keeping: RoomKeeping): ToldWindow | undefined {
  const found = windowByConfidence(plan, keeping);
  return found && keeping.window && withoutFigures(found, keeping.window.earliest.week);
}

function withoutFigures({ latest, spreads }: WindowByConfidence, earliest: Week): ToldWindow {
  return {
    earliest,
    latest: latest.map(({ confidence, isPlans, edge }) => ({
      confidence,
      isPlans,
      week: edge.week,
      limit: edge.limit,
      ...(edge.lot && { lot: edge.lot.id }),
    })),
    spreads,
  };
}

/**
 * Windows by confidence, each worked out when it is first asked for and kept as long as its room's keeping is. A room's
 * keeping is made anew whenever anything that its window follows from has changed, so nothing else need be compared.
 */
export class ToldWindows {
  private readonly known = new WeakMap<RoomKeeping, { readonly told: ToldWindow | undefined }>();

  of(plan: Plan, keeping: RoomKeeping): ToldWindow | undefined {
    const known = this.known.get(keeping);
    if (known) return known.told;
    const told = toldWindow(plan, keeping);
    this.known.set(keeping, { told });
    return told;
  }

  /** Works out what `of` will be asked for, a room a step. */
  *ahead(plan: Plan, rooms: Iterable<RoomKeeping>): Steps<void> {
    for (const keeping of rooms) {
      if (this.known.has(keeping)) continue;
      yield;
      this.of(plan, keeping);
    }
  }
}

/** Headings of the columns that tell the latest week at the confidences beside the plan's. */
export const confidenceColumns: readonly string[] = TOLD_CONFIDENCES.map(
  (confidence) => `Latest at ${percent(confidence)}`,
);

/** A cell for each of `confidenceColumns`; empty where nothing is known. */
export function confidenceCells(told: ToldWindow | undefined): string[] {
  return TOLD_CONFIDENCES.map((confidence) => {
    const found = told?.latest.find((one) => Math.abs(one.confidence - confidence) < 1e-9);
    if (!told || !found) return '';
    return found.week < told.earliest ? 'no week fits' : formatWeek(found.week);
  });
}

/** Until when a room may be opened at the confidences beside the plan's, and what that rests on; no full stop. */
export function confidenceText({ earliest, latest, spreads }: ToldWindow): string {
  const others = latest.filter(({ isPlans }) => !isPlans);
  const [first, last] = [others[0], others.at(-1)];
  if (!first || !last) return '';
  const weeks = new Set(latest.map(({ week }) => week));
  const told =
    weeks.size === 1
      ? [`The same at ${percent(first.confidence)} as at ${percent(last.confidence)} confidence`]
      : others.map(({ confidence, week }, at) => {
          const start = at === 0 ? `With ${percent(confidence)} confidence` : `with ${percent(confidence)}`;
          return week < earliest ? `${start} in no week` : `${start} until ${formatWeek(week)}`;
        });
  return [told.join(', '), ...spreadsText(spreads)].join('; ');
}

/** One of a room's latest weeks in a sentence: what sets it, and how well its chance is known. */
export function latestText(
  room: string,
  told: ToldWindow,
  { confidence, week, limit, lot }: ToldLatest,
): string {
  const until = week < told.earliest ? 'in no week' : `until ${formatWeek(week)}`;
  const sets = `${limit}${lot === undefined ? '' : ` of lot ${lot}`} sets it`;
  return `${[`Room ${room} at ${percent(confidence)} confidence: ${until}, ${sets}`, ...spreadsText(told.spreads)].join('; ')}.`;
}

const KNOWN: Readonly<Record<SpreadKnown['known'], string>> = {
  published: 'published',
  'common practice': 'common practice',
  'from memory': 'from memory',
  plan: 'as the plan says',
  samples: 'fitted to samples',
};

/** How well the spreads are known, a clause each; one for all where they are known alike. */
export function spreadsText(spreads: readonly SpreadKnown[]): string[] {
  const [first, second] = spreads;
  if (first && second?.known === first.known)
    return [`spreads of ${first.of} and ${second.of} are ${KNOWN[first.known]}`];
  return spreads.map((one) => `spread of ${one.of} is ${KNOWN[one.known]}`);
}

function percent(confidence: number): string {
  return `${fixed(confidence, Number.isInteger(confidence) ? 0 : 1)} %`;
}
