import { termName } from '../fill/keeping';
import { freePlaces } from '../fill/load';
import { leavesBy, reasonsFor, remediesOf, sealingPutOff, whyUnplaced } from '../fill/reasons';
import { brokenLots } from '../fill/splits';
import type { FillProblem, FillResult, FillViolation, ProposedRoom } from '../fill/types';
import { wellFilled } from '../fill/weights';
import type { JudgedFills } from '../findings/fills/judge';
import { type WayIn, wayInText } from '../findings/fills/put-back';
import type { ComputedSeason, Finding } from '../findings/types';
import type { NewFill } from '../plan/add-fills';
import { type Day, formatDay, formatWeek } from '../plan/dates';
import type { UnitSystem } from '../plan/display';
import { caution } from '../room/caution';
import { tidy } from './amounts';
import { displayUnits } from './explain';
import { countFindings, planPart, present } from './parts';
import type { FillReport } from './schemas';

type Row = FillReport['rooms'][number];
type WayInRow = FillReport['unplaced'][number]['waysIn'][number];

/** A proposal as it goes into the report: the fills are its rooms, in the same order. */
export interface ProposedFills {
  readonly problem: FillProblem;
  readonly result: FillResult;
  readonly fills: readonly NewFill[];
}

export interface FillReportOptions {
  readonly units?: UnitSystem | undefined;
  readonly violations: readonly FillViolation[];
  /** Rooms to tell of; all where undefined. */
  readonly rooms?: readonly string[] | undefined;
  /** What the judge of the proposal took out of it, and what the schedule is worth without and with the rest. */
  readonly judged?:
    | (Pick<JudgedFills, 'takenOut' | 'value'> & Partial<Pick<JudgedFills, 'waysIn' | 'heavier'>>)
    | undefined;
  readonly today?: Day | undefined;
  readonly remarks?: readonly string[] | undefined;
  readonly written?: readonly { readonly fill: string; readonly file: string }[] | undefined;
}

/** Which lots to put into which room, with the reasons, and what finds no room. */
export function fillReport(
  season: ComputedSeason,
  proposed: ProposedFills,
  findings: readonly Finding[],
  options: FillReportOptions,
): FillReport {
  const { problem, result } = proposed;
  const { proposal } = result;
  const { takenOut = [], value } = options.judged ?? {};
  const reasonOf = (lot: string) => {
    const out = takenOut.filter((one) => one.lot === lot);
    if (out.length === 0) return whyUnplaced(problem, result, lot);
    const ways = waysInOf(lot).map(({ text }) => ` ${text}`);
    const none = ways.length === 0 ? ' No change was found that would put it in all the same.' : '';
    return `not put into ${out.map(({ room }) => room).join(', ')}: ${out[0]?.reason}${ways.join('')}${none}`;
  };
  const waysInOf = (lot: string): WayInRow[] => {
    const way = options.judged?.waysIn?.get(lot);
    if (takenOut.every((one) => one.lot !== lot)) return remediesOf(result, lot).map(remedyRow);
    return way ? [wayInRow(way, season.plan.season?.currency ?? '')] : [];
  };
  return {
    format: 'lotwright-fill-report',
    version: 1,
    plan: planPart(season.plan),
    units: displayUnits(season.plan, options.units).system,
    counts: countFindings(findings),
    cost: tidy(proposal.cost),
    ...present({ bound: result.bound === undefined ? undefined : tidy(result.bound) }),
    provenBest: result.provenBest,
    leastUnplaced: result.leastUnplaced,
    leastUnplacedRestsOn: result.leastUnplacedRestsOn,
    violations: options.violations.map(({ kind, message }) => ({ kind, message })),
    totals: totalsOf(problem, result),
    rooms: proposal.rooms.flatMap((room, index) => {
      const fill = proposed.fills[index];
      const isAsked = options.rooms === undefined || options.rooms.includes(room.room);
      return fill && isAsked ? [roomRow(problem, result, room, fill)] : [];
    }),
    splits: brokenLots(problem, proposal).map((split) => ({ ...split, rooms: [...split.rooms] })),
    unplaced: proposal.unplaced.map(({ lot, bins }) => ({
      lot,
      bins,
      reason: reasonOf(lot),
      waysIn: waysInOf(lot),
    })),
    takenOut: takenOut.map(({ room, lot, bins, code, reason }) => ({
      room,
      lot: lot ?? '',
      bins,
      code,
      reason,
    })),
    ...present({
      value: value && {
        currency: season.plan.season?.currency ?? '',
        before: tidy(value.before),
        after: tidy(value.after),
      },
      today: options.today === undefined ? undefined : formatDay(options.today),
      notToppedUp: problem.notToppedUp?.map((one) => ({ ...one })),
    }),
    remarks: [...(options.remarks ?? [])],
    heavier: (options.judged?.heavier ?? []).map(({ week, ...one }) => ({
      ...one,
      before: tidy(one.before),
      after: tidy(one.after),
      ...present({ week: week === undefined ? undefined : formatWeek(week) }),
    })),
    leftOut: problem.leftOut.map(({ what, bins, reason, waysIn = [] }) => ({
      what,
      bins,
      reason: [reason, ...waysIn.map(({ text }) => text)].join(' '),
      waysIn: waysIn.map((one) => ({ ...one })),
    })),
    ...present({ written: options.written?.map(({ fill, file }) => ({ fill, file })) }),
    caution,
  };
}

function remedyRow({ kind, room, text }: ReturnType<typeof remediesOf>[number]): WayInRow {
  return { kind, ...(room !== '' && { room }), text };
}

function wayInRow(way: WayIn, currency: string): WayInRow {
  const { room, codes, beside, worth } = way;
  return {
    kind: 'let-pass',
    room,
    codes: [...codes],
    beside: [...beside],
    ...present({ worth: worth === undefined ? undefined : tidy(worth) }),
    text: wayInText(way, currency),
  };
}

function totalsOf(problem: FillProblem, { proposal }: FillResult): FillReport['totals'] {
  const { lots, rooms } = problem;
  const bins = sum(lots.map((lot) => lot.bins));
  const binsUnplaced = sum(proposal.unplaced.map((lot) => lot.bins));
  const places = new Map(rooms.map((room) => [room.id, freePlaces(room)]));
  const broken = brokenLots(problem, proposal);
  const split = broken.filter((one) => one.rooms.length > 1);
  const partly = proposal.rooms.filter(
    ({ room, entries }) => sum(entries.map((entry) => entry.bins)) < wellFilled * (places.get(room) ?? 0),
  );
  const begun = rooms.filter(({ held }) => held !== undefined).length;
  return {
    lots: lots.length,
    bins,
    binsPlaced: bins - binsUnplaced,
    binsUnplaced,
    freeRooms: rooms.length - begun,
    ...(begun > 0 && { roomsBegun: begun }),
    roomsUsed: proposal.rooms.length,
    roomsPartlyFilled: partly.length,
    lotsSplit: split.length,
    lotsSplitByIntake: split.filter(({ kind }) => kind === 'forced').length,
    lotsPartlyLeft: broken.filter(({ leftOver }) => leftOver > 0).length,
  };
}

function roomRow(problem: FillProblem, result: FillResult, proposed: ProposedRoom, fill: NewFill): Row {
  const room = problem.rooms.find(({ id }) => id === proposed.room);
  const regime = problem.regimes.findIndex(({ name }) => name === proposed.regime);
  const lots = fill.lots.map(({ lot: id, bins }) => {
    const lot = problem.lots.find((one) => one.id === id);
    const latest = lot?.keeps[regime]?.latest;
    return {
      lot: id,
      variety: lot?.variety ?? '',
      bins,
      ...present({
        grower: lot?.grower || undefined,
        term: lot && termName(lot.term),
        lastsTo: latest === undefined ? undefined : formatWeek(latest),
      }),
    };
  });
  const byDay = new Map<number, number>();
  for (const { entered, bins } of proposed.entries) byDay.set(entered, (byDay.get(entered) ?? 0) + bins);
  const leaves = leavesBy(problem, proposed);
  const putOff = sealingPutOff(problem, proposed);
  return {
    room: proposed.room,
    fill: fill.id,
    regime: proposed.regime,
    bins: sum(fill.lots.map(({ bins }) => bins)) + (room?.held?.bins ?? 0),
    ...present({ binsBefore: room?.held?.bins }),
    places: room?.places ?? 0,
    firstBin: formatDay(fill.firstBin),
    lastBin: formatDay(fill.lastBin),
    ...present({ sealed: fill.sealed === undefined ? undefined : formatDay(fill.sealed) }),
    mostBinsADay: Math.max(...byDay.values()),
    binsADayAllowed: room?.binsADay ?? 0,
    binsThatWait: sum(
      proposed.entries.filter(({ picked, entered }) => entered > picked).map(({ bins }) => bins),
    ),
    ...present({
      sealingPutOff: putOff && { ...putOff, from: formatDay(putOff.from), to: formatDay(putOff.to) },
    }),
    growers: [...new Set(lots.flatMap(({ grower }) => (grower === undefined ? [] : [grower])))].sort(),
    lots,
    ...present({
      leavesBy: leaves && {
        first: formatWeek(leaves.first),
        last: formatWeek(leaves.last),
        lot: leaves.lot,
      },
    }),
    reasons: reasonsFor(problem, result, proposed),
  };
}

function sum(list: readonly number[]): number {
  return list.reduce((total, one) => total + one, 0);
}
