import type { Consequence } from './types';

/**
 * The consequences to list: sales that are fewer by just the cartons that are short of the same product in the same weeks
 * (or more by those no longer short) are told by the shortage. A shortage with other sales beside it leaves both.
 */
export function toldOnce(consequences: readonly Consequence[]): readonly Consequence[] {
  const short = new Map(
    consequences.flatMap((one) =>
      one.kind === 'cartons-short' && one.about.of === 'product' ? [[productOf(one), one] as const] : [],
    ),
  );
  return consequences.filter((one) => {
    const told = one.kind === 'cartons-sold' ? short.get(productOf(one)) : undefined;
    return told === undefined || !isTheOtherSide(one, told);
  });
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
