import { formatDay, formatWeek } from '../../plan/dates';
import { fixed } from '../../plan/display';
import type { Problem } from '../../plan/problem';
import { counted, isOrAre, listed } from '../../plan/wording';
import { releaseLacks } from '../../release/lacks';
import { packedWaits } from '../../release/packed-waits';
import { reasonFor } from '../../release/reasons';
import type { ReleaseProblem, ReleaseSchedule } from '../../release/types';
import { tooLargeToEmpty } from '../../release/without-schedule';
import { caution, cautionInShort } from '../../room/caution';
import type { FilledRoom } from '../../room/types';
import { unitsOf } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { hasUnread } from '../unread-beside';

function* pinsOutsideWindow({ plan, keeping }: ComputedSeason): Iterable<Problem> {
  for (const { filled, window } of keeping.values()) {
    const { fill } = filled;
    if (!fill.open || !window) continue;
    const { value: week, at } = fill.open;
    const early = week < window.earliest.week && window.earliest.limit !== 'law';
    if (!early && week <= window.latest.week) continue;
    const edge = early ? window.earliest : window.latest;
    const nearest = formatWeek(edge.week);
    const lot = edge.lot ? ` of lot ${edge.lot.id}` : '';
    const isEmpty = window.earliest.week > window.latest.week;
    yield {
      code: 'pin-outside-window',
      message: isEmpty
        ? `${fill.id} is pinned to ${formatWeek(week)}, but its opening window has no week at all (not before ${formatWeek(window.earliest.week)}, ${window.earliest.limit}; not after ${formatWeek(window.latest.week)}, ${window.latest.limit}${window.latest.lot ? ` of lot ${window.latest.lot.id}` : ''}). Mend that first, or take the pin out. ${cautionInShort}`
        : `${fill.id} is pinned to ${formatWeek(week)}, ${early ? 'before' : 'after'} its opening window (${formatWeek(window.earliest.week)} to ${formatWeek(window.latest.week)}; ${edge.limit}${lot}). Move the pin to ${nearest}, or take it out. ${cautionInShort}`,
      at,
      related: edge.lot ? [{ at: edge.lot.at, message: `Lot ${edge.lot.id} sets this edge` }] : [],
      about: fill.id,
      // A window that follows from what cannot be read moves no pin.
      fixes:
        isEmpty || hasUnread(plan)
          ? []
          : [{ title: `Move the pin to ${nearest}`, edits: [{ at, newText: nearest }] }],
    };
  }
}

function* conflictingWishes({ plan, release }: ComputedSeason): Iterable<Problem> {
  for (const conflict of release?.result.conflicts ?? []) {
    // The pins that collide are named in the message, by their rooms; the first one named is where to begin.
    const named = [...plan.fills.values()].filter(
      ({ id, open, room }) => open && [id, room?.value ?? id].some((name) => mentions(conflict, name)),
    );
    const fills = [...plan.fills.values()].filter(({ id }) => mentions(conflict, id));
    const order = (plan.policy.openBefore ?? []).find(
      ({ first, later }) => mentions(conflict, first.value) && mentions(conflict, later.value),
    );
    // What one room alone cannot have is said by the rule of its window, its pin or its emptying.
    if (fills.length === 1 && !order) continue;
    const first = named[0];
    yield {
      code: 'wishes-conflict',
      message: `These wishes cannot all be met: ${conflict} ${cautionInShort}`,
      at: order?.later.at ??
        first?.open?.at ??
        plan.packing?.at ?? { file: [...plan.files.keys()][0] ?? '', start: 0, end: 0 },
      related: named
        .slice(order ? 0 : 1)
        .flatMap(({ id, open }) => (open ? [{ at: open.at, message: `Pin of ${id}` }] : [])),
      about: conflict,
    };
  }
}

/** Does the text name the identifier as a whole word? */
function mentions(text: string, id: string): boolean {
  for (let at = text.indexOf(id); at >= 0; at = text.indexOf(id, at + 1)) {
    const [before, after] = [text[at - 1] ?? ' ', text[at + id.length] ?? ' '];
    if (!/[A-Za-z0-9-]/.test(before) && !/[A-Za-z0-9-]/.test(after)) return true;
  }
  return false;
}

function* roomsLeftClosed(season: ComputedSeason): Iterable<Problem> {
  const { plan, release, keeping } = season;
  if (!release) return;
  const { currency } = unitsOf(season);
  const { problem, result } = release;
  for (const [index, { fill: id, fromField }] of problem.rooms.entries()) {
    // A room that cannot have its wish is told by the finding of its window, its pin, its size or the wishes themselves.
    if (fromField || result.schedule.opens[index] !== null || result.unmet?.includes(index)) continue;
    const fill = plan.fills.get(id);
    const window = keeping.get(id)?.window;
    if (!fill || !window) continue;
    const weeks = `${formatWeek(window.earliest.week)} to ${formatWeek(window.latest.week)}`;
    yield {
      code: 'room-left-closed',
      message: `The schedule found opens ${id} in no week of its window (${weeks}): ${whyClosed(problem, result.schedule, index, currency)} ${cautionInShort}`,
      at: fill.at,
      about: id,
    };
  }
}

/** Why no week gains, and what would change it: the week of its window that costs least is worked out. */
function whyClosed(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  room: number,
  currency: string,
): string {
  const { instead } = reasonFor(problem, schedule, room);
  if (!instead) return 'it has no week to open in.';
  const week = formatWeek(problem.firstWeek + instead.week);
  const [breach] = instead.breaks;
  switch (breach?.kind) {
    case 'packing': {
      const bins = problem.rooms[room]?.bins ?? 0;
      return `beside the other rooms the packhouse has too few bins left in each of them, in ${week} ${counted(breach.bins, 'bin')} of the ${counted(bins, 'bin')}. Add ${counted(Math.ceil(bins - breach.bins), 'bin')} of packing there, or move another room away.`;
    }
    case 'rooms-open':
      return `as many rooms as may (${breach.limit}) stand open in each of them already. Raise \`rooms-open-at-once\` by one, or move another room away.`;
    case 'order':
      return `the order it must keep with ${problem.rooms[breach.room]?.fill} leaves it no week. Move that room, or give up the order.`;
    default:
      return worthText(week, instead.cost ?? 0, currency);
  }
}

function worthText(week: string, cost: number, currency: string): string {
  const money = `${currency} ${fixed(Math.abs(cost), 0)}`;
  if (cost > 0.5)
    return `opening it in ${week}, its best week, would cost ${money} more than its cartons bring. Look for a buyer of its varieties in these weeks, or a better price.`;
  if (cost < -0.5)
    return `this schedule has not found the ${money} more that opening it in ${week} would bring; the release search may.`;
  return 'in none of them does anyone buy more of its varieties. Look for a buyer, or plan its demand.';
}

function* roomsTooLargeToEmpty({ plan, keeping, release }: ComputedSeason): Iterable<Problem> {
  if (!plan.packing) return;
  for (const { room, most } of tooLargeToEmpty(plan, keeping, release?.problem)) {
    const fill = plan.fills.get(room.fill);
    if (!fill) continue;
    const weeks = counted(room.weeksToEmpty, 'week');
    yield {
      code: 'room-too-large-to-empty',
      message: `${fill.id} holds ${counted(room.bins, 'bin')}, and the packhouse runs ${most < 0.5 ? 'no bin' : `at most ${counted(most, 'bin')}`} in the ${weeks} it may take to empty a room. It can be opened in no week. Raise \`days-to-empty\` or \`bins-a-week\`, or put the fruit into two rooms.`,
      at: fill.at,
      related: [{ at: plan.packing.at, message: 'The packhouse' }],
      about: fill.id,
    };
  }
}

function* openedAfterBestBefore({ plan, release, keeping }: ComputedSeason): Iterable<Problem> {
  if (!release) return;
  const late = release.problem.rooms.flatMap((room, index) => {
    const opens = release.result.schedule.opens[index];
    const window = keeping.get(room.fill)?.window;
    if (opens === null || opens === undefined || !window) return [];
    const week = release.problem.firstWeek + opens;
    return week > window.bestBefore.week && week <= window.latest.week ? [{ room, week, window }] : [];
  });
  for (const { room, week, window } of late) {
    const fill = plan.fills.get(room.fill);
    if (!fill) continue;
    yield {
      code: 'opens-after-best-before',
      message: `${fill.id} opens in ${formatWeek(week)} by the schedule, after its best-before week ${formatWeek(window.bestBefore.week)}. It is still within its window (to ${formatWeek(window.latest.week)}); sample it before then. ${caution}`,
      at: fill.at,
      about: fill.id,
    };
  }
}

/** Where packing is recorded, what is left in a room; else all that went in. */
function binsStillThere(
  plan: ComputedSeason['plan'],
  { standing }: ReleaseProblem,
  { fill, bins }: FilledRoom,
): number {
  if (!bins || !standing?.isPacked) return bins?.value ?? 0;
  if (fill.emptied) return 0;
  const packed = [...plan.packed.values()].filter((run) => run.fill?.value === fill.id);
  return Math.max(0, bins.value - packed.reduce((sum, run) => sum + (run.bins?.value ?? 0), 0));
}

function* packingOverbooked({ plan, release, filled }: ComputedSeason): Iterable<Problem> {
  if (!release || !plan.packing) return;
  const bins = [...filled.values()].reduce(
    (sum, room) => sum + binsStillThere(plan, release.problem, room),
    0,
  );
  const capacity = release.problem.packingBins.reduce((sum, week) => sum + week, 0);
  if (bins <= capacity) return;
  yield {
    code: 'packing-overbooked',
    message: `${counted(bins, 'bin')} ${isOrAre(bins)} in the rooms and the packhouse runs ${capacity < 0.5 ? 'none' : counted(capacity, 'bin')} to the season's end: ${counted(bins - capacity, 'bin')} cannot be packed. Add working days, or sell fruit unpacked.`,
    at: plan.packing.at,
    about: 'packing',
  };
}

function* cartonsWaitTooLong({ plan, release }: ComputedSeason): Iterable<Problem> {
  if (!release || !plan.packing) return;
  const { problem, result } = release;
  const waits = packedWaits(problem, result.schedule);
  const [worst] = [...(waits?.tooLong ?? [])].sort((one, other) => other.days - one.days);
  if (!waits || !worst) return;
  const cartons = waits.tooLong.reduce((sum, one) => sum + one.cartons, 0);
  const product = problem.products[worst.product];
  const closed = (problem.days?.closed ?? []).filter((day) => day > worst.packedOn && day <= worst.leavesOn);
  const why =
    closed.length === 0 ? '' : ` The packhouse is closed on ${listed(closed.map(formatDay))} in between.`;
  const { origin } = plan.packing.packedWait;
  yield {
    code: 'cartons-wait-too-long',
    message: `${counted(cartons, 'carton')} of the schedule wait longer in the cold store than the ${counted(waits.allowedDays, 'day')} that \`packed-wait\` allows; longest ${product?.variety} ${product?.packClass}, packed on ${formatDay(worst.packedOn)}, which leaves on ${formatDay(worst.leavesOn)} after ${counted(worst.days, 'day')}.${why} Send them out ${counted(worst.days - waits.allowedDays, 'day')} sooner, pack them on the last days of their week, or allow ${counted(worst.days, 'day')}.`,
    at: origin.kind === 'plan' ? origin.at : plan.packing.at,
    about: 'packed-wait',
  };
}

function* noSchedule({ plan, release, keeping }: ComputedSeason): Iterable<Problem> {
  if (release || keeping.size === 0 || !plan.packing || plan.demand.size === 0) return;
  const lacks = releaseLacks(plan, keeping);
  if (lacks.length === 0) return;
  yield {
    code: 'no-release-problem',
    message: `No release schedule can be computed yet: ${lacks.join('; ')}.`,
    at: plan.packing.at,
    about: 'packing',
  };
}

export const releaseRules: readonly Rule[] = [
  {
    code: 'pin-outside-window',
    family: 'release',
    severity: 'error',
    summary: 'A pinned week outside the opening window.',
    find: pinsOutsideWindow,
  },
  {
    code: 'wishes-conflict',
    family: 'release',
    severity: 'error',
    summary: 'Pins that cannot all be kept.',
    find: conflictingWishes,
  },
  {
    code: 'room-too-large-to-empty',
    family: 'release',
    severity: 'error',
    summary: 'A room that the packhouse cannot empty in the time allowed.',
    find: roomsTooLargeToEmpty,
  },
  {
    code: 'room-left-closed',
    family: 'release',
    severity: 'warning',
    summary: 'No week is worth opening a room.',
    find: roomsLeftClosed,
  },
  {
    code: 'opens-after-best-before',
    family: 'release',
    severity: 'notice',
    summary: 'The schedule opens a room late in its window.',
    find: openedAfterBestBefore,
  },
  {
    code: 'packing-overbooked',
    family: 'release',
    severity: 'warning',
    summary: 'More bins in store than can be packed.',
    find: packingOverbooked,
  },
  {
    code: 'cartons-wait-too-long',
    family: 'release',
    severity: 'notice',
    summary: 'Packed cartons wait a few days longer than allowed.',
    find: cartonsWaitTooLong,
  },
  {
    code: 'no-release-problem',
    family: 'release',
    severity: 'notice',
    summary: 'Too little is known for a release schedule.',
    find: noSchedule,
  },
];
