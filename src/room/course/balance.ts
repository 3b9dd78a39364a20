import type { FruitNow, FruitRate } from './fruit-rate';
import { roomCelsius, roomSlope } from './fruit-temperature';
import { AIR, CARBON_DIOXIDE_KG, KELVIN, molesPerCubicMetre, STATE } from './state';
import type { CourseRoom } from './types';

/** What is switched how at the moment. */
export interface Switches {
  /** Step of the nitrogen feed that runs; undefined when it does not. */
  feedStep: number | undefined;
  /** Left alone, held at the set-point by letting air in, or raised to it with air. */
  oxygen: 'free' | 'held' | 'raised';
  carbonDioxide: 'off' | 'held' | 'full';
  /** Share of the time the scrubber serves the room. */
  scrubberShare: number;
}

/** Air let in to raise oxygen to a higher set-point, volumes of the room's gas an hour. */
const RAISING_VOLUMES = 0.05;

/** What flows, moles an hour. */
interface Flows {
  scrubbed: number;
  /** Through a membrane, into the room. */
  oxygenPassed: number;
  nitrogenPassed: number;
  leaked: number;
  atBeds: number;
  letIn: number;
  out: number;
}

/**
 * The balances of oxygen, carbon dioxide and nitrogen. The room stays at the pressure outside: what comes in, what is
 * used and made, and what the gas shrinks by when it cools add up to an outflow of room gas or an inflow of air, which
 * leaks and weather blur (`airIn`). What changes of beds carry over comes on top, with as much room gas going out.
 */
export class Balance {
  readonly #room: CourseRoom;
  readonly #fruit: FruitRate;
  readonly #now: FruitNow = { carbonDioxide: 0, fermented: 0, oxygen: 0, water: 0 };
  readonly #flows: Flows = {
    scrubbed: 0,
    oxygenPassed: 0,
    nitrogenPassed: 0,
    leaked: 0,
    atBeds: 0,
    letIn: 0,
    out: 0,
  };
  readonly switches: Switches;
  #fed = 0;
  #oxygenFed = 0;
  /** Moles by which the room's gas must grow in an hour as its temperature falls. */
  #growth = 0;
  #perM3 = 0;
  #oxygenShare = 0;
  #carbonDioxideShare = 0;

  constructor(room: CourseRoom, fruit: FruitRate, switches: Switches) {
    this.#room = room;
    this.#fruit = fruit;
    this.switches = switches;
  }

  /** The slope of the whole state, see `STATE`. */
  derivative(hours: number, state: Float64Array, slope: Float64Array): void {
    this.#look(hours, state);
    const scrubbed = this.#scrubbing();
    const { leaked, atBeds, letIn, out, oxygenPassed, nitrogenPassed } = this.#flowsAt(scrubbed);
    const air = leaked + atBeds + letIn;
    const { carbonDioxide, fermented, oxygen, water } = this.#now;
    const nitrogenShare = 1 - this.#oxygenShare - this.#carbonDioxideShare;
    slope[STATE.oxygen] =
      this.#oxygenFed + air * AIR.oxygen + oxygenPassed - oxygen - out * this.#oxygenShare;
    slope[STATE.carbonDioxide] =
      carbonDioxide + air * AIR.carbonDioxide - scrubbed - out * this.#carbonDioxideShare;
    slope[STATE.nitrogen] =
      this.#fed - this.#oxygenFed + air * AIR.nitrogen + nitrogenPassed - out * nitrogenShare;
    slope[STATE.oxygenUsed] = oxygen;
    slope[STATE.carbonDioxideMade] = carbonDioxide;
    slope[STATE.scrubbed] = scrubbed;
    slope[STATE.airLeaked] = leaked;
    slope[STATE.airAtBeds] = atBeds;
    slope[STATE.airLetIn] = letIn;
    slope[STATE.fed] = this.#fed;
    slope[STATE.oxygenFed] = this.#oxygenFed;
    slope[STATE.oxygenOut] = out * this.#oxygenShare;
    slope[STATE.carbonDioxideOut] = out * this.#carbonDioxideShare;
    slope[STATE.nitrogenOut] = out * nitrogenShare;
    slope[STATE.water] = water;
    slope[STATE.fermented] = fermented;
    slope[STATE.oxygenThroughMembrane] = oxygenPassed;
    slope[STATE.nitrogenThroughMembrane] = nitrogenPassed;
  }

  /** Air that has to be let in to hold oxygen, moles an hour; negative where it climbs by itself. */
  airToHold(hours: number, state: Float64Array): number {
    this.#look(hours, state);
    return this.#airToHold(this.#scrubbing());
  }

  /** What must be scrubbed to hold carbon dioxide, less what can be, moles an hour. */
  scrubbingShort(hours: number, state: Float64Array): { needed: number; short: number } {
    this.#look(hours, state);
    const needed = this.#scrubbingToHold();
    return { needed, short: needed - this.#mostScrubbed() };
  }

  #look(hours: number, state: Float64Array): void {
    const { temperature, gasVolumeM3, feed } = this.#room;
    const oxygen = state[STATE.oxygen] ?? 0;
    const carbonDioxide = state[STATE.carbonDioxide] ?? 0;
    const total = oxygen + carbonDioxide + (state[STATE.nitrogen] ?? 0);
    this.#oxygenShare = oxygen / total;
    this.#carbonDioxideShare = carbonDioxide / total;
    this.#fruit.at(hours, 100 * this.#oxygenShare, 100 * this.#carbonDioxideShare, this.#now);
    const celsius = roomCelsius(temperature, hours);
    this.#perM3 = molesPerCubicMetre(celsius);
    this.#growth = (-gasVolumeM3 * this.#perM3 * roomSlope(temperature, hours)) / (celsius + KELVIN);
    const step = this.switches.feedStep === undefined ? undefined : feed?.steps[this.switches.feedStep];
    this.#fed = step ? step.flowM3h * this.#perM3 : 0;
    this.#oxygenFed = step ? (this.#fed * step.oxygenInGas) / 100 : 0;
  }

  #mostScrubbed(): number {
    const scrubbing = this.#room.scrubbing;
    if (!scrubbing) return 0;
    const outside = scrubbing.membrane ? AIR.carbonDioxide : 0;
    const kgADay =
      scrubbing.kgPerDayPerPercent * this.switches.scrubberShare * 100 * (this.#carbonDioxideShare - outside);
    return Math.max(0, kgADay) / 24 / CARBON_DIOXIDE_KG;
  }

  #scrubbing(): number {
    const mode = this.switches.carbonDioxide;
    if (mode === 'off') return 0;
    return mode === 'full' ? this.#mostScrubbed() : this.#scrubbingToHold();
  }

  /** All flows that go with a rate of scrubbing. */
  #flowsAt(scrubbed: number): Flows {
    const flows = this.#flows;
    this.#flowsBeforeAir(scrubbed);
    if (this.switches.oxygen === 'held') flows.letIn = this.#airToHold(scrubbed);
    else if (this.switches.oxygen === 'raised')
      flows.letIn = RAISING_VOLUMES * this.#room.gasVolumeM3 * this.#perM3;
    flows.out += flows.letIn;
    return flows;
  }

  #flowsBeforeAir(scrubbed: number): void {
    const { leakM3h, weatherM3h, scrubbing } = this.#room;
    const flows = this.#flows;
    const exchange = (leakM3h + weatherM3h) * this.#perM3;
    const most = this.#mostScrubbed();
    const running = most > 0 ? scrubbed / most : 0;
    this.#passMembrane(running);
    const passed = flows.oxygenPassed + flows.nitrogenPassed;
    const surplus = this.#fed + this.#now.carbonDioxide - this.#now.oxygen - scrubbed + passed - this.#growth;
    flows.scrubbed = scrubbed;
    flows.atBeds = (scrubbing?.bedAirM3h ?? 0) * this.switches.scrubberShare * running * this.#perM3;
    flows.leaked = airIn(-surplus, exchange);
    flows.letIn = 0;
    flows.out = flows.leaked + flows.atBeds + surplus;
  }

  /** Oxygen and nitrogen pass with the difference of their shares to outside air, as carbon dioxide does. */
  #passMembrane(running: number): void {
    const scrubbing = this.#room.scrubbing;
    if (!scrubbing?.membrane) return;
    const { oxygen, nitrogen } = scrubbing.membrane;
    const forAll =
      (running * this.switches.scrubberShare * scrubbing.kgPerDayPerPercent * 100) / 24 / CARBON_DIOXIDE_KG;
    const nitrogenShare = 1 - this.#oxygenShare - this.#carbonDioxideShare;
    this.#flows.oxygenPassed = forAll * oxygen * (AIR.oxygen - this.#oxygenShare);
    this.#flows.nitrogenPassed = forAll * nitrogen * (AIR.nitrogen - nitrogenShare);
  }

  /** Air that keeps oxygen's share of the gas as it is: d(oxygen) = share * growth. */
  #airToHold(scrubbed: number): number {
    this.#flowsBeforeAir(scrubbed);
    const { leaked, atBeds, out, oxygenPassed } = this.#flows;
    const share = this.#oxygenShare;
    const change =
      this.#oxygenFed + (leaked + atBeds) * AIR.oxygen + oxygenPassed - this.#now.oxygen - out * share;
    return (share * this.#growth - change) / (AIR.oxygen - share);
  }

  /** The change of carbon dioxide's amount beyond what keeps its share, at a rate of scrubbing. */
  #excess(scrubbed: number): number {
    const { leaked, atBeds, letIn, out } = this.#flowsAt(scrubbed);
    const share = this.#carbonDioxideShare;
    const air = (leaked + atBeds + letIn) * AIR.carbonDioxide;
    return this.#now.carbonDioxide + air - scrubbed - out * share - share * this.#growth;
  }

  /** The rate at which carbon dioxide's share stays as it is. Secants, for the excess is all but straight in it. */
  #scrubbingToHold(): number {
    const scale = Math.abs(this.#now.carbonDioxide) + Math.abs(this.#fed) + 1e-9;
    let [last, rate] = [0, this.#now.carbonDioxide];
    let excessAtLast = this.#excess(last);
    for (let tries = 0; tries < 30; tries++) {
      const excess = this.#excess(rate);
      if (Math.abs(excess) <= 1e-14 * scale || excess === excessAtLast) return rate;
      const next = rate + (excess * (rate - last)) / (excessAtLast - excess);
      [last, excessAtLast, rate] = [rate, excess, next];
    }
    return rate;
  }
}

/**
 * Air that comes in, given what the room has to draw in (negative: to give off) and what leaks and weather exchange
 * when it draws in nothing. Pressure differences swing evenly both ways, so a room that draws in much gives off less
 * in the swings, and one that is flushed lets in nothing: (4 e + d)^2 / 16 e in between.
 */
function airIn(drawn: number, exchange: number): number {
  if (Math.abs(drawn) >= 4 * exchange) return Math.max(0, drawn);
  return (4 * exchange + drawn) ** 2 / (16 * exchange);
}
