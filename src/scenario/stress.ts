import { canonicalName } from '../fruit/data';
import type { Day } from '../plan/dates';
import { compute, countedFigure } from '../plan/figure';
import { withRecords } from '../plan/known';
import type { Plan, VarietyOverride } from '../plan/model';
import type { Span } from '../plan/span';
import type { PlantSeason } from '../plant/types';
import type { Openings } from '../plant/weeks';
import { askedShare, withCrop, withDemandMoved } from './factors';
import { withinPlaces } from './within-places';
import {
  carbonDioxideByDay,
  daysToCome,
  nitrogenByDay,
  type WorstDays,
  worstDays,
  worstDaysText,
} from './worst-days';

/** A change of any plan that is tried though nobody wrote it down: what the built-in stress tests do. */
export interface Stress {
  /** `less-crop`, `scrubber-out S1`. */
  readonly id: string;
  readonly says: string;
  readonly apply: (plan: Plan) => Plan;
}

/** How hard each test presses; what is left out is as usual. */
export interface StressSettings {
  /** Per cent by which the crop is smaller or larger. */
  readonly crop?: number | undefined;
  /** Days for which a machine is out of use. */
  readonly days?: number | undefined;
  /** Per cent of its capacity that refrigeration still has. */
  readonly left?: number | undefined;
  /** Weeks by which orders come earlier or later. */
  readonly demandWeeks?: number | undefined;
  /** Weeks by which a variety keeps shorter. */
  readonly keepWeeks?: number | undefined;
}

/** What is asked where nothing is set. All are choices, not facts of the trade. */
export const usualStress = { crop: 20, days: 3, left: 50, demandWeeks: 2, keepWeeks: 3 } as const;

/** The tests by name, and what each presses on. */
export const stressKinds = {
  'less-crop': 'every lot smaller, and each fill with it',
  'more-crop': 'every lot larger, in the same rooms: what they cannot hold has no room',
  'scrubber-out': 'a scrubber out of use on the days of its highest load; one test for each',
  'nitrogen-out': 'a nitrogen source out of use when most is asked of it; one test for each',
  'refrigeration-part': 'every refrigeration group with only a part of its capacity',
  'demand-earlier': 'all orders some weeks earlier',
  'demand-later': 'all orders some weeks later',
  'keeps-shorter': 'a variety that keeps some weeks shorter; one test for each that is stored',
} as const;

export type StressKind = keyof typeof stressKinds;

export function isStressKind(name: string): name is StressKind {
  return Object.hasOwn(stressKinds, name);
}

/** What a test needs to know of the season it presses on. */
export interface StressedSeason {
  readonly plan: Plan;
  readonly plant: PlantSeason | undefined;
  /** The weeks in which rooms are opened by its schedule. */
  readonly opens?: Openings | undefined;
  /** Varieties in the rooms, most bins first, as the plan calls them. */
  readonly varieties: readonly string[];
}

/** Every test of a kind: one for each machine or variety, or just one. */
export function stressesOf(
  kind: StressKind,
  season: StressedSeason,
  settings: StressSettings = {},
): Stress[] {
  const set = { ...usualStress, ...withoutUndefined(settings) };
  const { stand } = withRecords(season.plan);
  const ofCrop = stand === undefined ? '' : ', of what has not come in yet';
  switch (kind) {
    case 'less-crop':
      return [cropTest('less-crop', 100 - set.crop, `${set.crop} % less of every lot${ofCrop}`)];
    case 'more-crop':
      return [
        cropTest('more-crop', 100 + set.crop, `${set.crop} % more of every lot, in the same rooms${ofCrop}`),
      ];
    case 'scrubber-out':
      return (season.plant?.scrubbers ?? []).flatMap((one) => {
        const asked = daysToCome(carbonDioxideByDay(one, season.opens), stand);
        return outTests(kind, one.scrubber.id, worstDays(asked, set.days), set.days);
      });
    case 'nitrogen-out':
      return (season.plant?.nitrogen ?? []).flatMap((one) => {
        const asked = daysToCome(nitrogenByDay(one), stand);
        return outTests(kind, one.source.id, worstDays(asked, set.days), set.days);
      });
    case 'refrigeration-part':
      return season.plan.refrigerationGroups.size === 0 ? [] : [refrigerationTest(set.left)];
    case 'demand-earlier':
      return [demandTest('demand-earlier', -set.demandWeeks)];
    case 'demand-later':
      return [demandTest('demand-later', set.demandWeeks)];
    case 'keeps-shorter':
      return season.varieties.map((variety) => keepsShorterTest(variety, set.keepWeeks));
  }
}

/** Every test of every kind. */
export function allStresses(season: StressedSeason, settings: StressSettings = {}): Stress[] {
  return (Object.keys(stressKinds) as StressKind[]).flatMap((kind) => stressesOf(kind, season, settings));
}

function withoutUndefined(settings: StressSettings): Partial<typeof usualStress> {
  return Object.fromEntries(Object.entries(settings).filter(([, value]) => value !== undefined));
}

function cropTest(id: string, percent: number, says: string): Stress {
  const share = askedShare(percent, 'crop');
  return {
    id,
    says,
    apply: (plan) =>
      withinPlaces(
        withCrop(plan, () => share),
        plan,
      ),
  };
}

function demandTest(id: string, weeks: number): Stress {
  const many = Math.abs(weeks) === 1 ? 'a week' : `${Math.abs(weeks)} weeks`;
  return {
    id,
    says: `all orders ${many} ${weeks > 0 ? 'later' : 'earlier'}`,
    apply: (plan) => withDemandMoved(plan, weeks),
  };
}

function outTests(
  kind: 'scrubber-out' | 'nitrogen-out',
  id: string,
  worst: WorstDays | undefined,
  days: number,
): Stress[] {
  if (!worst) return [];
  const many = days === 1 ? 'a day' : `${days} days`;
  const of = kind === 'nitrogen-out' ? 'nitrogen' : 'carbon dioxide';
  return [
    {
      id: `${kind} ${id}`,
      says: `${id} out of use for ${many} ${worstDaysText(worst, of)}`,
      apply: (plan) => withMachineOut(plan, kind, id, worst.first, worst.last),
    },
  ];
}

function withMachineOut(
  plan: Plan,
  kind: 'scrubber-out' | 'nitrogen-out',
  id: string,
  first: Day,
  last: Day,
): Plan {
  const name = kind === 'scrubber-out' ? 'scrubbers' : 'nitrogenSources';
  const machines = new Map(
    [...plan[name]].map(([key, machine]) => {
      if (key !== id) return [key, machine] as const;
      const out = [...(machine.outOfUse ?? []), { value: { first, last }, at: machine.at }];
      return [key, { ...machine, outOfUse: out }] as const;
    }),
  );
  return { ...plan, [name]: machines };
}

function refrigerationTest(percent: number): Stress {
  const left = countedFigure('capacity that is left', '%', percent, 'as asked for');
  return {
    id: 'refrigeration-part',
    says: `refrigeration groups at ${percent} % of their capacity`,
    apply: (plan) => ({
      ...plan,
      refrigerationGroups: new Map(
        [...plan.refrigerationGroups].map(([id, group]) => [
          id,
          {
            ...group,
            capacity:
              group.capacity &&
              compute(
                group.capacity.name,
                'kW',
                'capacity * left / 100',
                { capacity: group.capacity, left },
                (v) => (v.capacity * v.left) / 100,
              ),
          },
        ]),
      ),
    }),
  };
}

function keepsShorterTest(variety: string, weeks: number): Stress {
  const days = countedFigure('keeps shorter by', 'days', 7 * weeks, 'as asked for');
  return {
    id: `keeps-shorter ${variety}`,
    says: `${variety} keeps ${weeks === 1 ? 'a week' : `${weeks} weeks`} shorter`,
    apply: (plan) => {
      const own = [...plan.varieties.values()].find(({ id }) => canonicalName(id) === canonicalName(variety));
      const before = own?.keepsShorter;
      const shorter = before
        ? compute(
            'keeps shorter by',
            'days',
            'before + more',
            { before, more: days },
            (v) => v.before + v.more,
          )
        : days;
      const override: VarietyOverride = { ...(own ?? emptyOverride(plan, variety)), keepsShorter: shorter };
      return { ...plan, varieties: new Map([...plan.varieties, [override.id, override]]) };
    },
  };
}

/** An override that says nothing: all comes from the reference data. */
function emptyOverride(plan: Plan, id: string): VarietyOverride {
  const at: Span = { file: [...plan.files.keys()][0] ?? '', start: 0, end: 0 };
  return {
    id,
    at,
    places: { span: at },
    like: undefined,
    respiration: undefined,
    respirationInStore: undefined,
    storageLifeInAir: undefined,
    storageLife: undefined,
    leastTemperature: undefined,
    leastOxygen: undefined,
    mostCarbonDioxide: undefined,
    leastExitFirmness: undefined,
    softening: undefined,
    source: undefined,
  };
}
