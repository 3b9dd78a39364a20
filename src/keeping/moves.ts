import type { FruitData, Regime } from '../fruit/types';
import { compute, countedFigure } from '../plan/figure';
import type { Fill, Lot, Plan } from '../plan/model';
import type { FilledRoom } from '../room/types';
import { weeksToEmpty } from './latest';
import { roomKeeping } from './room-keeping';
import type { OpeningWindow, RoomKeeping } from './types';

/** A change of one thing, and the room's window as it is then. */
export interface WindowMove {
  readonly change: string;
  readonly window: OpeningWindow;
}

interface Change {
  readonly change: string;
  readonly plan?: Plan;
  readonly filled?: FilledRoom;
}

/** Points of confidence that a window is tried with less. */
const LESS_CONFIDENCE = 10;
/** Weeks that a season is tried longer by. */
const SEASON_WEEKS = 4;

/**
 * What would move a room's window: each change made alone and the window computed again; those that move an edge. What
 * has happened already can still be read from it: why a room is late.
 */
export function windowMoves(plan: Plan, fruit: FruitData, { filled, window }: RoomKeeping): WindowMove[] {
  if (!window) return [];
  const moves = changesOf(plan, fruit, filled, window).flatMap(({ change, ...changed }): WindowMove[] => {
    const after = roomKeeping(changed.plan ?? plan, changed.filled ?? filled).window;
    return after && differs(window, after) ? [{ change, window: after }] : [];
  });
  return moves.sort(
    (a, b) => b.window.latest.week - a.window.latest.week || a.window.earliest.week - b.window.earliest.week,
  );
}

function differs(a: OpeningWindow, b: OpeningWindow): boolean {
  return (
    a.earliest.week !== b.earliest.week ||
    a.bestBefore.week !== b.bestBefore.week ||
    a.latest.week !== b.latest.week
  );
}

function changesOf(plan: Plan, fruit: FruitData, filled: FilledRoom, window: OpeningWindow): Change[] {
  const setters = [window.latest.lot, window.bestBefore.lot, window.earliest.lot].filter(
    (lot) => lot !== undefined,
  );
  const weeksMissing = Math.max(0, window.earliest.week - window.latest.week);
  const lots = [...new Map(setters.map((lot) => [lot.id, lot])).values()];
  return [
    ...lots.flatMap((lot) => [...withoutLot(filled, lot), ...treated(filled, lot)]),
    ...otherRegimes(fruit, filled),
    ...sealedEarlier(filled),
    ...emptiedFaster(plan),
    ...lessConfidence(plan),
    ...(window.earliest.limit === 'law'
      ? [
          {
            change: 'sold without the claim "CA"',
            filled: { ...filled, room: { ...filled.room, law: 'none' as const } },
          },
        ]
      : []),
    ...(window.latest.limit === 'season' ? seasonLonger(plan, weeksMissing) : []),
    ...(window.earliest.limit === 'season' ? seasonSooner(plan, weeksMissing) : []),
  ];
}

function withoutLot(filled: FilledRoom, lot: Lot): Change[] {
  const lots = filled.lots.filter((one) => one.lot.id !== lot.id);
  return lots.length > 0 ? [{ change: `without lot ${lot.id}`, filled: { ...filled, lots } }] : [];
}

function treated(filled: FilledRoom, lot: Lot): Change[] {
  if (lot.treatments.some(({ value }) => value === '1-mcp')) return [];
  const lots = filled.lots.map((one) =>
    one.lot.id === lot.id
      ? {
          ...one,
          lot: { ...one.lot, treatments: [...one.lot.treatments, { value: '1-mcp' as const, at: lot.at }] },
        }
      : one,
  );
  return [{ change: `lot ${lot.id} treated with 1-MCP`, filled: { ...filled, lots } }];
}

/**
 * Other regimes that every variety of the room has among its own and bears, sealed or in air as the room is. One that is
 * described with less oxygen than a variety bears, in dynamic storage say, is the planner's to choose by his own trials.
 */
function otherRegimes(fruit: FruitData, filled: FilledRoom): Change[] {
  const [first, ...others] = filled.lots.map(({ variety }) => variety.regimes);
  const shared = (first ?? []).filter((name) => others.every((names) => names.includes(name)));
  return shared.flatMap((name): Change[] => {
    const regime = fruit.regime(name);
    const alike = (regime?.oxygen !== undefined) === (filled.regime?.oxygen !== undefined);
    if (!regime || !alike || regime.name === filled.regime?.name || !isBorne(regime, filled)) return [];
    return [{ change: `in ${name}`, filled: { ...filled, regime } }];
  });
}

/** Whether the fruit bears its gas, stages and all: the limits that a check holds a fill's regime against. */
function isBorne({ oxygen, carbonDioxide, stages = [] }: Regime, { lots }: FilledRoom): boolean {
  const leastOxygen = Math.max(...lots.map(({ variety }) => variety.leastOxygen.value));
  const mostCarbonDioxide = Math.min(...lots.map(({ variety }) => variety.mostCarbonDioxide.value));
  return [{ oxygen, carbonDioxide }, ...stages].every(
    (held) =>
      (held.oxygen?.value ?? leastOxygen) >= leastOxygen &&
      (held.carbonDioxide?.value ?? mostCarbonDioxide) <= mostCarbonDioxide,
  );
}

/** The day after the last bin, where the door waits longer. */
function sealedEarlier(filled: FilledRoom): Change[] {
  const { sealed, lastBin } = filled.fill;
  if (!sealed || !lastBin || sealed.value <= lastBin.value + 1) return [];
  const days = sealed.value - lastBin.value - 1;
  const fill: Fill = { ...filled.fill, sealed: { ...sealed, value: lastBin.value + 1 } };
  return [
    {
      change: `sealed ${days === 1 ? 'a day' : `${days} days`} sooner, the day after the last bin`,
      filled: { ...filled, fill },
    },
  ];
}

/** A week less, where that is at least a week. */
function emptiedFaster(plan: Plan): Change[] {
  const { packing } = plan;
  if (!packing) return [];
  const weeks = weeksToEmpty(packing.daysToEmpty);
  if (weeks < 2) return [];
  const faster = compute(
    'days to empty a room, a week less',
    'days',
    'max(7, daysToEmpty - 7)',
    { daysToEmpty: packing.daysToEmpty },
    (v) => Math.max(7, v.daysToEmpty - 7),
  );
  const change = `emptied in ${faster.value} days instead of ${packing.daysToEmpty.value}`;
  return [{ change, plan: { ...plan, packing: { ...packing, daysToEmpty: faster } } }];
}

function lessConfidence(plan: Plan): Change[] {
  const now = plan.policy.confidence.value;
  if (now - LESS_CONFIDENCE < 50) return [];
  const value = now - LESS_CONFIDENCE;
  const confidence = countedFigure(
    'confidence',
    '%',
    value,
    `${LESS_CONFIDENCE} points less than the plan's`,
  );
  return [{ change: `at ${value} % confidence`, plan: { ...plan, policy: { ...plan.policy, confidence } } }];
}

/** Four weeks; of a room without a week to open in, as many as are missing where those are more. */
function seasonLonger(plan: Plan, weeksMissing: number): Change[] {
  const { season } = plan;
  if (!season?.ends) return [];
  const weeks = Math.max(SEASON_WEEKS, weeksMissing);
  const ends = { ...season.ends, value: season.ends.value + 7 * weeks };
  return [
    { change: `with a season ${weeksInWords(weeks)} longer`, plan: { ...plan, season: { ...season, ends } } },
  ];
}

function seasonSooner(plan: Plan, weeksMissing: number): Change[] {
  const { season } = plan;
  if (!season?.starts) return [];
  const weeks = Math.max(SEASON_WEEKS, weeksMissing);
  const starts = { ...season.starts, value: season.starts.value - 7 * weeks };
  return [
    {
      change: `with a season that begins ${weeksInWords(weeks)} sooner`,
      plan: { ...plan, season: { ...season, starts } },
    },
  ];
}

function weeksInWords(weeks: number): string {
  return weeks === SEASON_WEEKS ? 'four weeks' : `${weeks} weeks`;
}
