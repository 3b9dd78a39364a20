import { Balance } from './balance';
import { Controls, carbonDioxidePercent, oxygenPercent } from './controls';
import { FruitRate } from './fruit-rate';
import { roomCelsius } from './fruit-temperature';
import { pointOf } from './point';
import { Stepper } from './runge-kutta';
import { AIR, GAS_STATES, molesPerCubicMetre, STATE, STATE_SIZE } from './state';
import type { Course, CourseEvent, CoursePoint, CourseRoom } from './types';

export interface IntegrateOptions {
  /** Greatest error of a step, as a share of the room's gas. */
  readonly tolerance?: number;
  /** Hours at which points are wanted; sealing and the end are always among them. Usual: `usualHours`. */
  readonly hours?: readonly number[];
}

/** Tenths of a millionth of the gas a step: a few thousandths of a millionth of a per cent over a season. */
const USUAL_TOLERANCE = 1e-7;
const LONGEST_STEP_HOURS = 240;
const SHORTEST_STEP_HOURS = 1e-7;
/** How near in time, and below its level, something that happens is pinned down. */
const ROOT_HOURS = 1e-9;
const ON_LEVEL = 1e-9;
/** Many times what a season takes: a room of numbers that nobody meant is given up on. */
const MOST_STEPS = 20_000;

/** Every two hours for twelve days after sealing, then once a day. */
export function usualHours(until: number): number[] {
  const hours: number[] = [];
  for (let hour = 0; hour < until; hour += hour < 288 ? 2 : 24) hours.push(hour);
  return [...hours, until];
}

/** The course of a room's gas and fruit from sealing to opening. */
export function integrate(room: CourseRoom, options: IntegrateOptions = {}): Course {
  return new Integration(room, options.tolerance ?? USUAL_TOLERANCE).run(
    options.hours ?? usualHours(room.untilHours),
  );
}

class Integration {
  readonly #room: CourseRoom;
  readonly #fruit: FruitRate;
  readonly #balance: Balance;
  readonly #controls: Controls;
  readonly #stepper: Stepper;
  readonly #scale: number;
  readonly #first: Float64Array;
  readonly #events: CourseEvent[] = [];
  readonly #points: CoursePoint[] = [];
  readonly #between: Float64Array = new Float64Array(STATE_SIZE);
  #wanted: readonly number[] = [];
  #toldTo = 0;
  #steps = 0;
  #state: Float64Array;
  #next: Float64Array = new Float64Array(STATE_SIZE);
  #hours = 0;
  #stepHours = 0.05;
  #lowestOxygen = { hours: 0, percent: Number.POSITIVE_INFINITY };
  #highestCarbonDioxide = { hours: 0, percent: Number.NEGATIVE_INFINITY };

  constructor(room: CourseRoom, tolerance: number) {
    this.#room = room;
    this.#fruit = new FruitRate(room.fruit, room.temperature);
    this.#balance = new Balance(room, this.#fruit, {
      feedStep: undefined,
      oxygen: 'free',
      carbonDioxide: 'off',
      scrubberShare: 0,
    });
    this.#controls = new Controls(room, this.#balance, (hours, kind) => this.#events.push({ hours, kind }));
    this.#stepper = new Stepper(STATE_SIZE, GAS_STATES, (hours, state, slope) =>
      this.#balance.derivative(hours, state, slope),
    );
    const moles = room.gasVolumeM3 * molesPerCubicMetre(roomCelsius(room.temperature, 0));
    this.#scale = tolerance * moles;
    this.#state = new Float64Array(STATE_SIZE);
    this.#state[STATE.oxygen] = AIR.oxygen * moles;
    this.#state[STATE.carbonDioxide] = AIR.carbonDioxide * moles;
    this.#state[STATE.nitrogen] = AIR.nitrogen * moles;
    this.#first = this.#state.slice();
  }

  run(wanted: readonly number[]): Course {
    const until = this.#room.untilHours;
    const stops = [...this.#controls.clock().filter((hours) => hours < until), until];
    this.#wanted = wanted.filter((hours) => hours > 0 && hours < until).sort((a, b) => a - b);
    this.#controls.settle(0, this.#state);
    this.#remember(0, this.#state);
    this.#tell(0, this.#state);
    for (const stop of stops) {
      this.#advance(stop);
      if (this.#steps > MOST_STEPS) break;
      if (stop < until) this.#controls.settle(stop, this.#state);
    }
    this.#tell(until, this.#state);
    return {
      points: this.#points,
      events: this.#events,
      lowestOxygen: this.#lowestOxygen,
      highestCarbonDioxide: this.#highestCarbonDioxide,
      complete: this.#steps <= MOST_STEPS && this.#state.every(Number.isFinite),
      steps: this.#steps,
      first: this.#first,
      last: this.#state.slice(),
    };
  }

  #tell(hours: number, state: Float64Array): void {
    this.#points.push(pointOf(hours, state, this.#room, this.#fruit));
  }

  /** The points wanted within the step just made. */
  #tellWithin(length: number): void {
    for (let hours = this.#wanted[this.#toldTo]; hours !== undefined; hours = this.#wanted[++this.#toldTo]) {
      const share = (hours - this.#hours) / length;
      if (share > 1) return;
      this.#stepper.between(this.#state, this.#next, length, share, this.#between);
      this.#tell(hours, this.#between);
      this.#remember(hours, this.#between);
    }
  }

  /** Steps to an hour, each as long as the error lets it be, ending early where something happens. */
  #advance(stop: number): void {
    while (this.#hours < stop - 1e-9) {
      if (this.#steps > MOST_STEPS) return;
      const left = stop - this.#hours;
      const length = Math.min(this.#stepHours, left, LONGEST_STEP_HOURS);
      this.#stepper.begin(this.#hours, this.#state);
      const error = this.#stepper.step(this.#hours, this.#state, length, this.#next, this.#scale);
      if (!(error <= 1) && length > SHORTEST_STEP_HOURS) {
        this.#stepHours = length * (error > 1 ? Math.max(0.2, 0.9 * error ** -0.2) : 0.2);
        this.#steps++;
        continue;
      }
      const grown = length * Math.min(5, 0.9 * Math.max(error, 1e-10) ** -0.2);
      // A step cut short to end at a wanted hour says nothing against longer ones.
      this.#stepHours = Math.max(grown, error < 1 && length === left ? this.#stepHours : 0);
      this.#accept(length);
    }
    this.#hours = stop;
  }

  /** Takes the step, or the part of it up to the first thing that happens. */
  #accept(length: number): void {
    this.#steps++;
    const end = this.#hours + length;
    const watched = this.#controls.watches().map((watch) => ({
      watch,
      before: watch.level(this.#hours, this.#state),
      after: watch.level(end, this.#next),
    }));
    let first: { readonly length: number; readonly watch: (typeof watched)[number]['watch'] } | undefined;
    for (const { watch, before, after } of watched) {
      if (!(before > 0 && after <= 0)) continue;
      const at = this.#root(watch.level, length, before, after);
      if (!first || at < first.length) first = { length: at, watch };
    }
    if (first) this.#stepper.step(this.#hours, this.#state, first.length, this.#next, this.#scale);
    const made = first ? first.length : length;
    this.#tellWithin(made);
    this.#hours += made;
    [this.#state, this.#next] = [this.#next, this.#state];
    this.#remember(this.#hours, this.#state);
    if (first) {
      // Two may happen at one level, as 5 % and a change of purity there: from here on neither is above zero again.
      const fell = ({ watch, before }: (typeof watched)[number]) =>
        watch !== first.watch && before > 0 && watch.level(this.#hours, this.#state) <= 0;
      for (const { watch } of [first, ...watched.filter(fell)])
        this.#controls.happened(watch, this.#hours, this.#state);
      this.#stepHours = Math.min(this.#stepHours, 1);
    }
  }

  /** Length of the step at which a level has just fallen to zero: false position, the Illinois way. */
  #root(
    level: (hours: number, state: Float64Array) => number,
    length: number,
    before: number,
    after: number,
  ): number {
    let [low, high, atLow, atHigh] = [0, length, before, after];
    let keptHigh: boolean | undefined;
    for (let tries = 0; tries < 60 && high - low > ROOT_HOURS; tries++) {
      const middle = low + ((high - low) * atLow) / (atLow - atHigh);
      this.#stepper.step(this.#hours, this.#state, middle, this.#next, this.#scale);
      const here = level(this.#hours + middle, this.#next);
      if (here > 0) {
        [low, atLow] = [middle, here];
        if (keptHigh === true) atHigh /= 2;
        keptHigh = true;
      } else {
        [high, atHigh] = [middle, here];
        if (here > -ON_LEVEL) break;
        if (keptHigh === false) atLow /= 2;
        keptHigh = false;
      }
    }
    return high;
  }

  #remember(hours: number, state: Float64Array): void {
    const oxygen = oxygenPercent(state);
    const carbonDioxide = carbonDioxidePercent(state);
    if (oxygen < this.#lowestOxygen.percent) this.#lowestOxygen = { hours, percent: oxygen };
    if (carbonDioxide > this.#highestCarbonDioxide.percent) {
      this.#highestCarbonDioxide = { hours, percent: carbonDioxide };
    }
  }
}
