import { daysToSealing, mostDaysToSeal } from '../../fill/weights';
import type { Regime } from '../../fruit/types';
import { allowedFilling } from '../../keeping/assumptions';
import { formatDay, formatWeek } from '../../plan/dates';
import { type Figure, figureWith } from '../../plan/figure';
import type { Fill } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { placeAt } from '../../plan/span';
import { counted, listed } from '../../plan/wording';
import { type GroupRemedies, groupRemediesSteps, moved } from '../../plant/group-remedies';
import type { RefrigerationSeason } from '../../plant/types';
import { intakeLimit } from '../../room/cooling-course';
import { intakeTheCoolerKeepsUpWith } from '../../room/course/closed/cold';
import { sumOf } from '../../room/figures';
import type { FilledRoom } from '../../room/types';
import { opensIn } from '../compute';
import { onceFor, onceInSteps } from '../courses';
import { weeksToCome } from '../happened';
import {
  daysFull,
  daysSealedLate,
  inBrackets,
  lastDayToSeal,
  MOST_DAYS_OPEN_AFTER_LAST_BIN,
  mostLostWaiting,
  priceOfWaiting,
  warmHoldDays,
} from '../later-sealing';
import { apartShower, neededShower, perCent, perCentAbove, shower } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { moreThanTold } from '../unknown-fruit';

/** The coldest that a regime and its stages hold. */
function coldestOf({ temperature, stages = [] }: Regime): Figure<'degC'> {
  return stages.reduce(
    (coldest, stage) =>
      stage.temperature && stage.temperature.value < coldest.value ? stage.temperature : coldest,
    temperature,
  );
}

function* chillingRisk(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const { fill, regime, lots } of season.filled.values()) {
    if (!regime || !fill.regime) continue;
    const coldest = coldestOf(regime);
    const freezes = lots.find(({ variety }) => coldest.value <= variety.freezesAt.value);
    if (freezes) {
      yield {
        code: 'freezing-risk',
        message: `${fill.id}: ${freezes.variety.name} freezes at ${show(freezes.variety.freezesAt)} and the regime holds ${show(coldest)}. Hold it at ${show(freezes.variety.leastTemperature)} at least, the coldest that it bears, or choose a warmer regime.`,
        at: fill.regime.at,
        about: fill.id,
      };
      continue;
    }
    const chilled = lots.find(({ variety }) => coldest.value < variety.leastTemperature.value);
    if (chilled)
      yield {
        code: 'chilling-risk',
        message: `${fill.id}: ${show(coldest)} is colder than the ${show(chilled.variety.leastTemperature)} that ${chilled.variety.name} bears; it may brown or break down. Hold it at ${show(chilled.variety.leastTemperature)} at least, or choose a warmer regime.`,
        at: fill.regime.at,
        about: fill.id,
      };
  }
}

function* intakeTooFast(season: ComputedSeason): Iterable<Problem> {
  const most = season.plan.policy.intakeADay;
  for (const filled of season.filled.values()) {
    const { fill, capacity, intake } = filled;
    const places = capacity.places?.value;
    const busiest = intake.reduce((best, day) => (day.bins > (best?.bins ?? 0) ? day : best), intake[0]);
    if (!places || !busiest || !fill.firstBin) continue;
    const share = (busiest.bins / places) * 100;
    if (share <= most.value + 0.5) continue;
    const all = intake.reduce((sum, day) => sum + day.bins, 0);
    const days = Math.ceil(all / (places * (most.value / 100)));
    const byPolicy =
      season.plan.policy.arrivals !== 'evenly' && days <= intake.length
        ? `Hold bins back so that each of its ${intake.length} days takes as many, ${perCent((100 * all) / intake.length / places)} of the room (\`policy: arrivals: evenly\`).`
        : `Take ${counted(days, 'day')} to fill it.`;
    const more = moreThanTold([filled]);
    const cure =
      more.trim() ||
      (fillingForTheCooler(season, filled, all, (places * most.value) / 100, byPolicy) ??
        `${byPolicy}${intakeThatCools(season, filled)}`);
    yield {
      code: 'intake-too-fast',
      message: `${fill.id} takes ${more === '' ? '' : 'at least '}${counted(busiest.bins, 'bin')} on ${formatDay(busiest.day)}, ${perCent(share)} of its room; the plan allows ${perCent(most.value)} a day. Warm fruit cools slower the more comes at once. ${cure}`,
      at: fill.firstBin.at,
      related: fill.lastBin ? [{ at: fill.lastBin.at, message: 'Last bin' }] : [],
      about: fill.id,
    };
  }
}

/**
 * Where a finding says that the same filling is too much for the cooler, too: one cure for both, with the same bins a day,
 * which is the plan's where the cooler keeps up with that. Undefined elsewhere.
 */
function fillingForTheCooler(
  season: ComputedSeason,
  filled: FilledRoom,
  bins: number,
  allowed: number,
  byPolicy: string,
): string | undefined {
  const capacity = filled.room.coolerCapacity?.value ?? Number.POSITIVE_INFINITY;
  if (!filled.intake.some(({ heat }) => heat.value > capacity)) return undefined;
  const keepsUp = binsTheCoolerTakes(season, filled);
  if (keepsUp < 1) return undefined;
  if (keepsUp >= allowed) return byPolicy;
  const days = Math.ceil(bins / keepsUp);
  const pace = `its cooler keeps up with ${counted(keepsUp, 'bin')} a day, fewer than the plan allows`;
  return days <= mostDaysToSeal
    ? `Take ${counted(days, 'day')} to fill it: ${pace}.`
    : `See to the cooling first: ${pace}, and ${counted(days, 'day')} of filling are longer than fruit should wait for its gas.`;
}

/** Found by trying intakes hour by hour, so only where courses are wanted and this is a finding already. */
function intakeThatCools(season: ComputedSeason, filled: FilledRoom): string {
  const { plan, courses } = season;
  const limit = onceFor(courses, `intake of ${filled.fill.id}`, () => intakeLimit(plan, filled));
  if (!limit) return '';
  const show = shower(season);
  return limit.largest
    ? ` Its cooler has each day's fruit cold within ${show(filled.assumptions.daysToCold)} at ${counted(limit.largest.value, 'bin')} a day or fewer.`
    : ` Its cooler is too small to have any day's fruit cold within ${show(filled.assumptions.daysToCold)}.`;
}

/** Rooms whose fruit is cold later for sharing their group's plant. */
function coldLater(later: GroupRemedies['coldLater']): string {
  const texts = later
    .filter(({ days }) => days >= 0.5)
    .sort((a, b) => b.days - a.days)
    .map(({ fill, days }) =>
      Number.isFinite(days) ? `${fill} by ${days.toFixed(1)} days` : `${fill} by more than two months`,
    );
  return texts.length > 0 ? ` Fruit comes cold later: ${listed(texts)}.` : '';
}

/** Where lights, vehicles and people alone make a cooler too small. */
function workTips(
  { intake, stepDown }: FilledRoom,
  capacity: Figure<'kW'>,
  show: ReturnType<typeof shower>,
): string {
  const [first] = intake;
  if (!first || (stepDown && stepDown.cooling.value > capacity.value)) return '';
  const { lightHeat: lights, vehicleHeat: vehicles, peopleHeat: people } = first;
  const work = sumOf(
    'heat of lights, vehicles and people',
    'kW',
    Object.entries({ lights, vehicles, people }),
  );
  const tips = intake.every(({ heat }) => heat.value - work.value <= capacity.value);
  return tips ? ` Without lights, vehicles and people in the room, ${show(work)}, the cooler would do.` : '';
}

/** Whole bins a day whose heat the cooler takes day after day; none where the rest of the load is too much for it. */
function binsTheCoolerTakes({ plan }: ComputedSeason, filled: FilledRoom): number {
  const binType = filled.room.binType && plan.binTypes.get(filled.room.binType.value);
  return Math.floor(intakeTheCoolerKeepsUpWith(filled, binType)?.value ?? 0);
}

/** The daily intake whose heat the cooler takes day after day. */
function slowerFilling(season: ComputedSeason, filled: FilledRoom): string {
  const keepsUp = binsTheCoolerTakes(season, filled);
  return keepsUp > 0 ? ` It keeps up with ${counted(keepsUp, 'bin')} a day.` : '';
}

function coolerCures(
  season: ComputedSeason,
  filled: FilledRoom,
  capacity: Figure<'kW'>,
  peak: Figure<'kW'>,
): string {
  const show = shower(season);
  const fills = filled.intake.some(({ heat }) => heat.value > capacity.value);
  return `${fills ? slowerFilling(season, filled) : ''} A cooler of ${neededShower(season)(peak)} would take it; else pre-cool the fruit, or expect it to come down later than planned.${workTips(filled, capacity, show)}`;
}

function* coolersOverloaded(season: ComputedSeason): Iterable<Problem> {
  const apart = apartShower(season);
  for (const filled of season.filled.values()) {
    const { fill, room, peakCooling, intake } = filled;
    const capacity = room.coolerCapacity;
    if (!capacity || !peakCooling || peakCooling.value <= capacity.value) continue;
    const days = intake.filter(({ heat }) => heat.value > capacity.value);
    const [first] = days;
    const when = first
      ? `from ${formatDay(first.day)}, on ${counted(days.length, 'day')} of filling,`
      : 'while it steps down from its warm hold';
    const more = moreThanTold([filled]);
    const [heat, takes] = apart(peakCooling, capacity);
    yield {
      code: 'cooling-overloaded',
      message: `${fill.id}: ${when} the heat comes to at ${more === '' ? 'most' : 'least'} ${heat}, and the cooler of ${room.id} takes ${takes}.${more || coolerCures(season, filled, capacity, peakCooling)}`,
      at: fill.firstBin?.at ?? fill.at,
      related: [
        { at: placeAt(room.places, ['refrigeration', 'capacity']).span, message: `Cooler of ${room.id}` },
      ],
      about: fill.id,
    };
  }
}

/** Whose fruit waits, the first day of too much, and the least change of each kind that was tried and does. */
function groupCures(season: ComputedSeason, { group, rooms }: RefrigerationSeason): string {
  const { plan, fruit, courses } = season;
  const remedies = onceInSteps(courses, `remedies of ${group.id}`, () =>
    groupRemediesSteps({ plan, fruit, group, rooms, opens: opensIn(season) }),
  );
  const slow = coldLater(remedies?.coldLater ?? []);
  if (!remedies?.from || !group.capacity)
    return `${slow} Spread the intake over more days or rooms of another group.`;
  const { from, capacityKw, later, slower } = remedies;
  const cures = [
    later &&
      `fill and seal ${later.fill} ${counted(later.days, 'day')} later${dearest(season, [later.fill], later.days, later.days)}`,
    slower &&
      `take ${counted(slower.days, 'day')} more to fill ${listed(slower.fills)} and seal as much later${dearest(season, slower.fills, 0, slower.days)}`,
    capacityKw !== undefined &&
      `give ${group.id} ${neededShower(season)(figureWith(group.capacity, { value: capacityKw }))}`,
  ].filter((cure) => typeof cure === 'string');
  const since = `${slow} The first day of too much is ${formatDay(from)}.`;
  if (cures.length === 0) return `${since} Move rooms to another group, or spread the intake over more days.`;
  const onlyLarger = later || slower ? '' : ' No room filled two weeks later or slower is enough.';
  return `${since} It would keep up if you ${cures.join(', or ')}.${onlyLarger}`;
}

/** What it costs the fruit of the first of the fills that it costs anything. `first`, `last`: days that bins come later. */
function dearest(season: ComputedSeason, fills: readonly string[], first: number, last: number): string {
  for (const id of fills) {
    const fill = season.filled.get(id)?.fill;
    const price = fill ? priceOfWaiting(season, moved(fill, first, last)) : '';
    if (price !== '') return fills.length === 1 ? inBrackets(price) : ` (its price in ${id}: ${price})`;
  }
  return '';
}

function* groupsOverloaded(season: ComputedSeason): Iterable<Problem> {
  const apart = apartShower(season);
  for (const load of season.plant?.refrigeration ?? []) {
    const { group, weeks } = load;
    const over = weeksToCome(season.plan, weeks).filter(({ share }) => share && share.value > 100);
    const worst = over.reduce(
      (best, week) => (!best || week.load.value > best.load.value ? week : best),
      over[0],
    );
    if (!worst || !group.capacity) continue;
    const more = moreThanTold(load.rooms);
    const [asked, given] = apart(worst.load, group.capacity);
    yield {
      code: 'refrigeration-group-overloaded',
      message: `${group.id}: its rooms together ask for ${more === '' ? '' : 'at least '}${asked} in ${formatWeek(worst.week)}, mean of the worst day, and it gives ${given} (${perCentAbove(worst.share?.value ?? 0, 100)}); too much in ${listed(over.map(({ week }) => formatWeek(week)))}.${more || groupCures(season, load)}`,
      at: group.at,
      about: group.id,
    };
  }
}

function* sealedLate(season: ComputedSeason): Iterable<Problem> {
  for (const { fill, regime } of season.filled.values()) {
    if (!fill.sealed || !fill.firstBin) continue;
    const waits = warmHoldDays(regime);
    const late = daysSealedLate(fill, regime);
    const days = late + mostDaysToSeal;
    if (late <= 0) continue;
    yield {
      code: 'sealed-late',
      message: `${fill.id} is sealed ${counted(days, 'day')} after its first bin${waits > 0 ? ' and its warm hold' : ''}, ${counted(late, 'day')} too late: fruit should wait ${mostDaysToSeal} days for its gas at most.${takenOffLife(season, fill)}${sealInTime(season, fill, regime)}`,
      at: fill.sealed.at,
      related: [{ at: fill.firstBin.at, message: 'First bin' }],
      about: fill.id,
    };
  }
}

/** Lives are counted off from sooner on than sealing is told to be late: the same days as in a derivation of them. */
function takenOffLife(season: ComputedSeason, fill: Fill): string {
  const lost = mostLostWaiting(season, fill);
  return lost
    ? ` Storage lives allow for ${counted(allowedFilling.value, 'day')} from cold room to sealed door; what ${lost.lot} waits longer takes ${counted(Math.round(lost.days), 'day')} off its life.`
    : '';
}

/** A day for the seal that no finding of a late seal is about, with a day for the last bin that leaves time to cool it. */
function sealInTime({ plan }: ComputedSeason, fill: Fill, regime: Regime | undefined): string {
  const { firstBin, lastBin, lots } = fill;
  const sealBy = lastDayToSeal(fill, regime);
  if (sealBy === undefined || !firstBin) return '';
  const lastIn = sealBy - warmHoldDays(regime) - daysToSealing;
  const isSooner = lastBin !== undefined && lastBin.value > lastIn;
  const filledBy = isSooner ? ` with its last bin in by ${formatDay(lastIn)}` : '';
  const begin = firstBin.value + daysSealedLate(fill, regime);
  // Bins that come later help only where the seal follows the last of them.
  const isFullLong = daysFull(fill, regime) > MOST_DAYS_OPEN_AFTER_LAST_BIN;
  const orLater =
    lastBin && lastBin.value >= begin && !isFullLong
      ? `, or bring its first bin on ${formatDay(begin)} or later and put what comes before into a smaller room`
      : '';
  const later = lots.flatMap(({ lot }) =>
    isSooner && (plan.lots.get(lot.value)?.picked?.value.first ?? 0) > lastIn ? [lot.value] : [],
  );
  const others =
    later.length > 0 ? ` What is picked after that day (${listed(later)}) then needs another room.` : '';
  return ` Seal it by ${formatDay(sealBy)}${filledBy}${orLater}.${others}`;
}

function* waitsForSeal({ filled }: ComputedSeason): Iterable<Problem> {
  for (const { fill, regime } of filled.values()) {
    if (!fill.sealed || !fill.lastBin) continue;
    const waits = warmHoldDays(regime);
    const days = daysFull(fill, regime);
    // Told as sealed late, the day to seal it by is one that both ask for.
    if (days <= MOST_DAYS_OPEN_AFTER_LAST_BIN || daysSealedLate(fill, regime) > 0) continue;
    const sealBy = formatDay(fill.lastBin.value + waits + MOST_DAYS_OPEN_AFTER_LAST_BIN);
    yield {
      code: 'seal-waits-after-last-bin',
      message: `${fill.id} stands full for ${counted(days, 'day')} before it is sealed. Seal it by ${sealBy}, ${MOST_DAYS_OPEN_AFTER_LAST_BIN} days after${waits > 0 ? ' its warm hold and' : ''} the last bin, unless the variety needs a delay.`,
      at: fill.sealed.at,
      related: [{ at: fill.lastBin.at, message: 'Last bin' }],
      about: fill.id,
    };
  }
}

export const coolingRules: readonly Rule[] = [
  {
    code: 'chilling-risk',
    family: 'cooling',
    severity: 'warning',
    summary: 'Colder than a variety bears.',
    find: (season) => only(chillingRisk(season), 'chilling-risk'),
  },
  {
    code: 'freezing-risk',
    family: 'cooling',
    severity: 'error',
    summary: "At or below the fruit's freezing point.",
    find: (season) => only(chillingRisk(season), 'freezing-risk'),
  },
  {
    code: 'intake-too-fast',
    family: 'cooling',
    severity: 'warning',
    summary: 'More fruit in a day than the plan allows.',
    find: intakeTooFast,
  },
  {
    code: 'cooling-overloaded',
    family: 'cooling',
    severity: 'warning',
    summary: "The day's heat is more than the cooler takes.",
    find: coolersOverloaded,
  },
  {
    code: 'refrigeration-group-overloaded',
    family: 'cooling',
    severity: 'warning',
    summary: "A group's rooms together ask for more than it gives.",
    find: groupsOverloaded,
  },
  {
    code: 'sealed-late',
    family: 'cooling',
    severity: 'warning',
    summary: 'Sealed long after the first bin.',
    find: sealedLate,
  },
  {
    code: 'seal-waits-after-last-bin',
    family: 'cooling',
    severity: 'notice',
    summary: 'A full room waits for its seal.',
    find: waitsForSeal,
  },
];

function* only(problems: Iterable<Problem>, code: string): Iterable<Problem> {
  for (const problem of problems) if (problem.code === code) yield problem;
}
