import type { Span } from '../plan/span';
import type { PlanChange, Thing } from './types';

/** How a field is named among those that are told already. */
export function toldKey({ kind, id }: Thing, path: string): string {
  return `${kind}/${id}/${path}`;
}

/** Where a change stands on each side, as far as it does. */
export function placesOf(
  oldAt: Span | undefined,
  newAt: Span | undefined,
): Pick<PlanChange, 'oldAt' | 'newAt'> {
  return { ...(oldAt && { oldAt }), ...(newAt && { newAt }) };
}
