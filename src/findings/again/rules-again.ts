import type { Problem } from '../../plan/problem';
import type { Steps } from '../../plan/steps';
import { type EntryMap, mapIn, mapsOf } from '../each-entry';
import { rules } from '../rules';
import type { ComputedSeason, Rule } from '../types';
import { Cells, type Noticer } from './cells';
import { OneOf } from './watched-map';
import { allOf, type Through } from './watched-plan';

const MAPS: readonly EntryMap[] = [
  'rooms',
  'binTypes',
  'regimes',
  'lots',
  'fills',
  'capacities',
  'filled',
  'keeping',
];

/** Entries that are looked at in one step. */
const ENTRIES_A_STEP = 8;

interface Finder {
  readonly code: string;
  readonly find: NonNullable<Rule['find']>;
}

const finders: readonly Finder[] = rules.flatMap(({ code, find }) => (find ? [{ code, find }] : []));

/** It asks for so many lots one by one that it is taken to look at all of them: noticing each takes longer. */
const THROUGH_ALL: ReadonlySet<string> = new Set(['unknown-reference']);

/** Rules that look at a season as a whole, and what those of entries find beside them. */
const ofWhole: readonly Finder[] = [
  ...finders.filter(({ code }) => mapsOf(code).length === 0),
  ...rules.flatMap(({ code, findBeside }) => (findBeside ? [{ code, find: findBeside }] : [])),
];

/** Rules that look at the entries of a map one by one. */
const ofEntries: ReadonlyMap<EntryMap, readonly Finder[]> = new Map(
  MAPS.map((map) => [map, finders.filter(({ code }) => mapsOf(code).includes(map))] as const),
);

/** Runs only those rules again that looked at something that has changed; those of single entries for these alone. */
export class RulesAgain {
  private readonly cells: Cells<readonly Problem[]>;
  private readonly entryCells: ReadonlyMap<EntryMap, Cells<readonly Problem[]>>;

  constructor(noticer: Noticer) {
    this.cells = new Cells(noticer);
    this.entryCells = new Map(MAPS.map((map) => [map, new Cells<readonly Problem[]>(noticer)] as const));
  }

  /**
   * All problems that the rules find, a rule or an entry a step. `viewOf` gives the season with its readers noticed,
   * `around` is what is to hold while rules are run.
   */
  *problems(
    season: ComputedSeason,
    viewOf: (through: Through) => ComputedSeason,
    around: (work: () => readonly Problem[]) => readonly Problem[],
  ): Steps<Problem[]> {
    const found: Problem[] = [];
    const view = viewOf(allOf);
    for (const { code, find } of ofWhole) {
      yield;
      const make = () => {
        if (THROUGH_ALL.has(code)) void view.plan.lots.size;
        return around(() => [...find(view)]);
      };
      const problems = this.cells.get(`rule ${code}`, [], make);
      if (problems.length > 0) found.push(...problems);
    }
    for (const [map, entryRules] of ofEntries) {
      let one: ReturnType<typeof seasonOfOne> | undefined;
      const cells = this.entryCells.get(map);
      let made = 0;
      for (const id of mapIn(season, map).keys()) {
        let problems = cells?.atHand(id);
        if (!problems) {
          if (made++ % ENTRIES_A_STEP === 0) yield;
          one ??= seasonOfOne(viewOf, map);
          const { season: seasonOf, lookAt } = one;
          const make = () => {
            lookAt(id);
            return around(() => foundIn(entryRules, seasonOf));
          };
          problems = cells?.get(id, [], make) ?? [];
        }
        if (problems.length > 0) found.push(...problems);
      }
      cells?.endRound();
    }
    this.cells.endRound();
    return found;
  }
}

function foundIn(some: readonly Finder[], season: ComputedSeason): readonly Problem[] {
  let found: Problem[] | undefined;
  for (const { find } of some)
    for (const problem of find(season)) {
      found ??= [];
      found.push(problem);
    }
  return found ?? NOTHING;
}

/** Most rules find nothing in most entries. */
const NOTHING: readonly Problem[] = [];

/** The season in which of all these maps only one entry of one map is gone through: the one that is looked at. */
function seasonOfOne(viewOf: (through: Through) => ComputedSeason, map: EntryMap) {
  const looked: OneOf<unknown>[] = [];
  const season = viewOf((name, entries) => {
    const only = new OneOf(entries);
    if (name === map) looked.push(only);
    return only;
  });
  const lookAt = (id: string) => {
    for (const only of looked) only.lookAt(id);
  };
  return { season, lookAt };
}
