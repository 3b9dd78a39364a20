import type { BarredRegime, FillLimits } from '../../fill/limits';
import type { FillProblem, RegimeChoice } from '../../fill/types';
import { daysToSealing, easyFillingDays } from '../../fill/weights';
import type { NewFill } from '../../plan/add-fills';
import { weekOfDay } from '../../plan/dates';
import type { Plan } from '../../plan/model';
import { counted } from '../../plan/wording';
import { packableBins, packingWeeks, weeksToEmpty } from '../../release/packing-weeks';
import { entriesMade, filledIn, keepingIn } from '../compute';
import { findingsAmong, foundBy } from '../find';
import { placedParts } from '../placed';
import { rules } from '../rules';
import type { ComputedSeason, Finding } from '../types';
import { standsAgainst } from './in-the-open';
import { withFills } from './with-fills';

/** Findings that a room makes in a regime, whatever suitable fruit is in it. */
const OF_ROOMS = new Set(['room-too-leaky', 'sealed-without-scrubber', 'nitrogen-cannot-reach']);
/** Findings that a lot makes in a regime, whatever room it is in. */
const OF_LOTS = new Set([
  'over-mature-lot-sealed',
  'window-empty',
  'oxygen-below-limit',
  'oxygen-below-breakpoint',
  'carbon-dioxide-above-limit',
  'carbon-dioxide-early',
]);

interface Trial {
  readonly room: string;
  readonly lot: string;
  readonly regime: RegimeChoice;
  readonly fill: NewFill;
}

export interface LimitOptions {
  readonly despite?: readonly string[] | undefined;
  readonly strict?: boolean | undefined;
}

/**
 * What the plan's own findings and its packhouse have against rooms and lots, found before lots are put into rooms: each
 * lot is tried by itself in each regime that suits it, and each room in each regime, and the findings are read that
 * come of it. A finding that the plan switches off, lowers to a notice, that is among `despite`, or that a planner may
 * live with where it is not `strict`, stands against nothing.
 */
export function fillLimits(
  season: ComputedSeason,
  problem: FillProblem,
  { despite = [], strict = false }: LimitOptions = {},
): FillLimits {
  const rooms = new Map<string, BarredRegime[]>();
  const lots = new Map<string, BarredRegime[]>();
  const bar = (in_: Map<string, BarredRegime[]>, id: string, barred: BarredRegime) => {
    const list = in_.get(id) ?? [];
    if (list.some(({ regime, code }) => regime === barred.regime && code === barred.code)) return;
    in_.set(id, [...list, barred]);
  };
  for (const trials of batches(problem)) {
    const byFill = new Map(trials.map((trial) => [trial.fill.id, trial]));
    const byRoom = new Map(trials.map((trial) => [trial.room, trial]));
    for (const { code, message, fingerprint } of findingsIn(season, trials, strict)) {
      const about = fingerprint.slice(code.length + 1).split(/[/#]/)[0] ?? '';
      const trial = byFill.get(about) ?? byRoom.get(about);
      if (!trial || despite.includes(code)) continue;
      const barred = {
        regime: trial.regime.name,
        code,
        reason: message.replaceAll(trial.fill.id, trial.room),
      };
      if (OF_ROOMS.has(code)) bar(rooms, trial.room, barred);
      else {
        const reason = message
          .replaceAll(`${trial.fill.id}: `, '')
          .replaceAll(trial.fill.id, 'A room with it');
        bar(lots, trial.lot, { ...barred, reason });
      }
    }
  }
  return { rooms, lots, mostBins: mostBins(season.plan, problem) };
}

/** Trials of a regime with the lots that suit it, one in each room, until every lot and every room has had its turn. */
function batches(problem: FillProblem): Trial[][] {
  const free = problem.rooms.filter(({ held, places }) => !held && places > 0);
  const rooms = free.length > 0 ? free : problem.rooms;
  return problem.regimes.flatMap((regime, index) => {
    const mine = rooms.filter(({ sealable, held }) => held || sealable || !regime.sealed);
    const lots = problem.lots.filter(({ keeps }) => keeps[index]);
    if (mine.length === 0 || lots.length === 0) return [];
    const count = Math.max(mine.length, lots.length);
    const all = Array.from({ length: count }, (_, turn) => {
      const room = mine[turn % mine.length] as (typeof mine)[number];
      const lot = lots[turn % lots.length] as (typeof lots)[number];
      return trialOf(room, lot.id, lot.arrivals[0]?.day ?? 0, regime);
    });
    return Array.from({ length: Math.ceil(count / mine.length) }, (_, batch) =>
      all.slice(batch * mine.length, (batch + 1) * mine.length),
    );
  });
}

function trialOf(
  room: FillProblem['rooms'][number],
  lot: string,
  firstBin: number,
  regime: RegimeChoice,
): Trial {
  const lastBin = firstBin + easyFillingDays - 1;
  const sealed = regime.sealed ? lastBin + regime.conditioningDays + daysToSealing : undefined;
  const fill: NewFill = {
    // No identifier of a plan has brackets.
    id: `[${room.id}]`,
    room: room.id,
    regime: regime.name,
    firstBin,
    lastBin,
    sealed,
    lots: [{ lot, bins: room.places }],
  };
  return { room: room.id, lot, regime, fill };
}

/** What is asked of each trial. None of these rules looks at the shared plant or at cooling, which take longest. */
export const rulesOfLimits = rules.filter(({ code }) => OF_ROOMS.has(code) || OF_LOTS.has(code));

/** The findings of the rules in question, were these rooms filled so and no others. */
function findingsIn(season: ComputedSeason, trials: readonly Trial[], strict: boolean): Finding[] {
  const plan = withFills(
    { ...season.plan, fills: new Map() },
    trials.map(({ fill }) => fill),
  );
  const { fruit, capacities } = season;
  const filled = entriesMade(plan.fills.keys(), (id) =>
    filledIn(plan, fruit, capacities, id, { withoutCooling: true }),
  );
  const keeping = entriesMade(filled.keys(), (id) => keepingIn(plan, filled, id));
  const none = { plant: undefined, release: undefined, courses: undefined };
  const tried: ComputedSeason = { ...season, plan, placed: placedParts(plan), filled, keeping, ...none };
  const problems = rulesOfLimits.flatMap((rule) => foundBy(rule, tried));
  return findingsAmong(tried, problems, {}).filter(
    (finding) =>
      (OF_ROOMS.has(finding.code) || OF_LOTS.has(finding.code)) && standsAgainst(tried, finding, strict),
  );
}

/** The most bins that the packhouse runs while one room may be emptied, wherever in the season that is. */
function mostBins(plan: Plan, { rooms }: FillProblem): FillLimits['mostBins'] {
  const { packing, season, demand } = plan;
  const [starts, ends, binsAWeek] = [season?.starts?.value, season?.ends?.value, packing?.binsAWeek?.value];
  if (!packing || starts === undefined || ends === undefined || !binsAWeek || demand.size === 0)
    return new Map();
  const days = { starts, ends, firstWeek: weekOfDay(starts), weeks: weekOfDay(ends) - weekOfDay(starts) + 1 };
  if (!(days.weeks > 0 && days.weeks < 160)) return new Map();
  const weeks = { ...packingWeeks(packing, binsAWeek, days), weeks: days.weeks };
  const emptying = weeksToEmpty(packing);
  let most = 0;
  for (let week = 0; week < days.weeks; week++) most = Math.max(most, packableBins(weeks, week, emptying));
  const bins = Math.floor(most + 1e-9);
  const reason = `the packhouse runs ${bins === 0 ? 'no bin' : `at most ${counted(bins, 'bin')}`} in the ${counted(emptying, 'week')} it may take to empty a room; raise \`days-to-empty\` or \`bins-a-week\` to use more of its places`;
  return new Map(rooms.filter(({ places }) => places > bins).map(({ id }) => [id, { bins, reason }]));
}
