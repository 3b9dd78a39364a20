import { type Day, formatDay, formatWeek, type Week, weekOfDay } from '../plan/dates';
import type { GrowerClaim, InStoreClaim } from '../plan/expect-model';
import { compute, countedFigure, type Figure } from '../plan/figure';
import { counted, listed } from '../plan/wording';
import { allEmptied, type Context, noSchedule, notJudged, openedText, roomIndex } from './context';
import { binsIn, type IsMeant, lastPacked, leftOn } from './in-rooms';
import { nearestWeek, openedAlready, openedCure, roomOf, windowOf } from './moves';
import type { Cure, Judged, Verdict } from './types';

interface Stored {
  readonly fill: string;
  /** Bins of what is asked about. */
  readonly bins: number;
  /** Of them, bins still in the room. */
  readonly left: number;
}

/** How much of a variety is still in the rooms on a day. */
export function judgeInStore(context: Context, claim: InStoreClaim): Verdict {
  const { season } = context;
  const { variety, on } = claim;
  if (!season.release && !allEmptied(season)) return notJudged(claim.at, noSchedule(context));
  if (!variety || !on) return notJudged(claim.at, 'It does not say of which variety, or when.');
  if (!claim.atLeast && !claim.atMost && !claim.bins)
    return notJudged(claim.at, 'It does not say how much: write `at-least`, `at-most` or `bins`.');
  const name = season.fruit.variety(variety.value)?.name ?? variety.value;
  const stored = storedOn(context, ({ variety: own }) => own.name === name, on.value);
  const all = stored.reduce((total, { bins }) => total + bins, 0);
  if (all <= 0) return notJudged(variety.at, `No room holds any ${variety.value}.`);
  const left = stored.reduce((total, one) => total + one.left, 0);
  const bins = countedFigure(
    `bins of ${variety.value} in store`,
    'bins',
    left,
    'bins stored less bins packed by then',
  );
  const share = compute(
    'share still in store',
    '%',
    '100 * left / stored',
    { left: bins, stored: countedFigure('bins stored', 'bins', all, 'the fills of the plan') },
    (v) => (100 * v.left) / v.stored,
  );
  const text = `${counted(left, 'bin')} of ${counted(all, 'bin')} (${share.value.toFixed(1)} %) are in store on ${formatDay(on.value)}`;
  const broken = brokenBound(claim, share, bins);
  const shown = broken ?? {
    promised: claim.bins ?? claim.atLeast ?? claim.atMost,
    measured: claim.bins ? bins : share,
  };
  const told = {
    promised: { kind: 'figure', figure: shown.promised ?? share },
    measured: { kind: 'figure', figure: shown.measured },
    at: shown.promised?.origin.kind === 'plan' ? shown.promised.origin.at : claim.at,
  } as const;
  if (!broken) return { state: 'kept', ...told, why: `${text}.`, cures: [] };
  if (broken.tooMuch) return tooMuch(context, told, `${text}.`, stored, weekOfDay(on.value));
  const least =
    claim.bins && broken.promised === claim.bins
      ? claim.bins.value
      : ((claim.atLeast?.value ?? 0) * all) / 100;
  return {
    state: 'broken',
    ...told,
    why: `${text}, ${counted(Math.ceil(least - left - 1e-9), 'bin')} too few. ${packedText(context, stored)}`,
    cures: keptShut(context, stored, weekOfDay(on.value), least - left, all, left),
  };
}

type ToldOf = Pick<Judged, 'promised' | 'measured' | 'at'>;

function brokenBound({ atLeast, atMost, bins }: InStoreClaim, share: Figure<'%'>, left: Figure<'bins'>) {
  if (atLeast && share.value < atLeast.value - 1e-9)
    return { promised: atLeast, measured: share, tooMuch: false };
  if (bins && left.value < bins.value - 1e-9) return { promised: bins, measured: left, tooMuch: false };
  if (atMost && share.value > atMost.value + 1e-9)
    return { promised: atMost, measured: share, tooMuch: true };
  return undefined;
}

/** What a day finds in the rooms. */
function storedOn(context: Context, isMeant: IsMeant, day: Day): Stored[] {
  return [...context.season.filled.values()].flatMap((room) => {
    const bins = binsIn(room, isMeant);
    return bins > 0 ? [{ fill: room.fill.id, bins, left: leftOn(context, room, isMeant, day) }] : [];
  });
}

function packedText(context: Context, stored: readonly Stored[]): string {
  const gone = stored
    .filter(({ bins, left }) => bins - left >= 0.5)
    .sort((a, b) => b.bins - b.left - (a.bins - a.left))
    .map(({ fill }) => {
      const week = context.opens.get(fill);
      return `${roomOf(context, fill)}${week === undefined ? '' : ` (${formatWeek(week)})`}`;
    });
  return gone.length === 0 ? 'None of it has been packed by then.' : `Opened by then: ${listed(gone, 6)}.`;
}

/** The room that, kept shut until after the day, leaves enough; else how much all that can be would leave. */
function keptShut(
  context: Context,
  stored: readonly Stored[],
  week: Week,
  missing: number,
  all: number,
  left: number,
): Cure[] {
  const can = stored.flatMap((one) => {
    const gone = one.bins - one.left;
    const later = gone >= 0.5 ? nearestWeek(context, one.fill, (at) => at > week) : undefined;
    return later === undefined ? [] : [{ ...one, gone, later }];
  });
  const enough = can
    .filter(({ gone }) => gone >= missing - 1e-9)
    .sort((a, b) => moved(context, a) - moved(context, b) || a.gone - b.gone)[0];
  if (enough) {
    const then = (100 * (left + enough.gone)) / all;
    return [openedCure(context, enough.fill, enough.later, `leaves ${then.toFixed(1)} % in store`)];
  }
  const gone = stored.flatMap(({ fill, bins, left: rest }) => (bins - rest >= 0.5 ? [fill] : []));
  if (gone.length > 0 && gone.every((fill) => context.opened.has(fill)))
    return [openedAlready(context, ...gone)];
  if (can.length === 0)
    return [{ text: 'No room with it can be kept shut so long: their windows end before.', fixes: [] }];
  const most = can.reduce((total, { gone }) => total + gone, left);
  const rooms = listed(can.map(({ fill, later }) => `${roomOf(context, fill)} to ${formatWeek(later)}`));
  return [
    {
      text: `All that can be kept shut past the day (${rooms}) would leave ${((100 * most) / all).toFixed(1)} % in store.`,
      fixes: [],
    },
  ];
}

function moved({ opens }: Context, { fill, later }: { readonly fill: string; readonly later: Week }): number {
  return Math.abs(later - (opens.get(fill) ?? later));
}

/** More is in store than promised: the rooms that could be opened by then. */
function tooMuch(
  context: Context,
  told: ToldOf,
  text: string,
  stored: readonly Stored[],
  week: Week,
): Verdict {
  const cures = stored
    .filter(({ left }) => left >= 0.5)
    .flatMap(({ fill, left }): Cure[] => {
      const at = nearestWeek(context, fill, (one) => one + weeksToEmpty(context, fill) - 1 <= week);
      return at === undefined
        ? []
        : [openedCure(context, fill, at, `takes ${counted(left, 'bin')} out of store by then`)];
    });
  const rest = stored.flatMap(({ fill, left }) => (left >= 0.5 ? [fill] : []));
  const { toCome } = context;
  if (cures.length === 0 && rest.length > 0 && rest.every((fill) => context.opened.has(fill)))
    return { state: 'broken', ...told, why: text, cures: [openedAlready(context, ...rest)] };
  const isPast = toCome !== undefined && week < toCome;
  const none = {
    text: isPast
      ? 'That day is past: what was in store then cannot be changed any more.'
      : 'No room with it can be opened and packed out by then: their windows begin later.',
    fixes: [],
  };
  return { state: 'broken', ...told, why: text, cures: cures.length > 0 ? cures.slice(0, 2) : [none] };
}

function weeksToEmpty({ season }: Context, fill: string): number {
  return season.release?.problem.rooms[roomIndex(season, fill)]?.weeksToEmpty ?? 1;
}

/** All of a grower's fruit in the rooms is packed by a week. */
export function judgeGrower(context: Context, claim: GrowerClaim): Verdict {
  const { season } = context;
  const { grower, by } = claim;
  if (!season.release && !allEmptied(season)) return notJudged(claim.at, noSchedule(context));
  if (!grower || !by) return notJudged(claim.at, 'It does not say whose fruit, or by when.');
  const growers = [...new Set([...season.plan.lots.values()].flatMap((lot) => lot.grower ?? []))].sort();
  if (!growers.includes(grower.value))
    return notJudged(
      grower.at,
      `No lot of this plan is of the grower ${grower.value}.${growers.length > 0 ? ` They are of ${listed(growers, 6)}.` : ''}`,
    );
  const rooms = [...season.filled.values()].flatMap((room) => {
    const isMeant: IsMeant = ({ lot }) => lot.grower === grower.value;
    if (binsIn(room, isMeant) <= 0) return [];
    const { week, isDone, late: bins } = lastPacked(context, room, isMeant, by.value);
    return [{ fill: room.fill.id, bins, last: week, isDone }];
  });
  if (rooms.length === 0) return notJudged(grower.at, `No room holds fruit of ${grower.value}.`);
  const late = rooms.filter(({ last }) => last === null || last > by.value);
  const last = rooms.some((room) => room.last === null)
    ? null
    : Math.max(...rooms.map((room) => room.last ?? 0));
  const told = {
    promised: { kind: 'week', week: by.value },
    measured: { kind: 'week', week: last },
    at: by.at,
  } as const;
  if (late.length === 0)
    return {
      state: 'kept',
      ...told,
      why: `The last of it ${rooms.every(({ isDone }) => isDone) ? 'was' : 'is'} packed in ${formatWeek(last ?? by.value)}.`,
      cures: [],
    };
  const parts = late.map(
    ({ fill, bins, last: end, isDone }) =>
      `${counted(bins, 'bin')} in ${roomOf(context, fill)}, which ${openedText(context, fill)}${end === null ? '' : ` and ${isDone ? 'was' : 'is'} packed out in ${formatWeek(end)}`}`,
  );
  return {
    state: 'broken',
    ...told,
    why: `Later than ${formatWeek(by.value)} come ${listed(parts, 3)}.`,
    cures: growerCures(
      context,
      late.map(({ fill }) => fill),
      by.value,
    ),
  };
}

function growerCures(context: Context, late: readonly string[], by: Week): Cure[] {
  const opened = late.filter((fill) => context.opened.has(fill));
  const shut = late.filter((fill) => !context.opened.has(fill));
  const cures = shut.slice(0, 3).map((fill): Cure => {
    const week = nearestWeek(context, fill, (at) => at + weeksToEmpty(context, fill) - 1 <= by);
    if (week !== undefined) return openedCure(context, fill, week, `is packed out by ${formatWeek(by)}`);
    const window = windowOf(context, fill);
    return {
      text: `${roomOf(context, fill)} cannot be packed out by then: ${window ? `its window begins in ${formatWeek(window.first)}, and emptying takes ${counted(weeksToEmpty(context, fill), 'week')}` : 'it has no opening window'}.`,
      fixes: [],
    };
  });
  return opened.length === 0 ? cures : [...cures, openedAlready(context, ...opened)];
}
