import { integrate } from '../../../src/room/course/integrate';
import { STATE } from '../../../src/room/course/state';
import type { Course, CourseEventKind, CourseRoom, RespirationLaw } from '../../../src/room/course/types';

/** A room of 800 m3 of gas and 250 t of fruit at 1 °C, cold on the day it is sealed. Numbers invented. */
export interface RoomSpec extends Partial<Omit<CourseRoom, 'fruit'>> {
  readonly kg?: number;
  /** mg CO2/kg/h in air at 1 °C; more by `warms` for each degree. */
  readonly rate?: number;
  readonly warms?: number;
  readonly quotient?: number;
  readonly share?: number;
  /** Left out, nothing ferments. */
  readonly oxygenBreakpoint?: number;
  readonly law?: Partial<RespirationLaw>;
  readonly fieldCelsius?: number;
  readonly celsius?: number;
}

export function aCourseRoom(spec: RoomSpec = {}): CourseRoom {
  const { kg = 250_000, rate = 3, warms = 1.1, quotient = 1.05, share = 0.35, law = {} } = spec;
  const { fieldCelsius, celsius = 1, oxygenBreakpoint, ...room } = spec;
  return {
    gasVolumeM3: 800,
    untilHours: 24 * 200,
    temperature: { knots: [{ hours: -200, celsius }] },
    stages: [{ fromHours: 0, oxygen: 1.5, carbonDioxide: 1.5 }],
    leakM3h: 0.1,
    weatherM3h: 0.1,
    limits: {},
    fruit: {
      batches: [{ loadedAtHours: -48, fieldCelsius: fieldCelsius ?? celsius, share: 1 }],
      varieties: [
        {
          kg,
          inAir: (at) => rate * warms ** (at - 1),
          respiratoryQuotient: quotient,
          shareInStore: share,
          oxygenBreakpoint,
        },
      ],
      halfTimeHours: 12,
      lag: 1,
      law: { kind: 'to-store-share', halfAt: 5, storeOxygen: 1.5, ...law },
      humidity: 93,
      transpiration: 42,
    },
    ...room,
  };
}

export const feedOf = (oxygenInGas: number, flowM3h: number, untilOxygen: number) => ({
  startsAtHours: 0,
  steps: [{ oxygenInGas, flowM3h, untilOxygen }],
});

export const scrubbing = (kgPerDayPerPercent: number) => ({
  kgPerDayPerPercent,
  passive: false,
  bedAirM3h: 0,
  turns: [],
});

export function eventAt(course: Course, kind: CourseEventKind): number {
  const event = course.events.find((one) => one.kind === kind);
  if (!event) throw new Error(`no ${kind} in ${JSON.stringify(course.events)}`);
  return event.hours;
}

/** How far the atoms of a course are from closing, as a share of what moved. */
export function atomsOff({ first, last }: Course): Record<'carbon' | 'oxygen' | 'nitrogen', number> {
  const grew = (index: number) => (last[index] ?? 0) - (first[index] ?? 0);
  const air = grew(STATE.airLeaked) + grew(STATE.airAtBeds) + grew(STATE.airLetIn);
  const off = (stored: number, ins: readonly number[], outs: readonly number[]) => {
    const sum = (all: readonly number[]) => all.reduce((total, one) => total + one, 0);
    return Math.abs(stored - sum(ins) + sum(outs)) / Math.max(sum(ins), sum(outs), 1e-300);
  };
  const { carbonDioxideMade, scrubbed, carbonDioxideOut, oxygenUsed, oxygenOut } = STATE;
  const [oxygenPassed, nitrogenPassed] = [
    grew(STATE.oxygenThroughMembrane),
    grew(STATE.nitrogenThroughMembrane),
  ];
  return {
    carbon: off(
      grew(STATE.carbonDioxide),
      [grew(carbonDioxideMade), 0.0004 * air],
      [grew(scrubbed), grew(carbonDioxideOut)],
    ),
    // Atoms, two to a molecule of either gas.
    oxygen: off(
      2 * grew(STATE.oxygen) + 2 * grew(STATE.carbonDioxide),
      [2 * grew(carbonDioxideMade), 2 * (0.209 + 0.0004) * air, 2 * grew(STATE.oxygenFed), 2 * oxygenPassed],
      [2 * grew(scrubbed), 2 * grew(carbonDioxideOut), 2 * grew(oxygenOut), 2 * grew(oxygenUsed)],
    ),
    nitrogen: off(
      grew(STATE.nitrogen),
      [0.7906 * air, grew(STATE.fed) - grew(STATE.oxygenFed), Math.max(0, nitrogenPassed)],
      [grew(STATE.nitrogenOut), Math.max(0, -nitrogenPassed)],
    ),
  };
}

export { integrate };
