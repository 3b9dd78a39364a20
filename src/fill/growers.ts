import type { GrowerWish, Lot, Plan } from '../plan/model';

/** What the plan asks for the fruit of a lot's grower; of one it does not name, what it asks for all. */
export function growerWish({ policy }: Plan, { grower }: Lot): GrowerWish {
  const named = grower === undefined ? undefined : policy.growers?.get(grower);
  return (named ?? policy.growers?.get('all'))?.value ?? 'any';
}
