import type { ComputedSeason } from '../findings/types';
import type { NitrogenSeason, RefrigerationSeason, ScrubberSeason } from '../plant/types';
import type { Measure } from './measure';
import type { AmountUnit, MeasureKind, Thing } from './types';

const DAYS_A_WEEK = 7;

/** What is asked of the shared equipment in its heaviest week, and of scrubbers over the season. */
export function plantMeasures({ plan, plant }: ComputedSeason): Measure[] {
  if (!plant) return [];
  const most = plan.policy.mostScrubberLoad.value;
  return [
    ...plant.scrubbers.flatMap((one) => scrubberMeasures(one, most)),
    ...plant.nitrogen.flatMap((one) => nitrogenMeasures(one)),
    ...plant.refrigeration.flatMap((one) => coolingMeasures(one)),
  ];
}

function measure(
  kind: MeasureKind,
  thing: Thing,
  unit: AmountUnit,
  value: number,
  limit?: number,
): Measure[] {
  if (!Number.isFinite(value)) return [];
  const key = `${kind}/${thing.id}`;
  const about = { of: 'equipment', thing } as const;
  return [
    {
      kind,
      key,
      about,
      unit,
      value,
      ...(limit !== undefined && { limit }),
      tags: [`${thing.kind}/${thing.id}`],
    },
  ];
}

/** The peak as a share of what it removes, else in kilograms a day; and all it takes out in the season. */
function scrubberMeasures({ scrubber, weeks, peak }: ScrubberSeason, most: number): Measure[] {
  const thing: Thing = { kind: 'scrubbers', id: scrubber.id };
  const duty = weeks.reduce((sum, { load }) => sum + load.value * DAYS_A_WEEK, 0);
  return [
    ...(peak?.share
      ? measure('scrubber-peak', thing, '%', peak.share.value, most)
      : measure('scrubber-peak', thing, 'kg/day', peak?.load.value ?? 0)),
    ...measure('scrubber-duty', thing, 'kg', duty),
  ];
}

/** Hours asked in the heaviest week as a share of the week. */
function nitrogenMeasures({ source, weeks }: NitrogenSeason): Measure[] {
  const most = Math.max(0, ...weeks.map(({ share }) => share.value));
  return measure('nitrogen-peak', { kind: 'nitrogen', id: source.id }, '%', most, 100);
}

function coolingMeasures({ group, weeks }: RefrigerationSeason): Measure[] {
  const thing: Thing = { kind: 'refrigeration', id: group.id };
  if (weeks.some(({ share }) => share))
    return measure(
      'cooling-peak',
      thing,
      '%',
      Math.max(0, ...weeks.map(({ share }) => share?.value ?? 0)),
      100,
    );
  return measure('cooling-peak', thing, 'kW', Math.max(0, ...weeks.map(({ load }) => load.value)));
}
