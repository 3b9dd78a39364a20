import type { Fill, Plan } from '../plan/model';
import { nearest } from '../plan/nearest';
import { BadCell } from './cells';

/** The fill of that name, or the one of the room of that name. Throws `BadCell` where there is none, or several. */
export function fillNamed(plan: Plan, name: string): Fill {
  const fill = plan.fills.get(name);
  if (fill) return fill;
  const inRoom = [...plan.fills.values()].filter(({ room }) => room?.value === name);
  const [only, another] = inRoom;
  if (only && !another) return only;
  if (only)
    throw new BadCell(
      `Room ${name} is filled more than once (${inRoom.map(({ id }) => `\`${id}\``).join(', ')}): write the fill.`,
    );
  throw new BadCell(
    `The plan has no fill \`${name}\`, nor a room of that name. ${hint(name, plan.fills.keys())}`,
  );
}

/** The variety as the plan writes it. Throws `BadCell` where no lot and no demand is of it. */
export function varietyNamed(plan: Plan, name: string): string {
  const known = new Set(
    [...plan.lots.values(), ...plan.demand.values()].flatMap(({ variety }) => variety?.value ?? []),
  );
  if (known.has(name)) return name;
  throw new BadCell(`Nothing of the plan is of variety \`${name}\`. ${hint(name, known)}`);
}

/** Throws `BadCell` for a class that the plan neither packs nor sells. */
export function classNamed(plan: Plan, name: string): string {
  const packed = [...(plan.packing?.packout.values() ?? [])].flatMap(({ shares }) => [...shares.keys()]);
  const sold = [...plan.demand.values()].flatMap(({ packClass }) => packClass?.value ?? []);
  const known = new Set([...packed, ...sold]);
  if (known.size === 0 || known.has(name)) return name;
  throw new BadCell(`The plan has no class \`${name}\`. ${hint(name, known)}`);
}

/** Somebody new may buy; a name that is nearly that of a market is taken for a slip. */
export function marketNamed(plan: Plan, name: string): string {
  const known = new Set([...plan.demand.values()].flatMap(({ market }) => market?.value ?? []));
  if (known.has(name)) return name;
  const meant = nearest(name, known);
  if (meant === undefined) return name;
  throw new BadCell(`The plan has no market \`${name}\`. ${hint(name, known)}`);
}

function hint(name: string, known: Iterable<string>): string {
  const meant = nearest(name, known);
  return meant === undefined
    ? 'Add it to the plan, or put the two names side by side under `names`.'
    : `Is \`${meant}\` meant? Names that differ are put side by side under \`names\`.`;
}
