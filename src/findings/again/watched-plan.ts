import type { Plan } from '../../plan/model';
import type { EntryMap } from '../each-entry';
import { type Noticer, sameItems } from './cells';
import { Watched } from './watched';
import { WatchedEntries } from './watched-entries';
import { WatchedMap } from './watched-map';

/** What those see who go through a map. */
export type Through = <V>(name: EntryMap, entries: ReadonlyMap<string, V>) => ReadonlyMap<string, V>;

export const allOf: Through = (_, entries) => entries;

/** A plan whose readers are noticed, entry by entry; lots, of which there are most, field by field where `byField`. */
export class WatchedPlan {
  private readonly maps;
  private readonly values;
  private readonly lists;

  constructor(noticer: Noticer, plan: Plan, byField: boolean) {
    const map = <V>(entries: ReadonlyMap<string, V>) => new WatchedMap(noticer, entries);
    const value = <T>(now: T) => new Watched(noticer, now);
    this.maps = {
      files: map(plan.files),
      binTypes: map(plan.binTypes),
      rooms: map(plan.rooms),
      scrubbers: map(plan.scrubbers),
      nitrogenSources: map(plan.nitrogenSources),
      refrigerationGroups: map(plan.refrigerationGroups),
      varieties: map(plan.varieties),
      regimes: map(plan.regimes),
      lots: byField ? new WatchedEntries(noticer, plan.lots) : map(plan.lots),
      fills: map(plan.fills),
      demand: map(plan.demand),
      tables: map(plan.tables),
      readings: map(plan.readings),
      progress: map(plan.progress),
      samples: map(plan.samples),
      packed: map(plan.packed),
      sales: map(plan.sales),
      expectations: map(plan.expectations),
      scenarios: map(plan.scenarios),
    };
    this.values = {
      stand: value(plan.stand),
      tooLate: value(plan.tooLate),
      toldIn: value(plan.toldIn),
      season: value(plan.season),
      packing: value(plan.packing),
      policy: value(plan.policy),
    };
    this.lists = {
      references: value(plan.references),
      allowances: value(plan.allowances),
      problems: value(plan.problems),
    };
  }

  set(plan: Plan): void {
    for (const [name, map] of Object.entries(this.maps))
      (map as WatchedMap<unknown>).set(plan[name as keyof typeof this.maps]);
    for (const [name, value] of Object.entries(this.values))
      (value as Watched<unknown>).set(plan[name as keyof typeof this.values]);
    for (const [name, list] of Object.entries(this.lists)) {
      const items: readonly unknown[] = plan[name as keyof typeof this.lists];
      const watched: Watched<readonly unknown[]> = list;
      if (!sameItems(watched.value, items)) watched.set(items);
    }
  }

  /**
   * The plan for those who compute, its maps gone through as `through` says. A new object each time, so that nothing kept
   * by the plan outlives its round.
   */
  view(through: Through = allOf): Plan {
    const { maps, values, lists } = this;
    return {
      ...maps,
      rooms: through('rooms', maps.rooms),
      binTypes: through('binTypes', maps.binTypes),
      regimes: through('regimes', maps.regimes),
      lots: through('lots', maps.lots),
      fills: through('fills', maps.fills),
      get stand() {
        return values.stand.value;
      },
      get tooLate() {
        return values.tooLate.value;
      },
      get toldIn() {
        return values.toldIn.value;
      },
      get season() {
        return values.season.value;
      },
      get packing() {
        return values.packing.value;
      },
      get policy() {
        return values.policy.value;
      },
      get references() {
        return lists.references.value;
      },
      get allowances() {
        return lists.allowances.value;
      },
      get problems() {
        return lists.problems.value;
      },
    };
  }
}
