import { formatDay } from '../../plan/dates';
import type { Problem } from '../../plan/problem';
import { counted } from '../../plan/wording';
import type { FilledRoom } from '../../room/types';
import { binsIn, binsThatKeepUp } from '../more-fruit';
import { perCent, shower } from '../say';
import { climbsToItsEnd, keepsUpFrom, MOST_HALF_LIFE_MIN, minutesThatHold } from '../tight-enough';
import type { ComputedSeason, Rule } from '../types';
import { isFruitKnown } from '../unknown-fruit';
import { partlyUnread } from '../unread-beside';
import { aboveWithoutScrubber } from '../without-scrubber';
import { bedRules } from './beds';
import { atRegime, lowOxygenRules } from './low-oxygen';
import { pressureTestRules } from './pressure-tests';
import { scrubberRules } from './scrubbers';

/** Pressure half-life asked of a room: ordinary and low-oxygen (below this oxygen, per cent). From memory: Bartsch and Blanpied, NRAES-22, 1984. */
const LEAST_HALF_LIFE_MIN = 20;
const LEAST_HALF_LIFE_LOW_OXYGEN_MIN = 30;
const LOW_OXYGEN_PER_CENT = 1.5;

function* roomsTooLeaky(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const filled of season.filled.values()) {
    const { fill, room, capacity, regime, leakShareOfFruitUse } = filled;
    if (!fill.sealed || !regime?.oxygen || !room.tightness || !capacity.pressureHalfLife) continue;
    const low = regime.oxygen.value < LOW_OXYGEN_PER_CENT;
    const least = low ? LEAST_HALF_LIFE_LOW_OXYGEN_MIN : LEAST_HALF_LIFE_MIN;
    // Of fruit that is not all known nothing can be said that is set against its use; the minutes asked stand without it.
    const fruitIsKnown = isFruitKnown(filled);
    const needed = fruitIsKnown ? keepsUpFrom(filled) : undefined;
    if (capacity.pressureHalfLife.value >= Math.max(least, needed?.value ?? 0)) continue;
    const use =
      leakShareOfFruitUse && fruitIsKnown
        ? ` In service, wind and weather then let in about ${perCent(leakShareOfFruitUse.value)} of the oxygen the fruit uses.`
        : '';
    const cure = fruitIsKnown ? tightnessCure(season, filled, least) : '';
    yield {
      code: 'room-too-leaky',
      message: `${room.id} loses half its test pressure in ${show(capacity.pressureHalfLife)}; for ${show(regime.oxygen)} oxygen at least ${least} min are asked (from memory, NRAES-22).${use}${cure} Find the leak and test again before the room is filled; nobody goes into a sealed room for it.`,
      at: room.tightness.at,
      related: [{ at: atRegime(fill), message: 'The regime it is filled for' }],
      about: room.id,
    };
  }
}

/** The minutes that are enough, as the fruit and the room's course have it; else what is left where none are. */
function tightnessCure(season: ComputedSeason, filled: FilledRoom, least: number): string {
  const { capacity, freeGasVolume, oxygenUse } = filled;
  const needed = keepsUpFrom(filled);
  const known = !!capacity.volume && !!freeGasVolume && !!oxygenUse;
  if (known && !(needed && needed.value <= MOST_HALF_LIFE_MIN)) return noTightnessDoes(season, filled, least);
  // What scrubbing draws in comes on top of the leak, and the room's course has it.
  const held = climbsToItsEnd(season, filled) ? minutesThatHold(season, filled) : undefined;
  const from = Math.max(Math.ceil(needed?.value ?? 0), held ?? 0);
  const keepsUp = from > 0 ? ` Its fruit keeps up with the leak from ${from} min on.` : '';
  return `${keepsUp} Brought to ${Math.max(least, from)} min it is tight enough.`;
}

function noTightnessDoes(season: ComputedSeason, filled: FilledRoom, least: number): string {
  const withBag = climbsToItsEnd(season, filled)
    ? minutesThatHold(season, filled, true)
    : keepsUpFrom(filled, true)?.value;
  const bag = filled.room.breatherBag ? 'a larger breather bag' : 'a breather bag';
  const orBag =
    typeof withBag === 'number' && withBag <= MOST_HALF_LIFE_MIN
      ? ` Or give it ${bag} that takes up the weather, and ${Math.max(least, Math.ceil(withBag))} min.`
      : '';
  return ` No tightness alone does it: rooms are brought to ${MOST_HALF_LIFE_MIN} min at most (common practice), and even then more oxygen comes in than its fruit uses.${moreFruit(season, filled, least)}${orBag}`;
}

/** More of its fruit, tried: with the tightness that it takes then, or that a full room does not do either. */
function moreFruit(season: ComputedSeason, filled: FilledRoom, least: number): string {
  const fuller = binsThatKeepUp(season, filled);
  if (fuller === undefined) return ' Choose a regime with more oxygen.';
  if (fuller === null) return ' Nor does a full room of it: choose a regime with more oxygen.';
  const minutes = Math.max(least, fuller.minutes);
  return ` With ${counted(fuller.bins, 'bin')} of its fruit instead of ${binsIn(filled)}, and brought to ${minutes} min, it is tight enough; else choose a regime with more oxygen.`;
}

function* sealedWithoutScrubber(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const filled of season.filled.values()) {
    const { fill, room, regime } = filled;
    if (!fill.sealed || !regime?.carbonDioxide || room.scrubber) continue;
    const above = aboveWithoutScrubber(season, filled);
    const passes = above
      ? ` The ${show(above.limit)} that it bears is passed on ${formatDay(above.from)}, and carbon dioxide comes to ${show(above.highest)} before the room opens: its fruit is likely to be injured.`
      : '';
    yield {
      code: 'sealed-without-scrubber',
      // What its course shows is no longer a risk.
      ...(above ? { severity: 'error' as const } : {}),
      message: `${fill.id} is sealed, but ${room.id} has no scrubber: nothing takes away the carbon dioxide of its fruit.${passes} Name one under \`scrubber\`.`,
      at: fill.sealed.at,
      related: [{ at: room.at, message: `${room.id} is defined here` }],
      about: fill.id,
    };
  }
}

function* sealedForAir({ plan, filled }: ComputedSeason): Iterable<Problem> {
  for (const { fill, regime } of filled.values()) {
    if (!fill.regime || !regime || !!fill.sealed === !!regime.oxygen) continue;
    // What one of them lacks may be written where it cannot be read.
    if ([fill, plan.regimes.get(fill.regime.value)].some(partlyUnread(plan))) continue;
    yield {
      code: 'sealing-and-regime-disagree',
      message: fill.sealed
        ? `${fill.id} has a sealing day, but the regime \`${regime.name}\` keeps the room in air. Take out \`sealed\`, or choose a regime with oxygen.`
        : `${fill.id}: the regime \`${regime.name}\` holds ${regime.oxygen?.value} % oxygen, but no sealing day is given. Add \`sealed\`.`,
      at: fill.sealed?.at ?? fill.regime.at,
      about: fill.id,
    };
  }
}

export const gasRules: readonly Rule[] = [
  ...lowOxygenRules,
  ...scrubberRules,
  {
    code: 'room-too-leaky',
    family: 'gas',
    severity: 'warning',
    summary: 'A room leaks too much for its regime.',
    find: roomsTooLeaky,
  },
  ...pressureTestRules,
  {
    code: 'sealed-without-scrubber',
    family: 'gas',
    severity: 'warning',
    summary: 'A sealed room without a scrubber.',
    find: sealedWithoutScrubber,
  },
  {
    code: 'sealing-and-regime-disagree',
    family: 'gas',
    severity: 'error',
    summary: 'A sealing day and an air regime, or neither.',
    find: sealedForAir,
  },
  ...bedRules,
];
