import type { WatchKind } from './types';

/** How soon something is told after it begins, with readings every hour: what the tests hold the watching to. */
export interface Delay {
  readonly hours: number;
  /** How much it takes. */
  readonly when: string;
}

export const watchDelays: Readonly<Record<WatchKind, Delay>> = {
  'opened-room-low-oxygen': { hours: 27, when: 'oxygen reads below 19.5 % from the day after the opening' },
  'oxygen-low': { hours: 48, when: 'oxygen falls to 0.4 % below the course, or below what the fruit bears' },
  'oxygen-high': { hours: 96, when: 'oxygen creeps up by 0.25 % a day or more' },
  'carbon-dioxide-high': { hours: 96, when: 'carbon dioxide rises by 0.4 % a day or more' },
  'carbon-dioxide-low': { hours: 96, when: 'carbon dioxide falls to 0.8 % below the course' },
  'temperature-high': { hours: 72, when: 'the air warms to 1.2 K above the expected within a day' },
  'temperature-low': { hours: 72, when: 'the air cools to 1.2 K below the expected within a day' },
  'breathes-faster': {
    hours: 336,
    when: 'fruit breathes 1.7 times as fast, where rests between scrubbings last six readings and show well',
  },
  'sensor-stuck': { hours: 48, when: 'readings that change as a rule stand still' },
  'sensor-jumps': { hours: 120, when: 'one reading in eight jumps' },
  'record-gap': { hours: 24, when: 'a whole day is missing; from the end of that day, once rows come again' },
};
