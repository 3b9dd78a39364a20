import type { Demand } from '../../plan/model';
import type { ComputedSeason } from '../types';

/** Says of a variety, by its reference name, whether an order that cannot be read wants it, or may want it. */
export function mayBeWantedUnread({
  plan,
  fruit,
}: Pick<ComputedSeason, 'plan' | 'fruit'>): (variety: string) => boolean {
  let names: readonly (string | undefined)[] | undefined;
  const found = () =>
    [...plan.demand.values()]
      .filter((demand) => !isRead(demand))
      .map(({ variety }) => variety && fruit.variety(variety.value)?.name);
  return (variety) => {
    // Seldom asked, and to look for it is to read every order's text again.
    names ??= found();
    return names.some((name) => name === undefined || name === variety);
  };
}

/** Whether all of an order can be read that says what is wanted, when, how much and at what price. */
function isRead({ variety, packClass, weeks, cartons, byWeek, price, places }: Demand): boolean {
  const unreadCartons = !cartons && places.entries?.has('cartons');
  const unreadWeeks = (places.entries?.get('by-week')?.entries?.size ?? 0) > byWeek.size;
  if (unreadCartons || unreadWeeks) return false;
  return Boolean(variety && packClass && weeks && price && (cartons || byWeek.size > 0));
}
