import type { ComputedSeason } from '../findings/types';
import { formatWeek, type Week } from '../plan/dates';
import { closedForm, compute, countedFigure, type Figure, withBeside } from '../plan/figure';
import type { NitrogenSource, Scrubber } from '../plan/model';
import { bedAir, breakthroughTime, removalByCarbon, uptakeOfBed } from '../plant/carbon';
import { type NitrogenTurn, nitrogenQueue } from '../plant/nitrogen-queue';
import { meanCarbonDioxideLevel } from '../plant/scrubber-load';
import type { ScrubberTurnsWeek } from '../plant/scrubber-turns';
import type { ScrubberSeason } from '../plant/types';
import { formulaKeys, largestOf, sumOf } from '../room/figures';
import { limeFigures } from './lime-figures';
import { type NamedFigure, named } from './named-figures';

const DUTY =
  "The formula divides what the rooms give off in the week, on a straight line from the rate in air to that in store, by what the scrubber removes at their mean set-point. The integration leaves out what stays in the rooms' gas or leaks out, follows the fruit as it cools, and takes each room at its own set-point.";

/** What a scrubber's carbon can do at the level its rooms hold, and the time they need of it, week by week. */
export function scrubberFigures(
  { plan, courses }: ComputedSeason,
  scrubber: Scrubber,
  load: ScrubberSeason | undefined,
): NamedFigure[] {
  const { id, beds } = scrubber;
  const level = load && meanCarbonDioxideLevel(load.rooms);
  const turns = courses?.scrubbers.find((one) => one.scrubber.id === id);
  const peak = turns?.peak;
  return [
    ...(beds && level
      ? named(id, {
          'uptake-of-bed': uptakeOfBed(beds, level),
          'breakthrough-time': breakthroughTime(scrubber, level),
          'removal-by-carbon': removalByCarbon(scrubber, level),
          'bed-air': beds.voidVolume && bedAir(beds),
        })
      : []),
    ...named(id, {
      'peak-time-needed': peak && withBeside(peak.needed, closedForm(shareIn(load, peak.week), DUTY)),
      'peak-duty': peak && dutyIn(scrubber, peak, load),
    }),
    ...(turns ? limeFigures(plan, scrubber, turns) : []),
    ...(turns?.weeks ?? []).flatMap((week) => dutyFigures(scrubber, week, load)),
  ];
}

function shareIn(load: ScrubberSeason | undefined, week: Week): Figure<'%'> | undefined {
  return load?.weeks.find((one) => one.week === week)?.share;
}

/** Hours a day that the rooms need of it in a week. */
function dutyIn(
  scrubber: Scrubber,
  { week, needed }: ScrubberTurnsWeek,
  load: ScrubberSeason | undefined,
): Figure<'h'> {
  const share = shareIn(load, week);
  const inputs = { needed: withBeside(needed, closedForm(share, DUTY)), hoursADay: scrubber.hoursADay };
  return compute(
    `hours a day its rooms need in ${formatWeek(week)}`,
    'h',
    'needed / 100 * hoursADay',
    inputs,
    (v) => (v.needed / 100) * v.hoursADay,
  );
}

function dutyFigures(
  scrubber: Scrubber,
  week: ScrubberTurnsWeek,
  load: ScrubberSeason | undefined,
): NamedFigure[] {
  const rooms = week.hours.map(({ fill, hoursADay }) => [
    `hours-${fill}-${formatWeek(week.week)}`,
    countedFigure(
      `hours a day at ${fill} in ${formatWeek(week.week)}`,
      'h',
      hoursADay,
      "its share of the scrubber's time, by what it has to have removed; all of the time is given out",
    ),
  ]);
  return named(
    scrubber.id,
    { [`duty-${formatWeek(week.week)}`]: dutyIn(scrubber, week, load), ...Object.fromEntries(rooms) },
    true,
  );
}

/** The queue of a source: its longest wait, the work in it, and each room's turn. */
export function nitrogenFigures(season: ComputedSeason, source: NitrogenSource): NamedFigure[] {
  const turns = turnsOf(season, source);
  const keys = formulaKeys(
    'fill',
    turns.map(({ room }) => room.fill.id),
  );
  const keyed = (of: (turn: NitrogenTurn) => Figure<'h'>) =>
    turns.map((turn, index) => [keys[index] ?? '', of(turn)] as const);
  return [
    ...named(source.id, {
      'longest-wait': largestOf(
        'longest wait of a sealed room in the queue',
        'h',
        keyed(({ waits }) => waits),
      ),
      'hours-of-queue':
        turns.length === 0
          ? undefined
          : sumOf(
              'hours of nitrogen of all rooms, in the order of the queue',
              'h',
              keyed(({ flush }) => flush),
            ),
    }),
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

export function turnsOf({ filled }: ComputedSeason, source: NitrogenSource): readonly NitrogenTurn[] {
  const known = queues.get(filled) ?? new Map<string, readonly NitrogenTurn[]>();
  queues.set(filled, known);
  const rooms = () => [...filled.values()].filter(({ room }) => room.nitrogen?.value === source.id);
  const turns = known.get(source.id) ?? nitrogenQueue(source, rooms()).turns;
  known.set(source.id, turns);
  return turns;
}
