import { type Day, formatDay, formatWeek, type Week } from '../plan/dates';
import { counted } from '../plan/wording';
import { daysPutOff } from './intake';
import { termName } from './keeping';
import { mayRun } from './limits';
import { lotsOf } from './new-fills';
import { isForced } from './splits';
import type {
  Entry,
  FillProblem,
  FillProposal,
  FillResult,
  LotToPlace,
  Measures,
  ProposedRoom,
  Remedy,
} from './types';
import { usualFillingDays } from './weights';

/** The weeks by which the lots of a room must leave it: the first decides for all. */
export interface LeavesBy {
  readonly first: Week;
  readonly last: Week;
  /** The lot that must leave first. */
  readonly lot: string;
}

export function leavesBy(problem: FillProblem, proposed: ProposedRoom): LeavesBy | undefined {
  const keeps = lotsIn(problem, proposed)
    .map((lot) => ({ lot: lot.id, latest: latestIn(problem, lot, proposed.regime) }))
    .filter((one): one is { lot: string; latest: Week } => one.latest !== undefined);
  const [weakest] = [...keeps].sort((a, b) => a.latest - b.latest || (a.lot < b.lot ? -1 : 1));
  if (!weakest) return undefined;
  return { first: weakest.latest, last: Math.max(...keeps.map(({ latest }) => latest)), lot: weakest.lot };
}

/** Why a room is filled as it is, in sentences; each is counted or solved, none is a matter of course. */
export function reasonsFor(problem: FillProblem, result: FillResult, proposed: ProposedRoom): string[] {
  return [
    regimeReason(problem, proposed),
    togetherReason(problem, proposed),
    neededReason(result, proposed),
    otherPlaceReason(result, proposed),
    ...splitReasons(problem, result.proposal, proposed),
    ...slowReasons(proposed),
    ...sealingReasons(problem, proposed),
    ...fewerPlacesReasons(problem, proposed),
  ].filter((reason) => reason !== undefined);
}

function regimeReason(problem: FillProblem, proposed: ProposedRoom): string | undefined {
  const lots = lotsIn(problem, proposed);
  const room = problem.rooms.find(({ id }) => id === proposed.room);
  const others = problem.regimes
    .filter(({ name }) => name !== proposed.regime)
    .map(({ name, sealed }) => ({ name, sealed, week: leastLatest(problem, lots, name) }))
    .filter((one): one is { name: string; sealed: boolean; week: Week } => one.week !== undefined)
    .sort((a, b) => b.week - a.week || (a.name < b.name ? -1 : 1));
  const own = leastLatest(problem, lots, proposed.regime);
  const [best] = others;
  if (own === undefined) return undefined;
  if (!best) return `${proposed.regime} is the only regime of the plan that suits all its lots.`;
  if (best.sealed && room?.sealable === false)
    return `Kept in air: the room has neither scrubber nor nitrogen. In ${best.name} its lots would last to ${formatWeek(best.week)}.`;
  return `In ${proposed.regime} all its lots last to ${formatWeek(own)}, in ${best.name} to ${formatWeek(best.week)}.`;
}

function togetherReason(problem: FillProblem, proposed: ProposedRoom): string | undefined {
  const lots = lotsIn(problem, proposed);
  const leaves = leavesBy(problem, proposed);
  if (!leaves || lots.length < 2) return undefined;
  const terms = [...new Set(lots.flatMap(({ term }) => (term === null ? [] : [term])))].sort();
  const said = terms.map((term) => termName(term)).join(' and ');
  const untested = lots.filter(({ term }) => term === null).length;
  const fruit =
    said === ''
      ? 'no maturity test yet'
      : `maturity for ${said}${untested > 0 ? `, ${untested} untested` : ''}`;
  const apart = leaves.last - leaves.first;
  if (apart === 0) return `Its lots (${fruit}) last to the same week.`;
  return `Its lots (${fruit}) last to ${formatWeek(leaves.first)} and up to ${apart} week${apart === 1 ? '' : 's'} longer; ${leaves.lot} must leave first.`;
}

function neededReason({ withoutRoom }: FillResult, { room }: ProposedRoom): string | undefined {
  const without = withoutRoom.find((one) => one.room === room);
  if (!without) return undefined;
  if (without.bins > 0)
    return `Without it ${counted(without.bins, 'bin')} would have no room, the others staying as they are.`;
  const at = costsText(without.worse);
  if (without.opened.length > 0) return `Without it ${without.opened.join(', ')} would take its place${at}.`;
  return `Without it the other rooms could take its bins${at}.`;
}

/** What it would cost to have a lot of the room elsewhere: of the lot for which it costs least. */
function otherPlaceReason({ otherPlaces }: FillResult, { room }: ProposedRoom): string | undefined {
  const other = otherPlaces.find((one) => one.room === room);
  if (!other) return undefined;
  const { lot, into, worse } = other;
  if (into.length === 0) return `None of its lots would find another room; ${lot} comes nearest to it.`;
  const where = into.join(' and ');
  return `Of its lots ${lot} could most easily be elsewhere: in ${where}${costsText(worse) || ', no worse but for waiting and regime'}.`;
}

/** `, at 2 more rooms and a split more`: what is worse, by the aims in their order; empty where nothing is. */
function costsText(worse: Measures): string {
  const many = (count: number, one: string, more: string) =>
    count === 0 ? [] : [count === 1 ? one : `${count} ${more}`];
  const list = [
    ...many(worse.bins, 'one bin without a room', 'bins without a room'),
    ...many(worse.rooms, 'one room more', 'rooms more'),
    ...many(worse.partly, 'one room more partly filled', 'rooms more partly filled'),
    ...many(worse.termSteps, 'one step more between storage terms', 'steps more between storage terms'),
    ...many(worse.weeksApart, 'lots a week further apart', 'weeks more between lots that share a room'),
    ...many(worse.splits, 'one split more', 'splits more'),
    ...many(worse.slowDays, 'one day more of slow filling', 'days more of slow filling'),
  ];
  if (list.length === 0) return '';
  const last = list.at(-1);
  return `, at ${list.length === 1 ? last : `${list.slice(0, -1).join(', ')} and ${last}`}`;
}

function splitReasons(problem: FillProblem, { rooms }: FillProposal, proposed: ProposedRoom): string[] {
  return lotsOf(proposed).flatMap(({ lot, bins }) => {
    const elsewhere = rooms
      .filter(({ room }) => room !== proposed.room)
      .flatMap((other) =>
        lotsOf(other).flatMap((one) => (one.lot === lot ? [`${one.bins} in ${other.room}`] : [])),
      );
    if (elsewhere.length === 0) return [];
    const why = isForced(problem, lot)
      ? 'no room could take it whole, by places, days and daily intake'
      : 'so that fewer bins are left over, or fewer rooms used';
    return [`${lot} is split: ${bins} here, ${elsewhere.join(', ')}; ${why}.`];
  });
}

function slowReasons({ entries }: ProposedRoom): string[] {
  const days = entries.map(({ entered }) => entered);
  const length = Math.max(...days) - Math.min(...days) + 1;
  const waiting = entries.filter(({ entered, picked }) => entered > picked);
  const bins = waiting.reduce((sum, entry) => sum + entry.bins, 0);
  const late = Math.max(0, ...waiting.map(({ entered, picked }) => entered - picked));
  const busy = [...new Set(waiting.map(({ picked }) => picked))].sort((a, b) => a - b).map(formatDay);
  return [
    ...(bins > 0
      ? [
          `${counted(bins, 'bin')} picked on ${busy.join(', ')} ${bins === 1 ? 'goes' : 'go'} in ${late === 1 ? 'a day' : `up to ${late} days`} later: more come than may go in on a day.`,
        ]
      : []),
    ...(length > usualFillingDays
      ? [`Filling takes ${length} days, more than the usual ${usualFillingDays}.`]
      : []),
  ];
}

/** Days by which bins more put the sealing of a fill of the plan off; undefined where they do not. */
export function sealingPutOff({ rooms }: FillProblem, { room, entries }: ProposedRoom) {
  const held = rooms.find(({ id }) => id === room)?.held;
  const last = Math.max(...entries.map(({ entered }) => entered));
  const days = held ? daysPutOff(held, last) : 0;
  if (!held?.sealing || days === 0) return undefined;
  const count = (some: readonly Entry[]) => some.reduce((sum, { bins }) => sum + bins, 0);
  return {
    from: held.sealing.day,
    to: held.sealing.day + days,
    days,
    bins: count(entries),
    binsAfter: count(entries.filter(({ entered }) => entered > held.lastDay)),
    binsHeld: held.bins,
  };
}

function sealingReasons(problem: FillProblem, proposed: ProposedRoom): string[] {
  const put = sealingPutOff(problem, proposed);
  if (!put) return [];
  const days = put.days === 1 ? 'a day' : `${put.days} days`;
  return [
    `Sealing is put off by ${days}, from ${formatDay(put.from)} to ${formatDay(put.to)}, for ${counted(put.binsAfter, 'bin')} that ${put.binsAfter === 1 ? 'comes' : 'come'} in after the last bin that is planned, of ${put.bins} more; the ${counted(put.binsHeld, 'bin')} there ${put.binsHeld === 1 ? 'waits' : 'wait'} so long for their gas.`,
  ];
}

/** That not all places of the room may be used. */
function fewerPlacesReasons({ rooms }: FillProblem, { room }: ProposedRoom): string[] {
  const at = rooms.find(({ id }) => id === room);
  return at?.ofPlaces
    ? [`At most ${at.places} of its ${at.ofPlaces.places} places: ${at.ofPlaces.reason}.`]
    : [];
}

function leastLatest(problem: FillProblem, lots: readonly LotToPlace[], regime: string): Week | undefined {
  let least: Week | undefined;
  for (const lot of lots) {
    const latest = latestIn(problem, lot, regime);
    if (latest === undefined) return undefined;
    least = Math.min(least ?? latest, latest);
  }
  return least;
}

function latestIn(problem: FillProblem, lot: LotToPlace, regime: string): Week | undefined {
  return lot.keeps[problem.regimes.findIndex(({ name }) => name === regime)]?.latest;
}

function lotsIn(problem: FillProblem, proposed: ProposedRoom): LotToPlace[] {
  const ids = new Set(proposed.entries.map(({ lot }) => lot));
  return problem.lots.filter(({ id }) => ids.has(id));
}

/** With what stands against the regimes it would need, of the lot or of the rooms. */
function withBars(problem: FillProblem, lot: LotToPlace | undefined, why: string): string {
  const bars = [
    ...(lot?.barred ?? []),
    ...problem.rooms.flatMap(({ barred }) => barred?.filter(({ regime }) => lot?.keeps[regime]) ?? []),
  ];
  const reasons = [...new Set(bars.map(({ reason }) => reason))];
  return reasons.length === 0 ? why : `${why}. ${reasons.slice(0, 3).join(' ')}`;
}

/** Why bins of a lot found no room, and what would place them. */
export function whyUnplaced(problem: FillProblem, result: FillResult, lot: string): string {
  const remedies = remediesOf(result, lot).map(({ text }) => text);
  const why = whyNoRoom(problem, result.proposal, lot);
  if (remedies.length > 0) return `${why.replace(/\.$/, '')}; ${remedies.join('; or ')}`;
  const isPast = (problem.today ?? Number.NEGATIVE_INFINITY) > firstPicked(problem, lot);
  const limit = isPast ? 'that can still be eased' : 'that was eased';
  return `${why.replace(/\.$/, '')}; no limit ${limit} alone would place it`;
}

function firstPicked({ lots }: FillProblem, id: string): Day {
  return lots.find((lot) => lot.id === id)?.arrivals[0]?.day ?? Number.POSITIVE_INFINITY;
}

/** What would place the bins of a lot that are left over, each found by placing them anew. */
export function remediesOf(
  { remedies }: FillResult,
  lot: string,
): { readonly kind: Remedy['kind']; readonly room: string; readonly text: string }[] {
  return remedies
    .filter((one) => one.lot === lot)
    .map((one) => ({ kind: one.kind, room: one.room, text: remedyText(one) }));
}

function remedyText(remedy: Remedy): string {
  const { room } = remedy;
  switch (remedy.kind) {
    case 'ready':
      return `${room} could take it, were it ready on ${formatDay(remedy.day)} instead of ${formatDay(remedy.instead)}`;
    case 'intake':
      return `${room} could take it, were ${counted(remedy.binsADay, 'bin')} let in on a day instead of ${remedy.instead}`;
    case 'waiting':
      return `${room} could take it, might its bins wait ${counted(remedy.days, 'day')} instead of ${remedy.instead}`;
    case 'growers':
      return `${room} could take it, might its growers share a room`;
    case 'sealing':
      return `${room} could take it, were it sealed on ${formatDay(remedy.day)} instead of ${formatDay(remedy.instead)}`;
    case 'room':
      return `it takes another room with ${remedy.places} places`;
  }
}

function whyNoRoom(problem: FillProblem, { rooms }: FillProposal, lot: string): string {
  const one = problem.lots.find(({ id }) => id === lot);
  const suits = problem.rooms.filter((room) =>
    one?.keeps.some((keeps, regime) => keeps && mayRun(problem, room, regime)),
  );
  if (suits.length === 0) return withBars(problem, one, 'no free room can be kept as it needs');
  const until = (one?.arrivals.at(-1)?.day ?? 0) + problem.mostWaitingDays;
  const ready = suits.filter((room) => room.ready === null || room.ready <= until);
  if (ready.length === 0) return 'no room is ready by its picking';
  const empty = ready.filter(({ id }) => rooms.every(({ room }) => room !== id));
  if (empty.length === 0) return 'every room that is ready by its picking is used';
  return 'the rooms left take too few bins a day, or would be filled too slowly';
}
