import type { Plan, Room } from '../plan/model';
import type { Problem } from '../plan/problem';
import type { Scenario, TakenOut } from '../plan/scenario-model';
import { placeAt, type Span } from '../plan/span';
import { isLaidKind, MAP_OF, wholeOf } from './laid-entry';
import { cannotApply } from './problems';
import type { Overlaid } from './types';

/**
 * The plan without what a scenario takes out. With a room go its fills, with a lot its bins in all fills, with a machine
 * the key that names it in its rooms: what would be left would name nothing.
 */
export function withoutTakenOut(plan: Plan, scenario: Scenario): Overlaid {
  const problems: Problem[] = [];
  let now = plan;
  for (const taken of scenario.takenOut) {
    const without = withoutOne(now, taken);
    if (without) now = without;
    else problems.push(cannotApply(scenario, taken.id.at, missing(taken)));
  }
  return { plan: now, problems };
}

function missing({ section, id }: TakenOut): string {
  if (section === 'pins') return `${id.value} has no pinned week that could be taken out.`;
  return `The plan has no ${section === 'demand' ? 'demand' : `entry of \`${section}\``} called ${id.value}, so that it cannot be taken out.`;
}

/** Undefined where there is nothing to take out. */
function withoutOne(plan: Plan, { section, id: { value: id } }: TakenOut): Plan | undefined {
  if (section === 'pins') return withoutPin(plan, id);
  if (!isLaidKind(section) || !plan[MAP_OF[section]].has(id)) return undefined;
  const after = withoutEntry(plan, section, id);
  switch (section) {
    case 'rooms':
      return [...after.fills.values()]
        .filter(({ room }) => room?.value === id)
        .reduce((all, fill) => withoutEntry(all, 'fills', fill.id), after);
    case 'lots':
      return withoutLot(after, id);
    case 'scrubbers':
      return withRooms(after, ({ scrubber }) =>
        scrubber?.value === id ? { scrubber: undefined } : undefined,
      );
    case 'nitrogen':
      return withRooms(after, ({ nitrogen }) =>
        nitrogen?.value === id ? { nitrogen: undefined } : undefined,
      );
    case 'refrigeration':
      return withRooms(after, ({ refrigerationGroup }) =>
        refrigerationGroup?.value === id ? { refrigerationGroup: undefined } : undefined,
      );
    default:
      return after;
  }
}

function withoutEntry(plan: Plan, section: keyof typeof MAP_OF, id: string): Plan {
  const name = MAP_OF[section];
  const entry = plan[name].get(id);
  if (!entry) return plan;
  const left = new Map([...plan[name]].filter(([key]) => key !== id) as [string, never][]);
  return withoutText({ ...plan, [name]: left }, wholeOf(entry.at, entry.places.span));
}

function withoutLot(plan: Plan, id: string): Plan {
  const gone: Span[] = [];
  const fills = new Map(
    [...plan.fills].map(([key, fill]) => {
      const lots = fill.lots.filter(({ lot }) => lot.value !== id);
      if (lots.length === fill.lots.length) return [key, fill] as const;
      gone.push(...fill.lots.filter(({ lot }) => lot.value === id).map(({ lot }) => lot.at));
      return [key, { ...fill, lots }] as const;
    }),
  );
  return gone.reduce<Plan>((all, span) => withoutText(all, span), { ...plan, fills });
}

function withRooms(plan: Plan, change: (room: Room) => Partial<Room> | undefined): Plan {
  const gone: Span[] = [];
  const rooms = new Map(
    [...plan.rooms].map(([id, room]) => {
      const changed = change(room);
      if (!changed) return [id, room] as const;
      const named = [room.scrubber, room.nitrogen, room.refrigerationGroup];
      const after = { ...room, ...changed };
      gone.push(
        ...named.flatMap((one) =>
          one && ![after.scrubber, after.nitrogen, after.refrigerationGroup].includes(one) ? [one.at] : [],
        ),
      );
      return [id, after] as const;
    }),
  );
  return gone.reduce<Plan>((all, span) => withoutText(all, span), { ...plan, rooms });
}

function withoutPin(plan: Plan, id: string): Plan | undefined {
  const fill = plan.fills.get(id);
  if (!fill?.open) return undefined;
  const fills = new Map(
    [...plan.fills].map(([key, one]) => [key, key === id ? { ...one, open: undefined } : one]),
  );
  return withoutText({ ...plan, fills }, placeAt(fill.places, ['open']).span);
}

/** The plan without what a stretch of its text names, allows or was found wrong in. */
export function withoutText(plan: Plan, { file, start, end }: Span): Plan {
  const inside = (span: Span) => span.file === file && span.start >= start && span.end <= end;
  return {
    ...plan,
    references: plan.references.filter(({ at }) => !inside(at)),
    allowances: plan.allowances.filter(({ covers, at }) => !inside(covers) && !inside(at)),
    problems: plan.problems.filter(({ at }) => !inside(at)),
  };
}
