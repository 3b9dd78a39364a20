import { formatWeek } from '../../plan/dates';
import type { Fill } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { counted, listed } from '../../plan/wording';
import { caution, limeCaution, refrigerantCaution } from '../../room/caution';
import type { ComputedSeason, Rule } from '../types';
import { partlyUnread } from '../unread-beside';

function* cautionBeforeOpening({ plan, release }: ComputedSeason): Iterable<Problem> {
  // A room whose sealing day cannot be read may be sealed as well.
  const isPartlyUnread = partlyUnread(plan);
  const sealed = [...plan.fills.values()].filter(
    (fill) => !fill.opened && !fill.emptied && (fill.sealed || (fill.room && isPartlyUnread(fill))),
  );
  // A pin that cannot be kept says no week: its room stays shut in the schedule.
  const pinned = sealed
    .filter((fill) => fill.open && !isLeftShut(release, fill.id))
    .sort((a, b) => (a.open?.value ?? 0) - (b.open?.value ?? 0));
  const first = pinned[0] ?? sealed[0];
  const week = pinned[0]?.open;
  const at = week?.at ?? first?.sealed?.at ?? first?.at;
  if (!first || !at) return;
  const others = sealed.length > 1 ? ` and ${counted(sealed.length - 1, 'more sealed room')}` : '';
  // Said once, at the first pinned opening: a caution on every line would no longer be read.
  yield {
    code: 'caution-before-opening',
    message: `${first.id}${others} will be opened${week ? `, ${first.id} in ${formatWeek(week.value)}` : ''}. ${caution}`,
    at,
    about: 'plan',
  };
}

function isLeftShut(release: ComputedSeason['release'], fill: string): boolean {
  const at = release?.problem.rooms.findIndex((room) => room.fill === fill) ?? -1;
  return at >= 0 && release?.result.schedule.opens[at] === null;
}

function* airRoomOnSharedScrubber({ plan, fruit }: ComputedSeason): Iterable<Problem> {
  const isPartlyUnread = partlyUnread(plan);
  for (const scrubber of plan.scrubbers.values()) {
    if (scrubber.kind === 'lime') continue;
    const fills = [...plan.fills.values()].filter(
      ({ room }) => room && plan.rooms.get(room.value)?.scrubber?.value === scrubber.id,
    );
    const sealed = fills.filter((fill) => fill.sealed);
    const inAir = fills.filter((fill) => !fill.sealed && isForAir(fruit, fill) && !isPartlyUnread(fill));
    if (sealed.length === 0) continue;
    for (const fill of inAir)
      yield {
        code: 'air-room-on-shared-scrubber',
        message: `${fill.id} is kept in air, so people go in, but ${fill.room?.value} is connected to ${scrubber.id}, which carries the gas of sealed rooms (${listed(
          sealed.map(({ room }) => room?.value ?? ''),
          4,
        )}). A leaking valve would bring that gas to where people breathe. Blank the duct off, have trained people confirm it, and keep an oxygen alarm in the room. Before anyone goes in, read oxygen and carbon dioxide, both, with a calibrated instrument; local codes come first.`,
        at: fill.room?.at ?? fill.at,
        related: [{ at: scrubber.at, message: `${scrubber.id} is defined here` }],
        about: fill.id,
      };
  }
}

/** Without a sealing day a regime of low oxygen, or one that is not known, does not say that people may be in the room. */
function isForAir(fruit: ComputedSeason['fruit'], { regime }: Fill): boolean {
  if (!regime) return true;
  const known = fruit.regime(regime.value);
  return known !== undefined && !known.oxygen;
}

function* refrigerantNotNamed({ plan }: ComputedSeason): Iterable<Problem> {
  const unnamed = [...plan.refrigerationGroups.values()].filter(({ refrigerant }) => !refrigerant);
  const first = unnamed[0];
  if (!first) return;
  yield {
    code: 'refrigerant-not-named',
    message: `No refrigerant is named for ${listed(unnamed.map(({ id }) => id))}. Whoever enters or repairs must know it: add \`refrigerant\`. ${refrigerantCaution}`,
    at: first.at,
    about: 'plan',
  };
}

function* limeDust({ plan }: ComputedSeason): Iterable<Problem> {
  const lime = [...plan.scrubbers.values()].filter(({ kind }) => kind === 'lime');
  const first = lime[0];
  if (!first) return;
  yield {
    code: 'lime-dust',
    message: `${listed(lime.map(({ id }) => id))} ${lime.length === 1 ? 'works' : 'work'} with lime. ${limeCaution}`,
    at: first.at,
    about: 'plan',
  };
}

export const safetyRules: readonly Rule[] = [
  {
    code: 'caution-before-opening',
    family: 'safety',
    severity: 'notice',
    isKept: true,
    summary: 'The caution before a sealed room is opened.',
    find: cautionBeforeOpening,
  },
  {
    code: 'air-room-on-shared-scrubber',
    family: 'safety',
    severity: 'warning',
    summary: 'A room people enter shares a scrubber with sealed rooms.',
    find: airRoomOnSharedScrubber,
  },
  {
    code: 'refrigerant-not-named',
    family: 'safety',
    severity: 'notice',
    summary: 'Nobody is told what a refrigeration group runs on.',
    find: refrigerantNotNamed,
  },
  {
    code: 'lime-dust',
    family: 'safety',
    severity: 'notice',
    summary: 'The caution on handling lime.',
    find: limeDust,
  },
];
