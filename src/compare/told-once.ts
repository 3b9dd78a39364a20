import type { Consequence } from './types';

/**
 * The consequences to list: sales that are fewer by just the cartons that are short of the same product in the same weeks
 * (or more by those no longer short) are told by the shortage. A shortage with other sales beside it leaves both. A
 * finding that a demand is short, or is so no longer, is told by the shortage that names the demand.
 */
export function toldOnce(consequences: readonly Consequence[]): readonly Consequence[] {
  const short = new Map(
    consequences.flatMap((one) =>
      one.kind === 'cartons-short' && one.about.of === 'product' ? [[productOf(one), one] as const] : [],
    ),
  );
  const orders = ordersTold(short.values());
  return consequences.filter((one) => {
    if (one.kind === 'finding') return !isOfOrder(one, orders);
    const told = one.kind === 'cartons-sold' ? short.get(productOf(one)) : undefined;
    return told === undefined || !isTheOtherSide(one, told);
  });
}

/** Demands that shortages name, by whether more or fewer cartons are short. */
function ordersTold(shortages: Iterable<Consequence>) {
  const told = { worse: new Set<string>(), better: new Set<string>() };
  for (const { orders = [] } of shortages)
    for (const { demand, before, after } of orders) told[after > before ? 'worse' : 'better'].add(demand);
  return told;
}

function isOfOrder(
  { newFinding, oldFinding }: Consequence,
  { worse, better }: ReturnType<typeof ordersTold>,
): boolean {
  const order = (newFinding ?? oldFinding)?.shortOrder;
  return order !== undefined && (newFinding ? worse : better).has(order);
}

function productOf({ about }: Consequence): string {
  return about.of === 'product' ? JSON.stringify([about.variety, about.packClass]) : '';
}

/** Carton for carton in each week. */
function isTheOtherSide({ byWeek: sold = [] }: Consequence, { byWeek: short = [] }: Consequence): boolean {
  const shortIn = new Map(short.map(({ week, before, after }) => [week, after - before]));
  return (
    sold.length > 0 &&
    sold.length === short.length &&
    sold.every(
      ({ week, before, after }) => Math.abs(after - before + (shortIn.get(week) ?? Infinity)) <= LEAST,
    )
  );
}

/** Less than a carton is not told. */
const LEAST = 0.5;
