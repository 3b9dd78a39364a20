import type { NewFill } from '../plan/add-fills';
import type { Day } from '../plan/dates';
import type { Plan } from '../plan/model';
import { daysPutOff } from './intake';
import type { FillProblem, ProposedRoom } from './types';
import { daysToSealing } from './weights';

/**
 * Proposed rooms as fills of the plan, each named after its room and the fruit it holds most of; of a room that a fill
 * has begun, that fill with what is added to it.
 */
export function newFills(plan: Plan, problem: FillProblem, rooms: readonly ProposedRoom[]): NewFill[] {
  const taken = new Set(plan.fills.keys());
  return rooms.map((proposed) => {
    const days = proposed.entries.map(({ entered }) => entered);
    const [firstBin, lastBin] = [Math.min(...days), Math.max(...days)];
    const regime = problem.regimes.find(({ name }) => name === proposed.regime);
    const closing = (last: Day) =>
      regime?.sealed ? last + regime.conditioningDays + daysToSealing : undefined;
    const what = { room: proposed.room, regime: proposed.regime, lots: lotsOf(proposed) };
    const held = problem.rooms.find(({ id }) => id === proposed.room)?.held;
    if (held) {
      const last = Math.max(lastBin, held.lastDay);
      const written = plan.fills.get(held.fill)?.sealed?.value;
      const sealed = written === undefined ? undefined : written + daysPutOff(held, last);
      return { ...what, id: held.fill, stands: true, firstBin: held.firstDay, lastBin: last, sealed };
    }
    const id = freeName(`${proposed.room}-${slug(mostOf(problem, proposed))}`, taken);
    taken.add(id);
    return { ...what, id, firstBin, lastBin, sealed: closing(lastBin) };
  });
}

/** Bins by lot, in the order in which the lots come in. */
export function lotsOf({ entries }: ProposedRoom): { readonly lot: string; readonly bins: number }[] {
  const bins = new Map<string, number>();
  for (const entry of entries) bins.set(entry.lot, (bins.get(entry.lot) ?? 0) + entry.bins);
  return [...bins].map(([lot, count]) => ({ lot, bins: count }));
}

function mostOf({ lots }: FillProblem, proposed: ProposedRoom): string {
  const bins = new Map<string, number>();
  for (const { lot, bins: count } of lotsOf(proposed)) {
    const variety = lots.find(({ id }) => id === lot)?.variety ?? '';
    bins.set(variety, (bins.get(variety) ?? 0) + count);
  }
  return [...bins].sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1))[0]?.[0] ?? '';
}

export function slug(variety: string): string {
  const plain = variety
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-');
  return plain.replace(/^-+|-+$/g, '') || 'fill';
}

export function freeName(name: string, taken: ReadonlySet<string>): string {
  if (!taken.has(name)) return name;
  for (let number = 2; ; number++) if (!taken.has(`${name}-${number}`)) return `${name}-${number}`;
}
