import { type Dropped, lotsLeft, placedElsewhere, stateOf, without } from '../../fill/drop';
import { proposalOf } from '../../fill/proposal';
import { resultOf } from '../../fill/propose';
import type { FillState } from '../../fill/state';
import type { FillProblem, FillProposal, FillResult } from '../../fill/types';
import { formatWeek } from '../../plan/dates';
import type { Plan } from '../../plan/model';
import { finish, type Steps } from '../../plan/steps';
import type { ComputedSeason, Finding } from '../types';
import { culpritsOf, isOfSchedule } from './culprits';
import { type Heavier, heavierOverloads } from './heavier';
import { standsAgainst } from './in-the-open';
import { KnownFindings } from './known';
import { putBack, type Trial, type WayIn } from './put-back';
import { type Found, type Stand, Stands } from './stands';

/** What was taken out of a proposal, and what stood against it. */
export interface TakenOut extends Dropped {
  readonly bins: number;
  /** The finding that it would make, or `release-value` where the schedule would be worth less. */
  readonly code: string;
  readonly reason: string;
}

export interface JudgedFills {
  readonly result: FillResult;
  readonly takenOut: readonly TakenOut[];
  /** By lot taken out: what would put it into its room all the same. */
  readonly waysIn: ReadonlyMap<string, WayIn>;
  /** Findings that would be new and hang on the weeks of the quick schedule alone: they take nothing out. */
  readonly ofSchedule: readonly Finding[];
  /** Findings that the proposal makes in the open: those that lose no fruit, and those let pass. */
  readonly inTheOpen: readonly Finding[];
  /** Overloads that the plan has already, and has more of with the proposal. */
  readonly heavier: readonly Heavier[];
  /** What the quick schedule is worth without the proposal and with it; absent without a schedule. */
  readonly value?: { readonly before: number; readonly after: number };
}

export interface JudgeOptions {
  /** Of the quick schedules. */
  readonly seed: number;
  /** The quick schedule of the plan as it is, by the same seed, where it is at hand. */
  readonly release?: ComputedSeason['release'] | undefined;
  /** Codes of findings that a proposal may make. */
  readonly despite?: readonly string[] | undefined;
  /** Every new warning takes out what makes it, also one that a planner may live with. */
  readonly strict?: boolean | undefined;
}

/** Times that a proposal is judged anew; what still makes findings then is taken out as a whole. */
const MOST_ROUNDS = 40;
/** What a quick schedule may be worth less by chance: it is not the best there is. */
const QUICK_GAP = 0.001;
/** Fills that take more bins and are tried without them, as what they cost a schedule is not seen from one alone. */
const MOST_TRIED = 8;

/**
 * The proposal without whatever would make an error that the plan does not have already, or a warning that loses fruit
 * or cannot be done, and without what would lower the worth of the release schedule. Other new warnings are told. The proposal is laid over the plan, everything is computed and found
 * anew, and what is to blame is taken out until nothing new is found; lots taken out are then tried in other rooms.
 * What only the weeks of the quick schedule make (an order short, a room opened late) is no finding against it: that
 * weighs in the worth of the schedule, and is told.
 */
export function judgeFills(
  plan: Plan,
  problem: FillProblem,
  result: FillResult,
  options: JudgeOptions,
): JudgedFills {
  return finish(judgeFillsInSteps(plan, problem, result, options));
}

/** The same in steps. */
export function* judgeFillsInSteps(
  plan: Plan,
  problem: FillProblem,
  result: FillResult,
  options: JudgeOptions,
): Steps<JudgedFills> {
  if (result.proposal.rooms.length === 0)
    return { result, takenOut: [], waysIn: new Map(), ofSchedule: [], inTheOpen: [], heavier: [] };
  const stands = new Stands(plan, problem, options.seed);
  const judge = new Judge(problem, stands, yield* stands.before(options.release), options);
  const takenOut: TakenOut[] = [];
  let stand = yield* judge.cleared(stateOf(problem, result.proposal), takenOut);
  stand = yield* judge.worthIt(stand, takenOut);
  stand = yield* judge.reworked(stand, takenOut);
  const { stand: last, waysIn } = yield* putBack(stand, takenOut, judge.trial);
  stand = last;
  const ofSchedule = judge.ofSchedule(stand);
  const [before, after] = [judge.value, worthOf(stand.season)];
  const value = before === undefined || after === undefined ? {} : { value: { before, after } };
  const told = { ofSchedule, inTheOpen: judge.inTheOpen(stand), heavier: judge.heavier(stand), ...value };
  if (takenOut.length === 0) return { result, takenOut, waysIn, ...told };
  const left = resultOf(stand.state, result.leastUnplaced);
  return { result: left, takenOut: leftOver(left.proposal, takenOut), waysIn, ...told };
}

class Judge {
  readonly value: number | undefined;
  private readonly before: ComputedSeason;
  private readonly known = new KnownFindings();
  private readonly despite: ReadonlySet<string>;
  private readonly strict: boolean;

  constructor(
    private readonly problem: FillProblem,
    private readonly stands: Stands,
    { plain, whole }: { readonly plain: Found; readonly whole: Found },
    { despite = [], strict = false }: JudgeOptions,
  ) {
    this.despite = new Set(despite);
    this.strict = strict;
    this.before = whole.season;
    this.value = worthOf(this.before);
    for (const { season, found } of [whole, plain])
      this.known.add(found, (finding) => this.isAgainst(season, finding));
  }

  /** Takes out what makes new findings until there are none: first those that need no courses of rooms, then all. */
  *cleared(state: FillState, takenOut: TakenOut[]): Steps<Stand> {
    let stand = yield* this.stands.of(state);
    for (let round = 0; ; round++) {
      const added = this.added(stand);
      if (added.length === 0) {
        if (stand.season.courses || proposalOf(stand.state).rooms.length === 0) return stand;
        stand = yield* this.stands.whole(stand);
        continue;
      }
      const out = this.toTakeOut(stand, added, round >= MOST_ROUNDS);
      takenOut.push(...out);
      stand = yield* this.stand(without(stand.state, out), stand.season.courses !== undefined);
    }
  }

  /** Takes out what lowers the worth of the schedule: lots that shorten the time of a fill that stands, then rooms. */
  *worthIt(start: Stand, takenOut: TakenOut[]): Steps<Stand> {
    let stand = start;
    for (const room of this.shortened(stand).slice(0, MOST_TRIED)) {
      const out = this.shorteningLots(stand, room);
      if (out.length === 0) continue;
      const tried = yield* this.noWorse(without(stand.state, out), worthOf(stand.season));
      if (!tried || this.added(tried).length > 0) continue;
      takenOut.push(...out);
      stand = tried;
    }
    while (
      this.value !== undefined &&
      !atLeast(stand.season, this.value - QUICK_GAP * Math.abs(this.value))
    ) {
      const { rooms } = proposalOf(stand.state);
      if (rooms.length === 0) return stand;
      const tried: { readonly out: TakenOut[]; readonly stand: Stand }[] = [];
      for (const { room } of rooms.slice(0, MOST_TRIED)) {
        const out = this.outOfRoom(stand.state, room, 'release-value', this.worthLess(stand));
        // What it is worth does not hang on the courses of rooms.
        tried.push({ out, stand: yield* this.stands.of(without(stand.state, out)) });
      }
      tried.sort((a, b) => (worthOf(b.stand.season) ?? 0) - (worthOf(a.stand.season) ?? 0));
      const [best] = tried;
      if (!best) return stand;
      takenOut.push(...best.out);
      stand = yield* this.cleared(best.stand.state, takenOut);
    }
    return stand;
  }

  /** Lots taken out placed in other rooms, and others in their places, where no finding and no less worth come of it. */
  *reworked(start: Stand, takenOut: TakenOut[]): Steps<Stand> {
    if (takenOut.length === 0) return start;
    let stand = (yield* this.rework(start, takenOut)) ?? start;
    // All at once is worse: one by one, then.
    if (stand === start)
      for (const lot of lotsThatFit(start.state, takenOut).slice(0, MOST_TRIED))
        stand = (yield* this.rework(stand, takenOut, [lot])) ?? stand;
    for (const one of [...takenOut]) {
      const lot = this.problem.lots.findIndex(({ id }) => id === one.lot);
      if ((stand.state.leftBins[lot] ?? 0) === 0) takenOut.splice(takenOut.indexOf(one), 1);
    }
    return stand;
  }

  private *rework(
    stand: Stand,
    takenOut: readonly TakenOut[],
    among?: readonly number[],
  ): Steps<Stand | undefined> {
    const state = placedElsewhere(stand.state, takenOut, among);
    if (state.cost >= stand.state.cost - 1e-9) return undefined;
    const tried = yield* this.noWorse(state, worthOf(stand.season));
    return tried && this.added(tried).length === 0 ? tried : undefined;
  }

  /** The stand; where it is worth less, or something is against it already, without the courses of rooms, undefined. */
  private *noWorse(state: FillState, worth: number | undefined): Steps<Stand | undefined> {
    const stand = yield* this.stands.of(state);
    if (!atLeast(stand.season, worth) || this.added(stand).length > 0) return undefined;
    return yield* this.stands.whole(stand);
  }

  /** How a stand is tried that is to be no worse than another. */
  readonly trial: Trial = {
    try: (state, soon = false) => this.tried(state, soon),
    against: (stand) => this.added(stand),
    worth: ({ season }) => worthOf(season),
  };

  private *tried(state: FillState, soon: boolean): Steps<Stand> {
    const stand = yield* this.stands.of(state);
    return soon && this.added(stand).length > 0 ? stand : yield* this.stands.whole(stand);
  }

  private *stand(state: FillState, courses: boolean): Steps<Stand> {
    const stand = yield* this.stands.of(state);
    return courses ? yield* this.stands.whole(stand) : stand;
  }

  /** New findings that speak against the proposal. */
  private added(stand: Stand): Finding[] {
    return this.ofFills(stand).filter((finding) => this.isAgainst(stand.season, finding));
  }

  /** New findings that do not: they are told with it. */
  inTheOpen(stand: Stand): Finding[] {
    return this.ofFills(stand).filter((finding) => !this.isAgainst(stand.season, finding));
  }

  private isAgainst(season: ComputedSeason, finding: Finding): boolean {
    return !this.despite.has(finding.code) && standsAgainst(season, finding, this.strict);
  }

  private ofFills(stand: Stand): Finding[] {
    return this.fresh(stand).filter((finding) => !isOfSchedule(stand.season, stand.fills, finding));
  }

  ofSchedule(stand: Stand): Finding[] {
    return this.fresh(stand).filter(
      (finding) =>
        !this.despite.has(finding.code) &&
        isOfSchedule(stand.season, stand.fills, finding) &&
        // Without a schedule before, all orders were short.
        (this.before.release !== undefined || finding.code !== 'demand-short'),
    );
  }

  private fresh({ found, season }: Stand): Finding[] {
    return this.known.newAmong(found, (finding) => this.isAgainst(season, finding));
  }

  /** Overloads that the plan has as it is, where the proposal adds to them. */
  heavier(stand: Stand): Heavier[] {
    return heavierOverloads(this.before, stand.season, this.known.oldAmong(stand.found));
  }

  private toTakeOut({ state, fills, season }: Stand, added: readonly Finding[], all: boolean): TakenOut[] {
    const rooms = proposalOf(state).rooms;
    const out = new Map<string, TakenOut>();
    for (const finding of added)
      for (const { room, lot } of culpritsOf(season, fills, finding))
        for (const one of lot === undefined
          ? this.outOfRoom(state, room, finding.code, finding.message)
          : [{ room, lot, bins: binsIn(state, room, lot), code: finding.code, reason: finding.message }])
          if (!out.has(`${room}/${one.lot}`)) out.set(`${room}/${one.lot}`, one);
    if (out.size > 0 && !all) return [...out.values()];
    const [first] = added;
    const last = all ? rooms : rooms.slice(-1);
    return last.flatMap(({ room }) => this.outOfRoom(state, room, first?.code ?? '', first?.message ?? ''));
  }

  private outOfRoom(state: FillState, room: string, code: string, reason: string): TakenOut[] {
    const load = state.loads[this.problem.rooms.findIndex(({ id }) => id === room)];
    return (load?.parts ?? []).map(({ lot, bins }) => ({
      room,
      lot: this.problem.lots[lot]?.id ?? '',
      bins,
      code,
      reason,
    }));
  }

  /** Rooms of fills that stand whose last opening week the bins added bring forward. */
  private shortened({ state, season }: Stand): string[] {
    return this.problem.rooms.flatMap(({ id, held }, room) => {
      if (!held || !state.loads[room]) return [];
      const [was, is] = [this.latest(this.before, held.fill), this.latest(season, held.fill)];
      return was !== undefined && is !== undefined && is < was ? [id] : [];
    });
  }

  private shorteningLots({ state, season }: Stand, room: string): TakenOut[] {
    const index = this.problem.rooms.findIndex(({ id }) => id === room);
    const fill = this.problem.rooms[index]?.held?.fill ?? '';
    const weakest = Math.min(
      ...(this.before.keeping.get(fill)?.lots.map(({ latest }) => latest) ?? [Number.POSITIVE_INFINITY]),
    );
    const weak = new Map(
      season.keeping
        .get(fill)
        ?.lots.flatMap((one) => (one.latest < weakest ? [[one.lot.id, one.latest]] : [])),
    );
    const [was, is] = [this.latest(this.before, fill), this.latest(season, fill)];
    return (state.loads[index]?.parts ?? []).flatMap(({ lot, bins }) => {
      const id = this.problem.lots[lot]?.id ?? '';
      const latest = weak.get(id);
      if (latest === undefined) return [];
      const reason = `It keeps to ${formatWeek(latest)} only: beside what ${fill} holds, the room would have to be opened by ${formatWeek(is ?? 0)} instead of ${formatWeek(was ?? 0)}, and the schedule would be worth no more for it. Sell it early, or put it into a room that opens sooner.`;
      return [{ room, lot: id, bins, code: 'release-value', reason }];
    });
  }

  private latest({ keeping }: ComputedSeason, fill: string): number | undefined {
    return keeping.get(fill)?.window?.latest.week;
  }

  private worthLess({ season }: Stand): string {
    const [before, after] = [Math.round(this.value ?? 0), Math.round(worthOf(season) ?? 0)];
    return `With it the quick schedule is worth ${after.toLocaleString('en')} instead of ${before.toLocaleString('en')}. Sell its lots early, or send them to processing.`;
  }
}

/** Lots left over that could go somewhere; those of which some bins are in a room first. */
function lotsThatFit(state: FillState, takenOut: readonly TakenOut[]): number[] {
  const fits = (lot: number) => placedElsewhere(state, takenOut, [lot]).cost < state.cost - 1e-9;
  const inRoom = (lot: number) => Number((state.roomsOf[lot] ?? 0) > 0);
  return lotsLeft(state)
    .filter(fits)
    .sort((a, b) => inRoom(b) - inRoom(a));
}

/** What was taken out and is left over in the end: some of a lot may have found another room since. */
function leftOver({ unplaced }: FillProposal, takenOut: readonly TakenOut[]): TakenOut[] {
  const left = new Map(unplaced.map(({ lot, bins }) => [lot, bins]));
  return takenOut.flatMap((one) => {
    const lot = one.lot ?? '';
    const bins = Math.min(one.bins, left.get(lot) ?? 0);
    left.set(lot, (left.get(lot) ?? 0) - bins);
    return bins > 0 ? [{ ...one, bins }] : [];
  });
}

function binsIn(state: FillState, room: string, lot: string): number {
  const { problem } = state;
  const load = state.loads[problem.rooms.findIndex(({ id }) => id === room)];
  return load?.parts.find((part) => problem.lots[part.lot]?.id === lot)?.bins ?? 0;
}

function worthOf({ release }: ComputedSeason): number | undefined {
  return release?.result.schedule.value;
}

function atLeast(season: ComputedSeason, value: number | undefined): boolean {
  const own = worthOf(season);
  return value === undefined || own === undefined || own >= value - 1e-6;
}
