import { opensIn } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import { formatWeek, type Week } from '../plan/dates';
import { type Figure, figureWith } from '../plan/figure';
import { plantSeason } from '../plant/season';
import { filledAnew, passedThen, type Strain, strains } from '../plant/strain';
import type { PlantSeason } from '../plant/types';
import { askedShare, withCrop } from '../scenario/factors';
import { type NamedFigure, namedLater } from './named-figures';

type Kind = 'scrubber' | 'nitrogen' | 'refrigeration';

/** The crop that is asked about most, in per cent of the plan's: every lot a tenth larger. */
const TENTH_MORE = 110;

type Filled = Pick<ComputedSeason, 'plan' | 'fruit' | 'capacities' | 'filled'>;

/**
 * The plan with another crop, in per cent of its own, in the same rooms, and these filled with it. What the plan records
 * as come in stays as it is.
 */
export function withCropOf(
  { plan, fruit, capacities }: Omit<Filled, 'filled'>,
  percent: number,
): Pick<Filled, 'plan' | 'filled'> {
  const share = askedShare(percent, 'crop');
  const other = withCrop(plan, () => share);
  return { plan: other, filled: filledAnew(other, fruit, capacities) };
}

/** What passes its limit with another crop, in per cent of the plan's: as it is now, and then; first to pass first. */
export function failsWithCropOf(
  season: Filled,
  opens: Parameters<typeof strains>[2],
  percent: number,
): readonly { readonly now: Strain; readonly then: Strain }[] {
  const other = withCropOf(season, percent);
  return passedThen(strains(season.plan, season.filled, opens), strains(other.plan, other.filled, opens));
}

/**
 * The highest share of what a machine gives that its rooms ask of it in a week, were every lot a tenth larger in the
 * same rooms: what it comes to and how. Reckoned when first asked for; none where the plan does not state what it gives.
 */
export function largerCropFigure(season: ComputedSeason, kind: Kind, id: string): NamedFigure[] {
  const now = highestShare(season.plant, kind, id);
  if (!now) return [];
  const make = () => {
    const { week, share } = highestShare(largerPlant(season), kind, id) ?? now;
    return figureWith(share, {
      name: `${share.name} with a tenth more of every lot, in ${formatWeek(week)}`,
    });
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
  const { plan, filled } = withCropOf(season, TENTH_MORE);
  return plantSeason(plan, filled, opensIn(season));
}
