import type { ComputedSeason } from '../../findings/types';
import type { FruitData } from '../../fruit/types';
import { formatWeek, type Week } from '../../plan/dates';
import { fixed } from '../../plan/display';
import type { Fill, Lot, Plan } from '../../plan/model';
import { cautionInShort } from '../../room/caution';
import { fieldsOf } from '../../take-in/fields';
import { belongsIn } from './completion-fruit';
import type { Proposal } from './completion-types';
import { lotsLeft, scheduledWeek } from './lenses';

/** Beyond the language: what the plan at hand makes likely at a place. Undefined where it knows no better. */
export function knownValues(
  plan: Plan,
  season: ComputedSeason | undefined,
  path: readonly string[],
): Proposal[] | undefined {
  const [section, id, key] = path;
  if (section === 'fills' && key === 'room' && path.length === 3) return rooms(plan, season, id);
  if (section === 'fills' && key === 'open' && path.length === 3 && id !== undefined)
    return weeks(season, id);
  if (section === 'fills' && key === 'lots' && path.length === 4)
    return leftOf(plan, path[3] ?? '').map((left) =>
      value(fixed(left, 0).replace(',', ''), 'bins left of the lot'),
    );
  if ((section === 'demand' || section === 'sales') && key === 'class')
    return words(classes(plan), 'pack class');
  if ((section === 'demand' || section === 'sales') && key === 'market')
    return words(
      [...plan.demand.values()].map(({ market }) => market?.value),
      'market',
    );
  if (section === 'lots' && key === 'grower')
    return words(
      [...plan.lots.values()].map(({ grower }) => grower),
      'grower',
    );
  if (section === 'lots' && key === 'block')
    return words(
      [...plan.lots.values()].map(({ block }) => block),
      'block',
    );
  return undefined;
}

/** What the plan's own entries name and no section defines. */
export function namedInPlan(plan: Plan, what: 'market' | 'class' | 'grower' | 'demand'): Proposal[] {
  switch (what) {
    case 'market':
      return words(
        [...plan.demand.values()].map(({ market }) => market?.value),
        what,
      );
    case 'class':
      return words(classes(plan), 'pack class');
    case 'grower':
      return words(
        [...plan.lots.values()].map(({ grower }) => grower),
        what,
      );
    case 'demand':
      return words([...plan.demand.keys()], what);
  }
}

/** Keys that only the plan at hand knows: classes of cartons, lots that went into a fill, fields of a table. */
export function knownKeys(plan: Plan, parent: readonly string[], colon: string): Proposal[] | undefined {
  const [section, id, map] = parent;
  if (parent.length !== 3 || id === undefined) return undefined;
  if (section === 'packed' && map === 'cartons')
    return [...new Set(classes(plan))].map((one) => key(one, colon, 'pack class'));
  if (section === 'progress' && map === 'lots') return lotsThatWentIn(plan, id, colon);
  const holds = plan.tables.get(id)?.holds;
  if (section === 'tables' && map === 'columns' && holds)
    return fieldsOf(holds).map(({ name, meaning, isNeeded }) => ({
      ...key(name, colon, isNeeded ? 'required' : ''),
      documentation: `The heading of the column with ${meaning}.`,
    }));
  return undefined;
}

/** The lots planned for the fill with their bins, then all others. */
function lotsThatWentIn(plan: Plan, id: string, colon: string): Proposal[] {
  const planned = plan.fills.get(id)?.lots ?? [];
  const names = new Set(planned.map(({ lot }) => lot.value));
  return [
    ...planned.map(({ lot, bins }) => {
      const amount = colon === '' ? '' : String(bins.value);
      return { ...entry(lot.value, `${lot.value}${colon}${amount}`), detail: `${bins.value} bins planned` };
    }),
    ...[...plan.lots.values()]
      .filter((lot) => !names.has(lot.id))
      .map((lot) => ({ ...entry(lot.id, `${lot.id}${colon}`), detail: lot.variety?.value ?? '' })),
  ];
}

function key(label: string, colon: string, detail: string): Proposal {
  return { label, kind: 'key', detail, documentation: '', newText: `${label}${colon}` };
}

/** Rooms that could still take the fill's bins come first, then those too small for them, then those that are taken. */
function rooms(plan: Plan, season: ComputedSeason | undefined, fill: string | undefined): Proposal[] {
  const bins = plan.fills.get(fill ?? '')?.lots.reduce((sum, one) => sum + one.bins.value, 0) ?? 0;
  const taken = new Map<string, string[]>();
  for (const { id, room } of plan.fills.values())
    if (room && id !== fill) taken.set(room.value, [...(taken.get(room.value) ?? []), id]);
  const ranked = [...plan.rooms.keys()].map((room) => {
    const fills = taken.get(room);
    const places = season?.capacities.get(room)?.places?.value;
    const lacking = places === undefined ? 0 : Math.ceil(bins - places);
    const use = fills
      ? `in fill ${fills.join(', ')}`
      : lacking > 0
        ? `${fixed(lacking, 0)} too few for the fill's bins`
        : 'no fill uses it yet';
    return {
      rank: fills ? 2 : lacking > 0 ? 1 : 0,
      proposal: {
        ...entry(room, room),
        detail: places === undefined ? use : `${fixed(places, 0)} places, ${use}`,
      },
    };
  });
  return ranked.sort((a, b) => a.rank - b.rank).map(({ proposal }) => proposal);
}

/** Lots for the lots of a fill, with the bins that are left of them; those that belong in it and with bins first. */
export function lotsForFill(plan: Plan, fruit: FruitData, fill: Fill | undefined, colon: string): Proposal[] {
  const left = new Map(lotsLeft({ plan }).map(({ lot, left }) => [lot.id, left]));
  const belongs = belongsIn(plan, fruit, fill);
  const rank = ({ id, variety }: Lot) => (left.has(id) ? 0 : 2) + (belongs(variety?.value) ? 0 : 1);
  return [...plan.lots.values()]
    .sort((a, b) => rank(a) - rank(b))
    .map((lot) => {
      const bins = left.get(lot.id);
      const told = bins === undefined ? 'all bins placed' : `${fixed(bins, 0)} bins left`;
      const amount = colon === '' || bins === undefined ? '' : String(bins);
      return {
        ...entry(lot.id, `${lot.id}${colon}${amount}`),
        detail: [lot.variety?.value, told].filter(Boolean).join(', '),
      };
    });
}

function leftOf(plan: Plan, lot: string): number[] {
  return lotsLeft({ plan }).flatMap((found) => (found.lot.id === lot ? [found.left] : []));
}

/** The weeks of a fill's opening window that mean something, with the caution. */
function weeks(season: ComputedSeason | undefined, fill: string): Proposal[] | undefined {
  const window = season?.keeping.get(fill)?.window;
  if (!season || !window) return undefined;
  const told: [week: Week | undefined, detail: string][] = [
    [scheduledWeek(season, fill), "the schedule's week"],
    [window.bestBefore.week, 'best before'],
    [window.earliest.week, 'earliest of the window'],
    [window.latest.week, 'latest of the window'],
  ];
  const seen = new Set<Week>();
  return told.flatMap(([week, detail]) => {
    if (week === undefined || seen.has(week)) return [];
    seen.add(week);
    return [{ ...value(formatWeek(week), detail), documentation: cautionInShort }];
  });
}

function classes({ packing }: Plan): string[] {
  return [...(packing?.packout.values() ?? [])].flatMap(({ shares }) => [...shares.keys()]);
}

function words(all: readonly (string | undefined)[], detail: string): Proposal[] {
  const distinct = [...new Set(all.filter((word) => word !== undefined))].sort();
  return distinct.map((word) => value(word, detail));
}

function value(label: string, detail: string): Proposal {
  return { label, kind: 'value', detail, documentation: '', newText: label };
}

function entry(label: string, newText: string): Proposal {
  return { label, kind: 'entry', detail: '', documentation: '', newText };
}
