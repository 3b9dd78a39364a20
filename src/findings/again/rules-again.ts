import type { Problem } from '../../plan/problem';
import type { Steps } from '../../plan/steps';
import { type EntryMap, findIn, mapIn, mapsOf } from '../each-entry';
import { rules } from '../rules';
import type { ComputedSeason, FindIn, Rule } from '../types';
import { Cells, type Noticer } from './cells';
import { OrderedCells } from './ordered-cells';
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

interface Finder {
  readonly code: string;
  readonly find: NonNullable<Rule['find']>;
  readonly inEntry?: Rule['inEntry'];
}

const finders: readonly Finder[] = rules.flatMap(({ code, find, inEntry }) =>
  find ? [{ code, find, ...(inEntry && { inEntry }) }] : [],
);

/** It asks for so many lots one by one that it is taken to look at all of them: noticing each takes longer. */
const THROUGH_ALL: ReadonlySet<string> = new Set(['unknown-reference']);

/** Rules that look at a season as a whole, and what those of entries find beside them. */
const ofWhole: readonly Finder[] = [
  ...finders.filter((finder) => mapsOf(finder).length === 0),
  ...rules.flatMap(({ code, findBeside }) => (findBeside ? [{ code, find: findBeside }] : [])),
];

/** Rules that look at the entries of a map one by one. */
interface EntryRules {
  /** Such as are given an entry. */
  readonly given: readonly FindIn<unknown>[];
  /** Such as go through the map, where there is but one. */
  readonly going: readonly NonNullable<Rule['find']>[];
}

const ofEntries: ReadonlyMap<EntryMap, EntryRules> = new Map(
  MAPS.map((map) => {
    const some = finders.filter((finder) => mapsOf(finder).includes(map));
    const given = some.flatMap(({ inEntry }) => findIn(inEntry, map) ?? []);
    const going = some.flatMap(({ find, inEntry }) => (inEntry ? [] : [find]));
    return [map, { given, going }] as const;
  }),
);

/** Runs only those rules again that looked at something that has changed; those of single entries for these alone. */
export class RulesAgain {
  private readonly cells: Cells<readonly Problem[]>;
  private readonly entryCells: ReadonlyMap<EntryMap, OrderedCells<readonly Problem[]>>;

  constructor(noticer: Noticer) {
    this.cells = new Cells(noticer);
    const cells = () => new OrderedCells<readonly Problem[]>(noticer, (problems) => problems.length > 0);
    this.entryCells = new Map(MAPS.map((map) => [map, cells()] as const));
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
      let one: SeasonOfOne | undefined;
      const oneOf = () => {
        one ??= seasonOfOne(viewOf, map);
        return one;
      };
      const look = () => foundIn(entryRules, view, oneOf());
      const cells = this.entryCells.get(map);
      if (!cells) continue;
      cells.setKeys(mapIn(season, map));
      yield* cells.makeOld((id) => {
        oneOf().lookAt(id);
        return around(look);
      });
      for (const { value } of cells.sayingAny()) if (value) found.push(...value);
    }
    this.cells.endRound();
    return found;
  }
}

function foundIn({ given, going }: EntryRules, season: ComputedSeason, one: SeasonOfOne): readonly Problem[] {
  let found: Problem[] | undefined;
  const entry = given.length > 0 ? one.entry() : undefined;
  if (entry !== undefined)
    for (const find of given) {
      const problems = find(season, entry);
      if (problems) found = withAll(found, problems);
    }
  for (const find of going) found = withAll(found, find(one.season));
  return found ?? NOTHING;
}

function withAll(found: Problem[] | undefined, more: Iterable<Problem>): Problem[] | undefined {
  let all = found;
  for (const problem of more) {
    all ??= [];
    all.push(problem);
  }
  return all;
}

/** Most rules find nothing in most entries. */
const NOTHING: readonly Problem[] = [];

/** The season in which of all these maps only one entry of one map is gone through: the one that is looked at. */
interface SeasonOfOne {
  readonly season: ComputedSeason;
  lookAt(id: string): void;
  /** The entry that is looked at. */
  entry(): unknown;
}

function seasonOfOne(viewOf: (through: Through) => ComputedSeason, map: EntryMap): SeasonOfOne {
  const looked: OneOf<unknown>[] = [];
  const season = viewOf((name, entries) => {
    const only = new OneOf(entries);
    if (name === map) looked.push(only);
    return only;
  });
  const lookAt = (id: string) => {
    for (const only of looked) only.lookAt(id);
  };
  return { season, lookAt, entry: () => looked[0]?.looked };
}
