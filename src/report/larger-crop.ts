import { opensIn } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import { formatWeek, type Week } from '../plan/dates';
import type { Figure } from '../plan/figure';
import { plantSeason } from '../plant/season';
import { filledWithCropOf } from '../plant/strain';
import type { PlantSeason } from '../plant/types';
import { type NamedFigure, namedLater } from './named-figures';

type Kind = 'scrubber' | 'nitrogen' | 'refrigeration';

/** The crop that is asked about most: every lot a tenth larger. */
const FACTOR = 1.1;

/**
 * The highest share of what a machine gives that its rooms ask of it in a week, were every lot a tenth larger in the
 * same rooms: what it comes to and how. Reckoned when first asked for; none where the plan does not state what it gives.
 */
export function largerCropFigure(season: ComputedSeason, kind: Kind, id: string): NamedFigure[] {
  const now = highestShare(season.plant, kind, id);
  if (!now) return [];
  const make = () => {
    const { week, share } = highestShare(largerPlant(season), kind, id) ?? now;
    return { ...share, name: `${share.name} with a tenth more of every lot, in ${formatWeek(week)}` };
  };
  return [namedLater(id, 'peak-share-with-10-percent-more', make)];
}

interface WeekShare {
  readonly week: Week;
  readonly share: Figure<'%'>;
}

function highestShare(plant: PlantSeason | undefined, kind: Kind, id: string): WeekShare | undefined {
  const shares = weeksIn(plant, kind, id).flatMap(({ week, share }) => (share ? [{ week, share }] : []));
  return shares.reduce<WeekShare | undefined>(
    (most, one) => (one.share.value > (most?.share.value ?? 0) ? one : most),
    undefined,
  );
}

function weeksIn(
  plant: PlantSeason | undefined,
  kind: Kind,
  id: string,
): readonly { readonly week: Week; readonly share?: Figure<'%'> | undefined }[] {
  if (kind === 'scrubber') return plant?.scrubbers.find(({ scrubber }) => scrubber.id === id)?.weeks ?? [];
  if (kind === 'nitrogen') return plant?.nitrogen.find(({ source }) => source.id === id)?.weeks ?? [];
  return plant?.refrigeration.find(({ group }) => group.id === id)?.weeks ?? [];
}

/** Made once for a season, for all its machines. */
const made = new WeakMap<ComputedSeason, { readonly plant: PlantSeason | undefined }>();

function largerPlant(season: ComputedSeason): PlantSeason | undefined {
  const known = made.get(season) ?? { plant: plantWithMore(season) };
  made.set(season, known);
  return known.plant;
}

function plantWithMore(season: ComputedSeason): PlantSeason | undefined {
  const { plan, fruit, capacities } = season;
  const { larger, refilled } = filledWithCropOf(plan, fruit, capacities, FACTOR);
  return plantSeason(larger, refilled, opensIn(season));
}
