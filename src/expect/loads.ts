import { formatWeek, type Week, weekOfDay } from '../plan/dates';
import { showNeeded } from '../plan/display';
import type { LoadClaim, LoadKind } from '../plan/expect-model';
import { compute, type Figure, figureWith, type Unit } from '../plan/figure';
import { toldUnits } from '../plan/told-units';
import { counted, listed } from '../plan/wording';
import { nitrogenQueue } from '../plant/nitrogen-queue';
import { weeklyLoad } from '../plant/scrubber-load';
import type { ScrubberSeason } from '../plant/types';
import { formulaKeys } from '../room/figures';
import type { FilledRoom } from '../room/types';
import { type Context, notJudged, OUTSIDE_SEASON, pastCure, promisedWeeks } from './context';
import { roomOf } from './moves';
import type { Cure, Verdict } from './types';
import { machineNames, perCent } from './words';

interface MachineWeek {
  readonly week: Week;
  readonly load: Figure;
  readonly share: Figure<'%'>;
}

interface Machine {
  readonly id: string;
  readonly rooms: readonly FilledRoom[];
  readonly weeks: readonly MachineWeek[];
}

/** Room for rounding in the last digits: what is told as 85 % is 85 %. */
const TOLERANCE = 1e-6;

/** How hard a machine is pressed in its heaviest week. */
export function judgeLoad(context: Context, claim: LoadClaim): Verdict {
  const { machine: named, atMost } = claim;
  if (!named || !atMost) return notJudged(claim.at, 'It does not say which machine, or how much.');
  const machine = machineOf(context, claim.kind, named.value);
  if (!machine)
    return notJudged(named.at, `No ${machineNames[claim.kind]} ${named.value} is computed in this plan.`);
  const weeks = promisedWeeks(context.season, claim);
  if (!weeks) return notJudged((claim.before ?? claim.from)?.at ?? claim.at, OUTSIDE_SEASON);
  const asked = machine.weeks.filter(({ week }) => week >= weeks.first && week <= weeks.last);
  if (asked.length === 0)
    return notJudged(
      named.at,
      `What ${named.value} can give is not stated, so that no share of it is known.`,
    );
  const peak = asked.reduce((most, one) => (one.share.value > most.share.value ? one : most));
  const told = {
    promised: { kind: 'figure', figure: atMost },
    measured: { kind: 'figure', figure: peak.share },
    at: atMost.origin.kind === 'plan' ? atMost.origin.at : claim.at,
  } as const;
  const share = perCent(peak.share.value, atMost.value);
  const kept = peak.share.value <= atMost.value + TOLERANCE;
  if (kept)
    return {
      state: 'kept',
      ...told,
      why: `${machine.id} is loaded ${share} in its heaviest week, ${formatWeek(peak.week)}.`,
      cures: [],
    };
  const over = asked.filter((one) => one.share.value > atMost.value + TOLERANCE);
  const parts = partsOf(context, claim.kind, machine, peak);
  const most = parts.slice(0, 3).map(({ fill, load }) => `${roomOf(context, fill)} ${context.show(load)}`);
  return {
    state: 'broken',
    ...told,
    why: `${machine.id} is loaded ${share} in ${formatWeek(peak.week)} (${context.show(peak.load)}), and above ${perCent(atMost.value)} in ${counted(over.length, 'week')} from ${formatWeek(over[0]?.week ?? peak.week)}.${most.length > 0 ? ` Most is asked by ${listed(most, 3)}.` : ''}`,
    cures: pastCure(context, peak.week) ?? loadCures(context, claim, machine, peak),
  };
}

function machineOf({ season: { plant } }: Context, kind: LoadKind, id: string): Machine | undefined {
  if (kind === 'scrubber-load') {
    const found = plant?.scrubbers.find(({ scrubber }) => scrubber.id === id);
    return found && { id, rooms: found.rooms, weeks: withShare(found.weeks) };
  }
  if (kind === 'nitrogen-load') {
    const found = plant?.nitrogen.find(({ source }) => source.id === id);
    return (
      found && { id, rooms: found.rooms, weeks: found.weeks.map((one) => ({ ...one, load: one.hours })) }
    );
  }
  const found = plant?.refrigeration.find(({ group }) => group.id === id);
  return found && { id, rooms: found.rooms, weeks: withShare(found.weeks) };
}

function withShare(
  weeks: readonly { readonly week: Week; readonly load: Figure; readonly share?: Figure<'%'> | undefined }[],
): MachineWeek[] {
  return weeks.flatMap(({ week, load, share }) => (share ? [{ week, load, share }] : []));
}

/** What each room asks in the week, most first. */
function partsOf(
  { opens }: Context,
  kind: LoadKind,
  { rooms }: Machine,
  { week, load }: MachineWeek,
): { readonly fill: string; readonly load: Figure }[] {
  const keys = formulaKeys(
    'fill',
    rooms.map((one) => one.fill.id),
  );
  const parts = rooms.flatMap((room, index): { fill: string; load: Figure }[] => {
    const fill = room.fill.id;
    if (kind === 'scrubber-load') return [{ fill, load: weeklyLoad(week, [room], opens) }];
    if (kind === 'nitrogen-load') {
      const isSealed = room.fill.sealed && weekOfDay(room.fill.sealed.value) === week;
      return isSealed && room.nitrogenHours ? [{ fill, load: room.nitrogenHours }] : [];
    }
    const key = keys[index] ?? '';
    const part = load.origin.kind === 'computed' ? load.origin.inputs[key] : undefined;
    return part ? [{ fill, load: part }] : [];
  });
  return parts.filter(({ load: part }) => part.value > 0).sort((a, b) => b.load.value - a.load.value);
}

function loadCures(context: Context, claim: LoadClaim, machine: Machine, peak: MachineWeek): Cure[] {
  const most = claim.atMost?.value ?? 100;
  const times = peak.share.value / most;
  const { plan } = context.season;
  if (claim.kind === 'scrubber-load') {
    const scrubber = plan.scrubbers.get(machine.id);
    return [
      ...moreOf(context, machine.id, 'removal', scrubber?.removal, times),
      ...otherScrubber(context, machine.id, claim),
    ];
  }
  if (claim.kind === 'nitrogen-load') return moreNitrogen(context, machine, claim);
  return moreOf(context, machine.id, 'capacity', plan.refrigerationGroups.get(machine.id)?.capacity, times);
}

/** What is asked stays as it is, so its share goes with what there is: so many times as much is enough. */
function moreOf<U extends Unit>(
  context: Context,
  id: string,
  what: string,
  now: Figure<U> | undefined,
  times: number,
): Cure[] {
  if (!now) return [];
  const needed = compute(
    now.name,
    now.unit,
    'now * times',
    { now, times: timesFigure(times) },
    (v) => v.now * v.times,
  );
  return [
    {
      text: `A ${what} of ${id} of ${showNeeded(needed, toldUnits(context.season.plan))} instead of ${context.show(now)} would do.`,
      fixes: [],
    },
  ];
}

function timesFigure(times: number): Figure<'1'> {
  return {
    name: 'times as much',
    unit: '1',
    value: times,
    origin: { kind: 'counted', what: 'the share asked over the share promised', places: [] },
  };
}

/** A room moved to another scrubber, with both then within the promise (the other within what it can). */
function otherScrubber(context: Context, id: string, claim: LoadClaim): Cure[] {
  const scrubbers = context.season.plant?.scrubbers ?? [];
  const own = scrubbers.find(({ scrubber }) => scrubber.id === id);
  const most = claim.atMost?.value ?? 100;
  if (!own?.capacity) return [];
  const loadOf = loadsByRoom(context);
  const without = own.rooms.map((room) => ({
    room,
    rest: heaviest(
      own,
      own.rooms.filter((one) => one !== room),
      loadOf,
    ),
  }));
  const movable = without.filter(({ rest }) => rest <= most + TOLERANCE);
  const found = scrubbers.flatMap((other) =>
    other === own || !other.capacity
      ? []
      : movable.flatMap(({ room, rest }) => {
          const more = heaviest(other, [...other.rooms, room], loadOf);
          return more <= Math.min(100, most) ? [{ room, other: other.scrubber.id, rest, more }] : [];
        }),
  );
  const [best] = found.sort((a, b) => a.more - b.more || (a.room.fill.id < b.room.fill.id ? -1 : 1));
  if (!best) return [];
  return [
    {
      text: `${best.room.room.id} on ${best.other} instead leaves ${id} at ${perCent(best.rest)} and brings ${best.other} to ${perCent(best.more)}.`,
      fixes: [],
    },
  ];
}

/** Kilograms a day of one room in one week; each is worked out once, however many moves are tried with it. */
type LoadOf = (room: FilledRoom, week: Week) => number;

function loadsByRoom({ opens }: Context): LoadOf {
  const known = new Map<FilledRoom, Map<Week, number>>();
  return (room, week) => {
    const weeks = known.get(room) ?? new Map<Week, number>();
    known.set(room, weeks);
    const load = weeks.get(week) ?? weeklyLoad(week, [room], opens).value;
    weeks.set(week, load);
    return load;
  };
}

/** Per cent in the heaviest week with these rooms; what it can remove is taken as with its own. */
function heaviest({ weeks, capacity }: ScrubberSeason, rooms: readonly FilledRoom[], loadOf: LoadOf): number {
  const loads = weeks.map(({ week }) => rooms.reduce((sum, room) => sum + loadOf(room, week), 0));
  return (100 * Math.max(0, ...loads)) / (capacity?.value ?? Number.POSITIVE_INFINITY);
}

const FLOWS = [1.05, 1.1, 1.15, 1.2, 1.25, 1.3, 1.4, 1.5, 1.75, 2, 2.5, 3, 4];

/** The least of these flows that would do: the queue is gone through with each room's hours shorter by it. */
function moreNitrogen({ season: { plan } }: Context, { id, rooms }: Machine, claim: LoadClaim): Cure[] {
  const source = plan.nitrogenSources.get(id);
  const most = claim.atMost?.value ?? 100;
  if (!source) return [];
  const does = FLOWS.find((times) => {
    const faster = rooms.map((room) =>
      room.nitrogenHours
        ? {
            ...room,
            nitrogenHours: figureWith(room.nitrogenHours, { value: room.nitrogenHours.value / times }),
          }
        : room,
    );
    return hoursAsked(nitrogenQueue(source, faster).turns) <= (most / 100) * 168 + TOLERANCE;
  });
  if (does === undefined) return [];
  return [
    { text: `${Math.round(100 * (does - 1))} % more flow of ${id} at every purity would do.`, fixes: [] },
  ];
}

/** Hours asked in the heaviest week: what is sealed in it, and what the weeks before left. */
function hoursAsked(turns: ReturnType<typeof nitrogenQueue>['turns']): number {
  const asked = new Map<Week, number>();
  for (const { sealed, flush, flushed } of turns) {
    const last = weekOfDay(sealed + Math.floor(flushed.value / 24));
    const week = weekOfDay(sealed);
    asked.set(week, (asked.get(week) ?? 0) + flush.value);
    for (let later = week + 1; later <= last; later++) {
      const left = 24 * sealed + flushed.value - 24 * (later * 7 - 3);
      if (left > 0) asked.set(later, (asked.get(later) ?? 0) + Math.min(left, flush.value));
    }
  }
  return Math.max(0, ...asked.values());
}
