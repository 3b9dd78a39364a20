import type { Lot, Plan } from '../plan/model';
import { nearest } from '../plan/nearest';
import { BadCell } from './cells';

/** The lot of that name. Throws `BadCell` where the plan has none. */
export function lotNamed(plan: Plan, name: string): Lot {
  const lot = plan.lots.get(name);
  if (lot) return lot;
  const meant = nearest(name, plan.lots.keys());
  const hint = meant
    ? `Is \`${meant}\` meant? Names that differ are put side by side under \`names\`.`
    : 'Add it to the plan, or put the two names side by side under `names`.';
  throw new BadCell(`The plan has no lot \`${name}\`. ${hint}`);
}
