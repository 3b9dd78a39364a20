import { fruitData } from '../../fruit/data';
import type { FruitData } from '../../fruit/types';
import type { RoomKeeping } from '../../keeping/types';
import type { Keep } from '../../plan/keep';
import type { Plan } from '../../plan/model';
import { plantSeason } from '../../plant/season';
import type { PlantSeason } from '../../plant/types';
import type { Openings } from '../../plant/weeks';
import type { FilledRoom, RoomCapacity } from '../../room/types';
import { capacityIn, entriesMade, filledIn, keepingIn, openingWeeks } from '../compute';
import type { FoundCourses } from '../courses';
import { type FindOptions, findingsAmong } from '../find';
import type { ComputedSeason, Finding } from '../types';
import { Cell, Cells, Noticer, sameItems } from './cells';
import { RulesAgain } from './rules-again';
import { Watched, WatchedFruit } from './watched';
import { WatchedMap } from './watched-map';
import { WatchedPlan } from './watched-plan';

export interface AgainOptions {
  readonly release: ComputedSeason['release'];
  readonly courses: FoundCourses | undefined;
}

/**
 * A season computed again and again while its plan is edited: the same as `computeSeason` and `findingsOf` give, made
 * of what was made last time and of what has changed since. It holds what the last plan needs and no more.
 */
export class SeasonAgain {
  private readonly noticer = new Noticer();
  private plan: WatchedPlan | undefined;
  private readonly capacities = this.map<RoomCapacity>();
  private readonly filled = this.map<FilledRoom>();
  private readonly keeping = this.map<RoomKeeping>();
  private readonly fruit = new WatchedFruit(this.noticer);
  private readonly plant = new Watched<PlantSeason | undefined>(this.noticer, undefined);
  private readonly release = new Watched<ComputedSeason['release']>(this.noticer, undefined);
  private readonly courses = new Watched<FoundCourses | undefined>(this.noticer, undefined);
  private readonly fruitCell = new Cell<FruitData>(this.noticer);
  private readonly cells = new Cells<unknown>(this.noticer);
  private readonly rules = new RulesAgain(this.noticer);
  private lastPlant: PlantSeason | undefined;
  private opens: { readonly of: ComputedSeason['release']; readonly weeks: Openings | undefined } | undefined;

  /** The season of a plan read with a cache, its entries those of the last plan where they have not changed. */
  compute(plan: Plan, { release, courses }: AgainOptions): ComputedSeason {
    const { view, fruit, capacities, filled, keeping } = this.rooms(plan);
    this.release.set(release);
    this.courses.set(courses);
    const plant = this.samePlant(plantSeason(view, filled, this.opensOf(release), this.keep));
    this.plant.set(plant);
    this.cells.endRound();
    return { plan, fruit, capacities, filled, plant, keeping, release, ...(courses && { courses }) };
  }

  /** How long a plan's rooms keep: what a schedule is made of, before there is one for `compute`. */
  keepingOf(plan: Plan): ReadonlyMap<string, RoomKeeping> {
    return this.rooms(plan).keeping;
  }

  private readonly keep: Keep = (key, inputs, make) =>
    this.cells.get(key, inputs, make) as ReturnType<typeof make>;

  private rooms(plan: Plan) {
    this.plan ??= new WatchedPlan(this.noticer, plan);
    this.plan.set(plan);
    const view = this.plan.view();
    const fruit = this.fruitOf(plan);
    this.fruit.set(fruit);
    const made = <T>(step: string, ids: Iterable<string>, make: (id: string) => T | undefined) =>
      entriesMade(ids, (id) => this.keep(`${step} ${id}`, [], () => make(id)));
    const capacities = made('capacity', plan.rooms.keys(), (id) => capacityIn(view, id));
    this.capacities.set(capacities);
    const filled = made('filled', plan.fills.keys(), (id) => filledIn(view, this.fruit, this.capacities, id));
    this.filled.set(filled);
    const keeping = made('keeping', filled.keys(), (id) => keepingIn(view, this.filled, id));
    this.keeping.set(keeping);
    return { view, fruit, capacities, filled, keeping };
  }

  /** Its findings. The season must be the one that was computed last. */
  findings(season: ComputedSeason, options: FindOptions): Finding[] {
    const { plan, fruit, capacities, filled, keeping, plant, release, courses } = this;
    if (!plan) return [];
    const view: ComputedSeason = {
      plan: plan.view(),
      fruit,
      capacities,
      filled,
      keeping,
      get plant() {
        return plant.value;
      },
      get release() {
        return release.value;
      },
      get courses() {
        return courses.value;
      },
    };
    return findingsAmong(season, this.rules.problems(season, view), options);
  }

  private map<V>(): WatchedMap<V> {
    return new WatchedMap<V>(this.noticer, new Map());
  }

  private fruitOf(plan: Plan): FruitData {
    const { policy, season, varieties, regimes } = plan;
    const inputs = [policy, season, ...varieties.values(), 'regimes', ...regimes.values()];
    return this.fruitCell.get(inputs, () => fruitData(plan));
  }

  private opensOf(release: ComputedSeason['release']): Openings | undefined {
    if (!this.opens || this.opens.of !== release)
      this.opens = { of: release, weeks: release && openingWeeks(release) };
    return this.opens.weeks;
  }

  /** The last one where all its parts are the same. */
  private samePlant(plant: PlantSeason | undefined): PlantSeason | undefined {
    const last = this.lastPlant;
    const isSame =
      last &&
      plant &&
      last.firstWeek === plant.firstWeek &&
      last.lastWeek === plant.lastWeek &&
      sameItems(last.scrubbers, plant.scrubbers) &&
      sameItems(last.nitrogen, plant.nitrogen) &&
      sameItems(last.refrigeration, plant.refrigeration);
    if (!isSame) this.lastPlant = plant;
    return this.lastPlant;
  }
}
