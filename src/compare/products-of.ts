import type { Plan } from '../plan/model';
import type { PlanChange, ProductsTouched, Thing } from './types';

/** What of the market a change bears upon first, by what either plan says of its things. */
export function productsTouched(change: PlanChange, plans: readonly Plan[]): ProductsTouched {
  const { kind, things, key = '' } = change;
  const [chief] = things;
  if (chief.kind === 'packing') {
    const [, variety, packClass] = /^packout\.([^.]+)(?:\.shares\.(.+))?/.exec(key) ?? [];
    return productsIn(variety === undefined ? [] : [{ variety, packClass }]);
  }
  // Bins of a lot are of that lot's variety; moved, they are in the way of others in the room they come to.
  const asked = kind === 'lot-moved' ? things : [chief];
  return productsIn(plans.flatMap((plan) => asked.flatMap((thing) => ofThing(plan, thing))));
}

interface Product {
  readonly variety: string;
  readonly packClass: string | undefined;
}

function productsIn(products: readonly Product[]): ProductsTouched {
  const classes = new Set(products.map(({ packClass }) => packClass));
  const [packClass] = classes;
  return {
    varieties: new Set(products.map(({ variety }) => variety)),
    ...(classes.size === 1 && packClass !== undefined && { packClass }),
  };
}

function ofThing(plan: Plan, { kind, id }: Thing): Product[] {
  switch (kind) {
    case 'varieties':
      return [{ variety: id, packClass: undefined }];
    case 'lots':
      return productOf(plan.lots.get(id));
    case 'fills':
      return (plan.fills.get(id)?.lots ?? []).flatMap(({ lot }) => productOf(plan.lots.get(lot.value)));
    case 'demand':
      return productOf(plan.demand.get(id));
    case 'sales':
      return productOf(plan.sales.get(id));
    default:
      return [];
  }
}

interface OfAProduct {
  readonly variety: { readonly value: string } | undefined;
  readonly packClass?: { readonly value: string } | undefined;
}

function productOf(one: OfAProduct | undefined): Product[] {
  const variety = one?.variety?.value;
  return variety === undefined ? [] : [{ variety, packClass: one?.packClass?.value }];
}
