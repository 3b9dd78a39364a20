import { noSupply } from '../findings/order-supply';
import type { ComputedSeason, Finding } from '../findings/types';
import { type Day, formatDay, formatWeek, type Week } from '../plan/dates';
import type { UnitSystem } from '../plan/display';
import type { Cure } from '../release/cures';
import { gapToTell } from '../release/gap';
import { neverOpens } from '../release/openable';
import { type PolicyCure, policyCures } from '../release/policy-cures';
import { type Reasons, releaseReasons } from '../release/reasons';
import { salesOfRooms } from '../release/room-sales';
import { toldOf, type WholeSeason } from '../release/season-whole';
import type { ReleaseProblem, ReleaseResult, ReleaseSchedule, Violation } from '../release/types';
import type { WeekEdit } from '../release/week-edits';
import { caution } from '../room/caution';
import { acrossJson, type DrawnReport } from './across-json';
import { finite, LEAST_AMOUNT, tidy } from './amounts';
import { displayUnits } from './explain';
import { binsFromField, fromFieldJson } from './from-field-json';
import { packedWaitsJson } from './packed-waits-json';
import { countFindings, planPart, present, varietiesOf } from './parts';
import { placeOf } from './place';
import { policyTrials } from './policy-trials';
import { cureJson, reasonJson } from './reason-json';
import { fruitAccount, stockByWeek, valueParts } from './release-account';
import { changesJson, openedWeek, standingJson } from './release-standing';
import type { ReleaseReport } from './schemas';
import { uncertaintyJson } from './uncertainty-json';
import { weekWithin } from './week-passed';

export interface ReleaseReportOptions {
  readonly units?: UnitSystem | undefined;
  readonly violations: readonly Violation[];
  readonly stoppedEarly: boolean;
  /** The day to look from, to tell which weeks have passed. */
  readonly today?: Day | undefined;
  /** Weeks that were written into the plan's files. */
  readonly written?: readonly WeekEdit[] | undefined;
  /** What seasons drawn came to; none where it is left out. */
  readonly drawn?: DrawnReport | undefined;
}

/** The release schedule week by week and room by room, with what it is worth and what it leaves short. */
export function releaseReport(
  season: ComputedSeason,
  release: NonNullable<ComputedSeason['release']>,
  findings: readonly Finding[],
  options: ReleaseReportOptions,
): ReleaseReport {
  const { problem, result } = release;
  const units = displayUnits(season.plan, options.units);
  const today = weekWithin(season.plan, options.today);
  const reasons = releaseReasons(
    problem,
    result.schedule,
    today === undefined ? 0 : Math.max(0, today - problem.firstWeek),
  );
  const toCome = reasons.cures.filter(({ week }) => today === undefined || problem.firstWeek + week >= today);
  const policy = policyCures(problem, result.schedule, toCome, () => policyTrials(season, problem));
  const told = toldOf(problem, result.schedule, season.plan);
  return {
    format: 'lotwright-release-report',
    version: 1,
    plan: planPart(season.plan),
    units: units.system,
    counts: countFindings(findings),
    currency: units.currency,
    value: tidy(result.schedule.value),
    valueParts: valueParts(problem, result.schedule),
    // A search that was stopped before any bound was proven has none.
    ...present({ bound: finite(result.bound), gap: gapToTell(result, result.schedule.value) }),
    boundRestsOn: result.boundRestsOn,
    provenOptimal: result.provenOptimal,
    stoppedEarly: options.stoppedEarly,
    violations: options.violations.map(({ kind, message }) => ({ kind, message })),
    conflicts: [...result.conflicts],
    ...present({
      standing: standingJson(season.plan, problem),
      changes: changesJson(problem, result.schedule),
      uncertainty: options.drawn && uncertaintyJson(problem, options.drawn.drawn, options.drawn.ranges),
      goodAcross: options.drawn && acrossJson(problem, options.drawn),
      written: options.written?.map(({ fill, room, file, week }) => ({ fill, room, file, week })),
    }),
    totals: totalsOf(problem, result, told),
    ...present({
      today: options.today === undefined ? undefined : formatDay(options.today),
      fruit: fruitAccount(season, problem, result.schedule),
      packedWait: packedWaitsJson(problem, result.schedule),
    }),
    weeks: weeksOf(problem, result.schedule, told),
    ...present({ fromField: fromFieldJson(season, problem, result.schedule) }),
    rooms: roomsOf(season, problem, result.schedule, reasons, today),
    shortages: shortagesOf(season, release, told, { cures: reasons.cures, policy }, today),
    caution,
  };
}

/** Cartons wanted and sold by demand and week, where that is told. */
type Told = Pick<WholeSeason, 'demands' | 'sold'>;

function weeksOf(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  { demands, sold: allSold }: Told,
): ReleaseReport['weeks'] {
  const stock = stockByWeek(problem, schedule);
  return Array.from({ length: problem.weeks }, (_, week) => {
    const cartonsDemanded = sum(demands.map(({ cartons }) => cartons[week] ?? 0));
    const cartonsSold = sum(allSold.map((sold) => sold[week] ?? 0));
    return {
      week: formatWeek(problem.firstWeek + week),
      opens: problem.rooms
        .filter(({ fromField }, at) => !fromField && schedule.opens[at] === week)
        .filter(({ fill }) => openedWeek(problem, fill) === undefined)
        .map(({ room }) => room),
      binsPacked: tidy(sum(schedule.packed.map((packed) => packed[week] ?? 0))),
      ...present({ binsFromField: binsFromField(problem, schedule, week) }),
      packingCapacity: tidy(problem.packingBins[week] ?? 0),
      cartonsDemanded: tidy(cartonsDemanded),
      cartonsSold: tidy(cartonsSold),
      cartonsShort: short(cartonsDemanded - cartonsSold),
      cartonsUnsold: tidy(sum(schedule.processed.map((processed) => processed[week] ?? 0))),
      cartonsInStock: tidy(stock[week] ?? 0),
    };
  });
}

function roomsOf(
  season: ComputedSeason,
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  reasons: Reasons,
  today: Week | undefined,
): ReleaseReport['rooms'] {
  const label = (week: number) => formatWeek(problem.firstWeek + week);
  const sales = salesOfRooms(problem, schedule);
  return problem.rooms.flatMap((room, at) => {
    if (room.fromField) return [];
    const filled = season.filled.get(room.fill);
    const fill = season.plan.fills.get(room.fill);
    const opens = schedule.opens[at] ?? undefined;
    const opened = openedWeek(problem, room.fill);
    return {
      room: room.room,
      fill: room.fill,
      varieties: filled ? varietiesOf(filled) : [],
      place: placeOf(season.plan, fill?.open?.at ?? fill?.at ?? { file: '', start: 0, end: 0 }),
      bins: tidy(room.bins),
      earliest: label(room.earliest),
      bestBefore: label(room.bestBefore),
      latest: label(room.latest),
      ...(opened === undefined && neverOpens(problem, room) && { noWeek: true as const }),
      ...present({
        opens: opens === undefined ? undefined : label(opened ?? opens),
        emptyBy: lastPackingWeek(schedule.packed[at] ?? [], label),
      }),
      packing: (schedule.packed[at] ?? []).flatMap((bins, week) =>
        bins > 0 ? [{ week: label(week), bins: tidy(bins) }] : [],
      ),
      cartonsPacked: tidy(sales[at]?.packed ?? 0),
      cartonsUnsold: tidy(sales[at]?.unsold ?? 0),
      pinned: room.pinned !== null,
      ...(opened !== undefined && { opened: true as const }),
      ...present({ weekPassed: weekPassed(room.pinned, opens, today, problem.firstWeek) }),
      reason: reasonJson(season.plan, problem, reasons.rooms[at]),
    };
  });
}

/** A pin is what the planner says has happened, so only weeks chosen here are told. */
function weekPassed(
  pinned: number | null,
  opens: number | undefined,
  today: Week | undefined,
  firstWeek: Week,
): true | undefined {
  if (pinned !== null || opens === undefined || today === undefined) return undefined;
  return firstWeek + opens < today ? true : undefined;
}

function lastPackingWeek(packed: readonly number[], label: (week: number) => string): string | undefined {
  const last = packed.findLastIndex((bins) => bins >= LEAST_AMOUNT);
  return last < 0 ? undefined : label(last);
}

/** A pin to a week that has passed says what has happened, and no room opens in the past: neither is a cure. */
function withoutPastPin(problem: ReleaseProblem, { unpin, ...cure }: Cure, today: Week | undefined): Cure {
  const pinned = unpin && problem.rooms[unpin.room]?.pinned;
  if (!unpin || typeof pinned !== 'number') return cure;
  const { also } = unpin;
  const first =
    problem.firstWeek +
    Math.min(pinned, unpin.week, ...(also ? [problem.rooms[also.room]?.pinned ?? also.week, also.week] : []));
  return today !== undefined && first < today ? cure : { ...cure, unpin };
}

function shortagesOf(
  season: ComputedSeason,
  { problem, result: { schedule } }: NonNullable<ComputedSeason['release']>,
  { demands, sold }: Told,
  reasons: Pick<Reasons, 'cures'> & { readonly policy: readonly PolicyCure[] },
  today: Week | undefined,
): ReleaseReport['shortages'] {
  const stillOpen = (cure: Cure) => withoutPastPin(problem, cure, today);
  const cures = new Map(reasons.cures.map((cure) => [cure.demand * problem.weeks + cure.week, cure]));
  return demands.flatMap((demand, at) => {
    const weeks = demand.cartons.flatMap((cartons, week) => {
      const cartonsShort = short(cartons - (sold[at]?.[week] ?? 0));
      const cure = cures.get(at * problem.weeks + week);
      if (cartonsShort <= 0 || !cure) return [];
      const label = formatWeek(problem.firstWeek + week);
      const policy = reasons.policy.filter((one) => one.demand === at && one.week === week);
      const order = cure.nothingInReach ? season.plan.demand.get(demand.id) : undefined;
      const inWeek = problem.firstWeek + week;
      const none = order && noSupply(season, order, { first: inWeek, last: inWeek });
      const found = cureJson(problem, schedule, stillOpen(cure), policy);
      return [{ week: label, cartonsShort, cure: { ...found, ...present({ noSupply: none }) } }];
    });
    if (weeks.length === 0) return [];
    const product = problem.products[demand.product];
    return [
      {
        demand: demand.id,
        market: demand.market,
        variety: product?.variety ?? '',
        packClass: product?.packClass ?? '',
        cartonsShort: tidy(sum(weeks.map(({ cartonsShort }) => cartonsShort))),
        cartonsDemanded: tidy(sum(demand.cartons)),
        weeks,
      },
    ];
  });
}

function totalsOf(
  problem: ReleaseProblem,
  { schedule }: ReleaseResult,
  { demands, sold }: Told,
): ReleaseReport['totals'] {
  const cartonsDemanded = sum(demands.map(({ cartons }) => sum(cartons)));
  return {
    bins: tidy(sum(problem.rooms.map(({ bins }) => bins))),
    binsPacked: tidy(sum(schedule.packed.map(sum))),
    cartonsDemanded: tidy(cartonsDemanded),
    cartonsSold: tidy(sum(sold.map(sum))),
    cartonsShort: short(cartonsDemanded - sum(sold.map(sum))),
    cartonsUnsold: tidy(sum(schedule.processed.map(sum))),
  };
}

function short(cartons: number): number {
  return cartons >= LEAST_AMOUNT ? tidy(cartons) : 0;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
