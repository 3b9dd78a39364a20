import { onceFor } from '../findings/courses';
import type { ComputedSeason } from '../findings/types';
import { formatDay } from '../plan/dates';
import {
  closedForm,
  compute,
  countedFigure,
  type Figure,
  figureWith,
  terms,
  withBeside,
} from '../plan/figure';
import { oxygenBalance } from '../plant/oxygen-balance';
import { steadyLevel } from '../plant/steady-level';
import { busiestDayShare, type CoolingCourse, intakeLimit } from '../room/cooling-course';
import {
  beyondCooler,
  daysToColdAt,
  daysToColdClosed,
  intakeTheCoolerKeepsUpWith,
  sevenEighthsInDays,
  temperatureByLaw,
} from '../room/course/closed/cold';
import { humidityOfRoom, lossToBins, waterOfBins } from '../room/humidity';
import { halfLifeNeeded } from '../room/tightness';
import { transpirationOf } from '../room/transpiration';
import type { FilledRoom } from '../room/types';
import { balancesByDay, courseBeside } from './course-beside';
import { turnsOf } from './course-plant';
import { daysToStorage } from './course-report';
import { type NamedFigure, named } from './named-figures';

/**
 * What is integrated over a room's life, each figure with what a pocket calculator makes of the same beside it, and
 * the figures that are reckoned by formula alone.
 */
export function courseFigures(season: ComputedSeason, filled: FilledRoom, owner: string): NamedFigure[] {
  const id = filled.fill.id;
  const course = season.courses?.courses.get(id);
  const cooling = season.courses?.cooling.get(id);
  const waits = waitsOf(season, filled);
  const noWait = countedFigure('hours after sealing until the source is free', 'h', 0, 'no queue');
  return [
    ...reckoned(season, filled, owner, waits),
    ...(course
      ? [
          ...named(owner, courseBeside(season, filled, course, waits ?? noWait)),
          ...balancesByDay(owner, course),
        ]
      : []),
    ...coolingFigures(season, filled, cooling, owner),
  ];
}

function waitsOf(season: ComputedSeason, filled: FilledRoom): Figure<'h'> | undefined {
  const source = filled.room.nitrogen && season.plan.nitrogenSources.get(filled.room.nitrogen.value);
  return source && turnsOf(season, source).find((one) => one.room === filled)?.waits;
}

function reckoned(
  season: ComputedSeason,
  filled: FilledRoom,
  owner: string,
  waits: Figure<'h'> | undefined,
): NamedFigure[] {
  const { plan } = season;
  const { room, regime, capacity, freeGasVolume, oxygenUse: use, fill } = filled;
  if (!fill.sealed) return [];
  const scrubber = room.scrubber && plan.scrubbers.get(room.scrubber.value);
  const balance = oxygenBalance(filled, scrubber);
  const steady = steadyLevel(filled, scrubber);
  const halfLife =
    capacity.volume && freeGasVolume && use && regime?.oxygen
      ? halfLifeNeeded(
          capacity.volume,
          freeGasVolume,
          use,
          regime.oxygen,
          filled.assumptions,
          room.breatherBag,
        )
      : undefined;
  const source = room.nitrogen && plan.nitrogenSources.get(room.nitrogen.value);
  const turn = source && turnsOf(season, source).find((one) => one.room === filled);
  return named(owner, {
    'waits-for-nitrogen': waits,
    'reckoned-hours-to-set-point': turn?.toSetPoint,
    'air-exchanged': balance?.exchanged,
    'air-in': balance?.air,
    'oxygen-surplus': balance?.surplus,
    // Where the fruit uses more than comes in there is no level that it comes to by itself.
    'oxygen-settles-at': balance && balance.surplus.value > 0 ? balance.settlesAt : undefined,
    'bed-air': balance?.atBeds,
    'oxygen-through-membrane': balance?.throughMembrane,
    'bed-air-borne': balance?.bedAirBorne,
    'half-life-needed': halfLife,
    'steady-carbon-dioxide': steady.level,
    'carbon-dioxide-time-constant': steady.timeConstant,
  });
}

const COUNTED =
  "The formula takes each day's fruit by the law alone, or the time the cooler takes for all of the heat; hour by hour, days that ask for more than the cooler has push on those after them.";

const AT_WARM_HOLD = 'days from the first bin until all fruit is seven-eighths at its warm hold';

/** Of a room with a warm hold alone. */
function storageFigure(filled: FilledRoom, toHold: Figure<'days'>): Figure<'days'> | undefined {
  const steppedDown = daysToStorage(filled, 0);
  if (steppedDown === undefined) return undefined;
  return compute(
    'days from the first bin until the room is at storage temperature',
    'days',
    'max(toHold, steppedDown)',
    {
      toHold,
      steppedDown: countedFigure(
        'days from the first bin until the step down ends',
        'days',
        steppedDown,
        'the last bin, the days of the warm hold, and a step a day',
      ),
    },
    (v) => Math.max(v.toHold, v.steppedDown),
  );
}

function coolingFigures(
  season: ComputedSeason,
  filled: FilledRoom,
  cooling: CoolingCourse | undefined,
  owner: string,
): NamedFigure[] {
  const { room, regime, fruit, bins, holdingCooling, stepDown } = filled;
  const cold = cooling?.allCold;
  const binType = room.binType && season.plan.binTypes.get(room.binType.value);
  const water = bins && binType?.material && waterOfBins(bins, binType.material);
  const limits =
    cooling && onceFor(season.courses, `intake of ${filled.fill.id}`, () => intakeLimit(season.plan, filled));
  return [
    ...named(owner, {
      'busiest-day-share': busiestDayShare(filled),
      'days-to-cold':
        cold &&
        withBeside(
          stepDown ? figureWith(cold, { name: AT_WARM_HOLD }) : cold,
          closedForm(daysToColdClosed(filled, binType), COUNTED),
        ),
      'days-to-storage': cold && storageFigure(filled, cold),
      'short-of-cooling':
        cooling &&
        withBeside(
          cooling.shortOfCooling,
          terms(beyondCooler(filled), "above zero, the cooler is short on the intake's hottest day"),
        ),
      'largest-intake':
        limits?.largest &&
        withBeside(
          limits.largest,
          terms(
            intakeTheCoolerKeepsUpWith(filled, binType),
            'what the cooler keeps up with day after day; a short intake may be larger, for what is left over is taken in the days after it',
          ),
        ),
      'smallest-intake':
        limits?.smallest &&
        withBeside(
          limits.smallest,
          terms(
            daysToColdAt(filled, limits.smallest),
            'what the law alone makes of it, within the promised days; a bin a day fewer takes longer, or the cooler is short',
          ),
        ),
      'quickest-days-to-cold':
        limits && withBeside(limits.quickest, closedForm(daysToColdClosed(filled, binType, 1), COUNTED)),
      'water-of-bins': water,
      'weight-lost-to-bins': water && fruit && lossToBins(water, fruit),
      'humidity-it-comes-to':
        regime &&
        fruit &&
        holdingCooling &&
        humidityOfRoom(
          regime.temperature,
          fruit,
          holdingCooling,
          room.coilDifference,
          transpirationOf(filled.varieties),
          filled.assumptions.humidityAtFruit,
        ),
    }),
    ...(cooling?.batches ?? []).flatMap(({ day, temperatures, sevenEighths }) => {
      const [end] = temperatures;
      const warm =
        end &&
        countedFigure(
          "temperature of the day's fruit at its end",
          'degC',
          end.celsius,
          'counted hour by hour with all heat the cooler has to take',
        );
      return named(
        owner,
        {
          [`temperature-${formatDay(day)}`]:
            warm && withBeside(warm, closedForm(temperatureByLaw(filled, day), COUNTED)),
          [`seven-eighths-${formatDay(day)}`]:
            sevenEighths && withBeside(sevenEighths, closedForm(sevenEighthsInDays(filled), COUNTED)),
        },
        true,
      );
    }),
  ];
}
