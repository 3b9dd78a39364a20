import type { FruitData } from '../fruit/types';
import { type Day, firstDayOfWeek } from '../plan/dates';
import type { Plan } from '../plan/model';
import { filledRoom } from '../room/filled-room';
import type { FilledRoom, RoomCapacity } from '../room/types';
import { plantSeason } from './season';
import type { Openings } from './weeks';

/** One limit of the store, and how far a crop goes towards it. */
export interface Strain {
  readonly kind: 'places' | 'cooler' | 'refrigeration' | 'nitrogen' | 'scrubber';
  /** The room or the machine. */
  readonly id: string;
  /** Highest use of what it can give, per cent. */
  readonly share: number;
  /** The first day on which it is asked for more than it gives; absent where it never is. */
  readonly passes?: Day;
}

/** What the plan asks of every room and machine that fruit or rooms share, hardest pressed first. */
export function strains(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  opens: Openings | undefined,
): Strain[] {
  const season = plantSeason(plan, filled, opens);
  const found = [
    ...[...filled.values()].flatMap((room) => roomStrains(room)),
    ...(season?.refrigeration ?? []).map(({ group, weeks }) => ofWeeks('refrigeration', group.id, weeks)),
    ...(season?.nitrogen ?? []).map(({ source, weeks }) => ofWeeks('nitrogen', source.id, weeks)),
    ...(season?.scrubbers ?? []).map(({ scrubber, weeks }) => ofWeeks('scrubber', scrubber.id, weeks)),
  ];
  return found.sort((a, b) => b.share - a.share || (a.id < b.id ? -1 : 1));
}

function roomStrains({ room, fill, utilisation, coolerLoad, intake }: FilledRoom): Strain[] {
  const capacity = room.coolerCapacity?.value ?? Number.POSITIVE_INFINITY;
  const hot = intake.find(({ heat }) => heat.value > capacity)?.day;
  const full = fill.lastBin?.value;
  return [
    ...(utilisation
      ? [
          {
            kind: 'places' as const,
            id: room.id,
            share: utilisation.value,
            ...(utilisation.value > 100 && full !== undefined ? { passes: full } : {}),
          },
        ]
      : []),
    ...(coolerLoad
      ? [
          {
            kind: 'cooler' as const,
            id: room.id,
            share: coolerLoad.value,
            ...(hot === undefined ? {} : { passes: hot }),
          },
        ]
      : []),
  ];
}

function ofWeeks(
  kind: Strain['kind'],
  id: string,
  weeks: readonly { readonly week: number; readonly share?: { readonly value: number } | undefined }[],
): Strain {
  const over = weeks.find(({ share }) => share && share.value > 100);
  const share = Math.max(0, ...weeks.map((one) => one.share?.value ?? 0));
  return { kind, id, share, ...(over ? { passes: firstDayOfWeek(over.week) } : {}) };
}

/** The rooms of a plan as its fills fill them. */
export function filledAnew(
  plan: Plan,
  fruit: FruitData,
  capacities: ReadonlyMap<string, RoomCapacity>,
): ReadonlyMap<string, FilledRoom> {
  const filled = new Map<string, FilledRoom>();
  for (const [id, fill] of plan.fills) {
    const capacity = fill.room && capacities.get(fill.room.value);
    if (capacity) filled.set(id, filledRoom(plan, fruit, fill, capacity));
  }
  return filled;
}

/** What passes its limit with another crop, beside what it is with this one; first to pass first. */
export function passedThen(
  now: readonly Strain[],
  larger: readonly Strain[],
): readonly { readonly now: Strain; readonly then: Strain }[] {
  const known = new Map(now.map((one) => [`${one.kind} ${one.id}`, one]));
  return larger
    .flatMap((then) => {
      const before = known.get(`${then.kind} ${then.id}`);
      return before && then.passes !== undefined ? [{ now: before, then }] : [];
    })
    .sort((a, b) => (a.then.passes ?? 0) - (b.then.passes ?? 0) || b.then.share - a.then.share);
}
