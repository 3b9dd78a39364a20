import { windowMoves } from '../keeping/moves';
import type { OpeningWindow, WindowEdge } from '../keeping/types';
import { formatWeek, type Week } from '../plan/dates';
import type { OpensClaim, WindowClaim } from '../plan/expect-model';
import { countedFigure } from '../plan/figure';
import { counted, listed } from '../plan/wording';
import { type Context, notJudged, openedText, roomIndex } from './context';
import { nearestWeek, openedAlready, openedCure, roomOf, windowOf } from './moves';
import type { Cure, Verdict } from './types';
import { weekSpan, wholeWeeks } from './words';

/** When a room opens. */
export function judgeOpens(context: Context, claim: OpensClaim): Verdict {
  const { room } = claim;
  if (!room) return notJudged(claim.at, 'It does not say which room.');
  if (!claim.before && !claim.after && !claim.in && !claim.beforeRoom)
    return notJudged(claim.at, 'It does not say when: write `before`, `after`, `in` or `before-room`.');
  const [fill, ...others] = fillsIn(context, room.value);
  if (!fill) return notJudged(room.at, `No fill uses ${room.value}, so that it is never opened.`);
  if (others.length > 0)
    return notJudged(room.at, `Several fills use ${room.value} (${listed([fill, ...others])}).`);
  const unknown = [fill, ...(claim.beforeRoom ? fillsIn(context, claim.beforeRoom.value) : [])].find(
    (one) => !isScheduled(context, one),
  );
  if (unknown !== undefined)
    return notJudged(
      room.at,
      `No schedule has ${unknown} yet: its window, its packout or its bins are not known.`,
    );
  return claim.beforeRoom
    ? judgeOrder(context, claim, fill, claim.beforeRoom)
    : judgeWeek(context, claim, fill);
}

function isScheduled({ season, opens }: Context, fill: string): boolean {
  return opens.has(fill) || roomIndex(season, fill) >= 0;
}

function fillsIn({ season: { plan } }: Context, room: string): string[] {
  return [...plan.fills.values()].flatMap((fill) => (fill.room?.value === room ? [fill.id] : []));
}

function suitsWeeks({ before, after, in: within }: OpensClaim, week: Week): boolean {
  return (
    (!before || week < before.value) &&
    (!after || week > after.value) &&
    (!within || (week >= within.value.first && week <= within.value.last))
  );
}

function judgeWeek(context: Context, claim: OpensClaim, fill: string): Verdict {
  const week = context.opens.get(fill) ?? null;
  const edge = edgeOf(claim, week);
  const told = {
    promised: { kind: 'week', week: edge.week },
    measured: { kind: 'week', week },
    at: edge.at,
  } as const;
  if (week !== null && suitsWeeks(claim, week))
    return {
      state: 'kept',
      ...told,
      why: `${roomOf(context, fill)} ${openedText(context, fill)}.`,
      cures: [],
    };
  return {
    state: 'broken',
    ...told,
    why: weekText(context, claim, fill, week),
    cures: weekCures(context, fill, (one) => suitsWeeks(claim, one)),
  };
}

/** The bound that counts: the one that is broken, else the first written. */
function edgeOf({ before, after, in: within, at }: OpensClaim, week: Week | null) {
  if (before && (week === null || week >= before.value)) return { week: before.value - 1, at: before.at };
  if (after && (week === null || week <= after.value)) return { week: after.value + 1, at: after.at };
  if (within) {
    const { first, last } = within.value;
    return { week: week !== null && week > last ? last : first, at: within.at };
  }
  const kept = before ?? after;
  return { week: before ? before.value - 1 : (after?.value ?? 0) + 1, at: kept?.at ?? at };
}

function weekText(context: Context, claim: OpensClaim, fill: string, week: Week | null): string {
  const { season, schedule } = context;
  const room = claim.room?.value ?? fill;
  const pinned = season.plan.fills.get(fill)?.open;
  const how = context.opened.has(fill) ? 'as recorded' : pinned ? 'as it is pinned' : `by ${schedule}`;
  const off = week === null ? '' : `, ${offText(claim, week)}`;
  return `${room} ${openedText(context, fill)} ${how}${off}.${windowText(season.keeping.get(fill)?.window)}`;
}

function offText({ before, after, in: within }: OpensClaim, week: Week): string {
  const late = before && week >= before.value ? week - before.value + 1 : 0;
  const early = after && week <= after.value ? after.value - week + 1 : 0;
  const lateIn = within && week > within.value.last ? week - within.value.last : 0;
  const earlyIn = within && week < within.value.first ? within.value.first - week : 0;
  const [tooLate, tooEarly] = [Math.max(late, lateIn), Math.max(early, earlyIn)];
  return tooLate > 0 ? `${counted(tooLate, 'week')} too late` : `${counted(tooEarly, 'week')} too early`;
}

function windowText(window: OpeningWindow | undefined): string {
  if (!window) return '';
  const { earliest, latest } = window;
  return ` Its window is ${weekSpan({ first: earliest.week, last: latest.week })} (earliest by ${edgeText(earliest)}, latest by ${edgeText(latest)}).`;
}

function edgeText({ limit, lot }: WindowEdge): string {
  return lot ? `${limit} of lot ${lot.id}` : limit;
}

/** The nearest week of its window that would do; where none does, changes that give it one. */
function weekCures(context: Context, fill: string, suits: (week: Week) => boolean): Cure[] {
  if (context.opened.has(fill)) return [openedAlready(context, fill)];
  const nearest = nearestWeek(context, fill, suits);
  if (nearest !== undefined) return [openedCure(context, fill, nearest, 'keeps it')];
  const { plan, fruit, keeping } = context.season;
  const from = context.toCome ?? Number.NEGATIVE_INFINITY;
  const kept = keeping.get(fill);
  if (!kept) return [];
  const moves = windowMoves(plan, fruit, kept).flatMap(({ change, window }): Cure[] => {
    for (let week = Math.max(window.earliest.week, from); week <= window.latest.week; week++)
      if (suits(week))
        return [
          {
            text: `${fill} ${change} has a window of ${weekSpan({ first: window.earliest.week, last: window.latest.week })}, in which ${formatWeek(week)} would do.`,
            fixes: [],
          },
        ];
    return [];
  });
  const none = { text: 'No week of its window would do, so that no schedule keeps it.', fixes: [] };
  return [none, ...moves.slice(0, 3)];
}

function judgeOrder(
  context: Context,
  claim: OpensClaim,
  fill: string,
  other: NonNullable<OpensClaim['beforeRoom']>,
): Verdict {
  const [second, ...more] = fillsIn(context, other.value);
  if (second === undefined || more.length > 0)
    return notJudged(
      other.at,
      second === undefined
        ? `No fill uses ${other.value}, so that it is never opened.`
        : `Several fills use ${other.value}.`,
    );
  const [mine, theirs] = [context.opens.get(fill) ?? null, context.opens.get(second) ?? null];
  // A room that stays shut opens after all others.
  const isOrdered = mine !== null && (theirs === null || mine < theirs);
  const told = {
    promised: { kind: 'week', week: theirs === null ? null : theirs - 1 },
    measured: { kind: 'week', week: mine },
    at: other.at,
  } as const;
  const room = claim.room?.value ?? fill;
  const text = `${room} ${openedText(context, fill)} and ${other.value} ${openedText(context, second)}.`;
  if (isOrdered && suitsWeeks(claim, mine)) return { state: 'kept', ...told, why: text, cures: [] };
  if (isOrdered) return judgeWeek(context, claim, fill);
  const [first, later] = [
    theirs === null
      ? undefined
      : nearestWeek(context, fill, (week) => week < theirs && suitsWeeks(claim, week)),
    mine === null ? undefined : nearestWeek(context, second, (week) => week > mine),
  ];
  const cures = [
    ...(first === undefined ? [] : [openedCure(context, fill, first, 'keeps it')]),
    ...(later === undefined ? [] : [openedCure(context, second, later, 'keeps it')]),
  ];
  if (cures.length > 0) return { state: 'broken', ...told, why: text, cures };
  const none = [fill, second].every((one) => context.opened.has(one))
    ? openedAlready(context, fill, second)
    : {
        text: `Neither room alone can move so within its window (${windowsOf(context, fill, second)}).`,
        fixes: [],
      };
  return { state: 'broken', ...told, why: text, cures: [none] };
}

function windowsOf(context: Context, ...fills: readonly string[]): string {
  return fills
    .map((fill) => {
      if (context.opened.has(fill)) return `${fill} ${openedText(context, fill)}`;
      const window = windowOf(context, fill);
      return window ? `${fill} ${weekSpan(window)}` : `${fill} none`;
    })
    .join(', ');
}

/** How wide a room's window is, in weeks. */
export function judgeWindow(context: Context, claim: WindowClaim): Verdict {
  const { room, atLeast } = claim;
  if (!room || !atLeast) return notJudged(claim.at, 'It does not say which room, or how wide.');
  const [fill, ...others] = fillsIn(context, room.value);
  if (!fill) return notJudged(room.at, `No fill uses ${room.value}.`);
  if (others.length > 0)
    return notJudged(room.at, `Several fills use ${room.value} (${listed([fill, ...others])}).`);
  const kept = context.season.keeping.get(fill);
  if (!kept?.window)
    return notJudged(room.at, `${fill} has no opening window: the plan lacks what it needs.`);
  const wide = widthOf(kept.window);
  const promised = countedFigure(
    'weeks promised',
    'weeks',
    wholeWeeks(atLeast),
    'a week that has begun counts',
  );
  const told = {
    promised: { kind: 'figure', figure: promised },
    measured: {
      kind: 'figure',
      figure: countedFigure('weeks of the window', 'weeks', wide, 'from its earliest to its latest week'),
    },
    at: atLeast.origin.kind === 'plan' ? atLeast.origin.at : claim.at,
  } as const;
  const text = windowText(kept.window)
    .trim()
    .replace(/^Its window/, `The window of ${room.value}`);
  if (wide >= promised.value)
    return { state: 'kept', ...told, why: `${text} That is ${counted(wide, 'week')}.`, cures: [] };
  const { plan, fruit } = context.season;
  const broken = {
    state: 'broken',
    ...told,
    why: `${text} That is ${counted(wide, 'week')}, ${counted(promised.value - wide, 'week')} less than promised.`,
  } as const;
  if (context.opened.has(fill)) return { ...broken, cures: [openedAlready(context, fill)] };
  const moves = windowMoves(plan, fruit, kept)
    .map(({ change, window }) => ({ change, wide: widthOf(window) }))
    .filter((move) => move.wide > wide)
    .sort((a, b) => b.wide - a.wide);
  const enough = moves.filter((move) => move.wide >= promised.value);
  return {
    ...broken,
    cures: (enough.length > 0 ? enough : moves).slice(0, 3).map((move) => ({
      text: `${fill} ${move.change} has ${counted(move.wide, 'week')}.`,
      fixes: [],
    })),
  };
}

function widthOf({ earliest, latest }: OpeningWindow): number {
  return Math.max(0, latest.week - earliest.week + 1);
}
