import { fruitData } from '../../fruit/data';
import type { FruitData } from '../../fruit/types';
import type { RoomKeeping } from '../../keeping/types';
import type { Keep } from '../../plan/keep';
import { type KnownPlan, withRecords } from '../../plan/known';
import type { Plan } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { finish, type Steps } from '../../plan/steps';
import { coolingInGroups } from '../../plant/group-cooling';
import { plantSeasonSteps } from '../../plant/season';
import type { PlantSeason } from '../../plant/types';
import type { Openings } from '../../plant/weeks';
import type { CoolingCourse } from '../../room/cooling-course';
import type { FilledRoom, RoomCapacity } from '../../room/types';
import type { SeenReadings } from '../../watching/seen-readings';
import { capacityIn, filledIn, keepingIn, openingWeeks } from '../compute';
import { type FoundCourses, type PutOff, puttingOff } from '../courses';
import { type FindOptions, findingsAmong } from '../find';
import { type PlacedPart, placedAgain } from '../placed';
import type { ComputedSeason, Finding } from '../types';
import { Cell, Cells, type Dependent, Noticer, sameItems } from './cells';
import { folded } from './folded';
import { type OrderedCell, OrderedCells } from './ordered-cells';
import { RulesAgain } from './rules-again';
import { Watched, WatchedFruit } from './watched';
import { WatchedMap } from './watched-map';
import { type Through, WatchedPlan } from './watched-plan';

/** The part of a season that needs no schedule. */
type Rooms = Pick<ComputedSeason, 'fruit' | 'capacities' | 'filled' | 'keeping'> & {
  readonly plan: Plan;
  readonly view: Plan;
};

/** What is made of the rooms of a season, and what it was made of. */
interface PlantMade {
  readonly reader: Dependent;
  readonly filled: RoomsMade<FilledRoom>;
  readonly opens: Openings | undefined;
  readonly cooling: ReadonlyMap<string, CoolingCourse>;
  readonly plant: PlantSeason | undefined;
}

/** Something that is made of each room: the very same list while none of it has changed. */
type RoomsMade<T> = readonly OrderedCell<T | undefined>[];

export interface Grain {
  /**
   * Lots are noticed field by field, and what is made of them shows them as the newest plan has them: for whoever has
   * one season at a time and looks at no older one beside it.
   */
  readonly byField: boolean;
}

export interface AgainOptions {
  readonly release: ComputedSeason['release'];
  readonly courses: FoundCourses | undefined;
  readonly readings?: SeenReadings | undefined;
}

/**
 * A season computed again and again while its plan is edited: the same as `computeSeason` and `findingsOf` give, made
 * of what was made last time and of what has changed since. It holds what the last plan needs and no more.
 */
export class SeasonAgain {
  private readonly noticer = new Noticer();
  private plan: WatchedPlan | undefined;
  private readonly capacities = this.map<RoomCapacity>();
  private readonly placed = this.map<readonly PlacedPart[]>();
  private readonly isPlaced = new Watched<boolean>(this.noticer, false);
  private readonly filled = this.map<FilledRoom>();
  private readonly keeping = this.map<RoomKeeping>();
  private readonly fruit = new WatchedFruit(this.noticer);
  private readonly plant = new Watched<PlantSeason | undefined>(this.noticer, undefined);
  private readonly release = new Watched<ComputedSeason['release']>(this.noticer, undefined);
  private readonly courses = new Watched<FoundCourses | undefined>(this.noticer, undefined);
  private readonly readings = new Watched<SeenReadings | undefined>(this.noticer, undefined);
  private readonly fruitCell = new Cell<FruitData>();
  private readonly cells = new Cells<unknown>(this.noticer);
  private readonly rules = new RulesAgain(this.noticer);
  private placedOf: undefined | { readonly fills: Plan['fills']; readonly parts: ComputedSeason['placed'] };
  private lastKnown: KnownPlan | undefined;
  private lastPlant: PlantSeason | undefined;
  private plantMade: PlantMade | undefined;
  private readonly capacityCells = this.each<RoomCapacity>();
  private readonly filledCells = this.each<FilledRoom>();
  private readonly keepingCells = this.each<RoomKeeping>();
  private opens: { readonly of: ComputedSeason['release']; readonly weeks: Openings | undefined } | undefined;

  constructor(private readonly grain: Grain = { byField: false }) {}

  /** The season of a plan read with a cache, its entries those of the last plan where they have not changed. */
  compute(plan: Plan, options: AgainOptions): ComputedSeason {
    return finish(this.computeSteps(plan, options));
  }

  /** The same in steps, some entries each. What work that is let go of leaves undone, the next does, for any plan. */
  *computeSteps(written: Plan, { release, courses, readings }: AgainOptions): Steps<ComputedSeason> {
    const { plan, view, fruit, capacities, filled, keeping } = yield* this.rooms(written);
    this.release.set(release);
    this.courses.set(courses);
    this.readings.set(readings);
    const { plant } = yield* this.plantOf(view, filled, this.opensOf(release));
    this.plant.set(plant);
    const placed = this.placedNow(plan);
    return {
      ...{ plan, placed, fruit, capacities, filled, plant, keeping, release },
      ...(courses && { courses }),
      ...(readings && { readings }),
    };
  }

  /** How long a plan's rooms keep: what a schedule is made of, before there is one for `compute`. */
  keepingOf(plan: Plan): ReadonlyMap<string, RoomKeeping> {
    return finish(this.keepingSteps(plan));
  }

  /** The same in steps. */
  *keepingSteps(plan: Plan): Steps<ReadonlyMap<string, RoomKeeping>> {
    return (yield* this.rooms(plan)).keeping;
  }

  /** Cooling of all rooms of the season that was computed last, by fill. */
  cooling(): ReadonlyMap<string, CoolingCourse> | undefined {
    return this.plantMade?.cooling;
  }

  private readonly keep: Keep = (key, inputs, make) =>
    this.cells.get(key, inputs, make) as ReturnType<typeof make>;

  private *rooms(written: Plan): Steps<Rooms> {
    const plan = withRecords(written, this.lastKnown);
    this.lastKnown = { written, known: plan };
    this.plan ??= new WatchedPlan(this.noticer, plan, this.grain.byField);
    this.plan.set(plan);
    const view = this.plan.view();
    const fruit = this.fruitOf(plan);
    this.fruit.set(fruit);
    const capacities = yield* this.made(this.capacityCells, plan.rooms, (id) => capacityIn(view, id));
    this.capacities.set(capacities);
    const filled = yield* this.made(this.filledCells, plan.fills, (id) =>
      standingForLots(filledIn(view, this.fruit, this.capacities, id)),
    );
    this.filled.set(filled);
    const keeping = yield* this.made(this.keepingCells, filled, (id) => keepingIn(view, this.filled, id));
    this.keeping.set(keeping);
    return { plan, view, fruit, capacities, filled, keeping };
  }

  private each<T>(): OrderedCells<T | undefined> {
    return new OrderedCells<T | undefined>(this.noticer, (value) => value !== undefined);
  }

  /** What is made for each key of a map; those for which there is nothing are left out. */
  private *made<T>(
    cells: OrderedCells<T | undefined>,
    of: ReadonlyMap<string, unknown>,
    make: (id: string) => T | undefined,
  ): Steps<Map<string, T>> {
    cells.setKeys(of);
    yield* cells.makeOld((id) => this.folds(make(id), () => make(id)));
    const made = new Map<string, T>();
    for (const { key, value } of cells.sayingAny()) if (value !== undefined) made.set(key, value);
    return made;
  }

  /** Cooling and the plant's weeks; those at hand where nothing that they look at has changed. */
  private *plantOf(
    view: Plan,
    rooms: ReadonlyMap<string, FilledRoom>,
    opens: Openings | undefined,
  ): Steps<PlantMade> {
    const filled = this.filledCells.sayingAny();
    const last = this.plantMade;
    const isSame = last && !last.reader.isOld && last.filled === filled && last.opens === opens;
    if (isSame && !this.cells.hasOld) return last;
    if (last) last.reader.isOld = true;
    this.plantMade = undefined;
    const reader: Dependent = { isOld: false };
    yield;
    const cooling = this.noticer.noticed(reader, () => coolingInGroups(view, rooms, this.keep));
    yield;
    const steps = plantSeasonSteps(view, rooms, opens, this.keep);
    const plant = this.samePlant(yield* this.noticer.noticedSteps(reader, steps));
    this.cells.endRound();
    this.plantMade = { reader, filled, opens, cooling, plant };
    return this.plantMade;
  }

  /** Whoever has one season at a time holds it without how its figures came about: that is made again when asked for. */
  private folds<T>(made: T | undefined, make: () => T | undefined): T | undefined {
    if (made === undefined || !this.grain.byField) return made;
    return folded(made, () => this.noticer.unnoticed(make));
  }

  /** Its findings. The season must be the one that was computed last. */
  findings(season: ComputedSeason, options: FindOptions): Finding[] {
    return finish(this.findingsSteps(season, options));
  }

  /**
   * The same in steps, a rule or some entries each. What must be tried many times over is left out of what they say and
   * put off into `putOff`, where it is given.
   */
  *findingsSteps(season: ComputedSeason, options: FindOptions, putOff?: PutOff): Steps<Finding[]> {
    const { plan, fruit, placed, isPlaced, capacities, filled, keeping, plant, release, courses, readings } =
      this;
    if (!plan) return [];
    const viewOf = (through: Through): ComputedSeason => ({
      plan: plan.view(through),
      fruit,
      capacities: through('capacities', capacities),
      filled: through('filled', filled),
      keeping: through('keeping', keeping),
      get placed() {
        return isPlaced.value ? placed : undefined;
      },
      get plant() {
        return plant.value;
      },
      get release() {
        return release.value;
      },
      get courses() {
        return courses.value;
      },
      get readings() {
        return readings.value;
      },
    });
    const around = (work: () => readonly Problem[]) =>
      putOff ? puttingOff(season.courses, putOff, work) : work();
    const problems = yield* this.rules.problems(season, viewOf, around);
    yield;
    return findingsAmong(season, problems, options);
  }

  private map<V>(): WatchedMap<V> {
    return new WatchedMap<V>(this.noticer, new Map());
  }

  private fruitOf(plan: Plan): FruitData {
    const { policy, season, varieties, regimes } = plan;
    const inputs = [policy, season, ...varieties.values(), 'regimes', ...regimes.values()];
    return this.fruitCell.get(this.noticer, inputs, () => fruitData(plan));
  }

  private placedNow(plan: Plan): ComputedSeason['placed'] {
    if (this.placedOf?.fills !== plan.fills)
      this.placedOf = { fills: plan.fills, parts: placedAgain(plan, this.placedOf?.parts ?? new Map()) };
    const { parts } = this.placedOf;
    this.isPlaced.set(parts !== undefined);
    this.placed.set(parts ?? new Map());
    return parts;
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

/**
 * Rooms' courses and the plant's weeks take a room that is the same for one whose lots come in as before: so it looks at
 * all of a lot that they follow from.
 */
function standingForLots(room: FilledRoom | undefined): FilledRoom | undefined {
  for (const { lot } of room?.lots ?? []) void [lot.variety, lot.picked, lot.fieldTemperature];
  return room;
}
