import { carbonDioxideDensity } from '../fruit/conversions';
import { compute, countedFigure, type Figure } from '../plan/figure';
import { airExchanged } from '../room/course/closed/levels';
import type { ClosedPullDown } from '../room/course/closed/pull-down';
import type { RoomCourse } from '../room/course/types';
import { finite } from '../room/figures';
import { oxygenInAir } from '../room/tightness';
import type { FilledRoom } from '../room/types';
import type { OxygenBalance } from './oxygen-balance';

/** Where the gas of a room in store comes to, in closed form: C(t) = Cs + (C0 - Cs) exp(-t / tau). */

export function hoursClosed({ room }: Pick<RoomCourse, 'room'>): Figure<'h'> {
  return countedFigure('hours from sealing to opening', 'h', room.untilHours, 'the dates of the fill');
}

/** A level on its way to rest after some hours. */
export function levelOnItsWay(
  name: string,
  start: Figure<'%'>,
  rest: Figure<'%'>,
  hours: Figure<'h'>,
  timeConstant: Figure<'h'>,
): Figure<'%'> {
  return compute(
    name,
    '%',
    'rest + (start - rest) * exp(-hours / timeConstant)',
    { rest, start, hours, timeConstant },
    (v) => v.rest + (v.start - v.rest) * Math.exp(-v.hours / v.timeConstant),
  );
}

/**
 * The level to which a room rises on the worst day of its scrubber: all rooms on it rise by the same factor over their
 * set-points. `needed` is the time they need, of the time there is.
 */
export function carbonDioxideInTurn(setPoint: Figure<'%'>, needed: Figure<'%'>): Figure<'%'> {
  return compute(
    'carbon dioxide with the scrubber in turn',
    '%',
    'setPoint * max(1, needed / 100)',
    { setPoint, needed },
    (v) => v.setPoint * Math.max(1, v.needed / 100),
  );
}

/** The most and the last time that a scrubber's rooms need on a day while this room is sealed. */
export function timeNeeded(
  needed: ReadonlyMap<number, number>,
  { sealed, room }: RoomCourse,
): { readonly most: Figure<'%'>; readonly last: Figure<'%'> } {
  const opens = sealed + Math.round(room.untilHours / 24);
  const days = [...needed].filter(([day]) => day >= sealed && day < opens);
  const figure = (what: string, value: number) =>
    countedFigure(
      what,
      '%',
      100 * value,
      'carbon dioxide to be removed that day over what is removed at the set-points',
    );
  return {
    most: figure(
      'time needed on the busiest day while this room is sealed, of the time there is',
      Math.max(0, ...days.map(([, value]) => value)),
    ),
    last: figure('time needed on the last day, of the time there is', days.at(-1)?.[1] ?? 0),
  };
}

/** Without a scrubber: what the fruit makes goes out with the leak, and the level rises until as much leaves. */
export function carbonDioxideByLeak(filled: FilledRoom, course: RoomCourse): Figure<'%'> | undefined {
  const { carbonDioxideInStore: made, freeGasVolume: gasVolume, regime } = filled;
  if (!made || !gasVolume || !regime) return undefined;
  const exchanged = airExchanged(filled, course.room);
  const inputs = { made, density: carbonDioxideDensity(regime.temperature), exchanged };
  const rest = compute(
    'carbon dioxide at which the leak balances the fruit',
    '%',
    '100 * made / 24 / density / exchanged',
    inputs,
    (v) => {
      return (100 * v.made) / 24 / v.density / v.exchanged;
    },
  );
  const timeConstant = compute(
    'time constant of the leak',
    'h',
    'gasVolume / exchanged',
    { gasVolume, exchanged },
    (v) => {
      return v.gasVolume / v.exchanged;
    },
  );
  const start = countedFigure('carbon dioxide at sealing', '%', 0.04, 'outside air');
  return finite(
    levelOnItsWay(
      'carbon dioxide at opening, by the closed form',
      start,
      rest,
      hoursClosed(course),
      timeConstant,
    ),
  );
}

/**
 * Oxygen at opening: the set-point where the fruit uses more than comes in (air is let in to hold it), else on its way
 * to where both balance.
 */
export function oxygenAtOpening(
  filled: FilledRoom,
  course: RoomCourse,
  balance: OxygenBalance,
  pullDown: ClosedPullDown,
): Figure<'%'> | undefined {
  const { freeGasVolume: gasVolume, regime } = filled;
  if (!gasVolume || !regime?.oxygen) return undefined;
  const { surplus, settlesAt, air, drawn } = balance;
  const timeConstant = compute(
    'time constant of oxygen',
    'h',
    'gasVolume / (air - drawn)',
    { gasVolume, air, drawn },
    (v) => v.gasVolume / (v.air - v.drawn),
  );
  return finite(
    compute(
      'oxygen at opening, by the closed form',
      '%',
      'surplus <= 0 ? setPoint : settlesAt + (setPoint - settlesAt) * exp(-max(0, closed - pullDown) / timeConstant)',
      {
        surplus,
        setPoint: regime.oxygen,
        settlesAt,
        closed: hoursClosed(course),
        pullDown: pullDown.hours,
        timeConstant,
      },
      (v) =>
        v.surplus <= 0
          ? v.setPoint
          : v.settlesAt +
            (v.setPoint - v.settlesAt) * Math.exp(-Math.max(0, v.closed - v.pullDown) / v.timeConstant),
    ),
  );
}

/** All air that comes into a room in store: what leaks in, or as much as holds oxygen at its set-point if that is more. */
function airInStore({ air, drawn, use }: OxygenBalance, oxygen: Figure<'%'>): Figure<'m3/h'> {
  return compute(
    'air that comes in, with what is let in to hold oxygen',
    'm3/h',
    'max(air, (100 * use - drawn * oxygen) / (oxygenInAir - oxygen))',
    { air, use, drawn, oxygen, oxygenInAir },
    (v) => Math.max(v.air, (100 * v.use - v.drawn * v.oxygen) / (v.oxygenInAir - v.oxygen)),
  );
}

/** What is scrubbed from the hour it begins: what the fruit makes, less what goes out with the room's gas. */
export function scrubbedClosed(
  filled: FilledRoom,
  course: RoomCourse,
  balance: OxygenBalance,
  begins: Figure<'h'>,
): Figure<'kg'> | undefined {
  const { regime, carbonDioxideInStore: made } = filled;
  if (!made || !regime?.oxygen || !regime.carbonDioxide) return undefined;
  return finite(
    compute(
      'carbon dioxide scrubbed, by the closed form',
      'kg',
      'max(0, (made / 24 - level / 100 * density * (air - drawn)) * (closed - begins))',
      {
        made,
        level: regime.carbonDioxide,
        density: carbonDioxideDensity(regime.temperature),
        air: airInStore(balance, regime.oxygen),
        drawn: balance.drawn,
        closed: hoursClosed(course),
        begins,
      },
      (v) =>
        Math.max(0, (v.made / 24 - (v.level / 100) * v.density * (v.air - v.drawn)) * (v.closed - v.begins)),
    ),
  );
}
