import { formatWeeks, type Week } from '../plan/dates';
import type { Demand } from '../plan/model';
import type { Differing } from './differing';
import { placesOf } from './places';
import type { PlanChange, PlanValue } from './types';

/** Cartons wanted by week, of the weeks in which any are. */
type Wanted = ReadonlyMap<Week, number>;

/**
 * What changed of the cartons a demand wants week by week, in whatever way it is written: all of it so many weeks
 * later or earlier, or more or fewer. `told` are the keys this speaks for. Undefined where a side does not say.
 */
export function demandChange({
  thing,
  old,
  now,
  paths,
}: Differing): { readonly change: PlanChange; readonly told: readonly string[] } | undefined {
  const told = paths.filter(isWanted);
  if (told.length === 0) return undefined;
  const [before, after] = [wantedBy(old), wantedBy(now)];
  if (!before || !after) return undefined;
  const [oldAt, newAt] = [placeOf(old), placeOf(now)];
  const places = placesOf(oldAt, newAt);
  const weeks = shiftBetween(before, after);
  if (weeks !== undefined && weeks !== 0) {
    const change: PlanChange = {
      kind: 'demand-shifted',
      things: [thing],
      key: 'weeks',
      before: { value: weeksText(before) },
      after: { value: weeksText(after) },
      amount: { value: weeks, unit: 'weeks' },
      ...places,
    };
    return { change, told };
  }
  const [was, is] = [cartonsOf(before), cartonsOf(after)];
  const change: PlanChange = {
    kind: 'demand-changed',
    things: [thing],
    key: differingWeeks(before, after),
    before: was,
    after: is,
    amount: { value: Number(is.value) - Number(was.value), unit: 'cartons' },
    ...places,
  };
  return { change, told };
}

/** Fields that say how many cartons are wanted when. */
export function isWanted(path: string): boolean {
  return path === 'weeks' || path === 'cartons' || path.startsWith('byWeek.');
}

/** True where a demand wants the same in each week, however it is written. */
export function wantsTheSame(old: Demand, now: Demand): boolean {
  const [before, after] = [wantedBy(old), wantedBy(now)];
  return before !== undefined && after !== undefined && shiftBetween(before, after) === 0;
}

function wantedBy(thing: Differing['old']): Wanted | undefined {
  const demand = thing as Demand | undefined;
  const span = demand?.weeks?.value;
  if (!demand || !span || span.last - span.first > MOST_WEEKS) return undefined;
  const wanted = new Map<Week, number>();
  for (let week = span.first; week <= span.last; week++) {
    const cartons = (demand.byWeek.get(week) ?? demand.cartons)?.value ?? 0;
    if (cartons > 0) wanted.set(week, cartons);
  }
  return wanted;
}

/** Longer spans are slips of the keyboard. */
const MOST_WEEKS = 520;

function placeOf(thing: Differing['old']) {
  const demand = thing as Demand | undefined;
  return demand?.weeks?.at ?? demand?.at;
}

/** Weeks by which all of it has moved; undefined where it has not simply moved. */
function shiftBetween(before: Wanted, after: Wanted): number | undefined {
  const [first] = before.keys();
  const [other] = after.keys();
  if (before.size !== after.size || first === undefined || other === undefined)
    return before.size === 0 && after.size === 0 ? 0 : undefined;
  const weeks = other - first;
  return [...before].every(([week, cartons]) => after.get(week + weeks) === cartons) ? weeks : undefined;
}

function cartonsOf(wanted: Wanted): PlanValue {
  return { value: [...wanted.values()].reduce((sum, one) => sum + one, 0), unit: 'cartons' };
}

function weeksText(wanted: Wanted): string {
  const weeks = [...wanted.keys()];
  return spanText(weeks[0], weeks.at(-1));
}

function differingWeeks(before: Wanted, after: Wanted): string {
  const weeks = [...new Set([...before.keys(), ...after.keys()])]
    .filter((week) => before.get(week) !== after.get(week))
    .sort((a, b) => a - b);
  return spanText(weeks[0], weeks.at(-1));
}

function spanText(first: Week | undefined, last: Week | undefined): string {
  if (first === undefined || last === undefined) return '';
  return formatWeeks(first, last);
}
