import type { Balance, Switches } from './balance';
import { STATE } from './state';
import type { CourseEventKind, CourseRoom, GasStage } from './types';

/** Per cent by which a level may lie beside a set-point and still count as on it. */
const ON_SET_POINT = 1e-7;
const FIVE_PER_CENT = 5;
/** Points above its set-point from which oxygen is said to climb. */
const CLIMBED = 0.2;

/** Something that happens where a function of time and state falls from above zero to zero or below. */
interface Watch {
  readonly level: (hours: number, state: Float64Array) => number;
  readonly happens: CourseEventKind | undefined;
}

export function oxygenPercent(state: Float64Array): number {
  return percentOf(state, STATE.oxygen);
}

export function carbonDioxidePercent(state: Float64Array): number {
  return percentOf(state, STATE.carbonDioxide);
}

function percentOf(state: Float64Array, index: number): number {
  const [oxygen, carbonDioxide, nitrogen] = state;
  return (100 * (state[index] ?? 0)) / ((oxygen ?? 0) + (carbonDioxide ?? 0) + (nitrogen ?? 0));
}

/** Switches feed, air and scrubber as a room's controls do, and tells what happened. */
export class Controls {
  readonly #room: CourseRoom;
  readonly #balance: Balance;
  readonly #tell: (hours: number, kind: CourseEventKind) => void;
  #stage: GasStage;
  #feeding: 'before' | 'runs' | 'over';
  #reached = false;
  #climbTold = false;
  #fivePercentTold = false;
  #limeUsedUp = false;

  constructor(room: CourseRoom, balance: Balance, tell: (hours: number, kind: CourseEventKind) => void) {
    const [stage] = room.stages;
    if (!stage) throw new RangeError('a course needs a stage');
    this.#room = room;
    this.#balance = balance;
    this.#tell = tell;
    this.#stage = stage;
    this.#feeding = room.feed && room.feed.steps.length > 0 ? 'before' : 'over';
  }

  /** Hours at which something is switched by the clock, in order. */
  clock(): number[] {
    const { stages, scrubbing, feed, temperature } = this.#room;
    const hours = [
      ...stages.map(({ fromHours }) => fromHours),
      ...(scrubbing?.turns.map(({ fromHours }) => fromHours) ?? []),
      ...(feed ? [feed.startsAtHours] : []),
      ...temperature.knots.map((knot) => knot.hours),
    ];
    return [...new Set(hours.filter((one) => one > 0))].sort((a, b) => a - b);
  }

  /** Sets every switch as it should be now: at the start, by the clock, and after anything that happened. */
  settle(hours: number, state: Float64Array): void {
    const { stages, scrubbing, feed } = this.#room;
    const { switches } = this.#balance;
    const stage = stages.findLast(({ fromHours }) => fromHours <= hours + 1e-9);
    if (stage && stage !== this.#stage) {
      if (stage.oxygen < this.#stage.oxygen) this.#reached = false;
      this.#stage = stage;
    }
    switches.scrubberShare =
      scrubbing?.turns.findLast(({ fromHours }) => fromHours <= hours + 1e-9)?.share ??
      (scrubbing && scrubbing.turns.length === 0 ? 1 : 0);
    if (this.#feeding === 'before' && feed && feed.startsAtHours <= hours + 1e-9)
      this.#startFeed(hours, state);
    // Scrubbing draws air in, and air let in thins the carbon dioxide: each is set again until both stay.
    for (let tries = 0; tries < 4; tries++) {
      const { oxygen, carbonDioxide } = switches;
      this.#settleOxygen(hours, state, switches);
      this.#settleCarbonDioxide(hours, state, switches);
      if (tries > 0 && switches.oxygen === oxygen && switches.carbonDioxide === carbonDioxide) break;
    }
    if (switches.oxygen === 'held') this.#climbTold = false;
  }

  /** What to look out for in the next step, given how the switches are set. */
  watches(): Watch[] {
    const { switches } = this.#balance;
    const watches: Watch[] = [];
    const oxygenAbove = (level: number) => (_: number, state: Float64Array) => oxygenPercent(state) - level;
    const carbonDioxideAbove = (level: number) => (_: number, state: Float64Array) =>
      carbonDioxidePercent(state) - level;
    const below =
      (of: (hours: number, state: Float64Array) => number) => (hours: number, state: Float64Array) =>
        -of(hours, state);
    const watch = (level: Watch['level'], happens?: CourseEventKind) => watches.push({ level, happens });

    const feedUntil = this.#feedUntil();
    if (feedUntil !== undefined) watch(oxygenAbove(feedUntil));
    if (switches.oxygen === 'free') watch(oxygenAbove(this.#stage.oxygen));
    if (switches.oxygen === 'raised') watch(below(oxygenAbove(this.#stage.oxygen)));
    if (switches.oxygen === 'held') {
      watch((hours, state) => this.#balance.airToHold(hours, state) + ON_SET_POINT);
    }
    this.#watchCarbonDioxide(watch, carbonDioxideAbove, below);
    if (this.#reached && !this.#climbTold && switches.oxygen === 'free') {
      watch(below(oxygenAbove(this.#stage.oxygen + CLIMBED)), 'oxygen-climbs');
    }
    if (!this.#fivePercentTold) watch(oxygenAbove(FIVE_PER_CENT), 'five-per-cent');
    const { leastOxygen, mostCarbonDioxide } = this.#room.limits;
    // A room held at its limit is within it, and what leaves it later is still seen to.
    if (leastOxygen !== undefined) watch(oxygenAbove(leastOxygen - ON_SET_POINT), 'oxygen-below-limit');
    if (mostCarbonDioxide !== undefined)
      watch(below(carbonDioxideAbove(mostCarbonDioxide + ON_SET_POINT)), 'carbon-dioxide-above-limit');
    return watches;
  }

  /** Something watched for has happened. */
  happened({ happens }: Watch, hours: number, state: Float64Array): void {
    if (happens === 'five-per-cent') this.#fivePercentTold = true;
    if (happens === 'oxygen-climbs') this.#climbTold = true;
    if (happens === 'lime-used-up') this.#limeUsedUp = true;
    if (happens) this.#tell(hours, happens);
    const until = this.#feedUntil();
    if (until !== undefined && oxygenPercent(state) <= until + ON_SET_POINT) this.#nextPurity(hours, state);
    this.settle(hours, state);
  }

  #watchCarbonDioxide(
    watch: (level: Watch['level'], happens?: CourseEventKind) => void,
    above: (level: number) => Watch['level'],
    below: (of: Watch['level']) => Watch['level'],
  ): void {
    const { scrubbing } = this.#room;
    const { carbonDioxide } = this.#balance.switches;
    const level = this.#stage.carbonDioxide;
    if (!scrubbing || this.#limeUsedUp) return;
    const { capacityKg } = scrubbing;
    if (capacityKg !== undefined) {
      const most = capacityKg / 44.0095e-3;
      watch((_, state) => most - (state[STATE.scrubbed] ?? 0), 'lime-used-up');
    }
    if (level === undefined || scrubbing.passive) return;
    if (carbonDioxide === 'off') watch(below(above(level)));
    if (carbonDioxide === 'full') watch(above(level));
    if (carbonDioxide === 'held') {
      watch((hours, state) => -this.#balance.scrubbingShort(hours, state).short, 'scrubber-at-its-most');
      watch((hours, state) => this.#balance.scrubbingShort(hours, state).needed);
    }
  }

  #settleOxygen(hours: number, state: Float64Array, switches: Switches): void {
    const above = oxygenPercent(state) - this.#stage.oxygen;
    if (above <= ON_SET_POINT && !this.#reached) {
      this.#reached = true;
      this.#tell(hours, 'set-point-reached');
    }
    switches.oxygen = 'free';
    if (above < -ON_SET_POINT) {
      switches.oxygen = 'raised';
    } else if (above <= ON_SET_POINT && switches.feedStep === undefined) {
      switches.oxygen = this.#balance.airToHold(hours, state) >= 0 ? 'held' : 'free';
    }
  }

  #settleCarbonDioxide(hours: number, state: Float64Array, switches: Switches): void {
    const { scrubbing } = this.#room;
    const level = this.#stage.carbonDioxide;
    if (!scrubbing || this.#limeUsedUp) {
      switches.carbonDioxide = 'off';
      return;
    }
    if (level === undefined || scrubbing.passive) {
      switches.carbonDioxide = 'full';
      return;
    }
    const above = carbonDioxidePercent(state) - level;
    if (above < -ON_SET_POINT) switches.carbonDioxide = 'off';
    else if (above > ON_SET_POINT) switches.carbonDioxide = 'full';
    else {
      const { needed, short } = this.#balance.scrubbingShort(hours, state);
      switches.carbonDioxide = needed <= 0 ? 'off' : short >= 0 ? 'full' : 'held';
    }
  }

  #feedUntil(): number | undefined {
    const { feedStep } = this.#balance.switches;
    if (feedStep === undefined) return undefined;
    return this.#room.feed?.steps[feedStep]?.untilOxygen;
  }

  #startFeed(hours: number, state: Float64Array): void {
    this.#feeding = 'runs';
    this.#balance.switches.feedStep = 0;
    this.#tell(hours, 'feed-starts');
    const until = this.#feedUntil();
    if (until !== undefined && oxygenPercent(state) <= until) this.#nextPurity(hours, state);
  }

  /** The next purity, past those whose level the room is already below. */
  #nextPurity(hours: number, state: Float64Array): void {
    const steps = this.#room.feed?.steps ?? [];
    const { switches } = this.#balance;
    let next = (switches.feedStep ?? 0) + 1;
    while (next < steps.length && (steps[next]?.untilOxygen ?? 0) >= oxygenPercent(state) - ON_SET_POINT)
      next++;
    if (next < steps.length) {
      switches.feedStep = next;
      this.#tell(hours, 'purity-raised');
    } else {
      switches.feedStep = undefined;
      this.#feeding = 'over';
      this.#tell(hours, 'feed-stops');
    }
  }
}
