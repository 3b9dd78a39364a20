import type { Minute } from '../readings/types';
import type { Sighting, WatchedQuantity, WatchKind } from './types';

/** What is probably behind a sighting, the likeliest first, and what to look at first. */
export interface Causes {
  readonly causes: readonly string[];
  readonly check: string;
  /** Looking means going to the room or to what holds its gas: the caution goes with it. */
  readonly nearRoom: boolean;
}

/** A cause, and what in the readings speaks for it: with it the cause comes before those without. */
interface Cause {
  readonly text: string;
  readonly when?: (sight: Evidence) => boolean;
  /** Added where `when` holds. A cause that has it is told without it where `when` does not, in its place. */
  readonly shownBy?: string;
}

/** A sighting beside the others of its room. */
interface Evidence {
  readonly sighting: Sighting;
  /** Another of the kinds that was going on when it began, or within two days of it. */
  readonly beside: (...kinds: WatchKind[]) => boolean;
  /** The same of another quantity's sensor. */
  readonly sameOf: (kind: WatchKind) => boolean;
}

const DAYS_APART = 2 * 1440;

/** Of oxygen a room kept so long with its door open would read. */
const NEARLY_AIR = 15;

/** `all` are the room's sightings. */
export function causesOf(sighting: Sighting, all: readonly Sighting[]): Causes {
  const near = all.filter((other) => other !== sighting && isNear(sighting, other));
  const evidence: Evidence = {
    sighting,
    beside: (...kinds) => near.some(({ kind }) => kinds.includes(kind)),
    sameOf: (wanted) => near.some(({ kind, quantity }) => kind === wanted && quantity !== sighting.quantity),
  };
  const { causes, check, nearRoom } = KINDS[sighting.kind];
  const isShown = ({ when }: Cause) => when?.(evidence) ?? false;
  const shown = causes.filter(isShown).map(({ text, shownBy }) => (shownBy ? `${text} ${shownBy}` : text));
  const others = causes.filter((cause) => !isShown(cause) && (!cause.when || cause.shownBy));
  return { causes: [...shown, ...others.map(({ text }) => text)], check: check(evidence), nearRoom };
}

function isNear(one: Sighting, other: Sighting): boolean {
  const end = ({ until }: Sighting): Minute => until ?? Number.POSITIVE_INFINITY;
  return other.from <= end(one) + DAYS_APART && end(other) >= one.from - DAYS_APART;
}

const NAMES: Readonly<Record<WatchedQuantity, string>> = {
  oxygen: 'the oxygen analyser',
  'carbon-dioxide': 'the carbon dioxide analyser',
  temperature: 'the air sensor',
};

const compared = (quantity: WatchedQuantity) =>
  quantity === 'temperature'
    ? 'Read a second, calibrated thermometer at the same place and compare.'
    : 'Run calibration gas through the analyser, or read the sampling line with a second, calibrated instrument.';

const KINDS: Readonly<
  Record<
    WatchKind,
    {
      readonly causes: readonly Cause[];
      readonly check: (evidence: Evidence) => string;
      readonly nearRoom: boolean;
    }
  >
> = {
  'opened-room-low-oxygen': {
    causes: [
      { text: 'The room is not open: the record of its opening, or of which room it was, is wrong.' },
      { text: 'It was opened but not ventilated enough, or its door stands shut again.' },
      { text: 'The readings are of another room, or the analyser is off.' },
    ],
    check: () =>
      'Keep everybody away. Trained, licensed people, as local codes ask, read oxygen and carbon dioxide, both, from outside by the sampling line or a probe, with a calibrated instrument, before anything else.',
    nearRoom: true,
  },
  'oxygen-low': {
    causes: [
      {
        text: 'The fruit breathes faster than the air let in makes up for.',
        when: ({ beside }) => beside('breathes-faster'),
      },
      {
        text: 'Too little air is let in: the valve or blower stands still, or the set-point is lower than the plan’s.',
      },
      { text: 'Nitrogen goes on being fed.' },
      { text: 'The analyser reads low.' },
    ],
    check: ({ sighting }) =>
      `${compared(sighting.quantity)} If it is true, let air in by the room’s own fresh-air fan or valve, worked from outside, step by step, and see it rise; nobody goes in.`,
    nearRoom: true,
  },
  'oxygen-high': {
    causes: [
      {
        text: 'The room has been opened, and no record says so: write `opened` under `progress`.',
        when: ({ sighting }) => (sighting.read ?? 0) > NEARLY_AIR,
      },
      {
        text: 'Air leaks in: the door’s seal, the hatch, the breather, a water trap that fell dry, a sampling line.',
        when: ({ beside }) => beside('carbon-dioxide-low'),
        shownBy: 'Carbon dioxide falls with it.',
      },
      { text: 'The scrubber carries air in: its beds change without a rinse, or a valve does not close.' },
      { text: 'The valve or blower that lets air in does not stop.' },
      { text: 'The analyser drifts, or its line draws air from outside.' },
    ],
    check: ({ sighting }) =>
      `${compared(sighting.quantity)} If it is true, walk round the room from outside: door, hatch, traps, breather, scrubber lines.`,
    nearRoom: true,
  },
  'carbon-dioxide-high': {
    causes: [
      {
        text: 'The fruit breathes faster than the scrubber takes away.',
        when: ({ beside }) => beside('breathes-faster', 'temperature-high'),
      },
      { text: 'The scrubber stands still, or does not come to this room in its turn.' },
      { text: 'Its beds are spent, wet or not regenerated long enough; lime is used up.' },
      { text: 'The plant is asked for more than it can do in these weeks: see lotwright gas.' },
      { text: 'The analyser reads high.' },
    ],
    check: () =>
      'See at the scrubber’s panel when it last served the room and for how long, then the carbon dioxide before and after its beds.',
    nearRoom: true,
  },
  'carbon-dioxide-low': {
    causes: [
      { text: 'Air leaks in and carries it away.', when: ({ beside }) => beside('oxygen-high') },
      { text: 'The scrubber does not stop at its set-point, or the set-point is lower than the plan’s.' },
      { text: 'The fruit breathes less than is expected of it: fewer bins, or colder.' },
      { text: 'The analyser reads low.' },
    ],
    check: () => 'See at the scrubber’s panel how long it serves the room, and its set-point.',
    nearRoom: false,
  },
  'temperature-high': {
    causes: [
      {
        text: 'The fruit makes more heat than the cooler takes.',
        when: ({ beside }) => beside('breathes-faster'),
      },
      { text: 'The cooler is iced up, its fans stand still, or refrigerant or brine does not come.' },
      { text: 'The set-point was changed, or the refrigeration is short of capacity for all its rooms.' },
      { text: 'The sensor hangs in the wrong place, or reads high.' },
    ],
    check: () =>
      'See the other rooms of the same refrigeration: warm too, it is the plant; else this room’s fans, valve and defrosting, from outside.',
    nearRoom: true,
  },
  'temperature-low': {
    causes: [
      { text: 'The cooler’s valve or thermostat does not close.' },
      { text: 'The set-point was changed.' },
      { text: 'The sensor hangs in the cooler’s stream, or reads low.' },
    ],
    check: () =>
      'Raise the set-point at the panel first, since fruit freezes below its limit; then compare the sensor with a second, calibrated one.',
    nearRoom: false,
  },
  'breathes-faster': {
    causes: [
      { text: 'The room is warmer.', when: ({ beside }) => beside('temperature-high') },
      {
        text: 'There is more oxygen for the fruit than the regime gives it.',
        when: ({ beside }) => beside('oxygen-high'),
      },
      {
        text: 'Too little oxygen: carbon dioxide comes from fermentation.',
        when: ({ beside }) => beside('oxygen-low'),
      },
      { text: 'The fruit ripens or decays sooner than expected.' },
      { text: 'More fruit, or other fruit, is in the room than the plan has.' },
      { text: 'The scrubber gives carbon dioxide back, or other rooms’ gas comes in through its lines.' },
    ],
    check: () =>
      'Take fruit from under the hatch with a long hook, two people, no part of the body inside, and test its firmness, ethylene and rot.',
    nearRoom: true,
  },
  'sensor-stuck': {
    causes: [
      {
        text: 'The logger or its line stands still: other readings of the room stand still too.',
        when: ({ sameOf }) => sameOf('sensor-stuck'),
      },
      {
        text: 'The analyser does not draw from this room: a valve of the sampling line, its pump, water or ice in the line.',
      },
      { text: 'The sensor or its wiring is dead, and the logger repeats the last value.' },
      { text: 'The level is really that steady, and the display too coarse to show it.' },
    ],
    check: ({ sighting }) => `Until it moves, what is read is no record. ${compared(sighting.quantity)}`,
    nearRoom: false,
  },
  'sensor-jumps': {
    causes: [
      {
        text: 'The logger or its supply: other readings of the room jump too.',
        when: ({ sameOf }) => sameOf('sensor-jumps'),
      },
      { text: 'A loose contact or damp plug.' },
      {
        text: 'Readings of another room, or of outside air, get in while the analyser goes from line to line.',
      },
      { text: 'A machine that disturbs the line when it starts.' },
    ],
    check: ({ sighting }) =>
      `Look at ${NAMES[sighting.quantity]}’s plug and line, and at what runs when it jumps.`,
    nearRoom: false,
  },
  'record-gap': {
    causes: [
      { text: 'The logger was off, or its file was not fetched.' },
      { text: 'The room’s name or number changed in the file.' },
      { text: 'Nobody read the instruments on these days.' },
    ],
    check: () =>
      'See whether the logger or the room’s log has these days; write what was read into the file, and nothing that was not.',
    nearRoom: false,
  },
};
