import type { ComputedSeason } from '../../findings/types';
import { type Day, formatWeek, type Week, weekOfDay } from '../../plan/dates';
import type { DisplayUnits, UnitSystem } from '../../plan/display';
import type { Lot, Plan } from '../../plan/model';
import { counted } from '../../plan/wording';
import { notRecorded, wholeSeasonOf } from '../../release/season-whole';
import { cartonsPacked } from '../../release/settle';
import { soldByProduct } from '../../release/sources';
import type { ReleaseProblem, ReleaseSchedule } from '../../release/types';
import { LEAST_AMOUNT } from '../amounts';
import { displayUnits } from '../explain';
import { notReadText, planPart, present } from '../parts';
import { stockByWeek } from '../release-account';
import { roomSamples } from '../sampling-plan';
import type {
  FieldAccount,
  LotAccount,
  MarketLine,
  ProductLine,
  RoomAccount,
  Sample,
  SeasonAccount,
  WeekAccount,
} from './account';
import { basisWords, type PublishedWeeks, scheduleWords } from './basis';
import { byName } from './by-name';
import { fieldAccounts, fieldPlace } from './field-account';
import { lotPlace, roomAccount } from './room-account';
import { limeChangesOf, scrubbingTurns } from './scrubbing';
import { tasksOf } from './tasks';
import { fromTheirFolder } from './their-folder';

export interface AccountOptions {
  readonly units?: UnitSystem | undefined;
  /** Day of issue, told on the papers; left out, they tell none. */
  readonly issued?: Day | undefined;
  /** Lists by week begin with its week; left out, with the season's first. */
  readonly today?: Day | undefined;
  /** Weeks published before that the season's schedule keeps to. */
  readonly published?: PublishedWeeks | undefined;
}

/** The account that all papers are made from. The season is to come with its courses, for gas and lime. */
export function seasonAccount(season: ComputedSeason, options: AccountOptions = {}): SeasonAccount {
  const { plan, release } = season;
  const units = displayUnits(plan, options.units);
  const rooms = [...season.filled.values()]
    .map((filled) => roomAccount(season, filled, units, options.published))
    .sort((a, b) => byName(a.room, b.room) || byName(a.fill, b.fill));
  const samples = rooms.flatMap((room): readonly Sample[] => {
    const filled = season.filled.get(room.fill);
    const planned = filled ? roomSamples(season, filled, room) : [];
    return planned.map(({ worth, isOverdue, ...sample }) => sample);
  });
  const scrubbing = scrubbingTurns(season);
  const fromField = fieldAccounts(season, units);
  const schedule = release && { problem: release.problem, schedule: release.result.schedule, plan };
  return {
    title: plan.season?.name?.value ?? 'Season',
    files: [...plan.files.keys()],
    units,
    ...present({
      issued: options.issued,
      fromWeek: options.today === undefined ? undefined : weekOfDay(options.today),
    }),
    ...weeksSet(season, rooms),
    ...present({
      packedBefore: schedule && packedBefore(schedule.problem),
      notRead: notReadWords(plan),
    }),
    conflicts: release?.result.conflicts ?? [],
    weeks: schedule ? weeksOf(schedule, [...rooms, ...fromField]) : [],
    rooms,
    fillsToTell: fillsOfSharedRooms(rooms),
    tasks: tasksOf(season, rooms, { samples, scrubbing, lime: limeChangesOf(season) }),
    samples,
    scrubbing,
    market: schedule ? marketLines(schedule) : [],
    products: schedule ? productLines(schedule) : [],
    fromField,
    lots: [...plan.lots.values()].map((lot) => lotAccount(season, lot, rooms, fromField, units)),
  };
}

/** With the place seen from the plan's folder: the same from wherever papers are made. */
function notReadWords(plan: Plan): string | undefined {
  const part = planPart(plan);
  if (!part.notRead) return undefined;
  const { errors, first } = part.notRead;
  const file = fromTheirFolder(part.files)[part.files.indexOf(first.file)] ?? first.file;
  return notReadText({ ...part, notRead: { errors, first: { ...first, file } } });
}

function fillsOfSharedRooms(rooms: readonly RoomAccount[]): ReadonlySet<string> {
  const fills = new Map<string, number>();
  for (const { room } of rooms) fills.set(room, (fills.get(room) ?? 0) + 1);
  return new Set(rooms.filter(({ room }) => (fills.get(room) ?? 0) > 1).map(({ fill }) => fill));
}

/** What is said of where the opening weeks come from. */
function weeksSet(
  { release, plan }: ComputedSeason,
  rooms: readonly RoomAccount[],
): Pick<SeasonAccount, 'schedule' | 'basis'> {
  const setBys = rooms.flatMap((room) => room.setBy ?? []);
  const basis = basisWords(setBys);
  if (release) {
    const words = scheduleWords(setBys, rooms.length - setBys.length);
    const unknown = notRecorded(release.problem, plan);
    const left = unknown
      ? ` What was delivered before ${formatWeek(unknown.before)} is not recorded, and told neither as sold nor as short.`
      : '';
    return { schedule: `${words}${left}`, basis };
  }
  return {
    schedule:
      rooms.length === 0
        ? 'The plan has no filled room yet, so there is none to open: it says under `fills` what goes into which room.'
        : 'The plan has too little for a release schedule: it takes a season, fills with an opening window, demand and packing.',
    basis,
  };
}

/**
 * Cartons of a season under way that wait in the cold store are sold in the papers, and in a release schedule they are taken
 * off what is wanted: who holds one beside the other is told.
 */
function packedBefore({ standing, firstWeek }: ReleaseProblem): string | undefined {
  if (!standing || standing.fromStock < LEAST_AMOUNT) return undefined;
  const cartons = counted(Math.round(standing.fromStock), 'carton');
  const week = formatWeek(firstWeek + standing.week);
  return `Wanted and sold count what was packed before ${week} too: ${cartons} that wait in the cold store fill orders from then on. The release schedule tells both without them, so that it sells as many fewer in those weeks; so do cartons by variety and class, and what is in stock here.`;
}

interface Scheduled {
  readonly problem: ReleaseProblem;
  readonly schedule: ReleaseSchedule;
  readonly plan: Plan;
}

function weeksOf(
  { problem, schedule, plan }: Scheduled,
  packed: readonly Pick<RoomAccount, 'packing'>[],
): WeekAccount[] {
  const stock = stockByWeek(problem, schedule);
  const { demands, sold: allSold } = wholeSeasonOf(problem, schedule, plan);
  const bins = new Map<Week, number>();
  for (const { packing } of packed)
    for (const one of packing) bins.set(one.week, (bins.get(one.week) ?? 0) + one.bins);
  return Array.from({ length: problem.weeks }, (_, week) => {
    const inWeek = (rows: readonly (readonly number[])[]) => sum(rows.map((row) => row[week] ?? 0));
    const wanted = inWeek(demands.map(({ cartons }) => cartons));
    const sold = inWeek(allSold);
    const at = problem.firstWeek + week;
    return {
      week: at,
      bins: bins.get(at) ?? 0,
      capacity: Math.round(problem.packingBins[week] ?? 0),
      cartonsWanted: Math.round(wanted),
      cartonsSold: Math.round(sold),
      cartonsShort: shortOf(wanted, sold),
      cartonsUnsold: Math.round(sum(schedule.processed.map((row) => row[week] ?? 0))),
      cartonsInStock: Math.round(stock[week] ?? 0),
    };
  });
}

function marketLines({ problem, schedule, plan }: Scheduled): MarketLine[] {
  // What was sold as recorded, or is to be filled from the cold store, belongs to what was wanted.
  const { demands, sold: allSold } = wholeSeasonOf(problem, schedule, plan);
  const lines = new Map<string, { week: number; at: number[]; wanted: number; sold: number }>();
  demands.forEach((demand, at) => {
    const { variety = '', packClass = '' } = problem.products[demand.product] ?? {};
    demand.cartons.forEach((wanted, week) => {
      const sold = allSold[at]?.[week] ?? 0;
      if (wanted < LEAST_AMOUNT && sold < LEAST_AMOUNT) return;
      const key = JSON.stringify([week, demand.market, variety, packClass]);
      const line = lines.get(key) ?? { week, at: [], wanted: 0, sold: 0 };
      lines.set(key, { week, at: [...line.at, at], wanted: line.wanted + wanted, sold: line.sold + sold });
    });
  });
  return [...lines]
    .map(([key, { week, at, wanted, sold }]) => {
      const [, market, variety, packClass] = JSON.parse(key) as [number, string, string, string];
      return {
        week: problem.firstWeek + week,
        market,
        variety,
        packClass,
        demands: at.flatMap((index) => problem.demands[index]?.id ?? []),
        wanted: Math.round(wanted),
        sold: Math.round(sold),
        short: shortOf(wanted, sold),
      };
    })
    .sort(
      (a, b) =>
        a.week - b.week ||
        byName(a.market, b.market) ||
        byName(a.variety, b.variety) ||
        byName(a.packClass, b.packClass),
    );
}

/** Products of one variety and class are one line: who buys does not ask which room it was. */
function productLines({ problem, schedule }: Scheduled): ProductLine[] {
  const packed = cartonsPacked(problem, schedule.packed);
  const sold = soldByProduct(problem, schedule);
  const byProduct = new Map<string, number[]>();
  problem.products.forEach(({ variety, packClass }, index) => {
    const key = JSON.stringify([variety, packClass]);
    byProduct.set(key, [...(byProduct.get(key) ?? []), index]);
  });
  return [...byProduct]
    .flatMap(([key, indexes]) => {
      const [variety = '', packClass = ''] = JSON.parse(key) as string[];
      const at = (rows: readonly ArrayLike<number>[], week: number) =>
        Math.round(sum(indexes.map((index) => rows[index]?.[week] ?? 0)));
      return Array.from({ length: problem.weeks }, (_, week) => ({
        week: problem.firstWeek + week,
        variety,
        packClass,
        packed: at(packed, week),
        sold: at(sold, week),
        unsold: at(schedule.processed, week),
      }));
    })
    .filter((line) => line.packed > 0 || line.sold > 0 || line.unsold > 0)
    .sort((a, b) => a.week - b.week || byName(a.variety, b.variety) || byName(a.packClass, b.packClass));
}

function lotAccount(
  season: ComputedSeason,
  lot: Lot,
  rooms: readonly RoomAccount[],
  fromField: readonly FieldAccount[],
  units: DisplayUnits,
): LotAccount {
  const places = rooms.flatMap((room) =>
    (season.filled.get(room.fill)?.lots ?? [])
      .filter((inRoom) => inRoom.lot.id === lot.id)
      .map((inRoom) => lotPlace(season, inRoom, room, units)),
  );
  return {
    lot: lot.id,
    grower: lot.grower?.trim() ?? '',
    variety: lot.variety?.value ?? '',
    places: [...places, ...fromField.filter((one) => one.lot === lot.id).map(fieldPlace)],
    ...present({
      block: lot.block,
      pickedFirst: lot.picked?.value.first,
      pickedLast: lot.picked?.value.last,
      bins: whole((lot.receivedBins ?? lot.expectedBins)?.value),
    }),
  };
}

function whole(value: number | undefined): number | undefined {
  return value === undefined ? undefined : Math.round(value);
}

/** Less than half a carton is nothing. */
function shortOf(wanted: number, sold: number): number {
  return wanted - sold >= LEAST_AMOUNT ? Math.round(wanted - sold) : 0;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
