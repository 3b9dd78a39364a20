import type { ComputedSeason } from '../findings/types';
import type { NitrogenSource, Scrubber } from '../plan/model';
import { bedAir, breakthroughTime, removalByCarbon, uptakeOfBed } from '../plant/carbon';
import { type NitrogenTurn, nitrogenQueue } from '../plant/nitrogen-queue';
import { oxygenBalance } from '../plant/oxygen-balance';
import { meanCarbonDioxideLevel } from '../plant/scrubber-load';
import { steadyLevel } from '../plant/steady-level';
import type { ScrubberSeason } from '../plant/types';
import { halfLifeNeeded } from '../room/tightness';
import type { FilledRoom } from '../room/types';
import { oxygenRise } from './course-report';
import { figuresOf, type NamedFigure, named } from './named-figures';

/**
 * What is integrated over a room's life, and beside it what a pocket calculator makes of the same: the two differ by
 * what the closed formula leaves out (the fruit's use during the flush, warm fruit, the scrubber's turns).
 */
export function courseFigures(season: ComputedSeason, filled: FilledRoom, owner: string): NamedFigure[] {
  const id = filled.fill.id;
  const course = season.courses?.courses.get(id);
  const cooling = season.courses?.cooling.get(id);
  return [
    ...reckoned(season, filled, owner),
    ...(course ? figuresOf(owner, course) : []),
    ...(course ? named(owner, { 'oxygen-rise': oxygenRise(season, course) }) : []),
    ...named(owner, { 'days-to-cold': cooling?.allCold, 'short-of-cooling': cooling?.shortOfCooling }),
  ];
}

function reckoned(season: ComputedSeason, filled: FilledRoom, owner: string): NamedFigure[] {
  const { plan } = season;
  const { room, regime, capacity, freeGasVolume, oxygenUse: use, fill } = filled;
  if (!fill.sealed) return [];
  const scrubber = room.scrubber && plan.scrubbers.get(room.scrubber.value);
  const balance = oxygenBalance(filled, scrubber);
  const steady = steadyLevel(filled, scrubber);
  const halfLife =
    capacity.volume && freeGasVolume && use && regime?.oxygen
      ? halfLifeNeeded(capacity.volume, freeGasVolume, use, regime.oxygen, room.breatherBag)
      : undefined;
  const source = room.nitrogen && plan.nitrogenSources.get(room.nitrogen.value);
  const turn = source && turnsOf(season, source).find((one) => one.room === filled);
  return named(owner, {
    'waits-for-nitrogen': turn?.waits,
    'reckoned-hours-to-set-point': turn?.toSetPoint,
    'oxygen-surplus': balance?.surplus,
    // Where the fruit uses more than comes in there is no level that it comes to by itself.
    'oxygen-settles-at': balance && balance.surplus.value > 0 ? balance.settlesAt : undefined,
    'bed-air': balance?.atBeds,
    'bed-air-borne': balance?.bedAirBorne,
    'half-life-needed': halfLife,
    'steady-carbon-dioxide': steady.level,
    'carbon-dioxide-time-constant': steady.timeConstant,
  });
}

/** What a scrubber's carbon can do at the level its rooms hold, and the time they need of it. */
export function scrubberFigures(
  { courses }: ComputedSeason,
  scrubber: Scrubber,
  load: ScrubberSeason | undefined,
): NamedFigure[] {
  const { id, beds } = scrubber;
  const level = load && meanCarbonDioxideLevel(load.rooms);
  const turns = courses?.scrubbers.find((one) => one.scrubber.id === id);
  return [
    ...(beds && level
      ? named(id, {
          'uptake-of-bed': uptakeOfBed(beds, level),
          'breakthrough-time': breakthroughTime(scrubber, level),
          'removal-by-carbon': removalByCarbon(scrubber, level),
          'bed-air': beds.voidVolume && bedAir(beds),
        })
      : []),
    ...named(id, { 'peak-time-needed': turns?.peak?.needed }),
  ];
}

/** The longest wait of a source's queue; each room's turn stands with its fill. */
export function nitrogenFigures(season: ComputedSeason, source: NitrogenSource): NamedFigure[] {
  const turns = turnsOf(season, source);
  const longest = turns.reduce<(typeof turns)[number] | undefined>(
    (most, turn) => (turn.waits.value > (most?.waits.value ?? 0) ? turn : most),
    undefined,
  );
  return [
    ...named(source.id, { 'longest-wait': longest?.waits }),
    ...turns.flatMap(({ room, waits, flushed, toSetPoint, allowed }) =>
      named(
        source.id,
        {
          [`${room.fill.id}-waits`]: waits,
          [`${room.fill.id}-flushed`]: flushed,
          [`${room.fill.id}-set-point`]: toSetPoint,
          [`${room.fill.id}-allowed`]: allowed,
        },
        true,
      ),
    ),
  ];
}

/** Each season's queues are made once, not once a room. */
const queues = new WeakMap<ComputedSeason['filled'], Map<string, readonly NitrogenTurn[]>>();

function turnsOf({ filled }: ComputedSeason, source: NitrogenSource): readonly NitrogenTurn[] {
  const known = queues.get(filled) ?? new Map<string, readonly NitrogenTurn[]>();
  queues.set(filled, known);
  const rooms = () => [...filled.values()].filter(({ room }) => room.nitrogen?.value === source.id);
  const turns = known.get(source.id) ?? nitrogenQueue(source, rooms()).turns;
  known.set(source.id, turns);
  return turns;
}
