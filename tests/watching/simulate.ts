import type { RoomReadings } from '../../src/readings/types';
import type { ExpectedFill } from '../../src/watching/types';

// A room-season in steps of five minutes: a box of gas that fruit breathes in, that leaks, with a valve and a scrubber
// that switch on and off at their bands, a thermostat that does the same, a coil that is defrosted, and instruments with
// noise, offset, drift, display digits, outages and single wild readings. Nothing of src is used but types.

export type Fault =
  | { readonly kind: 'leak'; readonly at: number; readonly percentADay: number }
  | { readonly kind: 'oxygen-set-low'; readonly at: number; readonly by: number }
  | { readonly kind: 'scrubber-off'; readonly at: number }
  | { readonly kind: 'scrubber-stays-on'; readonly at: number }
  | { readonly kind: 'air-off'; readonly at: number; readonly by: number }
  | { readonly kind: 'faster'; readonly at: number; readonly factor: number }
  | { readonly kind: 'stuck'; readonly at: number; readonly quantity: Quantity; readonly hours: number }
  | { readonly kind: 'jumps'; readonly at: number; readonly quantity: Quantity; readonly share: number }
  | { readonly kind: 'missing'; readonly at: number; readonly days: number };

type Quantity = 'oxygen' | 'carbon-dioxide' | 'temperature';

export interface Simulated {
  readonly readings: RoomReadings;
  readonly expected: ExpectedFill;
  /** Carbon dioxide that the fruit makes, per cent a day, the band in which the scrubber holds it, and the scatter. */
  readonly riseADay: number;
  readonly swing: number;
  readonly scatter: number;
}

const STEP_MINUTES = 5;
const STEP = STEP_MINUTES / 60;
const DAY = 1440;

/** Small and quick, and good enough for noise. */
function generator(seed: number) {
  let state = (seed * 2654435761) >>> 0 || 1;
  const uniform = () => {
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 4294967296;
  };
  for (let warm = 0; warm < 10; warm++) uniform();
  const between = (low: number, high: number) => low + (high - low) * uniform();
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, between, normal };
}

/** `days` of holding, read every `everyMinutes`. Times count from day 0, on which the room is at its set-points. */
export function simulate(seed: number, days: number, fault?: Fault, everyMinutes = 60): Simulated {
  const random = generator(seed);
  const { between, normal, uniform } = random;
  const oxygenSetPoint = Math.round(between(1, 3) * 10) / 10;
  const carbonDioxideSetPoint = Math.round(between(1.2, 3) * 10) / 10;
  const celsiusSetPoint = Math.round(between(0, 3.5) * 10) / 10;
  const breath = between(0.018, 0.045);
  const leak = (breath / 20.9) * between(0.1, 0.5);
  const valve = { band: between(0.08, 0.2), perHour: between(0.15, 0.6), open: false };
  const scrubber = {
    band: between(0.15, 0.4),
    perHour: between(0.25, 0.8),
    on: false,
    // A scrubber that other rooms use too comes at its hours only.
    from: Math.floor(between(0, 24)),
    hours: uniform() < 0.5 ? 24 : Math.floor(between(7, 14)),
  };
  const air = {
    band: between(0.3, 0.8),
    cools: false,
    warmPerHour: between(0.3, 0.8),
    coolPerHour: between(1, 3),
  };
  const defrost = {
    everyHours: Math.floor(between(6, 13)),
    minutes: Math.floor(between(10, 25)),
    by: between(1, 2.5),
  };
  const instrument = {
    oxygen: meter(0.03, 0.08, 0.1, uniform() < 0.25 ? 0.1 : 0.01),
    'carbon-dioxide': meter(0.045, 0.12, 0.1, uniform() < 0.25 ? 0.1 : 0.01),
    temperature: meter(0.08, 0.3, 0.1, 0.1),
  };
  function meter(noise: number, offset: number, drift: number, digits: number) {
    return {
      noise: noise * between(0.6, 1.4),
      offset: between(-offset, offset),
      drift: between(-drift, drift),
      digits,
    };
  }

  let oxygen = oxygenSetPoint;
  let carbonDioxide = carbonDioxideSetPoint;
  let celsius = celsiusSetPoint;
  let outageUntil = -1;
  const wild = between(0.0003, 0.001);
  const since = (kind: Fault['kind'], time: number) =>
    fault?.kind === kind && time >= fault.at ? time - fault.at : undefined;
  const held: Partial<Record<Quantity, number>> = {};
  const times: number[] = [];
  const columns: Record<Quantity, number[]> = { oxygen: [], 'carbon-dioxide': [], temperature: [] };

  for (let time = 0; time < days * DAY; time += STEP_MINUTES) {
    const hour = Math.floor(time / 60);
    const factor = fault?.kind === 'faster' && time >= fault.at ? fault.factor : 1;
    const breathing = breath * factor * (1 - 0.0006 * (time / DAY)) * (1 + 0.05 * Math.sin(time / 9000));
    const extra =
      fault?.kind === 'leak' && time >= fault.at ? (breathing + fault.percentADay / 24) / 20.9 : 0;
    const air20 = leak + extra;
    const setOxygen = oxygenSetPoint - (fault?.kind === 'oxygen-set-low' && time >= fault.at ? fault.by : 0);
    if (oxygen < setOxygen - valve.band / 2) valve.open = true;
    if (oxygen > setOxygen + valve.band / 2) valve.open = false;
    const isItsHour = (hour - scrubber.from + 240) % 24 < scrubber.hours;
    if (carbonDioxide > carbonDioxideSetPoint + scrubber.band / 2) scrubber.on = true;
    if (carbonDioxide < carbonDioxideSetPoint - scrubber.band / 2) scrubber.on = false;
    const scrubs =
      since('scrubber-stays-on', time) !== undefined ||
      (scrubber.on && isItsHour && since('scrubber-off', time) === undefined);
    const letIn = valve.open ? valve.perHour / (20.9 - oxygen) : 0;
    oxygen += STEP * (-breathing + (air20 + letIn) * (20.9 - oxygen));
    carbonDioxide +=
      STEP *
      (breathing -
        (air20 + letIn) * carbonDioxide -
        (scrubs ? (scrubber.perHour * carbonDioxide) / carbonDioxideSetPoint : 0));
    [oxygen, carbonDioxide] = [Math.max(0, oxygen), Math.max(0.03, carbonDioxide)];
    const off =
      fault?.kind === 'air-off' && time >= fault.at ? fault.by * Math.min(1, (time - fault.at) / DAY) : 0;
    if (celsius > celsiusSetPoint + air.band / 2) air.cools = true;
    if (celsius < celsiusSetPoint - air.band / 2) air.cools = false;
    celsius += STEP * (air.cools ? -air.coolPerHour : air.warmPerHour);
    const isDefrosting = time % (defrost.everyHours * 60) < defrost.minutes;

    if (time % everyMinutes !== 0) continue;
    if (uniform() < 0.00025 && time > outageUntil) outageUntil = time + between(1, 22) * 60;
    const isMissing =
      time < outageUntil ||
      (fault?.kind === 'missing' && time >= fault.at && time < fault.at + fault.days * DAY);
    if (isMissing) continue;
    const truth = {
      oxygen,
      'carbon-dioxide': carbonDioxide,
      temperature: celsius + off + (isDefrosting ? defrost.by : 0),
    };
    times.push(time);
    for (const quantity of ['oxygen', 'carbon-dioxide', 'temperature'] as const)
      columns[quantity].push(shown(quantity, truth[quantity], time));
  }

  function shown(quantity: Quantity, truth: number, time: number): number {
    const { noise, offset, drift, digits } = instrument[quantity];
    const isWild =
      uniform() <
      (fault?.kind === 'jumps' && fault.quantity === quantity && time >= fault.at ? fault.share : wild);
    const reach = quantity === 'temperature' ? [6, 30] : [1.2, 8];
    const jump = isWild ? between(reach[0] ?? 0, reach[1] ?? 0) * (uniform() < 0.5 ? -1 : 1) : 0;
    const read = truth + offset + (drift * time) / (days * DAY) + noise * normal() + jump;
    const display = Math.round((quantity === 'temperature' ? read : Math.max(0, read)) / digits) * digits;
    if (fault?.kind !== 'stuck' || fault.quantity !== quantity) return display;
    if (time < fault.at || time >= fault.at + fault.hours * 60) return display;
    held[quantity] ??= display;
    return held[quantity];
  }

  const flat = (level: number) => ({ times: [0], values: [level] });
  const told = breath * between(0.8, 1.25);
  return {
    riseADay: breath * 24,
    swing: scrubber.band,
    scatter: Math.hypot(instrument['carbon-dioxide'].noise, instrument['carbon-dioxide'].digits / 3.5),
    readings: {
      room: 'R1',
      times: Float64Array.from(times),
      values: {
        oxygen: Float32Array.from(columns.oxygen),
        'carbon-dioxide': Float32Array.from(columns['carbon-dioxide']),
        temperature: Float32Array.from(columns.temperature),
        humidity: new Float32Array(times.length).fill(Number.NaN),
      },
    },
    expected: {
      fill: 'R1-fill',
      room: 'R1',
      begins: 0,
      sealed: 0,
      holds: 0,
      cold: 0,
      oxygen: flat(oxygenSetPoint),
      carbonDioxide: flat(carbonDioxideSetPoint),
      temperature: flat(celsiusSetPoint),
      breathing: { expected: told, high: told * 1.3 },
      leastOxygen: 0.5,
    },
  };
}
