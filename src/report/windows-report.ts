import { fillNeverOpens } from '../findings/never-opens';
import { disorderTold, type RoomRisk, risksOf } from '../findings/say-disorders';
import type { ComputedSeason, Finding } from '../findings/types';
import { usualDaysToEmpty } from '../keeping/assumptions';
import { weeksToEmpty } from '../keeping/latest';
import { lastWholeWeek } from '../keeping/lot-keeping';
import { type WindowMove, windowMoves } from '../keeping/moves';
import type { LotKeeping, OpeningWindow, RoomKeeping, WindowEdge } from '../keeping/types';
import { type Day, formatDay, formatWeek, type Week } from '../plan/dates';
import { type DisplayUnits, measureOf, showFigure, type UnitSystem } from '../plan/display';
import type { Plan } from '../plan/model';
import { caution } from '../room/caution';
import { tidy } from './amounts';
import { type ToldWindow, toldWindow } from './by-confidence';
import { displayUnits } from './explain';
import { gasAssumed } from './gas-assumed';
import { countFindings, givenDay, measures, planPart, present, varietiesOf } from './parts';
import { placeOf } from './place';
import type { WindowsReport } from './schemas';
import { weekWithin } from './week-passed';

type Row = WindowsReport['rooms'][number];

/** When each room may be opened and what sets it, the room that must open first on top; those that were opened come last. */
export function windowsReport(
  season: ComputedSeason,
  findings: readonly Finding[],
  options: {
    readonly units?: UnitSystem | undefined;
    readonly today: Day;
    /** Only this room; all by default. */
    readonly room?: string | undefined;
  },
): WindowsReport {
  const { plan } = season;
  const units = displayUnits(plan, options.units);
  const today = weekWithin(plan, options.today);
  const rooms = [...season.keeping.values()]
    .filter(({ filled }) => options.room === undefined || filled.room.id === options.room)
    .sort(byLatest);
  return {
    format: 'lotwright-windows-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    counts: countFindings(findings),
    today: formatDay(options.today),
    ...present({ confidence: measureOf(plan.policy.confidence, units) }),
    rooms: rooms.map((keeping) => windowRow(season, keeping, units, today)),
    caution,
  };
}

/** Rooms without a window come after those with one, and last those that were opened, in the order in which they were. */
function byLatest(a: RoomKeeping, b: RoomKeeping): number {
  const opened = ({ filled }: RoomKeeping) => filled.fill.opened?.value ?? Number.NEGATIVE_INFINITY;
  const [was, other] = [opened(a), opened(b)];
  if (was !== other) return was < other ? -1 : 1;
  const latest = ({ window }: RoomKeeping) => window?.latest.week ?? Number.POSITIVE_INFINITY;
  const [x, y] = [latest(a), latest(b)];
  if (x !== y) return x - y;
  return a.filled.room.id < b.filled.room.id ? -1 : 1;
}

function windowRow(
  season: ComputedSeason,
  keeping: RoomKeeping,
  units: DisplayUnits,
  today: Week | undefined,
): Row {
  const { fill, room } = keeping.filled;
  const { window } = keeping;
  const chosen = fill.open ? undefined : chosenWeek(season, fill.id);
  const never = fillNeverOpens(season, fill.id);
  // Of a room that was opened there is nothing left to decide.
  const isToOpen = fill.opened === undefined;
  return {
    room: room.id,
    fill: fill.id,
    varieties: varietiesOf(keeping.filled),
    place: placeOf(season.plan, fill.at),
    moves: isToOpen
      ? windowMoves(season.plan, season.fruit, keeping).map((move) => moveJson(move, window))
      : [],
    ...confidenceJson(toldWindow(season.plan, keeping)),
    risks: isToOpen ? risksJson(season.plan, keeping, units) : [],
    ...measures({ bins: keeping.filled.bins }, units),
    ...present({
      regime: fill.regime?.value,
      sealed: givenDay(fill.sealed),
      earliest: edge(window?.earliest),
      bestBefore: edge(window?.bestBefore),
      latest: edge(window?.latest),
      weeksWide: window && Math.max(0, window.latest.week - window.earliest.week + 1),
      gasAssumed: isToOpen ? gasAssumed(season, keeping) : undefined,
      empty: window && window.latest.week < window.earliest.week ? true : undefined,
      tooLarge: never?.kind === 'too-large' ? tooLargeJson(season, never.most) : undefined,
      opened: givenDay(fill.opened),
      emptied: givenDay(fill.emptied),
      pinned: isToOpen ? fill.open && formatWeek(fill.open.value) : undefined,
      chosen: chosen === undefined ? undefined : formatWeek(chosen),
      status:
        window && today !== undefined && isToOpen
          ? never
            ? 'no week'
            : status(window, today, fill.open?.value)
          : undefined,
      weekPassed: chosen !== undefined && today !== undefined && chosen < today ? true : undefined,
    }),
  };
}

function tooLargeJson({ plan: { packing } }: ComputedSeason, most: number): Row['tooLarge'] {
  return { packableBins: tidy(most), weeks: weeksToEmpty(packing?.daysToEmpty ?? usualDaysToEmpty) };
}

function confidenceJson(told: ToldWindow | undefined): Pick<Row, 'byConfidence' | 'spreads'> {
  if (!told) return { byConfidence: [], spreads: [] };
  const byConfidence = told.latest.map(({ confidence, isPlans, week, limit, lot }) => ({
    confidence,
    ...(isPlans && { plans: true as const }),
    latest: formatWeek(week),
    limit,
    ...present({ lot }),
    ...(week < told.earliest && { empty: true as const }),
  }));
  return { byConfidence, spreads: [...told.spreads] };
}

function risksJson(plan: Plan, keeping: RoomKeeping, units: DisplayUnits): Row['risks'] {
  const packedIn = lastWeekOfPacking(plan, keeping.window);
  return risksOf(keeping, (figure) => showFigure(figure, units)).map((risk) =>
    riskJson(risk, packedIn, units),
  );
}

function moveJson(
  { change, window: after }: WindowMove,
  now: OpeningWindow | undefined,
): Row['moves'][number] {
  return {
    change,
    earliest: formatWeek(after.earliest.week),
    bestBefore: formatWeek(after.bestBefore.week),
    latest: formatWeek(after.latest.week),
    latestLaterBy: after.latest.week - (now ?? after).latest.week,
    earliestSoonerBy: (now ?? after).earliest.week - after.earliest.week,
  };
}

/** The week in which a room opened at the latest is empty. */
function lastWeekOfPacking({ packing }: Plan, window: OpeningWindow | undefined): Week {
  if (!window) return Number.POSITIVE_INFINITY;
  return window.latest.week + weeksToEmpty(packing?.daysToEmpty ?? usualDaysToEmpty) - 1;
}

function riskJson(
  { risk, lots, because }: RoomRisk,
  packedIn: Week,
  units: DisplayUnits,
): Row['risks'][number] {
  const { disorder, title, from, until, packedBy, eased } = risk;
  const packed = packedBy && lots[0] && lastPackedWeek(lots[0], packedBy.value);
  return {
    disorder: disorder.id,
    title,
    variety: lots[0]?.inRoom.variety.name ?? '',
    lots: lots.map(({ lot }) => lot.id),
    susceptible: disorder.susceptible,
    from: formatWeek(from),
    inWindow: from <= packedIn,
    because,
    told: disorderTold(disorder, units),
    source: { ...disorder.source },
    ...present({
      until: until === undefined ? undefined : formatWeek(until),
      packedBy: packed === undefined ? undefined : formatWeek(packed),
      eased,
    }),
  };
}

function lastPackedWeek({ lot, inRoom }: LotKeeping, days: number): Week | undefined {
  const picked = (lot.picked ?? inRoom.lot.picked)?.value.first;
  return picked === undefined ? undefined : lastWholeWeek(picked, days);
}

/** The week a quick schedule opens the fill in. */
function chosenWeek({ release }: ComputedSeason, fill: string): Week | undefined {
  if (!release) return undefined;
  const { problem, result } = release;
  const opens = result.schedule.opens[problem.rooms.findIndex((room) => room.fill === fill)] ?? undefined;
  return opens === undefined ? undefined : problem.firstWeek + opens;
}

function edge(of: WindowEdge | undefined): Row['earliest'] {
  return of && { week: formatWeek(of.week), limit: of.limit, ...present({ lot: of.lot?.id }) };
}

function status(window: OpeningWindow, today: Week, pin: Week | undefined): NonNullable<Row['status']> {
  if (pin !== undefined && pin < today) return 'pinned week past';
  if (today < window.earliest.week) return 'not yet';
  if (today > window.latest.week) return 'past latest';
  return today > window.bestBefore.week ? 'past best before' : 'within window';
}
