import type { RoomKeeping } from '../keeping/types';
import { formatDay } from '../plan/dates';
import type { Packing, Plan } from '../plan/model';
import { demandWanted } from './demand-wanted';
import { canBeReleased, lastDayOfSeason, MOST_WEEKS, seasonWeeks } from './problem';
import { roomsThatNeverOpen } from './without-schedule';

/** Names told of many. */
const MOST_NAMED = 4;

/**
 * Why a plan has no release problem, in clauses: the sections a schedule needs first, then its rooms and orders. A value
 * that is written but cannot be read counts as missing: it has a finding of its own at its place. Empty where there is
 * nothing to tell.
 */
export function releaseLacks(plan: Plan, keeping: ReadonlyMap<string, RoomKeeping>): string[] {
  const { packing } = plan;
  const whole = [...seasonLacks(plan), ...packingLacks(packing)];
  return whole.length > 0 || !packing ? whole : [...roomsLack(packing, keeping), ...ordersLack(plan)];
}

/** Why no release schedule can be computed, in sentences, and on a line each the rooms that none could open. */
export function whyNoSchedule(plan: Plan, keeping: ReadonlyMap<string, RoomKeeping>): string {
  const lacks = releaseLacks(plan, keeping);
  const why = lacks.length > 0 ? lacks.join('; ') : 'nothing is left to be packed or sold';
  return [`No release schedule can be computed yet: ${why}.`, ...roomsThatNeverOpen(plan, keeping)].join(
    '\n',
  );
}

function seasonLacks(plan: Plan): string[] {
  const { season } = plan;
  if (!season) return ['`season` is missing or cannot be read'];
  const { starts, ends, cartonMass } = season;
  const missing = [
    ...(starts ? [] : ['`starts`']),
    ...(ends ? [] : ['`ends`']),
    ...(cartonMass && cartonMass.value > 0 ? [] : ['`carton`']),
  ];
  const days =
    !starts || !ends || seasonWeeks(plan)
      ? []
      : ends.value < starts.value
        ? [`\`season\` ends on ${formatDay(ends.value)}, before it starts on ${formatDay(starts.value)}`]
        : [
            `\`season\` goes on to ${formatDay(ends.value)} and may be ${MOST_WEEKS} weeks long, to ${formatDay(lastDayOfSeason(starts.value))}`,
          ];
  return [...missing.map((key) => `\`season\` has no ${key} that can be read`), ...days];
}

function packingLacks(packing: Packing | undefined): string[] {
  if (!packing) return ['`packing` is missing or cannot be read'];
  const { binsAWeek } = packing;
  return binsAWeek && binsAWeek.value > 0 ? [] : ['`packing` has no `bins-a-week` that can be read'];
}

/** What each room lacks, the same told once; of rooms that are through nothing is lacking. */
function roomsLack(packing: Packing, keeping: ReadonlyMap<string, RoomKeeping>): string[] {
  if (keeping.size === 0) return ['no fill under `fills` has a room that is defined'];
  if ([...keeping.values()].some((room) => canBeReleased(room, packing))) return [];
  const lacking = new Map<string, string[]>();
  for (const [fill, room] of keeping) {
    const why = roomLacks(room, packing);
    lacking.set(why, [...(lacking.get(why) ?? []), fill]);
  }
  return [...lacking].map(([why, fills]) => `${named(fills)}: ${why}`);
}

function roomLacks({ filled, window }: RoomKeeping, packing: Packing): string {
  if (filled.lots.length === 0) return 'no lots';
  if (!(filled.bins && filled.bins.value > 0)) return 'no bins';
  if (!window) return 'no opening window';
  const varieties = filled.lots.map(({ lot, variety }) => lot.variety?.value ?? variety.name);
  const unknown = varieties.filter((name) => (packing.packout.get(name)?.shares.size ?? 0) === 0);
  return `no packout of ${named([...new Set(unknown)])}`;
}

function ordersLack(plan: Plan): string[] {
  const season = seasonWeeks(plan);
  if (!season || demandWanted(plan, season.firstWeek, season.weeks).length > 0) return [];
  if (plan.demand.size === 0) return ['`demand` is missing or cannot be read'];
  const complete = [...plan.demand.values()].filter(
    ({ variety, packClass, weeks, price }) => variety && packClass && weeks && price,
  );
  return complete.length === 0
    ? ['no order under `demand` has a variety, a class, weeks and a price']
    : [
        `no order under \`demand\` wants cartons within the season (${formatDay(season.starts)} to ${formatDay(season.ends)})`,
      ];
}

/** `R1`, `R1 and R2`, `R1, R2, R3 and 5 more`. */
function named(names: readonly string[]): string {
  const shown =
    names.length > MOST_NAMED
      ? [...names.slice(0, MOST_NAMED - 1), `${names.length - MOST_NAMED + 1} more`]
      : names;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
}
