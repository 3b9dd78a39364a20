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

/** The plan with every lot so many times as large, and each fill with it. */
export function withCropOf(plan: Plan, factor: number): Plan {
  const times = <F extends { readonly value: number }>(figure: F): F => ({
    ...figure,
    value: Math.round(figure.value * factor),
  });
  const lots = new Map(
    [...plan.lots].map(([id, lot]) => [
      id,
      {
        ...lot,
        expectedBins: lot.expectedBins && times(lot.expectedBins),
        receivedBins: lot.receivedBins && times(lot.receivedBins),
      },
    ]),
  );
  const fills = new Map(
    [...plan.fills].map(([id, fill]) => [
      id,
      { ...fill, lots: fill.lots.map((one) => ({ ...one, bins: times(one.bins) })) },
    ]),
  );
  return { ...plan, lots, fills };
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

/** The plan with such a crop, and its rooms filled anew. */
export function filledWithCropOf(
  plan: Plan,
  fruit: FruitData,
  capacities: ReadonlyMap<string, RoomCapacity>,
  factor: number,
): { readonly larger: Plan; readonly refilled: ReadonlyMap<string, FilledRoom> } {
  const larger = withCropOf(plan, factor);
  const refilled = new Map<string, FilledRoom>();
  for (const [id, fill] of larger.fills) {
    const capacity = fill.room && capacities.get(fill.room.value);
    if (capacity) refilled.set(id, filledRoom(larger, fruit, fill, capacity));
  }
  return { larger, refilled };
}

/** What passes its limit with another crop that keeps it with this one, first to pass first. */
export function failsWithCropOf(
  plan: Plan,
  fruit: FruitData,
  capacities: ReadonlyMap<string, RoomCapacity>,
  filled: ReadonlyMap<string, FilledRoom>,
  opens: Openings | undefined,
  factor: number,
): readonly { readonly now: Strain; readonly then: Strain }[] {
  const { larger, refilled } = filledWithCropOf(plan, fruit, capacities, factor);
  const now = new Map(strains(plan, filled, opens).map((one) => [`${one.kind} ${one.id}`, one]));
  return strains(larger, refilled, opens)
    .flatMap((then) => {
      const before = now.get(`${then.kind} ${then.id}`);
      return before && then.passes !== undefined ? [{ now: before, then }] : [];
    })
    .sort((a, b) => (a.then.passes ?? 0) - (b.then.passes ?? 0) || b.then.share - a.then.share);
}
